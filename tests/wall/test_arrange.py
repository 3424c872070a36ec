"""Arranging against exhaustive search, planted perfect walls and a published packing."""

import itertools
import os
import random
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import Cancelled, WallError
from cleatwright.base.said import in_mm
from cleatwright.wall.arrange import arrange, require_all
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import ANY_HEIGHT, Box, HeightBounds, Item, Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.rails import cut_rails
from cleatwright.wall.score import hung
from cleatwright.wall.studs import studs_at
from cleatwright.wall.weights import WEIGHTS

RULE = RailRule(Profile(80.0, 18.0, 45.0), 50.0)
GROUPS = ("", "cutting", "measuring", "gripping")


def some_items(seed: int, count: int) -> tuple[Item, ...]:
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    return tuple(
        Item(
            f"h{k:02}",
            width_mm=r.randrange(40, 260, 5),
            up_mm=r.randrange(40, 110, 5),
            down_mm=r.randrange(80, 320, 5),
            mass_kg=r.choice((0.2, 1.0, 4.0)),
            use=r.choice(("daily", "weekly", "seldom")),
            group=r.choice(GROUPS),
            on_rail=r.random() > 0.15,
            side_left_mm=r.choice((0.0, 12.5)),
            rail_depth_mm=60.0,
        )
        for k in range(count)
    )


LOW = HeightBounds(highest_mm=420.0, high_why="heavy")
HIGH = HeightBounds(lowest_mm=280.0, low_why="out of the reach of children")
ITEMS = st.builds(
    lambda key, width, up, down, side, on_rail, depth, use, group, cool, rank, bounds: Item(
        key,
        width_mm=width,
        up_mm=up,
        down_mm=down,
        side_right_mm=side,
        on_rail=on_rail,
        rail_depth_mm=depth,
        use=use,
        group=group,
        keep_cool=cool,
        rank=rank,
        bounds=bounds,
    ),
    st.integers(0, 10**6).map(str),
    st.floats(20.0, 400.0),
    st.floats(0.0, 120.0),
    st.floats(5.0, 400.0),
    st.sampled_from((0.0, 7.3)),
    st.booleans(),
    st.sampled_from((0.0, 60.0, 150.0)),
    st.sampled_from(("daily", "weekly", "seldom")),
    st.sampled_from(GROUPS),
    st.booleans(),
    st.sampled_from((None, 1, 2, 3)),
    st.sampled_from((ANY_HEIGHT, ANY_HEIGHT, LOW, HIGH)),
)


@settings(deadline=None, max_examples=40)
@given(
    st.lists(ITEMS, min_size=0, max_size=12, unique_by=lambda item: item.key),
    st.floats(300.0, 1500.0),
    st.floats(150.0, 1200.0),
    st.booleans(),
    st.integers(0, 5),
    st.sampled_from((0.0, 6.5)),
    st.booleans(),
)
def test_no_arrangement_has_a_conflict(
    items: list[Item], width: float, height: float, socket: bool, seed: int, edge: float, kept: bool
) -> None:
    box = Box("socket", width * 0.4, height * 0.3, 77.7, 63.1, heat_mm=120.0)
    rail = Rail(9, height * 0.8, width * 0.1, width * 0.7, RULE.profile, state="document")
    space = WallSpace(
        width,
        height,
        700.0,
        obstacles=(box,) if socket else (),
        studs=studs_at(50.0, 150.0, width - 30.0),
        kept_rails=(rail,) if kept and height > 300.0 else (),
    )
    rule = RailRule(Profile(80.0, 18.0, 45.0), 40.0, edge_above_mm=edge, merge_mm=150.0)
    result = arrange(WallProblem(space, rule, tuple(items)), seed=seed, rounds=15)
    assert conflicts(WallProblem(space, rule, tuple(items)), result) == ()
    hung = {place.key: place.z_mm for place in result.places}
    assert all(hung.get(i.key, 0.0) <= 420.0 + 1e-6 for i in items if i.bounds == LOW)
    assert all(hung.get(i.key, 280.0) >= 280.0 - 1e-6 for i in items if i.bounds == HIGH)


