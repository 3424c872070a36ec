"""Oracles: equilibrium solved by a general library, closed forms of beams, all subsets tried."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import MeasureError
from cleatwright.base.said import in_mm
from cleatwright.checks.rail_loads import SCREW_RULE, check_rail
from cleatwright.checks.result import CheckResult
from cleatwright.parts.fastening import Fastening
from cleatwright.parts.screw_strength import ScrewLoad, ScrewStrength
from cleatwright.siting.rails.fastening import NO_STUD
from cleatwright.statics.rail import (
    HungLoad,
    RailFixing,
    moment_nmm,
    pull_moment_nmm,
    screw_loads,
    screw_loads_with_each,
    stud_loads,
    stud_shares,
)

RAIL = RailFixing((100.0, 700.0, 1300.0), 70.0, 18.0, (70.0 / 3, 140.0 / 3))
STRONG = ScrewStrength(400.0, 300.0)
# NDS 2018, Table 2.3.2: 0.9 for ever, 1.25 for seven days, 1.6 for ten minutes
IN_STUDS = Fastening(
    "screw", STRONG, SCREW_RULE, "stud", NO_STUD, days=1.25 / 0.9, minutes=1.6 / 0.9
)
LOADS = st.lists(
    st.builds(
        HungLoad,
        name=st.just("a"),
        x_mm=st.floats(-200.0, 1600.0),
        weight_n=st.floats(1.0, 100.0),
        distance_mm=st.floats(0.0, 150.0),
        depth_mm=st.floats(20.0, 200.0),
    ),
    min_size=1,
    max_size=5,
)


def checks(rail: RailFixing, loads: list[HungLoad]) -> tuple[CheckResult, ...]:
    """Return the checks of a rail that ends at its outermost studs."""
    ends = (min(rail.studs_mm, default=0.0), max(rail.studs_mm, default=0.0))
    return check_rail("R1", ends, rail, loads=loads, by=IN_STUDS)


def for_ever(rail: RailFixing, loads: list[HungLoad]) -> CheckResult:
    return checks(rail, loads)[0]


@settings(deadline=None, max_examples=60)
@given(loads=LOADS)
def test_studs_are_in_balance_with_all_weights_and_moments(loads: list[HungLoad]) -> None:
    """Sum of forces and sum of moments about x = 0 are those of the loads."""
    found = stud_loads(RAIL, loads)
    weight = sum(one.weight_n for one in loads)
    assert sum(one.weight_n for one in found) == pytest.approx(weight)
    about = sum(one.weight_n * one.x_mm for one in loads)
    assert sum(one.weight_n * one.x_mm for one in found) == pytest.approx(about, abs=1e-6)
    turning = sum(moment_nmm(one, RAIL) for one in loads)
    assert sum(one.moment_nmm for one in found) == pytest.approx(turning)


def test_a_load_beyond_the_last_stud_is_the_closed_form_of_a_beam_with_overhang() -> None:
    """Statics of a beam on two supports L apart, load a beyond: W (L + a) / L and -W a / L."""
    length, out = 600.0, 150.0
    shares = stud_shares(100.0 - out, (100.0, 100.0 + length))
    assert shares == pytest.approx(((length + out) / length, -out / length))


@settings(deadline=None, max_examples=40)
@given(x=st.floats(-300.0, 1700.0))
def test_a_load_rests_on_the_two_studs_beside_it(x: float) -> None:
    shares = stud_shares(x, RAIL.studs_mm)
    assert sum(shares) == pytest.approx(1.0)
    assert shares[2 if x < 700.0 else 0] == 0.0


def test_two_rows_of_two_screws_share_24_newton_metres_with_90_newtons_at_the_top() -> None:
    """Elastic rule by hand: y 40 and 120 mm, 2 (40^2 + 120^2) = 32 000 mm2, 24 000 x 120 / it."""
    rail = RailFixing((0.0, 600.0), 160.0, 18.0, (40.0, 120.0))
    load = HungLoad("case", 300.0, 240.0, 82.0, 100.0)
    top, low, *_ = screw_loads(rail, [load])
    assert (top.row_mm, low.row_mm) == (120.0, 40.0)
    assert top.withdrawal_n == pytest.approx(90.0)
    assert low.withdrawal_n == pytest.approx(30.0)
    assert top.shear_n == pytest.approx(60.0)


@settings(deadline=None, max_examples=60)
@given(
    weight=st.floats(1.0, 200.0),
    distance=st.floats(0.0, 200.0),
    depth=st.floats(20.0, 300.0),
    pull=st.floats(0.0, 20.0),
    below=st.floats(-50.0, 60.0),
)
def test_the_moment_on_the_rail_is_that_of_two_bodies_in_balance(
    weight: float, distance: float, depth: float, pull: float, below: float
) -> None:
    """Three equations for the bevel's pull H, the foot's push N and the rail's moment M."""
    on_rail = depth <= RAIL.height_mm
    push_arm = RAIL.height_mm - depth if on_rail else 0.0
    assume(weight * distance >= pull * below)
    matrix = np.array([[1.0, -1.0, 0.0], [0.0, depth, 0.0], [-RAIL.height_mm, push_arm, 1.0]])
    right = np.array(
        [pull, weight * distance - pull * below, weight * RAIL.thickness_mm],
    )
    _, _, turning = np.linalg.solve(matrix, right)
    load = HungLoad("a", 0.0, weight, distance, depth, pull, below)
    reached = min(1.0, RAIL.height_mm / depth)
    assume(RAIL.height_mm - below * reached >= 0.0)
    ours = moment_nmm(load, RAIL) + pull_moment_nmm(load, RAIL)
    assert ours == pytest.approx(turning, rel=1e-9, abs=1e-6)


