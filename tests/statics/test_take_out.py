"""What a hand opposes and where it pulls: springs by energy and by vectors, hooks by all contacts.

Sources: conservation of energy, Coulomb friction and the beam with a width that grows (closed
forms); equilibrium with every admissible contact force, solved by a general linear programme.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from cleatwright.base.said import in_mm
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.cleat_stability import check_cleat, least_pull_n
from cleatwright.holders.families.spring_clip.clip_plan import clip_plan
from cleatwright.parts.hold import MagnetPull, SpringArms
from cleatwright.parts.holder import Hanging, HolderPart, LockScrews, Seat, front_mark
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block
from cleatwright.standards.materials.spring_plastic import spring_plastic
from cleatwright.statics.cleat import LoadCase, OwnWeight, load_cases, lock_n, tug_n
from cleatwright.statics.hand import Hand
from cleatwright.statics.spring_beam import compliance_mm_per_n
from cleatwright.statics.spring_force import drawn_out_n
from cleatwright.statics.take_out import grip_z_mm, resists, take_out_n

STANDARD_GRAVITY = 9.80665
# DIN 33402, EN 547-3: breadth of a hand, 95th percentile (from memory)
HAND_MM = 97.0
HERE = Source("by hand", "", Evidence.DERIVED)
ARM = SpringArms(
    thickness_mm=1.8,
    width_mm=12.0,
    mean_radius_mm=15.0,
    arc_deg=30.0,
    deflection_mm=1.2,
    moving=(),
    tip_deg=60.0,
    straight_mm=20.0,
)
PULLS = st.floats(0.2, 30.0)


def clip(diameter_mm: float, *, material: str = "PLA") -> SpringArms:
    return clip_plan(
        diameter_mm,
        diameter_mm + 0.4,
        undercut_share=0.05,
        arm_mm=1.8,
        clip_mm=12.0,
        behind_mm=diameter_mm / 2 + 1.0,
        plate_mm=5.0,
        plastic=spring_plastic(material),
    ).spring


def test_a_straight_arm_that_widens_at_45_degrees_bends_by_the_closed_form() -> None:
    """The integral of s² / (w + s) from 0 to L is L²/2 - w L + w² ln(1 + L / w)."""
    wide, long = 12.0, 25.0
    arms = replace(ARM, arc_deg=1e-6, tip_deg=90.0, straight_mm=long)
    closed = long**2 / 2 - wide * long + wide**2 * math.log(1 + long / wide)
    expected = 12.0 * closed / (2000.0 * 1.8**3)
    assert compliance_mm_per_n(arms, modulus_mpa=2000.0) == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize("diameter", [6.0, 10.5, 25.0, 60.0])
def test_without_friction_the_pull_is_the_slope_of_the_energy_in_both_arms(
    diameter: float,
) -> None:
    """Both arms store k a² while the body's centre is y before their tips; the pull is -d/dy."""
    arms = clip(diameter)
    stiff = 1.0 / compliance_mm_per_n(arms, modulus_mpa=2000.0)
    rest = arms.mean_radius_mm * math.sin(math.radians(arms.tip_deg))
    touch = diameter / 2 + arms.thickness_mm / 2
    y = np.linspace(0.0, math.sqrt(touch**2 - rest**2), 20_001)
    energy = stiff * (np.sqrt(touch**2 - y**2) - rest) ** 2
    steepest = float(np.max(-np.gradient(energy, y)))
    assert drawn_out_n(arms, modulus_mpa=2000.0, friction=0.0) == pytest.approx(steepest, rel=1e-3)


