"""The least sum of ways to the better hand, when rectangles may not lie over each other."""

from __future__ import annotations

from cleatwright.wall.model import Item, WallSpace
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.score import MM_PER_CM
from cleatwright.wall.weights import Weights


def aside_bound(
    space: WallSpace, items: tuple[Item, ...], *, band: ReachBand, weights: Weights
) -> float:
    """Return a number of points below which no arrangement's ``sideways`` lies.

    The way from the middle of a plate to the hand is at least the mean way of its points less a
    quarter of its width. The mean ways of all plates are least when the wall is filled from the
    hand outwards, from edge to edge of its height, with the weightiest area nearest.
    """
    if band.easy_x_mm is None:
        return 0.0
    weighty: list[tuple[float, float]] = []
    quarters = 0.0
    for item in items:
        weight = weights.sideways * weights.of_use(item.use) / MM_PER_CM
        area = item.width_mm * (item.up_mm + item.down_mm)
        weighty.append((weight / area, area))
        quarters += weight * item.width_mm / 4
    hand = min(max(band.easy_x_mm, 0.0), space.width_mm)
    sides = (hand, space.width_mm - hand)
    points, filled = 0.0, 0.0
    for density, area in sorted(weighty, reverse=True):
        until = filled + area / space.height_mm
        points += density * space.height_mm * (_moment(until, sides) - _moment(filled, sides))
        filled = until
    return max(points - quarters, 0.0)


def _moment(width_mm: float, sides: tuple[float, float]) -> float:
    """Return the integral of the way to the hand over the nearest ``width_mm`` of the wall."""
    near, far = sorted(sides)
    both = min(width_mm, 2 * near)
    alone = min(max(width_mm - 2 * near, 0.0), far - near)
    return both**2 / 4 + alone * (near + alone / 2)