@settings(deadline=None, max_examples=30)
@given(loads=LOADS)
def test_each_screw_bears_the_worst_of_all_choices_of_loads(loads: list[HungLoad]) -> None:
    """Every subset of the loads is tried."""
    chosen = [
        stud_loads(RAIL, some) for n in range(1, len(loads) + 1) for some in combinations(loads, n)
    ]
    squares = sum(y * y for y in RAIL.rows_mm)
    for k, stud in enumerate(RAIL.studs_mm):
        mine = [one for one in screw_loads(RAIL, loads) if one.stud_mm == stud]
        down = max(abs(some[k].weight_n) for some in chosen)
        turning = max(0.0, *(some[k].moment_nmm for some in chosen))
        for one in mine:
            assert one.shear_n == pytest.approx(down / 2, abs=1e-9)
            out = turning * one.row_mm / squares
            assert one.withdrawal_n == pytest.approx(out, abs=1e-9)


@settings(deadline=None, max_examples=30)
@given(loads=LOADS, more=LOADS, studs=st.sampled_from([1, 2, 3]))
def test_with_one_load_more_each_screw_bears_the_worst_of_all_choices_of_loads(
    loads: list[HungLoad], more: list[HungLoad], studs: int
) -> None:
    """As above, with one of several loads beside the others; one stud alone also keeps level."""
    rail = replace(RAIL, studs_mm=RAIL.studs_mm[:studs])
    found = list(screw_loads_with_each(rail, loads, more))
    assert [one for one, _ in found] == more
    for one, screws in found:
        assert screws == screw_loads(rail, [*loads, one])


def test_a_hand_pulls_at_one_holder_at_a_time() -> None:
    """By hand: 10 N at the bevel's height, 70 mm up, over one stud of two rows."""
    loads = [HungLoad(str(n), 100.0, 20.0, 50.0, 60.0, 10.0, 0.0) for n in range(2)]
    still = [HungLoad(str(n), 100.0, 20.0, 50.0, 60.0) for n in range(2)]
    top = RAIL.rows_mm[1]
    extra = 10.0 * 70.0 * top / sum(y * y for y in RAIL.rows_mm) + 10.0 / 2
    pulled, calm = screw_loads(RAIL, loads)[0], screw_loads(RAIL, still)[0]
    assert pulled.withdrawal_n - calm.withdrawal_n == pytest.approx(extra)
    assert pulled.shear_n == calm.shear_n


def test_a_single_stud_also_keeps_the_rail_level() -> None:
    """A couple of forces along the rail at the two rows: 20 N x 300 mm over 70/3 mm."""
    rail = RailFixing((500.0,), 70.0, 18.0, RAIL.rows_mm)
    (top, _) = screw_loads(rail, [HungLoad("a", 800.0, 20.0, 0.0, 60.0)])
    assert top.shear_n == pytest.approx(math.hypot(10.0, 20.0 * 300.0 / (70.0 / 3)))
    alone = RailFixing((500.0,), 70.0, 18.0, (35.0,))
    check = for_ever(alone, [HungLoad("a", 800.0, 20.0, 0.0, 60.0)])
    assert not check.holds