@pytest.mark.parametrize("friction", [0.15, 0.3, 0.5])
def test_friction_adds_what_the_vectors_of_the_two_contacts_add(friction: float) -> None:
    """Each arm pushes with N along the line of centres and friction N against the motion."""
    arms, best = clip(14.5), 0.0
    stiff = 1.0 / compliance_mm_per_n(arms, modulus_mpa=3500.0)
    rest = arms.mean_radius_mm * math.sin(math.radians(arms.tip_deg))
    touch = 14.5 / 2 + arms.thickness_mm / 2
    for y in np.linspace(0.0, math.sqrt(touch**2 - rest**2), 4001):
        x = math.sqrt(touch**2 - y**2)
        away, along = np.array((-x, -y)) / touch, np.array((y, -x)) / touch
        push = away + friction * along
        normal = stiff * (x - rest) / -push[0]
        best = max(best, 2.0 * normal * -push[1])
    assert drawn_out_n(arms, modulus_mpa=3500.0, friction=friction) == pytest.approx(best, rel=1e-3)


def tool(high_mm: float, *, mass_kg: float = 0.2) -> ToolBody:
    solid = block(-8.0, -8.0, 0.0, 8.0, 8.0, high_mm)
    return ToolBody("rod", "x", (solid,), mass_kg, (0.0, 0.0, high_mm / 2), (), 1.0)


def hung(seat: Seat, *, depth_mm: float, lock: LockScrews | None = None) -> HolderPart:
    """Return a holder whose bevel is at z = -12 and whose seat is at z = 0."""
    solid = block(0.0, 0.0, -10.0, 50.0, 60.0, 0.0)
    return HolderPart(
        family="test",
        leading="1",
        solid=solid,
        seats=(seat,),
        genus=0,
        bounds_mm=((0.0, 0.0, -10.0), (50.0, 60.0, 0.0)),
        min_wall_mm=3.0,
        mark_places=(front_mark(0.0, 50.0, z0=-10.0, z1=0.0, y_mm=60.0),),
        hanging=Hanging("french-cleat", True, -12.0, depth_mm, 45.0, 18.0, lock),  # noqa: FBT003 - a record
        hardware=(),
    )


def most_pull_n(case: LoadCase, *, depth_mm: float, bevel_deg: float) -> float:
    """Return the most that a hand may pull with contact forces at bevel, face and foot.

    Unknown are the push of the bevel along its normal, that of the rail's face beside it, that
    of the wall at the foot, and the pull; every contact can only push.
    """
    t, d = math.radians(bevel_deg), -case.pull_z_mm
    found = linprog(
        [0.0, 0.0, 0.0, -1.0],
        A_eq=[
            [math.cos(t), 0.0, 0.0, 0.0],
            [math.sin(t), -1.0, -1.0, -1.0],
            [0.0, 0.0, depth_mm, d],
        ],
        b_eq=[case.weight_n, 0.0, case.moment_nmm],
        bounds=[(0.0, None)] * 4,
    )
    assert found.x is not None
    return float(found.x[3])


@settings(deadline=None, max_examples=60)
@given(
    bevel=st.floats(30.0, 60.0),
    weight=st.floats(0.2, 40.0),
    out=st.floats(5.0, 80.0),
    above=st.floats(0.0, 600.0),
    spare=st.floats(1.05, 4.0),
)
def test_a_pull_above_the_rail_unhooks_where_no_contact_forces_balance_it(
    bevel: float, weight: float, out: float, above: float, spare: float
) -> None:
    depth = spare * out / math.tan(math.radians(bevel))
    case = LoadCase("", weight, weight * out, 0.0, above)
    ours = tug_n(case, contact_z_mm=0.0, depth_mm=depth, bevel_deg=bevel)
    assert ours == pytest.approx(most_pull_n(case, depth_mm=depth, bevel_deg=bevel), rel=1e-6)


