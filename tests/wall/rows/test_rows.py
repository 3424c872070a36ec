"""Whole rows against cases set out by hand, an exhaustive look and the verifier of the wall.

Oracles: hand cases on a wall 3200 wide; every set of heights on a small wall; ``conflicts``, which
shares no code with what lays rows and hangs things.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.wall.arrange import arrange
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement, Box, Item, Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.rows.choosing import in_rows, on_rows, row_heights, rows_can_be
from cleatwright.wall.rows.laying import row, with_rows
from cleatwright.wall.score import hung
from cleatwright.wall.studs import OVERHANG_MM, studs_at

RULE = RailRule(Profile(70.0, 18.0, 45.0), 60.0, longest_mm=2440.0, rows=True)
STUDS = studs_at(*(100.0 + 600.0 * k for k in range(6)))
WIDE = WallSpace(3200.0, 2000.0, studs=STUDS)
SOCKET = Box("socket", 1900.0, 700.0, 300.0, 200.0)


def plate(key: str, x_mm: float, z_mm: float, *, on_rail: bool = True) -> Item:
    return Item(key, 200.0, 60.0, 100.0, on_rail=on_rail, fixed=(x_mm, z_mm))


@pytest.mark.parametrize(
    ("space", "items", "z_mm", "pieces"),
    [
        # 3200 is longer than a board: parted midway between two studs, as far right as it reaches
        (WIDE, (), 400.0, [(0.0, 2200.0), (2200.0, 3200.0)]),
        # left of the socket 300 beyond the stud at 1300, since the one at 1900 lies at its edge;
        # right of it from the socket to the end of the wall, on 2500 and 3100
        (
            replace(WIDE, obstacles=(SOCKET,)),
            (),
            800.0,
            [(0.0, 1600.0), (2200.0, 3200.0)],
        ),
        # right of the pipe is one stud only; left of it the one at 2500 is too near the end
        (
            replace(WIDE, obstacles=(Box("pipe", 2540.0, 0.0, 60.0, 2000.0),)),
            (),
            400.0,
            [(0.0, 2200.0)],
        ),
        # without known studs a wall takes screws everywhere
        (replace(WIDE, width_mm=2000.0, studs=()), (), 400.0, [(0.0, 2000.0)]),
        # no further than 300 beyond the last stud: 1300 + 300
        (replace(WIDE, width_mm=2400.0, studs=STUDS[:3]), (), 400.0, [(0.0, 1600.0)]),
        # what is fixed flat on the wall parts it; 300 beyond the stud at 1900
        (
            replace(WIDE, width_mm=2300.0),
            (plate("flat", 1000.0, 400.0, on_rail=False),),
            400.0,
            [(0.0, 1000.0), (1200.0, 2200.0)],
        ),
        # a rail that stays parts it where the row would lie too near: 1000 to 1800
        (
            replace(
                WIDE,
                width_mm=2300.0,
                studs=studs_at(*(100.0 + 400.0 * k for k in range(6))),
                kept_rails=(Rail(1, 450.0, 1000.0, 1400.0, RULE.profile, state="document"),),
            ),
            (),
            400.0,
            [(0.0, 1000.0), (1400.0, 2300.0)],
        ),
        # its lower edge would lie below the panel
        (WIDE, (), 50.0, []),
    ],
)
def test_a_row_lies_as_set_out_by_hand(
    space: WallSpace, items: tuple[Item, ...], z_mm: float, pieces: list[tuple[float, float]]
) -> None:
    found = row(WallProblem(space, RULE, items), z_mm)
    assert list(found) == pieces


def holders(widths: list[float], down_mm: float = 150.0) -> tuple[Item, ...]:
    return tuple(Item(f"h{k}", w, 60.0, down_mm, mass_kg=0.5) for k, w in enumerate(widths))


def test_two_rows_that_fill_the_wall_to_the_last_millimetre_are_found() -> None:
    # nine plates of 200 on 900 mm: at least two rows and three for the widths 4 + 4 + 1
    items = holders([225.0] * 8)
    space = WallSpace(900.0, 1200.0, floor_gap_mm=500.0, studs=studs_at(100.0, 450.0, 800.0))
    problem = WallProblem(space, RULE, items)
    found = in_rows(problem, seed=0, rounds=4_000)
    assert not found.left_over
    heights = row_heights(problem, found)
    assert heights is not None
    assert len(heights) == 2
    assert all(rail.length_mm == 900.0 and len(rail.carries) == 4 for rail in found.rails)
    assert conflicts(on_rows(problem, found), found) == ()


@pytest.mark.parametrize("seed", range(3))
def test_no_set_of_heights_of_a_small_wall_is_much_better(seed: int) -> None:
    space = WallSpace(
        1000.0, 900.0, floor_gap_mm=700.0, obstacles=(Box("socket", 700.0, 500.0, 80.0, 80.0),)
    )
    items = holders([220.0, 310.0, 180.0, 260.0, 150.0, 240.0], 100.0 + 40.0 * seed)
    problem = WallProblem(space, replace(RULE, step_mm=100.0), items)
    steps = [z for z in problem.rule.steps_mm(space) if row(problem, z)]
    least = math.inf
    for count in (1, 2, 3):
        for heights in itertools.combinations(steps, count):
            if any(b - a < 130.0 for a, b in itertools.pairwise(heights)):
                continue
            laid = with_rows(problem, heights)
            found = arrange(laid, seed=0, rounds=300)
            if not found.left_over:
                least = min(least, found.scores.total)
    best = in_rows(problem, seed=0, rounds=2_000)
    assert not best.left_over
    assert best.scores.total <= 1.03 * least


FIXED = st.one_of(
    st.none(), st.tuples(st.integers(0, 1800).map(float), st.sampled_from((150.0, 400.0, 430.0)))
)
ITEMS = st.lists(
    st.builds(
        lambda width, up, down, on_rail, at: Item(
            "", float(width), float(up), float(down), on_rail=on_rail, fixed=at
        ),
        st.integers(40, 400),
        st.integers(20, 120),
        st.integers(80, 300),
        st.booleans(),
        FIXED,
    ),
    min_size=1,
    max_size=6,
).map(lambda items: tuple(replace(one, key=f"h{k}") for k, one in enumerate(items)))


@given(
    items=ITEMS,
    socket=st.one_of(st.none(), st.tuples(st.integers(0, 1700), st.integers(0, 700))),
    stud=st.integers(0, 700),
    seed=st.integers(0, 5),
)
@settings(max_examples=30, deadline=None)
def test_rows_break_no_rule_and_end_where_something_is(
    items: tuple[Item, ...], socket: tuple[int, int] | None, stud: int, seed: int
) -> None:
    boxes = (
        () if socket is None else (Box("socket", float(socket[0]), float(socket[1]), 120.0, 90.0),)
    )
    space = WallSpace(
        2000.0, 900.0, obstacles=boxes, studs=studs_at(*(float(stud + 625 * k) for k in range(3)))
    )
    bare = WallProblem(space, RULE, tuple(one for one in items if one.fixed is None))
    # given places are kept one by one as long as all of them can be
    problem = bare
    for item in items:
        if item.fixed is None:
            continue
        more = problem.having((*problem.items, item))
        together = more.having(one for one in more.items if one.fixed)
        places = [(one.key, one.fixed) for one in together.items if one.fixed]
        if not rows_can_be(more):
            continue
        laid = with_rows(together, {at[1] for one, at in places if more.known[one].on_rail})
        if not conflicts(laid, arrange_given(laid)):
            problem = more
    found = in_rows(problem, seed=seed, rounds=200)
    laid = on_rows(problem, found)
    assert conflicts(laid, found) == ()
    ends = {0.0, 2000.0} | {x for box in boxes for x in (box.x_mm, box.right_mm)}
    ends |= {x for one in problem.items if one.fixed for x in _sides(one)}
    for rail in found.rails:
        assert rail.length_mm <= RULE.longest_mm
        assert len(rail.studs_mm) >= 2 or any(problem.known[key].fixed for key in rail.carries)
        for x in (rail.x0_mm, rail.x1_mm):
            beyond = {stud + 625.0 * k + way * OVERHANG_MM for k in range(3) for way in (-1, 1)}
            near = min(abs(x - end) for end in ends | beyond)
            # screws go aside in a stud at whose middle a rail may not end
            assert near <= 19.0


def _sides(item: Item) -> tuple[float, float]:
    assert item.fixed is not None
    return item.fixed[0], item.fixed[0] + item.width_mm


def arrange_given(problem: WallProblem) -> Arrangement:
    return hung(problem, tuple(Place(one.key, *one.fixed) for one in problem.items if one.fixed))


def test_given_places_too_near_above_each_other_leave_no_rows() -> None:
    items = (plate("low", 0.0, 400.0), plate("high", 1500.0, 450.0))
    problem = WallProblem(WIDE, RULE, items)
    assert not rows_can_be(problem)
    assert rows_can_be(problem.having(items[:1]))
