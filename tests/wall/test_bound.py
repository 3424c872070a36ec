"""The lower bound against exhaustive search, planted walls and closed forms."""

import itertools
import math
import random
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

from cleatwright.wall.arrange import arrange
from cleatwright.wall.bound.bound import Bound, lower_bound
from cleatwright.wall.bound.branch import branched
from cleatwright.wall.bound.program import Program
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Box, Item, Near, Place, RailRule, Use, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.reach import ReachBand, reach_band
from cleatwright.wall.rows.choosing import in_rows, on_rows
from cleatwright.wall.score import hung
from cleatwright.wall.studs import studs_at

RULE = RailRule(Profile(80.0, 18.0, 45.0), 50.0)


def bound_of(
    space: WallSpace, rule: RailRule, items: tuple[Item, ...], *, band: ReachBand | None = None
) -> Bound:
    return lower_bound(WallProblem(space, rule, items, band or reach_band()))


def totals(
    space: WallSpace, rule: RailRule, items: tuple[Item, ...], *, step: int, band: ReachBand
) -> Iterator[float]:
    """Yield the total of every sound arrangement on a coarse grid."""
    problem = WallProblem(space, rule, items, band)
    spots = [
        [
            Place(item.key, float(x), float(z))
            for x in range(0, int(space.width_mm - item.width_mm) + 1, step)
            for z in range(int(item.down_mm), int(space.height_mm - item.up_mm) + 1, step)
        ]
        for item in items
    ]
    for places in itertools.product(*spots):
        tried = hung(problem, places)
        if not conflicts(problem, tried):
            yield tried.scores.total


@pytest.mark.parametrize("seed", range(12))
def test_no_arrangement_of_a_tiny_wall_lies_below_the_bound(seed: int) -> None:
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    rule = RailRule(Profile(40.0, 18.0, 45.0), 10.0, end_room_mm=0.0)
    space = WallSpace(
        250.0,
        200.0,
        1000.0 + 50.0 * seed,
        obstacles=(Box("pipe", 100.0, 0.0, 50.0, 100.0),),
        studs=studs_at(*r.choice(((), (25.0, 225.0)))),
        kept_rails=(Rail(9, 100.0, 0.0, 100.0, rule.profile, state="document"),)
        if seed % 2
        else (),
    )
    items = tuple(
        Item(
            f"h{k}",
            width_mm=r.choice((50.0, 100.0, 150.0)),
            up_mm=r.choice((0.0, 50.0)),
            down_mm=50.0,
            use=r.choice(("daily", "seldom")),
            mass_kg=r.choice((0.0, 3.0)),
            group=r.choice(("", "one")),
            on_rail=r.random() > 0.3,
            rail_depth_mm=30.0,
            hangs_at=r.choice((None, (0.0, 100.0))),
        )
        for k in range(3)
    )
    band = ReachBand(1102.5, 1431.5, 500.0, 1900.0, r.choice((None, 125.0)))
    best = min(totals(space, rule, items, step=50, band=band), default=math.inf)
    found = bound_of(space, rule, items, band=band)
    assert found.value <= best + 1e-9
    assert found.value == pytest.approx(sum(part for _, part in found.parts)) or found.parts == ()


ITEMS = st.builds(
    lambda key, width, up, down, side, on_rail, use, group, mass: Item(
        key,
        width_mm=width,
        up_mm=up,
        down_mm=down,
        mass_kg=mass,
        side_right_mm=side,
        on_rail=on_rail,
        rail_depth_mm=40.0,
        use=use,
        group=group,
    ),
    st.integers(0, 10**6).map(str),
    st.floats(20.0, 300.0),
    st.floats(0.0, 120.0),
    st.floats(5.0, 300.0),
    st.sampled_from((0.0, 7.3)),
    st.booleans(),
    st.sampled_from(("daily", "weekly", "seldom")),
    st.sampled_from(("", "cutting", "measuring")),
    st.floats(0.0, 4.0),
)


@settings(deadline=None, max_examples=15)
@given(
    st.lists(ITEMS, min_size=1, max_size=8, unique_by=lambda item: item.key),
    st.floats(400.0, 1500.0),
    st.floats(300.0, 1200.0),
    st.sampled_from((None, 0.0, 350.0)),
    st.booleans(),
    st.booleans(),
)
def test_no_arrangement_that_is_found_lies_below_the_bound(
    items: list[Item], width: float, height: float, hand: float | None, stays: bool, studded: bool
) -> None:
    space = WallSpace(
        width,
        height,
        700.0,
        obstacles=(Box("socket", width * 0.4, height * 0.3, 77.7, 63.1),),
        studs=studs_at(*range(60, int(width), 250)) if studded else (),
        kept_rails=(Rail(9, height * 0.8, 10.0, width / 2, RULE.profile, state="document"),)
        if stays
        else (),
    )
    band = replace(reach_band(), lowest_mm=800.0, easy_x_mm=hand)
    result = arrange(WallProblem(space, RULE, tuple(items), band), rounds=20)
    found = bound_of(space, RULE, tuple(items), band=band)
    if not result.left_over:
        assert conflicts(WallProblem(space, RULE, tuple(items)), result) == ()
        assert found.value <= result.scores.total + 1e-9


