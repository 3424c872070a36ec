"""A frame's feet bear what the least work of many short pieces says (Castigliano)."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from cleatwright.statics.portal import foot_share

Points = list[tuple[float, float]]


def by_least_work(half: Points) -> float:
    """Return the moment at a foot over that of a loose leg.

    Args:
        half: Half of a frame of one section, (x, y) from a foot to the middle of its bar at x = 0,
            where half of the force acts sideways, and an unknown force along y.
    """
    pieces = 500
    middles, lengths = [], []
    for start, end in pairwise(half):
        at = (np.arange(pieces) + 0.5)[:, None] / pieces
        middles.append(np.array(start) + at * (np.array(end) - np.array(start)))
        lengths.append(np.full(pieces, math.dist(start, end) / pieces))
    (x, y), ds = np.concatenate(middles).T, np.concatenate(lengths)
    loose = half[-1][1] - y
    along = float((loose * x * ds).sum() / (x * x * ds).sum())
    (foot_x, foot_y), high = half[0], half[-1][1]
    return 1.0 - along * foot_x / (high - foot_y)


@pytest.mark.parametrize("long_mm", [2.0, 10.0, 50.0, 200.0])
def test_a_foot_bears_what_the_least_work_says(long_mm: float) -> None:
    straight = [(10.0, 0.0), (10.0, long_mm), (0.0, long_mm)]
    assert foot_share(long_mm=long_mm, apart_mm=20.0) == pytest.approx(
        by_least_work(straight), rel=1e-4
    )


@pytest.mark.parametrize("foot_mm", [5.0, 30.0, 50.0])
def test_a_ring_with_a_front_at_45_degrees_bears_less_than_a_straight_frame(foot_mm: float) -> None:
    """The ring of a grinder: 90.5 mm from wall to wall, its middle 54.4 mm out."""
    half, middle, flat = 45.25, 54.43, 5.1
    diagonal = middle + half * (math.sqrt(2.0) - 1.0)
    front = diagonal + half - flat
    ring = [(half, foot_mm), (half, diagonal), (flat, front), (0.0, front)]
    straight = foot_share(long_mm=front - foot_mm, apart_mm=2 * half)
    assert 0.25 < by_least_work(ring) < straight < 0.7
