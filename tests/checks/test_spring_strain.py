"""Arms that bend: closed forms of handbooks and a beam integrated step by step."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from cleatwright.checks.spring_strain import check_springs
from cleatwright.holders.families.spring_clip.clip_plan import ALLOWED, ClipPlan, clip_plan
from cleatwright.parts.hold import SpringArms
from cleatwright.parts.holder import Seat
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import STILL
from cleatwright.shapes.solid import block
from cleatwright.statics.spring_beam import inner_fibre, leg_for, strain, strain_per_mm

ARM = SpringArms(
    thickness_mm=1.8,
    width_mm=12.0,
    mean_radius_mm=15.0,
    arc_deg=90.0,
    deflection_mm=1.0,
    moving=(),
)


def integrated_strain(arms: SpringArms, *, grows: bool = False, steps: int = 40_000) -> float:
    """Return the strain of a clamped arm whose tip is moved aside, bent slice by slice.

    Each slice turns by its moment over its stiffness, and the turns add up to the tip's way
    aside; no energy theorem is used. ``grows`` widens the arm towards the root as it does
    when its lower edge rises at 45 degrees.
    """
    tip, arc = math.radians(arms.tip_deg), math.radians(arms.arc_deg)
    radius, leg = arms.mean_radius_mm, arms.straight_mm
    length = radius * arc + leg
    s = (np.arange(steps) + 0.5) * length / steps
    angle = tip + np.minimum(s / radius, arc)
    on_leg = np.maximum(s - radius * arc, 0.0)
    # x aside, y along the way out, from the centre of the arc; the leg follows its tangent
    x = radius * np.sin(angle) + on_leg * math.cos(tip + arc)
    y = radius * np.cos(angle) - on_leg * math.sin(tip + arc)
    lever = radius * math.cos(tip) - y
    assert x.shape == y.shape
    width = arms.width_mm + (lever if grows else 0.0)
    turn = lever / width * length / steps
    aside = float((turn * lever).sum())
    peak = float((lever / width).max())
    return arms.thickness_mm / 2 * peak / aside * arms.deflection_mm


@pytest.mark.parametrize(("arc", "handbook"), [(90.0, math.pi / 4), (180.0, math.pi / 2)])
def test_quarter_and_half_ring_as_in_handbooks(arc: float, handbook: float) -> None:
    """A ring clamped at one end, pulled radially at the other: F R³ / (E I) times pi/4 or pi/2.

    Roark's formulas for stress and strain, curved beams (from memory).
    """
    arms = replace(ARM, arc_deg=arc)
    expected = 1.8 / 2 / (15.0**2 * handbook) * inner_fibre(arms)
    assert strain_per_mm(arms) == pytest.approx(expected, rel=1e-12)


def test_a_small_arc_is_a_straight_snap_arm() -> None:
    """Makers' guides to snap-fits: y = 2/3 strain L² / t (from memory)."""
    arms = replace(ARM, mean_radius_mm=2000.0, arc_deg=math.degrees(20.0 / 2000.0))
    assert 2 / 3 * strain(arms) * 20.0**2 / 1.8 == pytest.approx(1.0, rel=1e-3)


def test_a_leg_without_an_arc_is_a_straight_snap_arm_too() -> None:
    arms = replace(ARM, arc_deg=1e-6, tip_deg=90.0, straight_mm=25.0)
    assert 2 / 3 * strain(arms) * 25.0**2 / 1.8 == pytest.approx(1.0, rel=1e-6)


def test_the_inner_fibre_of_the_crane_hook() -> None:
    """Shigley, example 3-15: inner 16.9 kpsi of which 5 kpsi/3 is tension, r 2 to 6 in, b 0.75."""
    hook = replace(ARM, thickness_mm=4.0, mean_radius_mm=4.0)
    bending = inner_fibre(hook) * 6 * 20.0 / (0.75 * 4.0**2)
    assert bending + 5.0 / 3.0 == pytest.approx(16.9, abs=0.05)


