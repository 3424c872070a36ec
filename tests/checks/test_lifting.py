"""Taking a heavy tool off the wall."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.checks.lifting import LiftTask, check_lifting, horizontal_mm
from cleatwright.checks.result import CheckResult


def result(taken: LiftTask, *, bench: float = 0.0) -> CheckResult:
    found = check_lifting(taken, bench_depth_mm=bench, brought_to_mm=1100.0)
    assert found is not None
    return found


def test_a_place_is_held_against_the_equation_of_the_manual() -> None:
    """NIOSH 94-110, clause 1.3 in cm: 23 (25/52.5) (1 - 0.003 · 65) (0.82 + 4.5/30) 0.90."""
    check = result(LiftTask("press", 6.0, 1400.0, 100.0), bench=500.0)
    by_hand = 23 * (25 / 52.5) * (1 - 0.003 * 65) * (0.82 + 4.5 / 30) * 0.90
    assert check.capacity == pytest.approx(by_hand)
    assert check.capacity == pytest.approx(7.70, abs=0.01)
    assert check.holds
    assert not result(LiftTask("press", 8.0, 1400.0, 100.0), bench=500.0).holds


@pytest.mark.parametrize(
    ("height_mm", "by_hand"),
    [
        # brought 40 cm up from below the elbow, and 10 cm down, which counts as 25
        (700.0, 23 * (1 - 0.003 * 5) * (0.82 + 4.5 / 40) * 0.90),
        (1200.0, 23 * (1 - 0.003 * 45) * (0.82 + 4.5 / 25) * 0.90),
        (300.0, 23 * (1 - 0.003 * 45) * (0.82 + 4.5 / 80) * 0.90),
    ],
)
def test_the_way_up_to_the_elbow_counts_as_the_way_down_does(
    height_mm: float, by_hand: float
) -> None:
    """NIOSH 94-110, clause 1.3: D is the vertical travel, up or down, no less than 25 cm."""
    check = result(LiftTask("vice", 3.0, height_mm, 200.0))
    assert check.capacity == pytest.approx(by_hand)


def test_tools_below_the_scope_of_the_standard_are_not_judged() -> None:
    """ISO 11228-1:2021 is for objects of 3 kg or more."""
    light = LiftTask("hammer", 2.99, 2500.0, 50.0)
    assert check_lifting(light, bench_depth_mm=0.0, brought_to_mm=1100.0) is None


@pytest.mark.parametrize(
    ("height", "bench", "todo"),
    [(1760.0, 0.0, "hang it lower"), (1200.0, 700.0, "where no bench stands before it")],
)
def test_out_of_range_nothing_may_be_lifted_and_the_note_says_what_to_change(
    height: float, bench: float, todo: str
) -> None:
    check = result(LiftTask("vice", 3.0, height, 60.0), bench=bench)
    assert check.capacity == 0.0
    assert not check.holds
    assert todo in check.note


def test_the_note_names_the_limits_of_the_equation_and_defers_to_local_rules() -> None:
    """Clause 1.2 of the manual: the equation is not for lifting with one hand."""
    note = result(LiftTask("vice", 3.0, 900.0, 60.0)).note
    assert "two hands" in note
    assert "nothing about one hand" in note
    assert "Local rules" in note


@given(st.floats(3.0, 40.0), st.floats(0.0, 1750.0), st.floats(0.0, 300.0), st.floats(0.0, 400.0))
@settings(deadline=None, max_examples=60)
def test_a_bench_before_the_wall_never_makes_a_tool_easier_to_take(
    mass: float, height: float, out: float, bench: float
) -> None:
    taken = LiftTask("T", mass, height, out)
    assert result(taken, bench=bench).capacity <= result(taken).capacity
    assert horizontal_mm(bench_depth_mm=bench, grip_out_mm=out) >= 250.0
