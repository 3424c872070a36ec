"""The least sum of ways to the better hand, when rectangles may not lie over each other."""

from __future__ import annotations

import math

from cleatwright.wall.model import WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.score import MM_PER_CM


def aside_bound(problem: WallProblem) -> float:
    """Return a number of points below which no arrangement's ``sideways`` lies.

    What is wanted near something has its middle in the place of the hand.

    The way from the middle of a plate to the hand is the mean way of its points, but for
    plates across the hand: there it is shorter, by a quarter of the width at most. The mean
    ways of all plates are least when the wall is filled from the hand outwards, from edge to
    edge of its height, with the weightiest area nearest. What goes to one hand may lie over what
    goes to another one.
    """
    hands = {aim.x_mm for item in problem.items if (aim := problem.aim_of(item)) is not None}
    return math.fsum(_to_one_hand(problem, x) for x in sorted(hands))


def _to_one_hand(problem: WallProblem, easy_x_mm: float) -> float:
    space = problem.space
    hand = min(max(easy_x_mm, 0.0), space.width_mm)
    height = space.height_mm
    points = filled = 0.0
    areas: list[tuple[float, float]] = []
    across: list[tuple[float, float]] = []
    for item in problem.items:
        aim = problem.aim_of(item)
        if aim is None or aim.x_mm != easy_x_mm:
            continue
        weight = aim.per_cm / MM_PER_CM
        tall = item.up_mm + item.down_mm
        areas.append((weight / (item.width_mm * tall), item.width_mm * tall))
        across.append((weight * item.width_mm / 4 / tall, tall))
    for density, area in sorted(areas, reverse=True):
        until = filled + area / height
        points += density * height * (_moment(until, hand, space) - _moment(filled, hand, space))
        filled = until
    left = height if 0.0 < hand < space.width_mm else 0.0
    for per_mm, tall in sorted(across, reverse=True):
        points -= per_mm * min(tall, left)
        left -= min(tall, left)
    return max(points, 0.0)


def _moment(width_mm: float, hand_mm: float, space: WallSpace) -> float:
    """Return the integral of the way to the hand over the nearest ``width_mm`` of the wall."""
    near, far = sorted((hand_mm, space.width_mm - hand_mm))
    both = min(width_mm, 2 * near)
    alone = min(max(width_mm - 2 * near, 0.0), far - near)
    return both**2 / 4 + alone * (near + alone / 2)
