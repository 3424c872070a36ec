"""Grips by which a tool stands: an end, a base, a socket, a blade."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from cleatwright.parts.grips.grip import Grip, TurnedGrip


@dataclass(frozen=True)
class ShaftEnd(Grip):
    """A straight shaft that ends at ``z_mm``; the diameter is that of the circle around it.

    The last ``covered_mm`` of it are sharp, and must be covered on all sides; 0 when nothing is.
    """

    z_mm: float
    diameter_mm: float
    length_mm: float
    covered_mm: float = 0.0
    title: ClassVar[str] = "shaft end"


@dataclass(frozen=True)
class RoundBody(Grip):
    """An upright round body that stands on its base at ``z_mm``.

    Nothing of the tool stands out beyond ``diameter_mm`` up to ``height_mm`` above the base.
    """

    z_mm: float
    diameter_mm: float
    height_mm: float
    title: ClassVar[str] = "round body"


@dataclass(frozen=True)
class Footprint(Grip):
    """A box-shaped body that stands on ``width_mm`` by ``depth_mm`` at ``z_mm``."""

    z_mm: float
    width_mm: float
    depth_mm: float
    height_mm: float
    title: ClassVar[str] = "footprint"


@dataclass(frozen=True)
class HexShank(Grip):
    """A hexagonal shaft that ends at ``z_mm``, with two flats that look along x."""

    z_mm: float
    flats_mm: float
    length_mm: float
    title: ClassVar[str] = "hexagonal shank"


@dataclass(frozen=True)
class SquareDrive(Grip):
    """A square opening that looks down at ``z_mm``, ``depth_mm`` deep, in a round body."""

    z_mm: float
    square_mm: float
    depth_mm: float
    body_mm: float
    title: ClassVar[str] = "square drive"


@dataclass(frozen=True)
class Blade(Grip):
    """A flat blade that points down from ``z_mm`` to ``z_mm - length_mm``.

    It is at most ``width_mm`` along x and ``thickness_mm`` along y; above it the tool is
    ``stop_x_mm`` by ``stop_y_mm``, at least one of them more than the blade.
    """

    z_mm: float
    length_mm: float
    width_mm: float
    thickness_mm: float
    stop_x_mm: float
    stop_y_mm: float
    title: ClassVar[str] = "blade"


@dataclass(frozen=True)
class InvertedNeck(TurnedGrip):
    """A bottle that stands on its head, after ``pose``: shoulder at z = 0, neck below it.

    The neck with its cap is ``neck_mm`` wide and ``neck_length_mm`` long, the body above
    ``body_mm`` wide; the shoulder falls from the body to the neck over ``shoulder_mm``
    of height (0: flat).
    """

    neck_mm: float = 0.0
    neck_length_mm: float = 0.0
    body_mm: float = 0.0
    shoulder_mm: float = 0.0
    title: ClassVar[str] = "neck below a body"