@pytest.mark.parametrize(("group", "share"), [(False, 0.9999), (True, 0.93)])
def test_a_planted_perfect_wall_lies_close_above_the_bound(group: bool, share: float) -> None:
    """Three full rows, the densest use nearest to the band: nothing can be better without groups.

    The rows hang at 950, 1250 and 1550 mm above the floor, and the band begins at 1102.5 mm and
    ends at 1431.5 mm.
    """
    items: list[Item] = []
    places: list[Place] = []
    rows: tuple[tuple[float, Use, int], ...] = (
        (250.0, "seldom", 400),
        (550.0, "daily", 100),
        (850.0, "weekly", 200),
    )
    for z, use, width in rows:
        for x in range(0, 1200, width):
            key = f"{use}-{x}"
            name = use if group else ""
            items.append(
                Item(key, float(width), 50.0, 250.0, use=use, group=name, rail_depth_mm=70.0)
            )
            places.append(Place(key, float(x), z))
    space = WallSpace(1200.0, 900.0, 700.0)
    planted = hung(WallProblem(space, RULE, tuple(items)), places).scores
    ways = 3 * 1 * 15.25 + 6 * 3 * 11.85
    assert planted.total == pytest.approx(3 * (200.0 + 60.0) + ways + 3 * 120.0 * group)
    found = bound_of(space, RULE, tuple(items))
    assert share * planted.total <= found.value <= planted.total


def test_one_holder_on_a_new_rail_costs_a_rail_the_length_of_its_plate_and_its_box() -> None:
    """By hand: inside the band, 200 for the rail, half a point and one point a centimetre."""
    items = (Item("a", 100.0, 40.0, 60.0, group="g"),)
    found = bound_of(WallSpace(800.0, 800.0, 700.0), RULE, items)
    assert found.value == pytest.approx(200.0 + 0.5 * 10.0 + 10.0, abs=0.01)
    # from 6.5 mm right of the middle of the first stud to 6.5 mm left of that of the second, and
    # 50 mm beyond each
    studded = WallSpace(800.0, 800.0, 700.0, studs=studs_at(100.0, 500.0))
    assert bound_of(studded, RULE, items).value == pytest.approx(
        200.0 + 0.5 * 48.7 + 10.0, abs=0.01
    )
    # a single stud cannot hold a rail
    weak = WallSpace(800.0, 800.0, 700.0, studs=studs_at(100.0))
    assert bound_of(weak, RULE, items).value == pytest.approx(2000.0 + 200.0 + 15.0, abs=0.01)


def test_a_fixed_holder_costs_what_its_height_costs() -> None:
    """By hand: 102.5 mm below the band, ten points a centimetre for daily use."""
    items = (Item("a", 100.0, 40.0, 60.0, use="daily", fixed=(200.0, 300.0)),)
    found = bound_of(WallSpace(800.0, 800.0, 700.0), RULE, items)
    assert found.value == pytest.approx(200.0 + 0.5 * 10.0 + 10.0 * 10.25, abs=0.01)


def test_a_rail_that_stays_is_free_until_it_is_full() -> None:
    old = Rail(9, 500.0, 0.0, 250.0, RULE.profile, state="document")
    space = WallSpace(800.0, 800.0, 700.0, kept_rails=(old,))
    items = tuple(Item(f"h{k}", 100.0, 40.0, 60.0) for k in range(3))
    assert bound_of(space, RULE, items[:2]).value == pytest.approx(0.0, abs=0.01)
    assert bound_of(space, RULE, items).value >= 100.0


def test_what_cannot_all_hang_has_an_infinite_bound() -> None:
    """Three plates of 150 mm need 450 mm of width, and two rows of 100 mm give 400 mm."""
    items = tuple(Item(f"h{k}", 150.0, 50.0, 50.0) for k in range(3))
    space, rule = WallSpace(200.0, 200.0), RailRule(Profile(40.0, 18.0, 45.0), 10.0)
    assert bound_of(space, rule, items).value == math.inf
    assert bound_of(space, rule, (Item("tall", 10.0, 100.0, 150.0),)).value == math.inf
    assert bound_of(space, rule, ()).value == 0.0


