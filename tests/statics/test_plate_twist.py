"""Torque and bending along a plate: equilibrium beyond its ends, and cases by hand."""

from __future__ import annotations

import numpy as np
import pytest

from cleatwright.statics.captured import Section
from cleatwright.statics.cleat import LoadCase, Weight
from cleatwright.statics.hand import Tug
from cleatwright.statics.plate_twist import PUSHED, HungPlate, Pushed, Turning

# hooks 24 mm above the middle of the plate, feet 43 mm below it
SECTION = Section(40.0, 67.0, 45.0, 14.5)
PLATE = HungPlate(SECTION, (20.0, 180.0), (60.0, 150.0), 50.0)
MIDDLE = 16.0
TOOLS = (
    Turning(5.0, 300.0, 10.0),
    Turning(90.0, 900.0, 20.0, 7.0),
    Turning(195.0, -250.0, -5.0, 3.0),
)


def inside(plate: HungPlate, one: Turning, where: Pushed, at_mm: float) -> tuple[float, float]:
    found = plate.inside(one, where, np.array([at_mm]), np.array([MIDDLE]))
    return float(found.torque_nmm[0]), float(found.bending_nmm[0])


@pytest.mark.parametrize("where", PUSHED)
@pytest.mark.parametrize("one", TOOLS)
def test_nothing_is_left_beyond_the_ends_of_a_plate(where: Pushed, one: Turning) -> None:
    """All that acts on it is in equilibrium: no torque before it, and none behind it."""
    for at in (-1.0, 201.0):
        assert inside(PLATE, one, where, at) == pytest.approx((0.0, 0.0), abs=1e-9)


@pytest.mark.parametrize("where", PUSHED)
def test_the_hooks_hold_all_that_pushes_and_pulls(where: Pushed) -> None:
    for one in TOOLS:
        pushed = sum(push.force_n for push in PLATE.pushes(one, where))
        assert sum(PLATE.held_n(one, where)) == pytest.approx(pushed + one.out_n)


def test_a_tool_over_a_foot_twists_a_plate_as_its_hooks_hold() -> None:
    """N = 670 / 67; each hook holds half of it, 24 mm above the middle: 120 N mm, either way."""
    plate = HungPlate(SECTION, (20.0, 180.0), (100.0,), 50.0)
    tool = Turning(100.0, 670.0)
    assert inside(plate, tool, "at its feet", 60.0) == pytest.approx((-120.0, 200.0))
    assert inside(plate, tool, "at its feet", 140.0) == pytest.approx((120.0, 200.0))


def test_between_a_tool_and_a_foot_a_plate_bears_all_that_turns_it_but_what_hooks_hold() -> None:
    plate = HungPlate(SECTION, (20.0, 180.0), (100.0,), 50.0)
    torque, bending = inside(plate, Turning(60.0, 670.0), "at its feet", 80.0)
    assert torque == pytest.approx(670.0 - 5.0 * 24.0)
    assert bending == pytest.approx(5.0 * 60.0)


def test_the_back_below_the_hooks_leaves_torque_alone() -> None:
    """By lever: a quarter of the way along, three quarters at the near hook."""
    torque, bending = inside(PLATE, Turning(60.0, 400.0), "below the hooks", 50.0)
    assert (torque, bending) == pytest.approx((-300.0, 0.0))
    torque, bending = inside(PLATE, Turning(60.0, 400.0), "below the hooks", 70.0)
    assert (torque, bending) == pytest.approx((100.0, 0.0))


def test_a_pull_bends_a_plate_between_its_hooks_as_a_beam() -> None:
    """8 N in the middle of 160 mm, at the height of the hooks: F l / 4."""
    torque, bending = inside(PLATE, Turning(100.0, 0.0, 0.0, 8.0), "at its feet", 99.999)
    assert bending == pytest.approx(8.0 * 160.0 / 4.0, rel=1e-4)
    assert torque == pytest.approx(-4.0 * 24.0)


def test_bolts_pull_down_what_hooks_do_not_hold_by_weight() -> None:
    """900 N mm on a back 50 mm deep: 18 N, of which 10 N weigh, in the middle of all."""
    plate = HungPlate(SECTION, (20.0, 180.0), (100.0,), 50.0)
    tool = Turning(100.0, 900.0, 10.0)
    assert plate.bolts_n([tool], "under the tool") == pytest.approx(8.0)
    # near one hook that one holds three quarters, and a bolt in the middle gives it half
    aside = Turning(60.0, 900.0, 10.0)
    assert plate.bolts_n([aside], "under the tool") == pytest.approx(2.0 * 0.75 * 8.0)


def test_a_weight_and_a_hand_turn_about_the_bevel() -> None:
    assert Turning.of_weight(Weight(10.0, 30.0, 7.0)) == Turning(7.0, 300.0, 10.0)
    case = LoadCase("", 0.0, 0.0, 10.0, 100.0, 5.0, 20.0, hand_x_mm=9.0)
    found = Turning.of_hand(Tug(1, "drawn", lifted=True, case=case), 40.0)
    assert found == Turning(9.0, 10.0 * 60.0 - 5.0 * 20.0, -5.0, 10.0)
