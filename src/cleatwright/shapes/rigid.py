"""Rigid motions: a rotation and a shift, as immutable numbers."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from cleatwright.base.errors import ShapeError

Vector = tuple[float, float, float]
Axis = Literal["x", "y", "z"]
_EXACT = {0: (1.0, 0.0), 90: (0.0, 1.0), 180: (-1.0, 0.0), 270: (0.0, -1.0)}


@dataclass(frozen=True)
class Rigid:
    """A motion p -> R p + t; ``rows`` are the three rows of R, ``shift_mm`` is t."""

    rows: tuple[Vector, Vector, Vector] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    shift_mm: Vector = (0.0, 0.0, 0.0)

    def __post_init__(self) -> None:
        """Raise ShapeError for rows that are no rotation or a shift that is not finite."""
        if not all(math.isfinite(number) for row in (*self.rows, self.shift_mm) for number in row):
            raise ShapeError("a motion has a number that is not finite")
        (a, b, c), (d, e, f), third = self.rows
        normal = (b * f - c * e, c * d - a * f, a * e - b * d)
        # two unit rows at a right angle, and the third along their cross product
        faults = [a * a + b * b + c * c - 1.0, d * d + e * e + f * f - 1.0, a * d + b * e + c * f]
        faults.extend(have - want for have, want in zip(third, normal, strict=True))
        if max(abs(fault) for fault in faults) > 1e-9:
            raise ShapeError("a motion stretches, shears or mirrors")

    def apply(self, point: Vector) -> Vector:
        """Return the moved point."""
        x, y, z = (
            r[0] * point[0] + r[1] * point[1] + r[2] * point[2] + t
            for r, t in zip(self.rows, self.shift_mm, strict=True)
        )
        return (x, y, z)

    def direct(self, direction: Vector) -> Vector:
        """Return the turned direction, without the shift."""
        x, y, z = (
            r[0] * direction[0] + r[1] * direction[1] + r[2] * direction[2] for r in self.rows
        )
        return (x, y, z)

    def then(self, later: Rigid) -> Rigid:
        """Return the motion that does this one first and ``later`` after it."""
        columns = [
            later.direct((self.rows[0][j], self.rows[1][j], self.rows[2][j])) for j in range(3)
        ]
        a, b, c = ((columns[0][i], columns[1][i], columns[2][i]) for i in range(3))
        return Rigid((a, b, c), later.apply(self.shift_mm))


STILL = Rigid()


def shift(dx: float = 0.0, dy: float = 0.0, dz: float = 0.0) -> Rigid:
    """Return a pure shift in mm."""
    return Rigid(shift_mm=(dx, dy, dz))


def turn(axis: Axis, degrees: float) -> Rigid:
    """Return a right-handed rotation about an axis through the origin; quarter turns are exact.

    >>> turn("x", 90).apply((0.0, 1.0, 0.0))
    (0.0, 0.0, 1.0)
    """
    whole = degrees % 360
    if whole % 90 == 0:
        # the remainder of a tiny negative angle rounds up to 360
        cos, sin = _EXACT[int(whole) % 360]
    else:
        cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    if axis == "x":
        return Rigid(((1.0, 0.0, 0.0), (0.0, cos, -sin), (0.0, sin, cos)))
    if axis == "y":
        return Rigid(((cos, 0.0, sin), (0.0, 1.0, 0.0), (-sin, 0.0, cos)))
    return Rigid(((cos, -sin, 0.0), (sin, cos, 0.0), (0.0, 0.0, 1.0)))
