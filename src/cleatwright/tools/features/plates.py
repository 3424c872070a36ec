"""Flat plates with a hole, as convex outlines in the xz plane."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.parts.grips import EyeHole
from cleatwright.shapes.outline import Outline, Point, polygon
from cleatwright.tools.dimension import Dimension, across, along

# sides by which a round hole is drawn, and each half of a hand hole
SIDES = 12
HALF_SIDES = 8
_SAME = 1e-9


def round_hole(diameter_mm: float, z_mm: float) -> tuple[Point, ...]:
    """Return a polygon within a round hole about (0, z), one side level at the top."""
    radius, step = diameter_mm / 2, 2.0 * math.pi / SIDES
    angles = [math.pi / 2 + (k + 0.5) * step for k in range(SIDES)]
    return tuple((radius * math.cos(a), z_mm + radius * math.sin(a)) for a in angles)


def free_hole_mm(diameter_mm: float) -> float:
    """Return the circle that the polygon of a round hole leaves free."""
    return diameter_mm * math.cos(math.pi / SIDES)


def hand_hole(width_mm: float, height_mm: float, z_mm: float) -> tuple[Point, ...]:
    """Return a polygon within a hole with round ends about (0, z), wider than high."""
    radius, middle = height_mm / 2, (width_mm - height_mm) / 2
    turns = [-math.pi / 2 + math.pi * k / HALF_SIDES for k in range(HALF_SIDES + 1)]
    right = [(middle + radius * math.cos(a), z_mm + radius * math.sin(a)) for a in turns]
    left = [(-x, 2.0 * z_mm - z) for x, z in right]
    return (*right, *left)


def pierced(half_mm: float, z0_mm: float, z1_mm: float, hole: Sequence[Point]) -> list[Outline]:
    """Return the convex pieces of a rectangle around a hole.

    Args:
        half_mm: Half the width of the rectangle, about x = 0.
        z0_mm: Its lower edge.
        z1_mm: Its upper edge.
        hole: A convex polygon inside, counter-clockwise, around its own centre at x = 0.
    """
    centre = (0.0, sum(z for _, z in hole) / len(hole))
    corners = [(half_mm, z0_mm), (half_mm, z1_mm), (-half_mm, z1_mm), (-half_mm, z0_mm)]
    pieces: list[Outline] = []
    for a, b in zip(hole, (*hole[1:], hole[0]), strict=True):
        hits = [_hit(centre, point, half_mm, z0_mm, z1_mm) for point in (a, b)]
        between = sorted(
            (_ahead(centre, a, corner), corner)
            for corner in corners
            if _ahead(centre, a, corner) < _ahead(centre, a, b)
        )
        points = [a, hits[0], *(corner for _, corner in between), hits[1], b]
        pieces.append(polygon(_distinct(points)))
    return pieces


@dataclass(frozen=True)
class EndHole:
    """A round hole in the upper end of a flat tool, to hang it by; one of 0 mm is none.

    Args:
        half_mm: Half the width of the tool there, about x = 0.
        top_mm: Its upper end.
        hole_mm: The hole, clear across.
        rim_mm: From the hole's edge to the upper end.
    """

    half_mm: float
    top_mm: float
    hole_mm: float
    rim_mm: float

    @property
    def low_mm(self) -> float:
        """Return the height from which the pieces around the hole begin."""
        return self.top_mm - self.hole_mm - 2.0 * self.rim_mm

    @property
    def _middle_mm(self) -> float:
        return self.top_mm - self.rim_mm - self.hole_mm / 2

    def outlines(self) -> list[Outline]:
        """Return the convex pieces around the hole, in the xz plane; without a hole none."""
        if not self.hole_mm:
            return []
        hole = round_hole(self.hole_mm, self._middle_mm)
        return pierced(self.half_mm, self.low_mm, self.top_mm, hole)

    def grips(self, thickness_mm: float) -> tuple[EyeHole, ...]:
        """Return the hole as what a tool of that thickness hangs by, if it has one."""
        if not self.hole_mm:
            return ()
        free = free_hole_mm(self.hole_mm)
        rim = self.rim_mm + (self.hole_mm - free) / 2
        return (EyeHole(self._middle_mm + free / 2, free, thickness_mm, rim),)

    def dimensions(self) -> tuple[Dimension, Dimension]:
        """Return where the measures hole and hole_rim lie."""
        edge = self.top_mm - self.rim_mm
        return (
            across("hole", self.hole_mm, z_mm=edge - self.hole_mm / 2),
            along("hole_rim", edge, self.top_mm),
        )


def _hit(centre: Point, point: Point, half_mm: float, z0_mm: float, z1_mm: float) -> Point:
    """Return where the ray from the centre through a point leaves the rectangle."""
    dx, dz = point[0] - centre[0], point[1] - centre[1]
    to_side = half_mm / abs(dx) if abs(dx) > _SAME else math.inf
    edge = z1_mm if dz > 0.0 else z0_mm
    to_edge = (edge - centre[1]) / dz if abs(dz) > _SAME else math.inf
    if to_side <= to_edge:
        return (math.copysign(half_mm, dx), centre[1] + dz * to_side)
    return (centre[0] + dx * to_edge, edge)


def _ahead(centre: Point, start: Point, point: Point) -> float:
    """Return the angle from one point to another about the centre, counter-clockwise."""
    angles = [math.atan2(p[1] - centre[1], p[0] - centre[0]) for p in (start, point)]
    return (angles[1] - angles[0]) % (2.0 * math.pi)


def _distinct(points: Sequence[Point]) -> list[Point]:
    return [p for i, p in enumerate(points) if math.dist(p, points[i - 1]) > 1e-6]