def test_a_rail_without_a_stud_fails_and_says_why() -> None:
    rail = RailFixing((), 70.0, 18.0, RAIL.rows_mm)
    check = for_ever(rail, [HungLoad("a", 0.0, 20.0, 0.0, 60.0)])
    assert not check.holds
    assert math.isinf(check.utilisation)
    assert "plasterboard alone carries nothing" in in_mm(check.note)


def test_the_check_is_that_of_the_screw_used_most() -> None:
    """NDS 12.4-1 written out: (W p) Z / ((W p) cos2 + Z sin2) against the resultant."""
    load = HungLoad("a", 200.0, 120.0, 90.0, 65.0)
    check = for_ever(RAIL, [load])
    share = 5.0 / 6.0
    along = 120.0 * share / 2
    out = 120.0 * (90.0 + 18.0) * share * (140.0 / 3) / ((70.0 / 3) ** 2 + (140.0 / 3) ** 2)
    angle = math.atan2(out, along)
    allowed = 400.0 * 300.0 / (400.0 * math.cos(angle) ** 2 + 300.0 * math.sin(angle) ** 2)
    assert check.demand == pytest.approx(math.hypot(along, out))
    assert check.capacity == pytest.approx(allowed)
    assert "screw at x 100 mm" in in_mm(check.note)
    heavy = HungLoad("a", 200.0, 900.0, 90.0, 65.0)
    assert not for_ever(RAIL, [heavy]).holds


def test_when_the_upper_screw_is_lost_the_lower_one_bears_all_of_its_stud() -> None:
    """By hand: the moment of its stud on 70/3 mm alone, until it is noticed.

    Seven days x 1.25 in place of 0.9 (NDS).
    """
    load = HungLoad("a", 200.0, 20.0, 50.0, 65.0)
    _, lost, _ = checks(RAIL, [load])
    share, low = 5.0 / 6.0, 70.0 / 3
    along, out = 20.0 * share, 20.0 * (50.0 + 18.0) * share / low
    assert lost.demand == pytest.approx(math.hypot(along, out))
    angle = math.atan2(out, along)
    allowed = 400.0 * 300.0 / (400.0 * math.cos(angle) ** 2 + 300.0 * math.sin(angle) ** 2)
    assert lost.capacity == pytest.approx(allowed / 0.9 * 1.25)
    assert "when one of them is lost" in lost.name


def test_of_single_screws_a_lost_one_leaves_its_load_to_the_next_studs() -> None:
    """One row in two studs 600 mm apart: without the left one the right one bears all, level."""
    rail = RailFixing((100.0, 700.0), 70.0, 18.0, (35.0,))
    _, lost, _ = checks(rail, [HungLoad("a", 700.0, 20.0, 0.0, 65.0)])
    assert math.isinf(lost.utilisation) or lost.demand >= 20.0


@pytest.mark.parametrize(("end_x", "name"), [(-200.0, "left"), (1700.0, "right")])
def test_somebody_leans_on_an_end_that_stands_out(end_x: float, name: str) -> None:
    """150 N by the lever rule, 300 or 400 mm beyond a stud; ten minutes x 1.6 (NDS)."""
    ends = (end_x, 1300.0) if name == "left" else (100.0, end_x)
    *_, leant = check_rail("R1", ends, RAIL, loads=[], by=IN_STUDS)
    out_mm = 300.0 if name == "left" else 400.0
    share = (600.0 + out_mm) / 600.0
    along = 150.0 * share / 2
    out = 150.0 * 18.0 * share * (140.0 / 3) / ((70.0 / 3) ** 2 + (140.0 / 3) ** 2)
    assert leant.demand == pytest.approx(math.hypot(along, out))
    angle = math.atan2(out, along)
    both = 400.0 * 300.0 / (400.0 * math.cos(angle) ** 2 + 300.0 * math.sin(angle) ** 2)
    share_used = max(math.hypot(along, out) / both, along / 300.0, out / 400.0)
    assert leant.capacity == pytest.approx(math.hypot(along, out) / share_used / 0.9 * 1.6)
    assert f"150 N on its {name} end" in leant.name


def test_somebody_leans_on_what_stands_out_of_the_wall() -> None:
    """At a stud 150 N more, 120 mm before the rail, on top of the weight itself."""
    load = HungLoad("Shelf", 700.0, 30.0, 120.0, 65.0)
    *_, leant = checks(RAIL, [load])
    out = 180.0 * (120.0 + 18.0) * (140.0 / 3) / ((70.0 / 3) ** 2 + (140.0 / 3) ** 2)
    assert leant.demand == pytest.approx(math.hypot(180.0 / 2, out))
    assert "on Shelf" in leant.name