def exhaustive(
    space: WallSpace, rule: RailRule, items: tuple[Item, ...], step: int
) -> float | None:
    """Return the least total over every place on a coarse grid, or None when there is none."""
    problem = WallProblem(space, rule, items)
    best = None
    spots = [
        [
            Place(item.key, x + item.side_left_mm, z)
            for x in range(0, int(space.width_mm - item.whole_width_mm) + 1, step)
            for z in range(0, int(space.height_mm) + 1, step)
            if z >= item.down_mm and z + item.up_mm <= space.height_mm
        ]
        for item in items
    ]
    for places in itertools.product(*spots):
        tried = hung(problem, places)
        if best is not None and tried.scores.total >= best:
            continue
        if not conflicts(problem, tried):
            best = tried.scores.total
    return best


@pytest.mark.parametrize("seed", range(10))
def test_a_tiny_wall_is_arranged_as_well_as_by_exhaustive_search(seed: int) -> None:
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    rule = RailRule(Profile(40.0, 18.0, 45.0), 10.0, end_room_mm=0.0, merge_mm=1e4)
    space = WallSpace(250.0, 300.0, 1000.0, obstacles=(Box("pipe", 100.0, 0.0, 50.0, 100.0),))
    items = tuple(
        Item(
            f"h{k}",
            width_mm=r.choice((50.0, 100.0, 150.0)),
            up_mm=50.0,
            down_mm=r.choice((50.0, 100.0)),
            use=r.choice(("daily", "seldom")),
            mass_kg=r.choice((0.0, 3.0)),
            group=r.choice(("", "one")),
            on_rail=r.random() > 0.3,
            rail_depth_mm=30.0,
        )
        for k in range(3)
    )
    best = exhaustive(space, rule, items, 50)
    result = arrange(WallProblem(space, rule, items), rounds=80)
    # every measure is a multiple of 50 mm, so the coarse grid misses no way to fit
    assert bool(result.left_over) == (best is None)
    if best is not None:
        assert result.scores.total <= best + 1e-6


def test_a_wall_that_exhaustive_search_cannot_fill_is_not_filled() -> None:
    space = WallSpace(200.0, 200.0)
    rule = RailRule(Profile(40.0, 18.0, 45.0), 10.0)
    items = tuple(Item(f"h{k}", 150.0, 50.0, 50.0) for k in range(3))
    assert exhaustive(space, rule, items, 50) is None
    assert len(arrange(WallProblem(space, rule, items), rounds=30).left_over) == 1


@pytest.mark.parametrize("seed", range(4))
def test_a_planted_perfect_wall_is_filled_to_the_last_millimetre(seed: int) -> None:
    """Three rows of equal height are each cut into random widths: nothing may be left over."""
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    items = []
    for row in range(3):
        cuts = sorted({0, 1200, *(r.randrange(60, 1141, 60) for _ in range(5))})
        items += [
            Item(f"r{row}-{k}", float(b - a), 50.0, 250.0, rail_depth_mm=70.0)
            for k, (a, b) in enumerate(itertools.pairwise(cuts))
        ]
    space = WallSpace(1200.0, 900.0, 700.0)
    result = arrange(WallProblem(space, RULE, tuple(items)), rounds=400)
    assert result.left_over == ()
    assert conflicts(WallProblem(space, RULE, tuple(items)), result) == ()
    assert sum(run.length_mm for run in result.rails) == pytest.approx(3 * 1200.0)


