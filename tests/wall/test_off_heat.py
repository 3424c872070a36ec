"""Hot things off what heat spoils: by hand, and against a look at every place of a rail."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from cleatwright.wall.conflicts import conflicts, whole
from cleatwright.wall.model import Item, Place, RailRule, WallSpace
from cleatwright.wall.off_heat import off_heat
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail, distance_mm
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.score import hung

RULE = RailRule(Profile(40.0, 18.0, 45.0), 10.0, end_room_mm=0.0)
Z = 400.0
# common practice, no source
APART_MM = 300.0


def on_a_rail(long_mm: float, items: tuple[Item, ...]) -> WallProblem:
    rail = Rail(1, Z, 0.0, long_mm, RULE.profile, state="document")
    space = WallSpace(long_mm, 800.0, 900.0, kept_rails=(rail,))
    return WallProblem(space, RULE, items, ReachBand(1000.0, 1500.0))


def nearest_mm(problem: WallProblem, places: tuple[Place, ...]) -> float:
    at, items = {one.key: one for one in places}, problem.known
    boxes = {key: whole(items[key], place) for key, place in at.items()}
    return min(
        distance_mm(boxes[a], boxes[b])
        for a in at
        for b in at
        if items[a].hot and items[b].spoilt_by_heat
    )


def things(widths: tuple[float, ...], *, hot: int, spoilt: int) -> tuple[Item, ...]:
    return tuple(
        Item(
            f"h{n}",
            wide,
            50.0,
            100.0,
            mass_kg=1.0,
            rail_depth_mm=30.0,
            hot=n == hot,
            spoilt_by_heat=n == spoilt,
        )
        for n, wide in enumerate(widths)
    )


def side_by_side(items: tuple[Item, ...]) -> tuple[Place, ...]:
    places, x = list[Place](), 0.0
    for item in items:
        places.append(Place(item.key, x, Z))
        x += item.width_mm
    return tuple(places)


def test_a_hot_thing_goes_to_the_other_end_and_all_else_stays() -> None:
    items = things((100.0, 100.0, 100.0), hot=0, spoilt=1)
    problem, places = on_a_rail(1000.0, items), side_by_side(items)
    found = off_heat(problem, places, may_move={"h0"}, in_rows=False)
    assert nearest_mm(problem, found.places) >= APART_MM
    assert found.places[1:] == places[1:]
    assert not conflicts(problem, hung(problem, found.places))


def test_what_heat_spoils_goes_where_the_hot_thing_may_not() -> None:
    items = things((100.0, 100.0, 100.0), hot=0, spoilt=1)
    problem, places = on_a_rail(1000.0, items), side_by_side(items)
    found = off_heat(problem, places, may_move={"h1"}, in_rows=False)
    assert nearest_mm(problem, found.places) >= APART_MM
    assert (found.places[0], found.places[2]) == (places[0], places[2])
    assert off_heat(problem, places, may_move=(), in_rows=False).places == places


@pytest.mark.parametrize("seed", range(30))
def test_it_stays_near_only_where_no_place_on_the_rail_is_far_enough(seed: int) -> None:
    """The oracle tries every millimetre for either of the two, all else as it is."""
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    widths = tuple(float(r.randrange(50, 200)) for _ in range(r.randrange(2, 6)))
    hot, spoilt = r.sample(range(len(widths)), 2)
    items = things(widths, hot=hot, spoilt=spoilt)
    places = side_by_side(items)
    long_mm = float(sum(widths) + r.randrange(0, 600))
    problem = on_a_rail(long_mm, items)
    found = off_heat(problem, places, may_move=problem.known, in_rows=False)
    assert not conflicts(problem, hung(problem, found.places))

    def moved(n: int) -> bool:
        return any(
            nearest_mm(problem, tried) >= APART_MM and not conflicts(problem, hung(problem, tried))
            for x in range(int(long_mm - widths[n]) + 1)
            for tried in [
                tuple(
                    replace(one, x_mm=float(x)) if k == n else one for k, one in enumerate(places)
                )
            ]
        )

    if nearest_mm(problem, places) >= APART_MM:
        assert found.places == places
    else:
        far = nearest_mm(problem, found.places) >= APART_MM
        assert far == (moved(hot) or moved(spoilt))
