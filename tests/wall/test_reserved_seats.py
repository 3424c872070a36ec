"""Seats that are kept free: by hand on one rail, and over small walls at random."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.siting.searching import SEARCHED, Search
from cleatwright.wall.adding.reserved import more_seats, with_room_for_seats, with_seats
from cleatwright.wall.adding.seats import seats_beside
from cleatwright.wall.arrange import arrange
from cleatwright.wall.conflicts import conflicts, overlap, whole
from cleatwright.wall.model import Item, Place, RailRule, ReservedSeat, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.score import hung, score

RULE = RailRule(Profile(40.0, 18.0, 45.0), 10.0, end_room_mm=0.0)
BAND = ReachBand(1000.0, 1500.0)
Z = 100.0


def thing(key: str, width_mm: float, *, reserved: bool = False) -> Item:
    return Item(
        key, width_mm, 50.0, 90.0, mass_kg=1.0, use="seldom", rail_depth_mm=30.0, reserved=reserved
    )


def seats(count: int, width_mm: float) -> tuple[Item, ...]:
    return tuple(thing(f"seat {n}", width_mm, reserved=True) for n in range(count))


def one_rail(long_mm: float, widths: tuple[float, ...], *, high_mm: float = 160.0) -> WallProblem:
    """Return a wall with one rail, as a rule so low that it has no room for another one."""
    rail = Rail(1, Z, 0.0, long_mm, RULE.profile, state="document")
    space = WallSpace(long_mm, high_mm, 1000.0, kept_rails=(rail,))
    items = tuple(thing(f"h{n}", wide) for n, wide in enumerate(widths))
    return WallProblem(space, RULE, items, BAND)


@pytest.mark.parametrize(
    ("widths", "asked", "found"),
    [
        # 1000 mm of rail less the plates, in seats of 150 mm: 400 hold two, 250 one, 100 none
        ((200.0, 200.0, 200.0), 3, 2),
        ((250.0, 250.0, 250.0), 3, 1),
        ((300.0, 300.0, 300.0), 3, 0),
        ((200.0, 200.0, 200.0), 1, 1),
    ],
)
def test_so_many_seats_are_kept_free_as_the_rail_has_room_for(
    widths: tuple[float, ...], asked: int, found: int
) -> None:
    problem = one_rail(1000.0, widths).with_seats(seats(asked, 150.0))
    plain = arrange(problem.with_seats(()), rounds=200)
    room = with_room_for_seats(problem, plain, seed=0, rounds=500)
    assert len(room.seats) == found
    assert {one.key for one in room.places} == set(problem.known)
    assert not conflicts(problem, room)
    assert room.scores == plain.scores, "the seats count nothing"


def test_the_check_of_a_wall_knows_seats() -> None:
    """By hand: one that lies on a plate, one off the rail, and one out of its reach."""
    problem = one_rail(1000.0, (200.0,))
    free = thing("seat", 150.0, reserved=True)
    bare = hung(problem, [Place("h0", 0.0, Z)])

    def broken(seat: Item, x_mm: float, z_mm: float = Z) -> str:
        here = ReservedSeat(seat, Place("seat", x_mm, z_mm))
        return " ".join(conflicts(problem, replace(bare, seats=(here,))))

    assert broken(free, 200.0) == ""
    assert '"h0" and "seat" overlap' in broken(free, 100.0)
    assert "beyond the edge" in broken(free, 900.0)
    assert '"seat" has no rail' in broken(free, 500.0, Z + 5.0)
    low = replace(free, bounds=replace(free.bounds, highest_mm=50.0, high_why="too high"))
    assert "higher than is safe" in broken(low, 500.0)


def test_no_rail_is_put_up_for_a_seat_alone() -> None:
    space = WallSpace(1000.0, 600.0, 1000.0)
    problem = WallProblem(space, RULE, (thing("h0", 200.0),), BAND)
    beside, above = (
        ReservedSeat(thing(key, 150.0, reserved=True), Place(key, 300.0, z))
        for key, z in (("a", 100.0), ("b", 400.0))
    )
    found = hung(problem, [Place("h0", 0.0, 100.0)], [beside, above])
    assert found.seats == (beside,)
    (rail,) = found.rails
    assert (rail.x0_mm, rail.x1_mm, rail.carries) == (0.0, 450.0, ("h0",))
    assert with_seats(problem, hung(problem, found.places), [beside, above]) is None


def test_a_rail_is_no_longer_than_a_seat_is_worth() -> None:
    """By hand: 0.05 points for each mm of rail, and at most what a seat weighs."""
    space = WallSpace(3000.0, 300.0, 1000.0)
    problem = WallProblem(space, RULE, (thing("h0", 200.0),), BAND)
    bare = hung(problem, [Place("h0", 0.0, 100.0)])
    near, wide = seats(1, 150.0)[0], seats(1, 1200.0)[0]
    found = next(more_seats(problem, bare, near, in_rows=False))
    assert found.seats[0].place == Place("seat 0", 200.0, 100.0)
    assert score(problem, found).total == pytest.approx(bare.scores.total + 0.05 * 150.0)
    assert problem.weights.seat < 0.05 * 1200.0
    assert not list(more_seats(problem, bare, wide, in_rows=False))
    assert not list(more_seats(problem, bare, near, in_rows=True)), "a row is as long as it is"


def test_a_new_thing_takes_a_reserved_seat_before_a_rail_is_put_up() -> None:
    """By hand: the free end of the rail first, then what is reserved, then a new rail."""
    problem = one_rail(1000.0, (300.0, 300.0), high_mm=600.0)
    places = (Place("h0", 0.0, Z), Place("h1", 300.0, Z))
    kept = ReservedSeat(thing("seat", 200.0, reserved=True), Place("seat", 600.0, Z))
    for wide, x_mm, z_mm in ((190.0, 800.0, Z), (210.0, None, Z), (410.0, None, None)):
        new = thing("new", wide)
        both = problem.having((*problem.items, new))
        seated = seats_beside(both, places, [new], reserved=[kept])
        assert seated is not None
        at = {one.key: one for one in seated.places}
        assert (at["h0"], at["h1"]) == places, "nothing moves"
        on_it = overlap(whole(new, at["new"]), whole(kept.item, kept.place))
        if x_mm is not None:
            assert (at["new"].x_mm, at["new"].z_mm) == (x_mm, z_mm)
        elif z_mm is not None:
            assert on_it
            assert at["new"].z_mm == z_mm
        else:
            assert at["new"].z_mm != Z


def test_what_is_new_leaves_a_seat_where_a_new_rail_is_needed_anyhow() -> None:
    problem = one_rail(1000.0, (300.0, 300.0), high_mm=600.0)
    kept = ReservedSeat(thing("seat", 200.0, reserved=True), Place("seat", 700.0, Z))
    new = thing("new", 500.0)
    both = problem.having((*problem.items, new))
    places = (Place("h0", 0.0, Z), Place("h1", 300.0, Z))
    seated = seats_beside(both, places, [new], reserved=[kept])
    assert seated is not None
    at = next(one for one in seated.places if one.key == "new")
    assert not overlap(whole(new, at), whole(kept.item, kept.place))


def small_wall(seed: int) -> WallProblem:
    """Return a small wall that may well be too full."""
    chance = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    space = WallSpace(chance.choice((600.0, 900.0)), chance.choice((350.0, 500.0)), 1000.0)
    items = tuple(
        Item(
            f"h{n}",
            chance.uniform(60.0, 260.0),
            chance.uniform(20.0, 80.0),
            chance.uniform(60.0, 180.0),
            mass_kg=chance.uniform(0.1, 2.0),
            rail_depth_mm=30.0,
        )
        for n in range(chance.randint(3, 8))
    )
    rule = replace(RULE, rows=seed % 4 == 0)
    return WallProblem(space, rule, items, BAND)


def test_no_tool_loses_its_place_for_a_seat() -> None:
    """Over walls at random: what hangs without seats hangs with them, for what they are worth."""
    run, kept, full = Run(), 0, 0
    for seed in range(16):
        problem = small_wall(seed)
        wished = problem.with_seats(seats(3, 110.0))
        plain = run.need(SEARCHED, Search(problem, 300))
        found = run.need(SEARCHED, Search(wished, 300))
        assert {one.key for one in plain.places} <= {one.key for one in found.places}, seed
        on = problem.on(replace(problem.space, rows=tuple(found.rails) if found.in_rows else ()))
        assert not conflicts(on, found), seed
        dearer = found.scores.total - plain.scores.total
        assert dearer <= problem.weights.seat * len(found.seats) + 1e-6, seed
        kept += len(found.seats)
        full += bool(plain.left_over)
    assert kept > 16
    assert full > 1, "some of the walls are too full"
