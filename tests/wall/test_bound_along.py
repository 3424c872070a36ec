"""What ways along the wall cost at the least, against integrals and every order of a few plates."""

from __future__ import annotations

import random
from itertools import pairwise, permutations

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import linprog

from cleatwright.wall.bound.bound import lower_bound
from cleatwright.wall.bound.ways import FilledLine
from cleatwright.wall.model import Box, Item, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.reach import ReachBand

RULE = RailRule(Profile(80.0, 18.0, 45.0), 50.0)
LOW, HIGH = 1000.0, 1400.0
# a centimetre weighs a twentieth of the ten points of daily use
DAILY, WEEKLY = 0.5, 0.15
SPANS = ((0.0, 310.0), (400.0, 650.0), (900.0, 1000.0))


def on_one_rail(items: tuple[Item, ...], hand_mm: float, *boxes: Box) -> WallProblem:
    """Return a wall with one free rail within easy reach, and nothing that costs but the ways."""
    rail = Rail(9, 500.0, 0.0, 1000.0, RULE.profile, state="document")
    space = WallSpace(1000.0, 800.0, 600.0, obstacles=boxes, kept_rails=(rail,))
    return WallProblem(space, RULE, items, ReachBand(LOW, HIGH, easy_x_mm=hand_mm))


def least_of_all_orders(items: tuple[Item, ...], hand_mm: float) -> float:
    """Return the least sum over all orders, each by a linear programme over places."""
    count, best = len(items), np.inf
    cost = [0.0] * count + [DAILY / 10 if one.use == "daily" else WEEKLY / 10 for one in items]
    for order in permutations(range(count)):
        rows, most = [], []
        for i in range(count):
            for sign in (1.0, -1.0):
                row = np.zeros(2 * count)
                row[i], row[count + i] = sign, -1.0
                rows.append(row)
                most.append(sign * (hand_mm - items[i].width_mm / 2))
        for i, j in pairwise(order):
            row = np.zeros(2 * count)
            row[i], row[j] = 1.0, -1.0
            rows.append(row)
            most.append(-items[i].width_mm)
        ends = [(0.0, 1000.0 - one.width_mm) for one in items] + [(0.0, None)] * count
        found = linprog(cost, A_ub=np.array(rows), b_ub=most, bounds=ends)
        assert found.fun is not None
        best = min(best, float(found.fun))
    return best


@pytest.mark.parametrize("aim_mm", [-200.0, 0.0, 120.0, 400.0, 500.0, 1000.0, 1500.0])
@pytest.mark.parametrize("width_mm", [1.0, 90.0, 250.0, 420.0, 660.0])
def test_what_is_filled_is_the_integral_over_what_lies_nearest(
    aim_mm: float, width_mm: float
) -> None:
    """The nearest points of the spans: scipy.integrate.quad over all that are no further off."""
    area, edge = FilledLine(aim_mm, SPANS).area_and_edge(width_mm)
    near = [(max(a, aim_mm - edge), min(b, aim_mm + edge)) for a, b in SPANS]
    near = [(a, b) for a, b in near if a < b]
    assert sum(b - a for a, b in near) == pytest.approx(width_mm)
    whole = sum(
        quad(lambda x: abs(x - aim_mm), a, b, points=[min(max(aim_mm, a), b)])[0] for a, b in near
    )
    assert area == pytest.approx(whole)


@pytest.mark.parametrize(("hand_mm", "ways"), [(0.0, 25 / 2), (500.0, 6.0), (-300.0, 25 / 2 + 15)])
def test_ways_of_five_boards_are_those_of_their_middles(hand_mm: float, ways: float) -> None:
    """Boards 100 mm wide: from the edge 1/2 + 3/2 + ... + 9/2, from the middle 2 (1 + 2)."""
    items = tuple(Item(f"h{k}", 100.0, 100.0, 200.0, use="daily") for k in range(5))
    found = lower_bound(on_one_rail(items, hand_mm)).value
    # widths are a hair less, so that touching plates never count as one over the other
    assert 0.99 * 5.0 * ways <= found <= 5.0 * ways


@pytest.mark.parametrize("seed", range(4))
def test_no_order_of_plates_lies_below_and_the_best_not_far_above(seed: int) -> None:
    luck = random.Random(seed)  # noqa: S311 - repeatable numbers, no secret
    items = tuple(
        Item(
            f"h{k}",
            luck.uniform(60.0, 220.0),
            100.0,
            200.0,
            use=luck.choice(["daily", "weekly"]),
        )
        for k in range(5)
    )
    hand_mm = luck.uniform(0.0, 1000.0)
    least = least_of_all_orders(items, hand_mm)
    found = lower_bound(on_one_rail(items, hand_mm)).value
    assert 0.85 * least <= found <= least + 1e-6


def test_what_is_in_the_way_at_the_place_makes_ways_longer() -> None:
    """A box over the whole height from 400 to 600 mm; the hand at 500: its middle 150 mm off."""
    items = (Item("h", 100.0, 100.0, 200.0, use="daily"),)
    box = Box("pipe", 400.0, 0.0, 200.0, 800.0)
    found = lower_bound(on_one_rail(items, 500.0, box)).value
    assert found == pytest.approx(15.0 * DAILY, rel=0.01)


def test_a_given_place_costs_its_way() -> None:
    at = (750.0, 500.0 - RULE.edge_above_mm)
    item = Item("h", 100.0, 100.0, 200.0, use="daily", fixed=at)
    found = lower_bound(on_one_rail((item,), 200.0)).value
    assert found == pytest.approx(60.0 * DAILY, abs=0.01)