def test_somebody_leans_on_the_front_and_not_where_the_weight_lies() -> None:
    """Moments about the wall by hand: 30 N at 120 mm, and 150 N at 200 mm before the rail."""
    load = HungLoad("Shelf", 700.0, 30.0, 120.0, 65.0, front_mm=200.0)
    *_, leant = checks(RAIL, [load])
    moment = 30.0 * (120.0 + 18.0) + 150.0 * (200.0 + 18.0)
    out = moment * (140.0 / 3) / ((70.0 / 3) ** 2 + (140.0 / 3) ** 2)
    assert leant.demand == pytest.approx(math.hypot(180.0 / 2, out))
    # a weight that lies before the front is leant on where it lies
    *_, behind = checks(RAIL, [replace(load, front_mm=80.0)])
    *_, alone = checks(RAIL, [replace(load, front_mm=None)])
    assert behind.demand == alone.demand


def test_somebody_leans_on_the_edge_of_a_wide_thing_as_well() -> None:
    """Its middle between two studs, its left edge 60 mm before one: 0.9 of 150 N and half of 30."""
    load = HungLoad("Box", 400.0, 30.0, 120.0, 65.0, edges_mm=(160.0, 640.0))
    *_, leant = checks(RAIL, [load])
    borne = 30.0 * 0.5 + 150.0 * 0.9
    out = borne * (120.0 + 18.0) * (140.0 / 3) / ((70.0 / 3) ** 2 + (140.0 / 3) ** 2)
    assert leant.demand == pytest.approx(math.hypot(borne / 2, out))
    # over a stud the whole of it counts, though neither middle nor edge is there
    *_, over = checks(RAIL, [replace(load, x_mm=600.0, edges_mm=(500.0, 900.0))])
    assert over.demand == pytest.approx(leant.demand / borne * (30.0 * 5.0 / 6.0 + 150.0))


@settings(deadline=None, max_examples=60)
@given(along=st.floats(0.1, 400.0), out=st.floats(0.1, 400.0))
def test_a_pull_out_of_the_wall_never_makes_room_for_more_along_it(
    along: float, out: float
) -> None:
    """NDS 12.4-1 by hand, and never less than each part alone takes of its own strength."""
    load = ScrewLoad(0.0, 40.0, along, out)
    angle = math.atan2(out, along)
    both = 400.0 * 300.0 / (400.0 * math.cos(angle) ** 2 + 300.0 * math.sin(angle) ** 2)
    parts = (math.hypot(along, out) / both, along / 300.0, out / 400.0)
    assert STRONG.share(load) == pytest.approx(max(parts))
    assert STRONG.allowed_n(load) * STRONG.share(load) == pytest.approx(load.resultant_n)


def test_a_screw_of_100_pounds_each_way_carries_70_71_of_both_at_once() -> None:
    """NDS 2018, 12.4-1, a fixture of a public check program; the rule of nails would end at 50."""
    pound = 4.4482216152605
    screw = ScrewStrength(100.0 * pound, 100.0 * pound)
    assert screw.share(ScrewLoad(0.0, 40.0, 70.71 * pound, 70.71 * pound)) == pytest.approx(
        1.0, abs=5e-5
    )
    assert screw.share(ScrewLoad(0.0, 40.0, 50.0 * pound, 50.0 * pound)) == pytest.approx(
        0.707, abs=5e-4
    )


def test_an_empty_rail_asks_nothing_of_its_screws() -> None:
    usual, lost, leant = checks(RAIL, [])
    assert usual.holds
    assert (usual.utilisation, lost.utilisation) == (0.0, 0.0)
    assert leant.demand > 0.0


@pytest.mark.parametrize(
    "make",
    [
        lambda: HungLoad("a", 0.0, 0.0, 10.0, 60.0),
        lambda: HungLoad("a", 0.0, 5.0, 10.0, 0.0),
        lambda: HungLoad("a", math.nan, 5.0, 10.0, 60.0),
        lambda: RailFixing((0.0,), 70.0, 18.0, ()),
        lambda: RailFixing((0.0, 0.0), 70.0, 18.0, (20.0,)),
        lambda: stud_shares(0.0, ()),
    ],
)
def test_numbers_that_are_no_rail_are_refused(make: object) -> None:
    assert callable(make)
    with pytest.raises(MeasureError):
        make()