def test_the_squared_rectangle_of_order_nine_is_packed_without_a_gap() -> None:
    """Squares 1 to 18 that tile 33 × 32 (Moroń 1925, from memory), ten millimetres a unit."""
    sides = (1, 4, 7, 8, 9, 10, 14, 15, 18)
    assert sum(side**2 for side in sides) == 33 * 32
    items = tuple(
        Item(f"s{side:02}", 10.0 * side, 0.0, 10.0 * side, on_rail=False) for side in sides
    )
    space, rule = WallSpace(330.0, 320.0), RailRule(Profile(80.0, 18.0, 45.0), 50.0, step_mm=10.0)
    result = arrange(WallProblem(space, rule, items), rounds=1000)
    assert conflicts(WallProblem(space, rule, items), result) == ()
    assert result.left_over == ()


def test_improvement_never_makes_it_worse_and_pays_on_forty_holders() -> None:
    space = WallSpace(2400.0, 1500.0, 600.0, obstacles=(Box("socket", 960.0, 750.0, 90.0, 90.0),))
    items = some_items(1, 40)
    first = arrange(WallProblem(space, RULE, items), rounds=0)
    better = arrange(WallProblem(space, RULE, items), rounds=150)
    assert not first.left_over
    assert not better.left_over
    assert better.scores.total < 0.95 * first.scores.total
    assert conflicts(WallProblem(space, RULE, items), better) == ()


def test_the_order_of_the_items_does_not_matter() -> None:
    space, items = WallSpace(1500.0, 900.0, 700.0), some_items(3, 14)
    assert arrange(WallProblem(space, RULE, items), rounds=30) == arrange(
        WallProblem(space, RULE, items[::-1]), rounds=30
    )


def test_another_process_with_another_hash_seed_gives_the_same_wall(
    under_hash_seeds: Callable[..., set[bytes]],
) -> None:
    code = (
        "import sys; sys.path.insert(0, sys.argv[1]);"
        "from test_arrange import *;"
        "wall = WallProblem(WallSpace(1500.0, 900.0, 700.0), RULE, some_items(3, 14));"
        "print(arrange(wall, rounds=40))"
    )
    here = os.path.dirname(__file__)  # noqa: PTH120 - it goes into sys.path as text
    outputs = under_hash_seeds(code, here)
    assert len(outputs) == 1
    assert b"Place(key='h00'" in outputs.pop()


def test_fixed_places_are_kept_to_the_last_digit() -> None:
    items = (
        Item("a", 100.0, 50.0, 150.0, fixed=(333.33, 512.345)),
        Item("b", 100.0, 50.0, 50.0, on_rail=False, fixed=(700.001, 203.7)),
        *some_items(5, 8),
    )
    space = WallSpace(1600.0, 1000.0, 700.0)
    result = arrange(WallProblem(space, RULE, items), rounds=30)
    assert Place("a", 333.33, 512.345) in result.places
    assert Place("b", 700.001, 203.7) in result.places
    assert conflicts(WallProblem(space, RULE, items), result) == ()


@pytest.mark.parametrize(
    ("items", "space", "words"),
    [
        (
            (
                Item("saw", 100.0, 50.0, 50.0, fixed=(0.0, 300.0)),
                Item("plane", 100.0, 50.0, 50.0, fixed=(90.0, 300.0)),
            ),
            WallSpace(500.0, 500.0),
            ("saw", "plane", "overlap"),
        ),
        (
            (Item("saw", 100.0, 50.0, 50.0, fixed=(450.0, 300.0)),),
            WallSpace(500.0, 500.0),
            ("saw", "beyond the edge"),
        ),
        (
            (Item("saw", 100.0, 5.0, 5.0, fixed=(0.0, 300.0)),),
            WallSpace(500.0, 500.0, obstacles=(Box("tap", 20.0, 230.0, 50.0, 30.0),)),
            ("R1", "tap"),
        ),
        ((), WallSpace(500.0, 500.0, obstacles=(Box("tap", 460.0, 0.0, 50.0, 30.0),)), ("tap",)),
        ((Item("x", 9.0, 9.0, 9.0), Item("x", 9.0, 9.0, 9.0)), WallSpace(500.0, 500.0), ("x",)),
    ],
)
def test_what_cannot_be_is_refused_by_name(
    items: tuple[Item, ...], space: WallSpace, words: tuple[str, ...]
) -> None:
    with pytest.raises(WallError) as caught:
        arrange(WallProblem(space, RULE, items), rounds=0)
    assert all(word in caught.value.sentence for word in words)


