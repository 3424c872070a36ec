"""A holder on its rail in section, against sums by hand and linear programmes.

Source: equilibrium of a rigid body; the least of a linear programme is its optimum
(scipy.optimize.linprog, HiGHS).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from cleatwright.statics.captured import BLUNT_MM, Section, foot_n, knock_n
from cleatwright.statics.cleat import LoadCase
from cleatwright.statics.load_table import LoadTable

# how much a sharp edge is worn and rounded (a choice, on the safe side)
BLUNTED_MM = 3.0


def test_a_bevel_and_a_lower_edge_count_as_blunted_by_three_millimetres() -> None:
    assert BLUNT_MM == BLUNTED_MM


def test_the_foot_bears_what_turns_the_holder_out_over_its_depth() -> None:
    """Moments by hand about the bevel: 20 N at 50 mm, 5 N to the front 30 mm above it, 4 N up."""
    section = Section(-10.0, 80.0, 45.0, 14.5)
    case = LoadCase("", 20.0, 1000.0, 5.0, 20.0, 4.0, 60.0)
    swung_out = LoadCase("", 20.0, 0.0, 5.0, -200.0)
    found = foot_n(LoadTable.of([case, swung_out]), section)
    assert list(found) == [pytest.approx((1000.0 + 150.0 - 240.0) / 80.0), 0.0]


def least_most_bolt_n(
    moment: float, weight: float, at: float, hooks: tuple[float, float], bolts: list[float]
) -> float:
    """Return the least of the largest bolt force: hooks push up at their ends, bolts down.

    Bolts alike share a turn as their distances from the end about which it goes: rigid bodies on
    equal springs. Both ways of the knock.
    """
    worst = 0.0
    for sign in (1.0, -1.0):
        pivot = hooks[1] if sign > 0.0 else hooks[0]
        arms = [abs(pivot - x) for x in bolts]
        # unknown: both hooks, and the force of the farthest bolt
        share = np.array(arms) / max(arms)
        up = [1.0, 1.0, -float(share.sum())]
        turn = [hooks[0], hooks[1], -float(share @ np.array(bolts))]
        found = linprog(
            [0.0, 0.0, 1.0],
            A_eq=[up, [v * 0.01 for v in turn]],
            b_eq=[weight, (weight * at + sign * moment) * 0.01],
            method="highs",
        )
        worst = max(worst, math.inf if found.fun is None else float(found.fun))
    return worst


@given(
    st.floats(0.0, 5000.0),
    st.floats(0.0, 40.0),
    st.floats(0.1, 0.9),
    st.lists(st.floats(0.1, 0.9), min_size=1, max_size=2),
    st.floats(20.0, 300.0),
)
def test_a_knock_along_the_wall_against_a_linear_programme(
    moment: float, weight: float, share: float, places: list[float], width: float
) -> None:
    hooks = (5.0, 5.0 + width)
    bolts = [5.0 + width * one for one in places]
    at = 5.0 + width * share
    found = knock_n(moment, [(weight, at)], hooks_mm=hooks, bolts_mm=tuple(bolts))
    expected = least_most_bolt_n(moment, weight, at, hooks, bolts)
    assert found == pytest.approx(expected, rel=1e-6, abs=1e-5)


def test_a_knock_without_a_bolt_turns_off_what_its_weight_does_not_keep() -> None:
    hooks = {"hooks_mm": (0.0, 100.0), "bolts_mm": ()}
    assert knock_n(400.0, [(10.0, 50.0)], **hooks) == 0.0  # type: ignore[arg-type]
    assert knock_n(600.0, [(10.0, 50.0)], **hooks) == math.inf  # type: ignore[arg-type]


def test_a_tool_beyond_the_hook_that_it_turns_about_turns_it_on() -> None:
    """Hooks at 30 and 50, a bolt at 40; 100 N mm, 4 N in the middle: 100 - 40 = 60, over 10 mm.

    Beside it 3 N at 10, 20 mm beyond the left hook: 60 more; 3 N at 45 only hold.
    """
    hooks = {"hooks_mm": (30.0, 50.0), "bolts_mm": (40.0,)}
    alone = knock_n(100.0, [(4.0, 40.0)], **hooks)  # type: ignore[arg-type]
    assert alone == pytest.approx(6.0)
    both = ((3.0, 10.0), (3.0, 45.0))
    beside = knock_n(100.0, [(4.0, 40.0)], others=both, **hooks)  # type: ignore[arg-type]
    assert beside == pytest.approx(12.0)
    itself = knock_n(100.0, [(4.0, 40.0), (3.0, 10.0)], **hooks)  # type: ignore[arg-type]
    assert itself == pytest.approx(12.0)
