"""Rails keep their names, and new ones get the next."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import WallError
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.inputs import check_problem
from cleatwright.wall.model import Arrangement, Item, Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.rails import as_drawn, cut_rails

RULE = RailRule(Profile(70.0, 18.0, 45.0), min_gap_mm=60.0)
ITEMS = {str(k): Item(str(k), 100.0, 20.0, 80.0, rail_depth_mm=60.0) for k in range(3)}
PLACES = (Place("0", 300.0, 800.0), Place("1", 300.0, 500.0), Place("2", 700.0, 500.0))


def named(*kept: Rail) -> list[tuple[str, float]]:
    space = WallSpace(1200.0, 900.0, kept_rails=kept)
    return [
        (run.name, run.z_top_mm)
        for run in cut_rails(WallProblem(space, RULE, tuple(ITEMS.values())), PLACES)
    ]


def test_where_nothing_hangs_rails_are_named_from_top_to_bottom() -> None:
    assert named() == [("R1", 800.0), ("R2", 500.0)]


def test_rails_that_hang_keep_their_names_and_new_ones_are_named_after_them() -> None:
    lower = Rail(1, 200.0, 0.0, 900.0, RULE.profile, state="document")
    assert named(lower) == [("R2", 800.0), ("R3", 500.0), ("R1", 200.0)]
    # it carries what hangs at 500 mm
    middle = Rail(7, 500.0, 250.0, 850.0, RULE.profile, state="document")
    assert named(lower, middle) == [("R8", 800.0), ("R7", 500.0), ("R1", 200.0)]
    # it carries one of the two; the other one gets a piece from its end
    short = Rail(7, 500.0, 250.0, 600.0, RULE.profile, state="document")
    assert named(short) == [("R8", 800.0), ("R7", 500.0), ("R9", 500.0)]


def test_a_rail_that_hangs_under_another_name_or_a_name_used_twice_is_found() -> None:
    kept = Rail(4, 200.0, 0.0, 900.0, RULE.profile, state="document")
    space = WallSpace(1200.0, 900.0, kept_rails=(kept,))
    other = Rail(5, 200.0, 0.0, 900.0, RULE.profile, state="document")
    assert conflicts(WallProblem(space, RULE, ()), Arrangement((), (other,))) == (
        "Rail R4, which hangs already, is not among the rails.",
    )
    twice = Rail(4, 600.0, 0.0, 900.0, RULE.profile)
    assert conflicts(WallProblem(space, RULE, ()), Arrangement((), (kept, twice))) == (
        "2 rails are called R4.",
    )


def test_a_rail_that_is_only_tried_is_called_as_in_the_drawings() -> None:
    hangs = Rail(1, 200.0, 0.0, 900.0, RULE.profile, state="document")
    drawn = (
        Rail(4, 800.0, 280.0, 420.0, RULE.profile),
        Rail(5, 500.0, 280.0, 820.0, RULE.profile),
        hangs,
    )
    tried = (
        Rail(2, 800.0, 100.0, 420.0, RULE.profile),
        Rail(3, 650.0, 100.0, 300.0, RULE.profile),
        Rail(4, 500.0, 280.0, 400.0, RULE.profile),
        Rail(5, 500.0, 500.0, 820.0, RULE.profile),
        hangs,
    )
    called = [run.name for run in as_drawn(tried, drawn)]
    assert called == ["R4", "R6 (new)", "R5", "R7 (new)", "R1"]


@settings(max_examples=60, deadline=None)
@given(st.permutations([3, 8, 5]), st.integers(0, 3))
def test_no_two_rails_have_one_name(numbers: list[int], count: int) -> None:
    kept = [
        Rail(number, z_mm, 0.0, 200.0, RULE.profile, state="document")
        for number, z_mm in zip(numbers, (800.0, 500.0, 200.0), strict=True)
    ]
    names = [name for name, _ in named(*kept[:count])]
    assert len(set(names)) == len(names)
    assert {run.name for run in kept[:count]} <= set(names)


def test_rails_that_given_places_would_need_are_called_new_in_the_message() -> None:
    """So that nobody takes one for a rail of that name that hangs."""
    items = [Item("a", 100.0, 20.0, 80.0, rail_depth_mm=60.0, fixed=(300.0, 520.0))]
    space = WallSpace(
        1200.0, 900.0, kept_rails=(Rail(1, 640.0, 0.0, 900.0, RULE.profile, state="document"),)
    )
    with pytest.raises(WallError, match=r"Rails R1 and R2 \(new\) are 50 mm apart"):
        check_problem(WallProblem(space, RULE, tuple(items)))
