"""Rails on anchors: tension and shear by hand, their shares added up, and what nobody knows.

Hand case: a rail 70 mm high and 18 mm thick with one line of anchors in its middle, at x 0, 400
and 800; 40 N at x 100, 60 mm before its face, bear on the rail. The first anchor has 0.75 of it:
30 N along the wall, and 0.75 x 40 x (60 + 18) = 2340 Nmm on a lever of 35 mm, 66.857 N.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.source import Evidence, Source
from cleatwright.checks.rail_loads import LEAN_N, check_rail, rail_demand
from cleatwright.checks.result import CheckResult
from cleatwright.parts.fastening import Fastening
from cleatwright.parts.screw_strength import ScrewLoad, ScrewStrength
from cleatwright.statics.rail import HungLoad, RailFixing, screw_loads

RULE = Source("a test", "", Evidence.CHOICE)
FIXING = RailFixing((0.0, 400.0, 800.0), 70.0, 18.0, (35.0,))
LOAD = HungLoad("a", 100.0, 40.0, 60.0, 60.0)
ENDS = (-60.0, 860.0)
# the shares of the first anchor by hand: 66.857 / 300 and 30 / 200
PLUG = ScrewStrength(300.0, 200.0, "sum")
BY_HAND = 66.857 / 300.0 + 30.0 / 200.0


def by(strength: ScrewStrength | None) -> Fastening:
    return Fastening("anchor", strength, RULE, "place", "no room", "look it up")


def checked(fixing: RailFixing, strength: ScrewStrength | None) -> tuple[CheckResult, ...]:
    return check_rail("R1", ENDS, fixing, loads=[LOAD], by=by(strength))


def test_the_shares_of_tension_and_shear_add_up() -> None:
    usual, *_ = checked(FIXING, PLUG)
    assert usual.utilisation == pytest.approx(BY_HAND, rel=1e-4)
    assert usual.demand == pytest.approx(math.hypot(66.857, 30.0), rel=1e-4)
    assert usual.unit == "N on one anchor"


def test_an_anchor_bears_no_more_for_ten_minutes_than_for_ever() -> None:
    """By hand at the left end, 60 mm out: 1.15 x 150 N along the wall, the moment of 0 mm + 18."""
    *_, leant = checked(FIXING, PLUG)
    along = 30.0 + LEAN_N * (1.0 + 60.0 / 400.0)
    out = 66.857 + LEAN_N * 1.15 * 18.0 / 35.0
    on_it = 30.0 + LEAN_N * 0.75, 66.857 + LEAN_N * 0.75 * 78.0 / 35.0
    worst = max(out / 300.0 + along / 200.0, on_it[1] / 300.0 + on_it[0] / 200.0)
    assert leant.utilisation == pytest.approx(worst, rel=1e-4)


def test_with_one_of_three_anchors_lost_its_neighbour_bears_all() -> None:
    """By hand: the first one lost, 40 N at x 100 hang 300 mm beyond the one at 400: 1.75 of it."""
    without = checked(FIXING, PLUG)[1]
    assert "is lost" in without.name
    along, out = 40.0 * 1.75, 40.0 * 78.0 * 1.75 / 35.0
    assert without.utilisation == pytest.approx(along / 200.0 + out / 300.0, rel=1e-4)


def test_two_anchors_in_a_line_do_not_do_when_one_is_lost() -> None:
    two = RailFixing((0.0, 400.0), 70.0, 18.0, (35.0,))
    usual, without, leant = checked(two, ScrewStrength(9_000.0, 9_000.0, "sum"))
    assert usual.holds
    assert leant.holds
    assert not without.holds
    assert "long enough for three" in without.note
    # what is said of it is a number all the same
    assert math.isfinite(rail_demand(ENDS, two, [LOAD]).withdrawal_n)


def test_what_nobody_knows_does_not_hold_and_says_what_each_must_bear() -> None:
    (only,) = checked(FIXING, None)
    demand = rail_demand(ENDS, FIXING, [LOAD])
    assert only.is_open
    assert not only.holds
    assert only.utilisation == math.inf
    assert f"{demand.withdrawal_n:.0f} N out of the wall" in only.sentence
    assert f"{demand.shear_n:.0f} N along" in only.sentence
    assert "look it up" in only.sentence
    assert "it is not known whether they do" in only.sentence


def test_an_open_check_of_nothing_does_not_hold_either() -> None:
    assert not CheckResult("a", 0.0, 0.0, "N", RULE, is_open=True).holds


@settings(deadline=None, max_examples=40)
@given(
    st.lists(st.floats(0.0, 800.0), min_size=1, max_size=4),
    st.floats(1.0, 80.0),
    st.floats(0.0, 120.0),
)
def test_an_anchor_of_what_is_demanded_twice_over_holds_every_case(
    places: list[float], weight: float, out: float
) -> None:
    """Shares of half each add up to 1 at the most: the demand is the most of every case."""
    loads = [HungLoad(f"{n}", x, weight, out, 60.0, 10.0) for n, x in enumerate(places)]
    demand = rail_demand(ENDS, FIXING, loads)
    enough = ScrewStrength(2.0 * demand.withdrawal_n, 2.0 * demand.shear_n, "sum")
    assert all(one.holds for one in check_rail("R1", ENDS, FIXING, loads=loads, by=by(enough)))
    usual = screw_loads(FIXING, loads)
    assert demand.withdrawal_n >= max(one.withdrawal_n for one in usual)


@settings(deadline=None, max_examples=60)
@given(st.floats(0.0, 500.0), st.floats(0.0, 500.0), st.floats(10.0, 900.0), st.floats(10.0, 900.0))
def test_adding_shares_up_is_the_safest_of_the_rules(
    shear: float, out: float, most_out: float, most_along: float
) -> None:
    """X + y >= sqrt(x2 + y2) >= max(x, y), and each grows with the load in proportion."""
    load = ScrewLoad(0.0, 0.0, shear, out)
    twice = ScrewLoad(0.0, 0.0, 2.0 * shear, 2.0 * out)
    added, squared = (
        ScrewStrength(most_out, most_along, rule).share(load) for rule in ("sum", "sum of squares")
    )
    assert added + 1e-12 >= squared >= max(shear / most_along, out / most_out) - 1e-12
    assert ScrewStrength(most_out, most_along, "sum").share(twice) == pytest.approx(2 * added)