def test_the_bound_is_the_same_each_time_and_in_any_order() -> None:
    r = random.Random(4)  # noqa: S311 - a repeatable example, not a secret
    items = tuple(
        Item(f"h{k:02}", r.randrange(40, 260, 5), 60.0, r.randrange(80, 320, 5), group="abc"[k % 3])
        for k in range(14)
    )
    space = WallSpace(1500.0, 1200.0, 700.0, studs=studs_at(100.0, 700.0, 1300.0))
    found = bound_of(space, RULE, items)
    assert found == bound_of(space, RULE, items[::-1])
    assert found.value > 500.0


@pytest.mark.parametrize("seed", range(6))
def test_branching_to_the_end_finds_the_optimum_of_a_general_solver(seed: int) -> None:
    """The oracle is the branching of HiGHS on open plants and their customers."""
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    program = Program()
    plants = [program.column(r.uniform(5.0, 20.0), most=1.0, whole=1) for _ in range(7)]
    for _ in range(9):
        served = [program.column(r.uniform(1.0, 20.0), most=1.0) for _ in plants]
        program.row([(c, 1.0) for c in served], low=1.0, high=1.0)
        for c, plant in zip(served, plants, strict=True):
            program.row([(c, 1.0), (plant, -1.0)], high=0.0)
    program.row([(plant, 1.0) for plant in plants], high=2.5)
    matrix = coo_array(
        (program.factor, (program.row_of, program.column_of)),
        shape=(len(program.row_low), len(program.cost)),
    )
    exact = milp(
        np.array(program.cost),
        constraints=LinearConstraint(matrix, program.row_low, program.row_high),
        bounds=Bounds(program.least, program.most),
        integrality=np.array(program.whole),
    )
    assert exact.fun is not None
    first = program.solve()
    assert branched(program, first, steps=0) == pytest.approx(first.fun)
    assert branched(program, first, steps=3) <= exact.fun + 1e-6
    assert branched(program, first, steps=2000) == pytest.approx(exact.fun)


def test_a_thing_with_a_given_place_on_a_row_leaves_the_bound_finite() -> None:
    """By hand: one height for 200 points and a row along the whole wall, 0.05 for each mm."""
    item = Item("saws", 150.0, 50.0, 200.0, rail_depth_mm=70.0, fixed=(100.0, 400.0))
    row = Rail(1, 400.0, 0.0, 1000.0, RULE.profile)
    space = WallSpace(1000.0, 800.0, 800.0, rows=(row,))
    problem = WallProblem(space, replace(RULE, rows=True), (item,), ReachBand(1000.0, 1500.0))
    bound, found = lower_bound(problem), hung(problem, [Place("saws", 100.0, 400.0)])
    assert found.scores.total == pytest.approx(200.0 + 0.05 * 1000.0)
    # a safe bound gives a hair away
    assert 249.99 < bound.value <= 250.0


@pytest.mark.parametrize("seed", range(8))
def test_no_rows_with_fixed_holders_and_wishes_lie_below_the_bound(seed: int) -> None:
    luck = random.Random(seed)  # noqa: S311 - repeatable numbers, no secret
    items = tuple(
        Item(
            f"h{k}",
            luck.uniform(60.0, 160.0),
            luck.uniform(30.0, 90.0),
            luck.uniform(40.0, 120.0),
            use=luck.choice(["daily", "weekly", "seldom"]),
            near=luck.choice([None, Near("sink", 300.0), Near("door", 1900.0)]),
            fixed=(luck.uniform(100.0, 900.0), 600.0) if k == 0 else None,
        )
        for k in range(7)
    )
    rule = replace(RULE, rows=True)
    boxes = tuple(
        Box(f"box {k}", luck.uniform(0.0, 1800.0), luck.uniform(700.0, 1100.0), 180.0, 90.0)
        for k in range(seed % 3)
    )
    studs = studs_at(150.0, 750.0, 1350.0, 1850.0) if seed % 2 else ()
    band = replace(reach_band(), easy_x_mm=luck.choice([None, 0.0, 700.0]))
    space = WallSpace(2000.0, 1200.0, 700.0, obstacles=boxes, studs=studs)
    problem = WallProblem(space, rule, items, band)
    found = in_rows(problem, seed=seed, rounds=200)
    assert not found.left_over
    bound = lower_bound(on_rows(problem, found)).value
    assert 0.0 < bound <= found.scores.total