@settings(deadline=None, max_examples=60)
@given(pull=PULLS, above=st.floats(0.0, 300.0), weight=st.floats(0.2, 10.0))
def test_screws_keep_a_hook_down_with_the_least_force_that_lets_contacts_balance(
    pull: float, above: float, weight: float
) -> None:
    """The same contacts, and a force down along the wall: the least of it by linear programme."""
    depth, out, t = 90.0, 30.0, math.radians(45.0)
    case = LoadCase("", weight, weight * out, pull, above)
    found = linprog(
        [0.0, 0.0, 0.0, 1.0],
        A_eq=[
            [math.cos(t), 0.0, 0.0, -1.0],
            [math.sin(t), -1.0, -1.0, 0.0],
            [0.0, 0.0, depth, 0.0],
        ],
        b_eq=[weight, pull, weight * out + pull * above],
        bounds=[(0.0, None)] * 4,
    )
    assert found.x is not None
    ours = lock_n(case, contact_z_mm=0.0, depth_mm=depth, bevel_deg=45.0)
    assert ours == pytest.approx(float(found.x[3]), abs=1e-6)


def test_a_hand_holds_a_tall_tool_at_its_top_and_a_short_one_in_its_middle() -> None:
    tall, short = (Seat(tool(high), shift(0.0, 40.0, 7.0), (), ()) for high in (300.0, 44.0))
    assert grip_z_mm(tall) == pytest.approx(307.0 - HAND_MM / 2)
    assert grip_z_mm(short) == pytest.approx(29.0)


def test_the_check_tells_the_pull_at_the_top_of_a_tool_and_how_high_that_is() -> None:
    """A tool 300 mm high, 30 mm out, on 60 mm of depth: all contacts by linear programme."""
    seat = Seat(tool(300.0), shift(25.0, 30.0), (), ())
    checks = check_cleat(
        hung(seat, depth_mm=60.0), OwnWeight(0.0, 0.0), margin=1.0, hand=Hand(0.1, 0.0, 0.0)
    )
    (told,) = [one for one in checks if "unhooks" in one.name]
    above = 300.0 - HAND_MM / 2 + 12.0
    weight = 0.2 * STANDARD_GRAVITY
    case = LoadCase("", weight, weight * 30.0, 0.0, above)
    assert told.capacity == pytest.approx(
        most_pull_n(case, depth_mm=60.0, bevel_deg=45.0), rel=1e-6
    )
    assert told.demand == pytest.approx(0.1 * weight)
    assert f"{above:.0f} mm above the top of the rail" in in_mm(told.note)


def test_the_least_pull_of_all_tools_is_told_beside_the_one_that_is_used_most() -> None:
    """Two tools of one height, the second ten times as heavy: both contacts by linear programme.

    The heavy one asks most by its weight; alone on the holder the light one is unhooked first.
    """
    light = Seat(replace(tool(300.0), mass_kg=0.02), shift(25.0, 30.0), (), ())
    heavy = Seat(tool(300.0), shift(75.0, 30.0), (), ())
    own = OwnWeight(0.0, 0.0)
    part = replace(hung(light, depth_mm=60.0), seats=(light, heavy))
    (told,) = [
        one
        for one in check_cleat(part, own, margin=1.0, hand=Hand(0.1, 0.0, 0.0))
        if "unhooks" in one.name
    ]
    weight = 0.02 * STANDARD_GRAVITY
    above = 300.0 - HAND_MM / 2 + 12.0
    case = LoadCase("", weight, weight * 30.0, 0.0, above)
    least = most_pull_n(case, depth_mm=60.0, bevel_deg=45.0)
    assert least_pull_n(part, own) == pytest.approx(least, rel=1e-6)
    assert f"the least of all pulls is {least:.1f} N, tool 1 alone, drawn out" in told.note
    assert "while the tools rest in it" in told.note


@pytest.mark.parametrize(("most", "expected"), [(0.0, 4.0), (9.0, 9.0)])
def test_a_magnet_opposes_at_least_what_is_relied_on(most: float, expected: float) -> None:
    pull = MagnetPull(4.0, 0.2, HERE, most_n=most)
    seat = Seat(tool(100.0), shift(0.0, 30.0), (), (), magnet=pull)
    assert resists(seat)
    assert take_out_n(seat) == expected


