"""Rows of tools of which each stands on a foot of its own, and openings that need no support."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from cleatwright.features.layout import SeatLayout
from cleatwright.features.outward import LEAST_PLATE_MM
from cleatwright.shapes.outline import Outline, Point, polygon


def footed_row(
    rooms_mm: Sequence[float],
    feet_mm: Sequence[float],
    *,
    gap_mm: float,
    apart_mm: float,
    margin_mm: float,
) -> SeatLayout:
    """Return centres as near to each other as the tools and their feet allow.

    Args:
        rooms_mm: Width that each tool takes along the wall.
        feet_mm: Width of what carries it, which may be more or less.
        gap_mm: Room between neighbouring tools.
        apart_mm: Room between a foot and its neighbour's foot or tool.
        margin_mm: Plate left and right of the outer feet.

    >>> footed_row([2.0, 6.0], [8.0, 12.0], gap_mm=12.0, apart_mm=2.0, margin_mm=15.0)
    SeatLayout(centres_mm=(19.0, 35.0), width_mm=56.0)
    """
    seats = tuple(zip(rooms_mm, feet_mm, strict=True))
    centres = [0.0]
    for (room, foot), (next_room, next_foot) in pairwise(seats):
        between_feet = max(foot + next_foot, room + next_foot, foot + next_room) / 2 + apart_mm
        centres.append(centres[-1] + max((room + next_room) / 2 + gap_mm, between_feet))
    left = min(c - foot / 2 for c, foot in zip(centres, feet_mm, strict=True)) - margin_mm
    right = max(c + foot / 2 for c, foot in zip(centres, feet_mm, strict=True)) + margin_mm
    width = max(right - left, LEAST_PLATE_MM)
    start = left - (width - (right - left)) / 2
    return SeatLayout(tuple(c - start for c in centres), width)


# a bridge of 10 mm prints without support (common practice, no source); a little less is asked for
BRIDGE_MM = 9.0


def diamond(half_mm: float, *, at: Point) -> Outline:
    """Return a square on its corner, which prints without support upright as well as flat."""
    x, y = at
    return polygon([(x, y - half_mm), (x + half_mm, y), (x, y + half_mm), (x - half_mm, y)])


def eighths(half_mm: float, axis_mm: float) -> tuple[Point, Point, Point, Point]:
    """Return the front of a regular eight-sided plan around (0, axis_mm), right to left.

    A circle of radius ``half_mm`` touches the front and the two slopes, which print without
    support when the wall side lies on the bed.
    """
    return roof(half_mm, axis_mm, flat_mm=half_mm * math.tan(math.pi / 8))


def roof(half_mm: float, axis_mm: float, *, flat_mm: float) -> tuple[Point, Point, Point, Point]:
    """Return the front of a plan whose 45-degree slopes touch a circle, right to left.

    Args:
        half_mm: Radius of the circle around (0, axis_mm).
        axis_mm: Where its middle lies.
        flat_mm: Half the width of the flat that closes the front, at most that of a regular
            eight-sided plan; a bridge spans it when the wall side lies on the bed.
    """
    ridge = half_mm * math.sqrt(2.0)
    return (
        (half_mm, axis_mm + ridge - half_mm),
        (flat_mm, axis_mm + ridge - flat_mm),
        (-flat_mm, axis_mm + ridge - flat_mm),
        (-half_mm, axis_mm + ridge - half_mm),
    )


def eighths_behind(half_mm: float, axis_mm: float) -> tuple[Point, Point, Point, Point]:
    """Return the back of a regular eight-sided plan around (0, axis_mm), left to right."""
    (a, b), (c, d), *_ = eighths(half_mm, -axis_mm)
    return ((-a, -b), (-c, -d), (c, -d), (a, -b))