def test_an_item_larger_than_the_wall_is_left_over_with_both_numbers() -> None:
    items = (Item("long", 900.0, 50.0, 50.0), Item("tall", 90.0, 50.0, 700.0))
    result = arrange(WallProblem(WallSpace(800.0, 600.0), RULE, items), rounds=5)
    long, tall = result.left_over
    assert "900 mm wide" in in_mm(long.reason)
    assert "800 mm wide" in in_mm(long.reason)
    assert "750 mm of height" in in_mm(tall.reason)
    with pytest.raises(WallError, match="long"):
        require_all(result)


def test_the_person_can_stop_it() -> None:
    def stop(done: int, of: int) -> None:
        raise Cancelled(f"stopped at round {done} of {of}")

    with pytest.raises(Cancelled):
        arrange(
            WallProblem(WallSpace(900.0, 900.0), RULE, some_items(2, 3)), rounds=3, progress=stop
        )


def test_rails_span_their_plates_and_skip_long_holes() -> None:
    space = WallSpace(2000.0, 500.0, studs=studs_at(100.0, 500.0, 900.0, 1300.0, 1700.0))
    items = tuple(Item(k, 100.0, 40.0, 60.0) for k in "abc")
    places = (Place("a", 10.0, 300.0), Place("b", 450.0, 300.0), Place("c", 1500.0, 300.0))
    first, second = cut_rails(WallProblem(space, RULE, items), places)
    assert (first.x0_mm, first.x1_mm) == (0.0, 570.0)
    assert (second.x0_mm, second.x1_mm, second.z_top_mm) == (1250.0, 1750.0, 300.0)
    assert [rail.studs_mm for rail in (first, second)] == [(100.0, 500.0), (1300.0, 1700.0)]


def test_score_parts_add_up_by_hand() -> None:
    """Band 1102.5 to 1431.5 mm: one daily holder 68.5 mm above it, 2 kg at 1500 mm."""
    items = (Item("a", 100.0, 40.0, 60.0, mass_kg=2.0, use="daily", group="g"),)
    places = (Place("a", 0.0, 500.0),)
    parts = hung(WallProblem(WallSpace(800.0, 800.0, 1000.0), RULE, items), places).scores
    assert parts.reach == pytest.approx(10 * 6.85)
    assert parts.raised_mass == pytest.approx(3 * 2 * 39.75)
    assert parts.rail_count == pytest.approx(200)
    assert parts.rail_length == pytest.approx(0.5 * 12)
    assert parts.groups == pytest.approx(10)
    assert parts.total == pytest.approx(68.5 + 238.5 + 200 + 6 + 10)


def test_rails_at_one_height_lie_on_both_sides_of_what_is_fixed_flat_on_the_wall() -> None:
    """The board parts the wall in two; each half has room for two of the four at one height.

    One height costs 200 points, a second one as much again: nothing else sets the two apart.
    """
    board = Item("board", 200.0, 500.0, 500.0, on_rail=False, fixed=(400.0, 500.0))
    items = (board, *(Item(f"h{k}", 190.0, 60.0, 100.0, rail_depth_mm=60.0) for k in range(4)))
    space = WallSpace(width_mm=1000.0, height_mm=1000.0, floor_gap_mm=600.0)
    found = require_all(arrange(WallProblem(space, RULE, items)))
    assert not conflicts(WallProblem(space, RULE, items), found)
    assert found.scores.rail_count == WEIGHTS.rail
    lefts = [place.x_mm for place in found.places if place.key != "board"]
    assert sorted(x < 400.0 for x in lefts) == [False, False, True, True]
