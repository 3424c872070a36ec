"""Where the reaches of several people meet, against all heights that can be."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from cleatwright.base.errors import DesignError
from cleatwright.wall.arrange import arrange
from cleatwright.wall.bound.bound import lower_bound
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.explaining.explain import explain
from cleatwright.wall.model import HeightBounds, Item, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile
from cleatwright.wall.reach import Hand, ReachBand
from cleatwright.wall.shared_reach import NamedBand, SharedReach, shared_reach
from cleatwright.wall.weights import WEIGHTS

RULE = RailRule(Profile(70.0, 18.0, 45.0), 60.0)
SPACE = WallSpace(1600.0, 900.0, 800.0)
ITEM = Item("a", 100.0, 60.0, 140.0, use="daily", rail_depth_mm=60.0)


def of_two(one: ReachBand, other: ReachBand, hands: tuple[Hand, Hand]) -> SharedReach:
    return shared_reach([NamedBand("A", one, hands[0]), NamedBand("B", other, hands[1])])


@pytest.mark.parametrize("seed", range(60))
def test_it_is_where_all_reach_or_as_near_to_all_as_can_be(seed: int) -> None:
    """Oracle: the farthest of two or three people, for each millimetre of height."""
    luck = random.Random(seed)  # noqa: S311 - a test, no secret
    bands: list[ReachBand] = []
    for _ in range(luck.choice((2, 3))):
        low = luck.randint(700, 1200)
        bands.append(ReachBand(low, low + luck.randint(50, 400), low - 300.0, low + 900.0))
    found = shared_reach([NamedBand(str(k), one) for k, one in enumerate(bands)])
    farthest = {z: max(one.distance_mm(z) for one in bands) for z in range(500, 2500)}
    best = min(farthest.values())
    good = [z for z, away in farthest.items() if away == best]
    assert found.meets is (best == 0.0)
    assert good[0] - 1.0 <= found.band.low_mm <= found.band.high_mm <= good[-1] + 1.0
    if found.meets:
        assert (found.band.low_mm, found.band.high_mm) == (good[0], good[-1])
    reached = [z for z in farthest if all(one.beyond_mm(z) == 0.0 for one in bands)]
    assert (found.band.lowest_mm, found.band.highest_mm) == (reached[0], reached[-1])


def test_the_better_hand_counts_where_it_is_one() -> None:
    right = ReachBand(1000.0, 1400.0, easy_x_mm=1200.0)
    other = replace(right, easy_x_mm=1240.0)
    left, either = replace(right, easy_x_mm=800.0), replace(right, easy_x_mm=None)
    assert of_two(right, other, ("right", "right")).band.easy_x_mm == 1220.0
    assert of_two(right, either, ("right", "either")).band.easy_x_mm == 1200.0
    assert of_two(right, left, ("right", "left")).band.easy_x_mm is None
    with pytest.raises(DesignError, match="nobody"):
        shared_reach([])


def taken(low_mm: float, *, x_mm: float | None = None) -> SharedReach:
    return SharedReach(ReachBand(low_mm, low_mm + 20.0, easy_x_mm=x_mm), ("Ann", "Bo"), meets=True)


@pytest.mark.parametrize("seed", [0, 3])
def test_each_hangs_where_those_reach_who_take_it(seed: int) -> None:
    """Where rails cost next to nothing, each hangs at the step nearest to its own people."""
    items = (
        replace(ITEM, key="low", taken=taken(1000.0, x_mm=300.0)),
        replace(ITEM, key="high", taken=taken(1500.0, x_mm=1300.0)),
        replace(ITEM, key="usual"),
    )
    cheap = replace(WEIGHTS, rail=1.0, rail_length=0.01)
    problem = WallProblem(SPACE, RULE, items, ReachBand(1240.0, 1260.0), cheap)
    found = arrange(problem, rounds=200, seed=seed)
    assert conflicts(problem, found) == ()
    places = {one.key: one for one in found.places}
    assert [places[key].z_mm + 800.0 for key in ("low", "usual", "high")] == [1000, 1250, 1500]
    assert abs(places["low"].x_mm + 50.0 - 300.0) < 20.0
    assert abs(places["high"].x_mm + 50.0 - 1300.0) < 20.0
    assert lower_bound(problem).value <= found.scores.total + 1e-6
    told = {one.key: one for one in explain(problem, found)}
    assert told["low"].outside_mm == 0.0
    assert any("Ann and Bo take it, all with ease" in one for one in told["low"].sentences)
    assert not any("take it" in one for one in told["usual"].sentences)


def test_a_height_between_two_steps_is_tried_where_the_bounds_leave_no_other() -> None:
    """Steps of 50 mm, and 420 to 438 mm allowed: 430 is the middle in steps of 10."""
    bounds = HeightBounds(420.0, 438.0, "child", "shoulder")
    items = (replace(ITEM, bounds=bounds), *(replace(ITEM, key=f"b{k}") for k in range(4)))
    for rows in (False, True):
        problem = WallProblem(SPACE, replace(RULE, rows=rows), items)
        found = arrange(problem, rounds=100) if not rows else None
        if found is not None:
            assert not found.left_over
            assert conflicts(problem, found) == ()
            assert {one.z_mm for one in found.places if one.key == "a"} == {430.0}
        assert set(problem.tried_mm) - set(RULE.steps_mm(SPACE)) == {430.0}
    wide = replace(ITEM, bounds=replace(bounds, lowest_mm=395.0))
    assert WallProblem(SPACE, RULE, (wide,)).tried_mm == RULE.steps_mm(SPACE)
