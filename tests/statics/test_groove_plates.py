"""What plates in the grooves of a back bear.

Sources: equilibrium by hand, and by a linear programme over many places of contact; beams, M = F l
and W = b h2 / 6; a circle of 1.75 mm in shear.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from cleatwright.mounts.printed.rail_back import Hangers, groove_for
from cleatwright.parts.groove_hold import GrooveHold, HookBar
from cleatwright.parts.holder import Seat
from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.parts.tool import GRAVITY_M_S2, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block
from cleatwright.statics.cleat import LoadCase, OwnWeight
from cleatwright.statics.groove_borne import GrooveLoads, all_borne
from cleatwright.statics.groove_plates import (
    hook_mpa,
    plate_mpa,
    row_pulls,
    tongue_forces,
    twist_of,
)
from cleatwright.statics.hand import Hand

# plates of 5 mm with tongues of 24 mm at both ends of a back of 100 mm
GROOVE = replace(
    groove_for(Hangers(24.0, (5.0, 71.0), 100.0), thick_mm=7.05, bedded=True), root_mm=17.0
)
HOLD = GrooveHold(
    groove=GROOVE,
    tongues_mm=(17.0, 83.0),
    tongue_mm=24.0,
    middle_mm=0.0,
    low_mm=-30.0,
    foot_mm=-50.0,
    high_mm=30.0,
    rows_mm=(20.0, -40.0),
    columns_mm=(20.0, 80.0),
    plate_mm=5.0,
    pin_mm=1.75,
    section_mm=20.0,
)
BAR = HookBar(wide_mm=4.0, high_mm=3.0, drop_mm=1.0, lever_mm=3.0)
RESTING = LoadCase("10 N, 60 mm out", 10.0, 600.0)
LOW_PULL = LoadCase("drawn below", 2.0, 0.0, pull_n=10.0, pull_z_mm=-90.0)


def test_the_tongues_of_a_resting_tool_by_hand() -> None:
    """600 Nmm are borne 30 mm below the grooves: 20 N draw the tongues, and 10 N lie on them.

    The shoulder lies at (17 + 8) / 4 = 6.25 mm: s = 10 (1.25 + 4.75) / 6.25 = 9.6 N, and
    u = (10 + 20 + 9.6) / 2 = 19.8 N; the lower flank bears 9.8 N.
    """
    found = tongue_forces(RESTING, HOLD)
    assert (found.up_n, found.out_n, found.moment_nmm) == (10.0, 20.0, 0.0)
    assert found.shoulder_n == pytest.approx(9.6)
    assert (found.upper_n, found.lower_n) == (pytest.approx(19.8), pytest.approx(9.8))
    assert found.neck_mpa(GROOVE) == pytest.approx(20.0 / (48.0 * 8.0))


def test_a_pull_below_is_borne_by_the_necks_by_hand() -> None:
    """10 N at 90 mm below swing the bottom out: 900 Nmm, 6 M / (b h2) = 5400 / (48 64) = 1.76."""
    found = tongue_forces(LOW_PULL, HOLD)
    assert (found.out_n, found.moment_nmm) == (10.0, 900.0)
    assert found.neck_mpa(GROOVE) == pytest.approx(5400.0 / 3072.0 + 10.0 / 384.0)


@given(
    st.floats(0.5, 60.0),
    st.floats(0.0, 6000.0),
    st.floats(0.0, 15.0),
    st.floats(-200.0, 200.0),
    st.floats(0.0, 15.0),
    st.floats(0.0, 120.0),
)
def test_the_forces_on_tongues_are_in_equilibrium(
    weight: float, moment: float, pull: float, at: float, lift: float, out: float
) -> None:
    """Up, out, and moments about the middle of the groove, by the parts of each force.

    The back is pressed on below by N; the tongue bears M on its neck and is drawn by N + F. A
    flank of 45 degrees that would pull bears nothing, and the shoulder takes it.
    """
    case = LoadCase("", weight, moment, pull, at, lift, out)
    found = tongue_forces(case, HOLD)
    turn = moment + pull * at - lift * out
    assert found.up_n == pytest.approx(abs(weight - lift))
    pressed = found.out_n - pull
    assert pressed >= -1e-9
    # 30 mm below
    assert pressed * 30.0 - found.moment_nmm == pytest.approx(turn, abs=1e-6)
    s, u, f = found.shoulder_n, found.upper_n, found.lower_n
    assert min(s, u, f) >= 0.0
    if f > 0.0:
        assert u - f == pytest.approx(found.up_n, abs=1e-9)
        assert u + f - s == pytest.approx(found.out_n, abs=1e-9)


def test_rows_and_plates_of_a_resting_tool_by_hand() -> None:
    """600 + 10 * 5 Nmm about the foot, 70 mm below the upper row: 9.29 N draw it.

    At the grooves they bend the plates by 9.29 * 20 = 185.7 Nmm, and where the back ends, 20 mm
    above the foot, by as much: 6 * 185.7 / (20 * 25) = 2.23 MPa.
    """
    pulls = row_pulls(RESTING, HOLD)
    assert (pulls.upper_n, pulls.lower_n) == (pytest.approx(650.0 / 70.0), 0.0)
    assert pulls.foot_n == pytest.approx(650.0 / 70.0)
    assert plate_mpa(RESTING, HOLD) == pytest.approx(6.0 * 650.0 / 70.0 * 20.0 / 500.0)


def test_plates_are_bent_where_the_back_ends_above_their_foot_by_hand() -> None:
    """A foot 30 mm below the back: 650 / 80 = 8.125 N there, 243.8 Nmm, more than at the grooves.

    A lower row 20 mm below the back, drawn by 1190 / 80 N, bends them by 297.5 Nmm.
    """
    long = replace(HOLD, foot_mm=-60.0)
    assert plate_mpa(RESTING, long) == pytest.approx(6.0 * 8.125 * 30.0 / 500.0)
    low = replace(long, rows_mm=(20.0, -50.0))
    assert plate_mpa(LOW_PULL, low) == pytest.approx(6.0 * 1190.0 / 80.0 * 20.0 / 500.0)


def test_a_pull_below_draws_the_lower_row_about_the_upper_end_by_hand() -> None:
    """10 N 120 mm below the upper end, less 2 N 5 mm before the wall: 1190 / 70 = 17 N."""
    pulls = row_pulls(LOW_PULL, HOLD)
    assert (pulls.upper_n, pulls.lower_n) == (0.0, pytest.approx(17.0))
    assert pulls.high_n == pytest.approx(7.0)


@given(
    st.floats(0.5, 40.0),
    st.floats(0.0, 4000.0),
    st.floats(0.0, 15.0),
    st.floats(-150.0, 150.0),
)
def test_rows_and_the_wall_keep_plates_where_they_are(
    weight: float, moment: float, pull: float, at: float
) -> None:
    """A linear programme over 81 places of contact finds no less to draw the more loaded row.

    The least that the two rows together may bear is what the plates are checked for, or less.
    """
    case = LoadCase("", weight, moment, pull, at)
    pulls = row_pulls(case, HOLD)
    places = np.linspace(HOLD.foot_mm, HOLD.high_mm, 81)
    # unknown: upper, lower, contacts; the rows draw to the wall, contacts push from it
    level = [1.0, 1.0, *(-1.0 for _ in places)]
    about_foot = [
        HOLD.rows_mm[0] - HOLD.foot_mm,
        HOLD.rows_mm[1] - HOLD.foot_mm,
        *(HOLD.foot_mm - z for z in places),
    ]
    wanted = [pull, moment + 5.0 * weight + pull * (at - HOLD.foot_mm)]
    least = linprog(
        [1.0, 1.0, *(0.0 for _ in places)],
        A_eq=[level, about_foot],
        b_eq=wanted,
        method="highs",
    )
    ours = pulls.upper_n + pulls.lower_n
    assert least.fun is not None
    assert ours >= least.fun - 1e-6
    # ours is an equilibrium too
    held = pulls.upper_n + pulls.lower_n - pulls.high_n - pulls.foot_n
    assert held == pytest.approx(pull, abs=1e-6)
    turned = pulls.upper_n * 70.0 + pulls.lower_n * 10.0 - pulls.high_n * 80.0
    assert turned == pytest.approx(wanted[1], abs=1e-6)


def test_the_bar_of_a_hook_by_hand() -> None:
    """Four hooks bear 2.5 N each 3 mm out: 7.5 Nmm; 4.64 N draw each upper one at 2 mm: 9.29.

    6 * 16.79 / (4 * 9) = 2.80 MPa, and 4.64 / 12 = 0.39 more.
    """
    drawn = 650.0 / 70.0 / 2.0
    bent = 2.5 * 3.0 + drawn * 2.0
    assert hook_mpa(RESTING, HOLD, BAR) == pytest.approx(6.0 * bent / 36.0 + drawn / 12.0)


def test_a_knock_turns_two_plates_up_and_down_and_a_single_one_about_its_bolt() -> None:
    """5 N at 300 mm: a couple of 66 mm; of 70 mm to the bolt; of 12 mm, half of the tongue."""
    two = twist_of(5.0, 300.0, HOLD)
    assert two.tongue_n == pytest.approx(2 * 1500.0 / 66.0)
    assert two.hook_n == pytest.approx((1500.0 / 60.0 + 2.5) / 2)
    one = replace(HOLD, tongues_mm=(20.0,), columns_mm=(20.0,))
    bolted = twist_of(5.0, 300.0, replace(one, bolt_mm=-70.0))
    assert (bolted.tongue_n, bolted.bolt_n) == (0.0, pytest.approx(1500.0 / 70.0 + 5.0))
    bare = twist_of(5.0, 300.0, one)
    assert bare.tongue_n == pytest.approx(2.0 * 1500.0 / 12.0)
    # without a second row nothing keeps a single column from turning
    assert math.isinf(twist_of(5.0, 300.0, replace(one, rows_mm=(20.0,))).hook_n)


def _loads(mass_kg: float, *, margin: float = 1.5) -> GrooveLoads:
    box = block(-5.0, -5.0, -60.0, 5.0, 5.0, 20.0)
    tool = ToolBody("box", "x", (box,), mass_kg, (0.0, 0.0, 0.0), (), 1.0)
    seat = Seat(tool, shift(50.0, 60.0, 0.0), (), ())
    return GrooveLoads((seat,), (OwnWeight(0.0, 0.0),), margin, Hand(0.1, 10.0, 10.0), 5.0)


def test_what_is_borne_grows_with_what_hangs_there() -> None:
    hold = replace(HOLD, hook=BAR, screw=ScrewStrength(200.0, 200.0))
    light, heavy = (
        {one.piece: one.share for one in all_borne(_loads(mass), hold)} for mass in (0.2, 3.0)
    )
    assert set(light) >= {"tongue", "back", "lip", "plate", "hook", "hook pin", "screw"}
    for piece in ("hook", "screw", "plate"):
        assert heavy[piece] > light[piece] > 0.0, piece


def test_a_margin_counts_on_weights_and_not_on_a_hand() -> None:
    hold = replace(HOLD, hook=BAR)
    plain, more = (
        {one.piece: one for one in all_borne(_loads(3.0, margin=margin), hold)}
        for margin in (1.0, 3.0)
    )
    assert more["hook"].asked == pytest.approx(3.0 * plain["hook"].asked)
    assert more["hook pin"].asked == plain["hook pin"].asked


def test_a_hand_that_lifts_shears_the_pins_over_the_hooks() -> None:
    """10 N with the tool off and nothing else: 5 N on each of two pins of 2.405 mm2, 2.08 MPa.

    16 MPa in tension while a hand pulls are 16 / 1.732 = 9.24 in shear.
    """
    found = {one.piece: one for one in all_borne(_loads(0.1), replace(HOLD, hook=BAR))}["hook pin"]
    assert found.asked == pytest.approx(5.0 / (math.pi * 1.75**2 / 4.0))
    assert found.allowed == pytest.approx(16.0 / math.sqrt(3.0))
    heavy = {one.piece: one for one in all_borne(_loads(3.0), replace(HOLD, hook=BAR))}["hook pin"]
    assert heavy.asked <= found.asked


def test_a_knock_shears_the_pin_of_a_single_groove_on_both_sides() -> None:
    """5 N 60 mm below the tongue, the bolt 70 mm below it: 5 x 60 / 70 + 5 = 9.29 N.

    The pin crosses both flanks of its groove: 9.29 / (2 x 2.405) = 1.93 MPa.
    """
    one = replace(HOLD, tongues_mm=(17.0,), columns_mm=(17.0,), bolt_mm=-70.0)
    found = {piece.piece: piece for piece in all_borne(_loads(0.1), one)}["groove pin"]
    force = 5.0 * 60.0 / 70.0 + 5.0
    assert found.asked == pytest.approx(force / (2.0 * math.pi * 1.75**2 / 4.0))
    assert found.allowed == pytest.approx(16.0 / math.sqrt(3.0))


def test_a_knock_adds_to_what_all_other_tools_weigh() -> None:
    """Two of 50 g, one of them knocked: a hook bears both weights and the knock at once."""
    plain = replace(_loads(0.05, margin=1.0), hand=Hand(0.0, 0.0, 0.0))
    two, hold = replace(plain, seats=(*plain.seats, *plain.seats)), replace(HOLD, hook=BAR)
    weights = [case.weight_n / GRAVITY_M_S2 for case, _ in two.knocks(hold)]
    assert weights == pytest.approx([0.05, 0.1, 0.05, 0.1])
    hook = {one.piece: one for one in all_borne(two, hold)}["hook"]
    assert hook.case == "tool 1 beside all others, knocked along the wall"


def test_a_screw_bears_its_share_of_weight_and_pull() -> None:
    """1 kg 60 mm out on four screws: 9.81 / 4 N along, and (588 + 49) / 70 / 2 N out of each."""
    hold = replace(HOLD, screw=ScrewStrength(50.0, 1e9, "sum"))
    own = replace(_loads(1.0, margin=1.0), hand=Hand(0.0, 0.0, 0.0), knock_n=0.0)
    found = {one.piece: one for one in all_borne(own, hold)}["screw"]
    out = GRAVITY_M_S2 * (60.0 + 5.0) / 70.0 / 2.0
    assert found.share == pytest.approx(out / 50.0, rel=1e-6)