def test_a_pull_at_springs_is_a_load_unless_screws_bear_it() -> None:
    seat = Seat(tool(50.0), shift(0.0, 30.0), (), (), spring=clip(14.5))
    assert resists(seat)
    pulls = {
        sprung: max(
            case.pull_n
            for case in load_cases((seat,), OwnWeight(0.1, 9.0), drag=0.1, sprung=sprung)
        )
        for sprung in (True, False)
    }
    assert pulls[False] == pytest.approx(0.1 * 0.2 * STANDARD_GRAVITY)
    # the stiffest plastic for printing, PLA of 3500 N/mm2 (Processes 2025, 13(9), 2733)
    assert pulls[True] >= drawn_out_n(clip(14.5), modulus_mpa=3500.0, friction=0.3)


def test_too_weak_lock_screws_are_told_with_the_pull_that_asks_for_them() -> None:
    seat = Seat(tool(100.0), shift(0.0, 30.0), (), (), magnet=MagnetPull(8.0, 0.2, HERE))
    weight, above = 0.2 * STANDARD_GRAVITY, 100.0 - HAND_MM / 2 + 12.0
    # by hand: the hook holds N + F = (W e + F a) / h + F, of which the bevel gives W
    asked = (weight * 30.0 + 8.0 * above) / 90.0 + 8.0 - weight
    for along, holds in ((asked / 2 * 1.01, True), (asked / 2 * 0.99, False)):
        locked = hung(seat, depth_mm=90.0, lock=LockScrews((20.0, 60.0), along, -80.0))
        checks = check_cleat(locked, OwnWeight(0.0, 0.0), margin=1.0, hand=Hand(0.1, 0.0, 0.0))
        (told,) = [one for one in checks if one.name == "screws keep the hook down"]
        assert told.demand == pytest.approx(asked / 2)
        assert told.holds is holds
        assert "8.0 N" in told.note
        # and the stand without them is asked for what is lifted only
        assert all(one.holds for one in checks if one is not told)


@settings(deadline=None, max_examples=30)
@given(mass=st.floats(0.05, 2.0), high=st.floats(30.0, 400.0))
def test_the_highest_pull_is_among_the_cases(mass: float, high: float) -> None:
    assume(high > 0.0)
    seat = Seat(tool(high, mass_kg=mass), shift(0.0, 30.0), (), ())
    heights = {c.pull_z_mm for c in load_cases((seat,), OwnWeight(0.0, 0.0), drag=0.1) if c.pull_n}
    assert max(heights) == pytest.approx(high - min(HAND_MM, high) / 2)
    assert min(heights) == 0.0


def test_a_pull_half_way_down_counts_half_and_one_at_the_foot_presses_home() -> None:
    """Moments about the bevel: N depth = W e - F d. Half way down F gives back half of itself.

    W tan t = N + F, so that F (1 - d / depth) = W tan t - W e / depth: 10 - 3 N over a half.
    """
    hold = {"contact_z_mm": 0.0, "depth_mm": 100.0, "bevel_deg": 45.0}
    half = LoadCase("", 10.0, 300.0, 1.0, pull_z_mm=-50.0)
    assert tug_n(half, **hold) == pytest.approx(7.0 / 0.5)
    foot = LoadCase("", 10.0, 300.0, 1.0, pull_z_mm=-100.0)
    assert tug_n(foot, **hold) == math.inf


def test_a_pull_that_swings_the_foot_off_asks_the_hook_for_itself_alone() -> None:
    """No face draws the foot to the wall: the hook holds F and no less, however low it is."""
    low = LoadCase("", 4.0, 40.0, 30.0, pull_z_mm=-200.0)
    asked = lock_n(low, contact_z_mm=0.0, depth_mm=100.0, bevel_deg=45.0)
    assert asked == pytest.approx(30.0 - 4.0)
