"""Does a holder stay on its rail: each check against equilibrium by hand, and each can fail.

Source: moments about the bevel's edge, without friction; the edges blunted by 3 mm.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from cleatwright.checks.rail_hold import Holding, check_rail_hold, least_hold_n, strength_n
from cleatwright.checks.result import CheckResult
from cleatwright.mounts.printed import rail_back
from cleatwright.parts.holder import Hanging, HolderPart, LockScrews, RailHold, Seat
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.hand import Hand

G = 9.80665
LIGHT = OwnWeight(1e-6, 0.0)
HAND = Hand(drag=0.0, pull_n=10.0, lift_n=10.0)
WANTED = Holding(margin=1.5, hand=HAND, knock_n=5.0)
HOLD = RailHold(
    tip_mm=14.5,
    hangers_mm=((5.0, 29.0), (71.0, 95.0)),
    wide_mm=(0.0, 100.0),
    back_mm=20.0,
    feet_mm=((41.0, 59.0),),
    bolts_mm=(50.0,),
    bolt_years_n=100.0,
    bolt_hand_n=200.0,
    play_mm=1.0,
    under_mm=7.0,
    rail_mm=70.0,
    rail_off_mm=0.5,
    groove=rail_back.groove_for(rail_back.hangers_for(100.0), thick_mm=7.0, bedded=True),
    plate_mm=5.0,
)
HANGING = Hanging("french-cleat", True, 0.0, 67.0, 45.0, 18.0, hold=HOLD)  # noqa: FBT003 - a record


def part(
    mass_kg: float = 1.0, out_mm: float = 30.0, *, rest_z_mm: float = 0.0, x_mm: float = 50.0
) -> HolderPart:
    """Return a holder 100 mm wide with a thin tool 20 mm high about its seat."""
    solid = block(-0.5, -0.5, -10.0, 0.5, 0.5, 10.0)
    tool = ToolBody("rod", "x", (solid,), mass_kg, (0.0, 0.0, 0.0), (), 1.0)
    seat = Seat(tool, shift(x_mm, out_mm, rest_z_mm), (), (), rest_z_mm=rest_z_mm)
    return HolderPart(
        family="test",
        leading="1",
        solid=solid,
        seats=(seat,),
        genus=0,
        bounds_mm=((0.0, 0.0, -80.0), (100.0, 60.0, 0.0)),
        min_wall_mm=3.0,
        mark_places=(),
        hanging=HANGING,
        hardware=(),
    )


def check(one: HolderPart, start: str, wanted: Holding = WANTED) -> CheckResult:
    (found,) = [c for c in check_rail_hold(one, LIGHT, wanted) if c.name.startswith(start)]
    return found


@pytest.mark.parametrize("margin", [1.0, 1.5, 3.0])
def test_weights_ask_for_the_force_of_years_times_the_margin(margin: float) -> None:
    """1 kg 90 mm out: N d = M + 3 q (1 + t2), N = q t, q = W + S: S = 90 W / (67 - 6) - W."""
    far = part(1.0, 90.0)
    found = check(far, "stays hooked", Holding(margin, HAND, 5.0))
    assert found.demand == pytest.approx(margin * G * (90.0 / 61.0 - 1.0), rel=1e-4)
    assert found.capacity == 100.0
    assert found.note == "tool 1 alone" or found.note.startswith(("all", "tool 1"))


def test_a_lift_takes_hold_of_the_holder_where_the_tool_was() -> None:
    """10 N up, 30 mm out, on nothing: S = 10 + q, and it turns the plate back by 300 Nmm.

    N 3 = q (2 * 14.5) - 300 - 3 S with N = q: 26 q = 300 + 3 (10 + q), so that S = 10 + 330 / 23.
    """
    found = check(part(1.0, 30.0), "stays on its rail when a hand")
    assert found.capacity == 200.0
    assert found.demand == pytest.approx(10.0 + 330.0 / 23.0, rel=1e-4)


def test_the_demand_of_a_hand_is_the_worst_of_its_cases() -> None:
    """With a lift of nothing only the pull to the front is left."""
    still = Holding(1.5, Hand(0.0, 10.0, 0.0), 5.0)
    found = check(part(1.0, 30.0), "stays on its rail when a hand", still)
    oblique = 10.0 * 0.5**0.5 * 67.0 / 61.0
    assert found.demand == pytest.approx(
        max((30.0 * G + 10.0 * 67.0) / 61.0 - G, oblique), rel=1e-4
    )


def test_a_pull_beyond_what_the_bolts_bear_takes_it_off() -> None:
    """At the bevel: F 67 = q 61 - 30 W with q = W + 200; more than q t would never be held."""
    q = G + 200.0
    found = check(part(1.0, 30.0), "a pull to the front")
    assert found.demand == 10.0
    assert found.capacity == pytest.approx(min(q, (61.0 * q - 30.0 * G) / 67.0), rel=1e-4)
    least = least_hold_n(part(1.0, 30.0), LIGHT, HAND)
    assert least is not None
    assert least[0] == pytest.approx(found.capacity)


@pytest.mark.parametrize("knock_n", [5.0, 20.0])
def test_a_knock_turns_it_about_the_end_of_its_hooks(knock_n: float) -> None:
    """100 mm below the bevel, the far end 110: against the weight and one bolt at 45 mm."""
    low = part(0.1, 30.0, rest_z_mm=-100.0, x_mm=60.0)
    found = check(low, "stays on its rail when a tool", Holding(1.5, HAND, knock_n))
    expected = (knock_n * 110.0 - 0.1 * G * 35.0) / 45.0
    assert found.demand == pytest.approx(expected, rel=1e-4)
    assert found.capacity == 200.0


def test_no_knock_is_asked_for_and_none_is_checked() -> None:
    names = [c.name for c in check_rail_hold(part(), LIGHT, Holding(1.5, HAND, 0.0))]
    assert not any("knocked" in name for name in names)


def test_the_heaviest_knock_of_all_tools_counts() -> None:
    low, high = part(0.1, rest_z_mm=-100.0), part(0.1, rest_z_mm=-20.0)
    both = replace(low, seats=(*high.seats, *low.seats))
    assert check(both, "stays on its rail when a tool").demand == pytest.approx(
        check(low, "stays on its rail when a tool").demand
    )


def test_the_own_weight_lies_in_the_middle_for_a_knock() -> None:
    """2 kg of its own at 50 mm, 45 mm from the nearer end: 5 N 110 mm below against it."""
    low = part(0.1, 30.0, rest_z_mm=-100.0, x_mm=50.0)
    wide = replace(low, bounds_mm=((0.0, 0.0, -80.0), (100.0, 60.0, 0.0)))
    (found,) = [
        c
        for c in check_rail_hold(wide, OwnWeight(0.5, 10.0, 50.0), WANTED)
        if c.name.startswith("stays on its rail when a tool")
    ]
    assert found.demand == pytest.approx((550.0 - 0.6 * G * 45.0) / 45.0)


@pytest.mark.parametrize(("play_mm", "holds"), [(1.83, True), (1.86, False)])
def test_play_beyond_nine_tenths_of_what_the_hook_must_rise_does_not_capture(
    play_mm: float, holds: bool
) -> None:
    """U (tip (1 + t2) - u) / H by hand: 7 (29 - 7) / 75, of which nine tenths are 1.848."""
    shaky = replace(HOLD, play_mm=play_mm, rail_mm=75.0)
    one = replace(part(), hanging=replace(HANGING, hold=shaky))
    assert check(one, "cannot leave").holds is holds


def test_screws_into_the_wall_keep_it_down_as_bolts_do() -> None:
    lock = LockScrews(columns_mm=(20.0, 80.0), along_n=300.0, z_mm=-80.0)
    locked = replace(
        part(0.1, 30.0, rest_z_mm=-100.0),
        hanging=replace(HANGING, lock=lock, hold=replace(HOLD, bolts_mm=())),
    )
    assert strength_n(locked) == (300.0, 300.0)
    names = [c.name for c in check_rail_hold(locked, LIGHT, WANTED)]
    assert not any(name.startswith("cannot leave") for name in names)
    knock = check(locked, "stays on its rail when a tool")
    assert knock.capacity == 300.0
    # two screws 15 and 75 mm from the end share the turn as their distances
    expected = (550.0 - 0.1 * G * 45.0) * 75.0 / (15.0**2 + 75.0**2)
    assert knock.demand == pytest.approx(expected, rel=1e-4)


def test_two_bolts_hold_an_end_better_than_a_single_one() -> None:
    """10 N up, 5 mm out; by a bolt at 50 mm and the far hook at 83 mm 10 * 66 / 33 at least."""
    feet = ((16.0, 34.0), (66.0, 84.0))
    hold = replace(HOLD, bolts_mm=(25.0, 75.0), feet_mm=feet)
    two, one = replace(HANGING, hold=hold), HANGING

    def asked(hanging: Hanging, x_mm: float) -> float:
        there = replace(part(1.0, 5.0, x_mm=x_mm), hanging=hanging)
        return check(there, "stays on its rail when a hand").demand

    assert strength_n(replace(part(), hanging=two)) == (100.0, 200.0)
    assert asked(two, 50.0) == pytest.approx(asked(one, 50.0) / 2.0)
    # beside a lift both bear more, and less than a single one in the middle
    assert asked(two, 50.0) < asked(two, 25.0) < asked(one, 25.0)
    # a single bolt in the middle holds one end by a lever
    assert asked(one, 17.0) >= 20.0 > 1.3 * asked(one, 50.0)


def test_without_hangers_nothing_is_asked() -> None:
    loose = replace(part(), hanging=replace(HANGING, hold=None))
    assert strength_n(loose) == (0.0, 0.0)
    assert check_rail_hold(loose, LIGHT, WANTED) == ()
    assert least_hold_n(loose, LIGHT, HAND) is None


@pytest.mark.parametrize("start", ["stays hooked", "stays on its rail when a hand", "a pull to"])
def test_each_fails_where_bolts_bear_nothing(start: str) -> None:
    weak = replace(HOLD, bolt_years_n=0.0, bolt_hand_n=0.0)
    one = replace(part(1.0, 90.0), hanging=replace(HANGING, hold=weak))
    assert not check(one, start).holds
    assert check(part(1.0, 90.0), start).holds


def test_a_pull_that_only_presses_it_home_has_no_end() -> None:
    """Level with the foot, below 3 mm: no lever to turn it, and the bevel gives q t at most."""
    found = check(part(50.0, 30.0, rest_z_mm=-67.0), "a pull to the front")
    assert math.isfinite(found.capacity)
    assert found.holds