@settings(deadline=None, max_examples=40)
@given(
    radius=st.floats(4.0, 40.0),
    tip=st.floats(40.0, 90.0),
    arc=st.floats(5.0, 90.0),
    leg=st.floats(0.0, 60.0),
)
def test_the_closed_form_agrees_with_a_beam_bent_slice_by_slice(
    radius: float, tip: float, arc: float, leg: float
) -> None:
    arms = replace(ARM, mean_radius_mm=radius, tip_deg=tip, arc_deg=arc, straight_mm=leg)
    ours, bent = strain(arms), integrated_strain(arms)
    assert bent * 0.999 <= ours <= bent * inner_fibre(arms) * 1.001


@settings(deadline=None, max_examples=30)
@given(diameter=st.floats(6.0, 60.0), bite=st.floats(0.03, 0.08), arm=st.floats(1.35, 2.7))
def test_an_arm_that_widens_to_its_root_is_strained_less(
    diameter: float, bite: float, arm: float
) -> None:
    arms = planned(diameter, bite=bite, arm_mm=arm).spring
    assert integrated_strain(arms, grows=True) < strain(arms) <= ALLOWED * (1 + 1e-9)


def test_the_arc_integral_by_quadrature() -> None:
    tip, root = math.radians(55.0), math.radians(150.0)
    arms = replace(ARM, tip_deg=55.0, arc_deg=95.0)
    energy, _ = quad(lambda a: (math.cos(tip) - math.cos(a)) ** 2, tip, root)
    peak = math.cos(tip) - math.cos(root)
    expected = 0.9 * peak * inner_fibre(arms) / (15.0**2 * energy)
    assert strain_per_mm(arms) == pytest.approx(expected, rel=1e-9)


def planned(diameter: float, *, bite: float = 0.05, arm_mm: float = 1.8) -> ClipPlan:
    return clip_plan(
        diameter,
        diameter + 0.4,
        bite=bite,
        arm_mm=arm_mm,
        clip_mm=12.0,
        behind_mm=diameter / 2 + 1.2,
        plate_mm=5.0,
    )


def test_the_leg_is_as_long_as_the_strain_asks_for_and_no_longer() -> None:
    leg = leg_for(replace(ARM, arc_deg=25.0), allowed=0.004, least_mm=1.0, most_mm=100.0)
    assert strain(replace(ARM, arc_deg=25.0, straight_mm=leg)) == pytest.approx(0.004, rel=1e-9)
    assert leg_for(ARM, allowed=0.5, least_mm=3.0, most_mm=100.0) == 3.0


def seat(arms: SpringArms | None) -> Seat:
    body = ToolBody("rod", "x", (block(0, 0, 0, 1, 1, 1),), 0.1, (0.0, 0.0, 0.5), (), 1.0)
    return Seat(body, STILL, ((0.0, 9.0, 0.0),), (), spring=arms)


def test_the_most_strained_arm_decides_and_brittle_plastic_is_assumed() -> None:
    """PLA 1 %, and 60 % of it for frequent use: 0.6 %."""
    stiff, soft = replace(ARM, straight_mm=0.0), replace(ARM, straight_mm=40.0)
    (result,) = check_springs([seat(soft), seat(None), seat(stiff)])
    assert result.note == "seat 3, taken as PLA, the most brittle of the four"
    assert result.capacity == pytest.approx(0.6)
    assert result.demand == pytest.approx(100 * strain(stiff))
    assert check_springs([seat(None)]) == ()


def test_a_tougher_plastic_bears_what_a_brittle_one_does_not() -> None:
    arms = replace(ARM, deflection_mm=0.009 / strain_per_mm(ARM))
    assert not check_springs([seat(arms)])[0].holds
    assert check_springs([seat(arms)], polymer="PETG")[0].holds


@pytest.mark.parametrize(
    ("diameter", "aside"), [(6.0, 0.35), (7.0, 0.35), (20.0, 1.0), (40.0, 2.0)]
)
def test_an_arm_moves_aside_by_its_share_and_never_by_less_than_printing_scatters(
    diameter: float, aside: float
) -> None:
    """5 % of the body, from 0.35 mm on; the mouth is what is left of it between round tips."""
    arms = planned(diameter).spring
    assert arms.deflection_mm == pytest.approx(aside)
    tips = 2 * arms.mean_radius_mm * math.sin(math.radians(arms.tip_deg)) - arms.thickness_mm
    assert tips == pytest.approx(diameter - 2 * aside)
