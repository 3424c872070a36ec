"""What screws into a rail bear, by hand and by a linear programme over places of contact."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from cleatwright.parts.rail_screws import RailScrews
from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.statics.captured import Section
from cleatwright.statics.cleat import LoadCase
from cleatwright.statics.rail import HungLoad, RailFixing, moment_nmm, pull_moment_nmm
from cleatwright.statics.rail_screw_load import pad_mpa, rail_screw_load

SECTION = Section(-14.0, 67.0, 45.0, 0.0)
STRENGTH = ScrewStrength(100.0, 100.0)


def screws(below_mm: float, count: int = 1) -> RailScrews:
    columns = tuple(10.0 + 20.0 * k for k in range(count))
    return RailScrews(
        columns, below_mm, (5.0, 95.0), STRENGTH, 3.0, 25.0, 7.0, 67.0, 8.0, 49.0, 83.0
    )


def amid(case: LoadCase, screws: RailScrews) -> LoadCase:
    """Return the case with everything in the middle of its screws."""
    middle = sum(screws.columns_mm) / len(screws.columns_mm)
    return replace(
        case,
        along_nmm=case.weight_n * middle,
        skew_nmm2=case.moment_nmm * middle,
        hand_x_mm=middle,
    )


def test_a_tug_above_the_rail_turns_it_about_its_foot() -> None:
    """10 N 20 mm above the bevel and 5 N 40 mm out: X (67 - 32) = 5 * 40 + 10 * 87."""
    case = LoadCase("", 5.0, 200.0, pull_n=10.0, pull_z_mm=6.0)
    row = screws(32.0, 2)
    found = rail_screw_load(amid(case, row), SECTION, row)
    assert found.withdrawal_n == pytest.approx((200.0 + 870.0) / 35.0 / 2.0)
    assert found.shear_n == 2.5


def test_a_tug_far_below_turns_it_about_the_edge_of_the_bevel() -> None:
    """10 N 130 mm below the bevel, blunted by 3 mm: X (32 - 3) = 10 (130 - 3) - 200."""
    case = LoadCase("", 5.0, 200.0, pull_n=10.0, pull_z_mm=-144.0)
    row = screws(32.0)
    found = rail_screw_load(amid(case, row), SECTION, row)
    assert found.withdrawal_n == pytest.approx((1270.0 - 200.0) / 29.0)


def test_a_lift_is_borne_along_the_rail() -> None:
    case = LoadCase("", 2.0, 0.0, lift_n=10.0, lift_y_mm=30.0)
    row = screws(32.0, 2)
    found = rail_screw_load(amid(case, row), SECTION, row)
    assert found.shear_n == 4.0
    assert found.withdrawal_n == pytest.approx(300.0 / 29.0 / 2.0)


def test_a_screw_at_the_foot_bears_nothing_that_turns_about_it() -> None:
    found = rail_screw_load(LoadCase("", 5.0, 200.0), SECTION, screws(67.0))
    assert found.withdrawal_n == math.inf


@given(
    st.floats(0.5, 50.0),
    st.floats(0.0, 5000.0),
    st.floats(0.0, 20.0),
    st.floats(-200.0, 100.0),
    st.floats(0.0, 20.0),
    st.floats(10.0, 60.0),
)
def test_no_less_would_hold_it_anywhere_on_its_face(
    weight: float, moment: float, pull: float, height: float, lift: float, below: float
) -> None:
    """The least X with pushes of the rail on the plate at many depths: forces and moments."""
    case = LoadCase("", weight, moment, pull, height - 14.0, lift, 30.0)
    depths = np.linspace(3.0, 67.0, 65)
    turning = moment + pull * height - lift * 30.0
    best = linprog(
        [1.0] + [0.0] * len(depths),
        A_eq=[[1.0] + [-1.0] * len(depths), [0.01 * below, *(-0.01 * depths)]],
        b_eq=[pull, -0.01 * turning],
        method="highs",
    )
    assert best.fun is not None
    row = screws(below)
    found = rail_screw_load(amid(case, row), SECTION, row)
    assert found.withdrawal_n == pytest.approx(float(best.fun), rel=1e-6, abs=1e-6)


def test_the_screw_beside_the_tool_bears_the_most() -> None:
    """By hand: screws at 10 and 30 mm, 8 N at 15 mm 40 mm out: three quarters on the first one."""
    case = LoadCase("", 8.0, 320.0, along_nmm=120.0, skew_nmm2=4800.0)
    found = rail_screw_load(case, SECTION, screws(32.0, 2))
    assert found.shear_n == pytest.approx(6.0)
    assert found.withdrawal_n == pytest.approx(0.75 * 320.0 / 35.0)


def test_a_tug_beside_a_single_screw_presses_the_other_end_on() -> None:
    """10 N at 40 mm, the screw at 10, the far end at 5 mm: 10 * 35 / 5 at a foot."""
    case = LoadCase("", 0.0, 0.0, pull_n=10.0, pull_z_mm=-46.0, hand_x_mm=40.0)
    found = rail_screw_load(case, SECTION, screws(32.0))
    assert found.withdrawal_n == pytest.approx(70.0)


HUNG = RailScrews((50.0,), 30.0, (5.0, 95.0), STRENGTH, 3.0, 25.0, 7.0, 50.0, 10.0, 49.0, 80.0)
"""A pad whose plate ends 10 mm below the bevel, its screw 20 mm lower, its end 20 mm below that."""


def test_a_pad_bends_beside_its_screw_and_at_the_plate() -> None:
    """400 N mm of weight: X = N = 400 / 20; N 20 at the screw, and N 40 - X 20 at the plate."""
    case = amid(LoadCase("", 10.0, 400.0), HUNG)
    assert pad_mpa(case, SECTION, HUNG) == pytest.approx(20.0 * 20.0 / 49.0)
    solid_rim = replace(HUNG, net_mm3=1e9)
    assert pad_mpa(case, SECTION, solid_rim) == pytest.approx((20.0 * 40.0 - 20.0 * 20.0) / 80.0)


def test_a_pull_at_the_screw_bends_its_pad_at_the_plate_alone() -> None:
    """8 N at the height of the screw, without weight: nothing on the foot."""
    case = amid(LoadCase("", 0.0, 0.0, pull_n=8.0, pull_z_mm=-44.0), HUNG)
    assert pad_mpa(case, SECTION, HUNG) == pytest.approx(8.0 * 20.0 / 80.0)


def test_where_no_pad_hangs_the_head_presses_on_the_plate() -> None:
    """400 / 20 N on the ring of a DIN 7997 head of 5.6 mm about a hole of 3.4 mm, ISO 273."""
    plate = replace(HUNG, plate_mm=50.0, net_mm3=1e9)
    found = pad_mpa(amid(LoadCase("", 10.0, 400.0), plate), SECTION, plate)
    assert found == pytest.approx(20.0 / (math.pi / 4.0 * (5.6**2 - 3.4**2)))


def test_of_several_pads_each_bears_its_part() -> None:
    two = replace(HUNG, columns_mm=(30.0, 70.0))
    case = LoadCase("", 10.0, 400.0)
    one, both = (pad_mpa(amid(case, row), SECTION, row) for row in (HUNG, two))
    assert both == pytest.approx(one / 2.0)


@pytest.mark.parametrize("pull_n", [0.0, 6.0])
@pytest.mark.parametrize("foot_mm", [36.0, 50.0, 67.0])
def test_a_rail_is_turned_as_much_wherever_on_it_the_holder_bears(
    foot_mm: float, pull_n: float
) -> None:
    """X out at the screws, X - F in at the foot, V down its face: the moment is W (e + t) + F f.

    A rail 70 mm high and 18 thick, 10 N at 40 mm, a hand 2 mm above its top: 580 + 6 x 72 N mm.
    """
    held = replace(HUNG, foot_mm=foot_mm)
    case = amid(LoadCase("", 10.0, 400.0, pull_n=pull_n, pull_z_mm=-12.0), held)
    found = rail_screw_load(case, SECTION, held)
    foot_n = found.withdrawal_n - pull_n
    turned = found.withdrawal_n * (70.0 - 30.0) - foot_n * (70.0 - foot_mm) + found.shear_n * 18.0
    assert turned == pytest.approx(580.0 + pull_n * 72.0)
    rail = RailFixing((0.0,), 70.0, 18.0, (35.0,))
    load = HungLoad("", 0.0, 10.0, 40.0, foot_mm, pull_n, -2.0)
    assert moment_nmm(load, rail) + pull_moment_nmm(load, rail) == pytest.approx(turned)
