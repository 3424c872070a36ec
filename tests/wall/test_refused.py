"""What is in the way of one that is left over: against every place of the wall, one by one."""

import random

import pytest

from cleatwright.base.said import in_mm
from cleatwright.wall.arrange import arrange
from cleatwright.wall.explaining.insertion import Standing
from cleatwright.wall.explaining.refused import MOST_TOLD, refused_heights
from cleatwright.wall.model import Item, Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile

RULE = RailRule(Profile(60.0, 18.0, 45.0), 50.0, end_room_mm=0.0)


@pytest.mark.parametrize("seed", range(3))
def test_nowhere_on_the_wall_are_fewer_rules_broken(seed: int) -> None:
    """Each height is gone through in steps of 5 mm, on which all edges of these walls lie."""
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    items = tuple(
        Item(f"h{k}", 5.0 * r.randrange(12, 40), 50.0, 5.0 * r.randrange(12, 40)) for k in range(9)
    )
    problem = WallProblem(WallSpace(400.0, 500.0, 900.0), RULE, items)
    found = arrange(problem, rounds=200)
    assert found.left_over
    standing = Standing(problem, found.places)
    for left in found.left_over:
        item = problem.known[left.key]
        told = refused_heights(standing, key=left.key)
        assert 0 < len(told) <= MOST_TOLD
        assert [len(one.broken) for one in told] == sorted(len(one.broken) for one in told)
        for one in told:
            assert one.above_floor_mm == one.place.z_mm + 900.0
            assert one.broken == standing.broken_by(item, one.place)
            assert one.broken
            least = min(
                len(standing.broken_by(item, Place(item.key, float(x), one.place.z_mm)))
                for x in range(0, 401 - int(item.width_mm), 5)
            )
            assert len(one.broken) <= least
        # heights lie in steps of 50 mm
        below = {50.0 * n for n in range(11)} - {one.place.z_mm for one in told}
        rest = [
            len(standing.broken_by(item, Place(item.key, float(x), z)))
            for z in below
            if item.down_mm <= z <= 450.0
            for x in range(0, 401 - int(item.width_mm), 5)
        ]
        assert min(rest, default=99) >= max(len(one.broken) for one in told)


def test_the_one_thing_in_the_way_is_named_at_the_height_that_is_reached_best() -> None:
    """100 of 300 mm are free beside a plate of 200 mm; one of 150 mm meets that alone."""
    items = (Item("saw", 200.0, 40.0, 80.0, fixed=(0.0, 100.0)), Item("new", 150.0, 40.0, 80.0))
    problem = WallProblem(WallSpace(300.0, 150.0, 1000.0), RULE, items)
    (one,) = refused_heights(Standing(problem, (Place("saw", 0.0, 100.0),)), key="new")
    assert one.place == Place("new", 150.0, 100.0)
    assert in_mm(one.sentence).startswith(
        "At 1100 mm above the floor least is in its way at x 150 mm: "
    )
    assert '"saw"' in one.sentence
