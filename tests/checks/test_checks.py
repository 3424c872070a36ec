"""Checks: each one can fail, and says by how much."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from cleatwright.base.source import Evidence, Source
from cleatwright.checks.cleat_stability import check_cleat
from cleatwright.checks.joint_interfaces import check_joint_interfaces
from cleatwright.checks.part import check_part
from cleatwright.checks.result import CheckResult
from cleatwright.checks.way_out import SeatTrial, check_seats
from cleatwright.parts.holder import Hanging, HolderPart, Seat, front_mark
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.facts import BodyFacts
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.hand import Hand

HERE = Source("closed form", "", Evidence.DERIVED)


def part(*, distance_mm: float, depth_mm: float, mass_kg: float = 1.0) -> HolderPart:
    """Return a holder with one tool at a distance from the rail, bearing at a depth."""
    solid = block(0.0, 0.0, -10.0, 50.0, 60.0, 0.0)
    tool = ToolBody("box", "x", (solid,), mass_kg, (0.0, 0.0, 0.0), (), 1.0)
    seat = Seat(tool, shift(25.0, distance_mm, 0.0), ((0.0, 1.0, 0.0),), (), rest_z_mm=-12.0)
    return HolderPart(
        family="test",
        leading="1",
        solid=solid,
        seats=(seat,),
        genus=1,
        bounds_mm=((0.0, 0.0, -10.0), (50.0, 60.0, 0.0)),
        min_wall_mm=3.0,
        mark_places=(front_mark(0.0, 50.0, z0=-10.0, z1=0.0, y_mm=60.0),),
        hanging=Hanging("french-cleat", True, -12.0, depth_mm, 45.0, 18.0),  # noqa: FBT003 - a record
        hardware=(),
    )


FACTS = BodyFacts(30e3, 1e4, (25.0, 30.0, -5.0), ((0.0, 0.0, -10.0), (50.0, 60.0, 0.0)), 1, 1)


def test_utilisation_is_demand_over_capacity_and_nothing_of_nothing_holds() -> None:
    assert CheckResult("a", 3.0, 4.0, "N", HERE).utilisation == 0.75
    assert CheckResult("a", 0.0, 0.0, "N", HERE).holds
    assert CheckResult("a", 1.0, 0.0, "N", HERE).utilisation == math.inf
    assert not CheckResult("a", math.inf, 1.0, "N", HERE).holds
    assert not CheckResult("a", math.nan, 1.0, "N", HERE).holds


def test_a_part_as_declared_passes_each_check() -> None:
    results = check_part(part(distance_mm=30, depth_mm=60), FACTS, thinnest_wall_mm=3.0)
    assert all(result.holds for result in results)


@pytest.mark.parametrize(
    ("facts", "wall_mm", "broken"),
    [
        (replace(FACTS, bodies=2), 3.0, "one body"),
        (replace(FACTS, genus=0), 3.0, "through holes as declared"),
        (replace(FACTS, genus=2), 3.0, "through holes as declared"),
        (
            replace(FACTS, bounds_mm=((0.0, -0.1, -10.0), (50.0, 60.0, 0.0))),
            3.0,
            "inside its declared bounds",
        ),
        (FACTS, 2.5, "thinnest wall"),
    ],
)
def test_each_broken_promise_is_named(facts: BodyFacts, wall_mm: float, broken: str) -> None:
    results = check_part(part(distance_mm=30, depth_mm=60), facts, thinnest_wall_mm=wall_mm)
    assert [result.name for result in results if not result.holds] == [broken]


@pytest.mark.parametrize(("thinner_mm", "holds"), [(0.0, True), (0.049, True), (0.051, False)])
def test_a_wall_may_be_thinner_by_the_chords_of_two_faces_and_no_more(
    thinner_mm: float, holds: bool
) -> None:
    """Two round faces of a wall, each a chord of 0.02 mm inside its arc, and 0.01 mm to spare."""
    results = check_part(
        part(distance_mm=30, depth_mm=60), FACTS, thinnest_wall_mm=3.0 - thinner_mm
    )
    assert all(result.holds for result in results) == holds


TRIAL = SeatTrial("seat 1", swept_mm3=0.0, fall_mm=0.01, slip_mm=0.3, kept=True)


@pytest.mark.parametrize(
    ("trial", "broken"),
    [
        (replace(TRIAL, name="seat 2", swept_mm3=2.0), "way out free"),
        (replace(TRIAL, name="seat 2", fall_mm=math.inf), "carried"),
        (replace(TRIAL, name="seat 2", slip_mm=math.inf), "kept until it is lifted"),
    ],
)
def test_the_worst_seat_decides_and_is_named(trial: SeatTrial, broken: str) -> None:
    results = check_seats([TRIAL, trial, TRIAL])
    failed = [result for result in results if not result.holds]
    assert [(result.name, result.note) for result in failed] == [(broken, "seat 2")]
    assert all(result.holds for result in check_seats([TRIAL]))


def test_a_seat_that_promises_no_keeping_is_not_asked_for_it() -> None:
    loose = replace(TRIAL, slip_mm=math.inf, kept=False)
    assert {result.name for result in check_seats([loose])} == {"way out free", "carried"}


def test_reach_equal_to_depth_at_45_degrees_is_exactly_on_the_edge() -> None:
    """Closed form: e / h = tan 45 = 1, and no own weight or drag to shift it."""
    weightless = OwnWeight(0.0, 0.0)
    edge = check_cleat(
        part(distance_mm=60, depth_mm=60), weightless, margin=1.0, hand=Hand(0.0, 0.0, 0.0)
    )[0]
    assert edge.utilisation == pytest.approx(1.0, rel=1e-12)
    beyond = check_cleat(
        part(distance_mm=61, depth_mm=60), weightless, margin=1.0, hand=Hand(0.0, 0.0, 0.0)
    )[0]
    assert not beyond.holds
    assert beyond.note == "tool 1 alone" or beyond.note.startswith(("all", "tool 1"))


@pytest.mark.parametrize("margin", [1.0, 1.25, 1.5, 3.0])
def test_the_margin_asks_for_so_many_times_the_depth_of_the_statics(margin: float) -> None:
    """Closed form: margin times e / tan 45 against the depth, exactly on the edge at h = s e."""
    there = part(distance_mm=40, depth_mm=margin * 40)
    edge = check_cleat(there, OwnWeight(0.0, 0.0), margin=margin, hand=Hand(0.0, 0.0, 0.0))[0]
    assert edge.utilisation == pytest.approx(1.0, rel=1e-12)
    short = part(distance_mm=40, depth_mm=margin * 40 - 0.1)
    assert not check_cleat(short, OwnWeight(0.0, 0.0), margin=margin, hand=Hand(0.0, 0.0, 0.0))[
        0
    ].holds


def test_a_low_pull_swings_the_bottom_out_when_the_weight_lies_near_the_wall() -> None:
    """Moments about the bevel: 0.5 W at 100 mm below it against W at 20 mm in front."""
    low = part(distance_mm=20, depth_mm=120)
    seat = replace(low.seats[0], rest_z_mm=-112.0)
    swinging = replace(low, seats=(seat,))
    result = check_cleat(swinging, OwnWeight(0.0, 0.0), margin=1.0, hand=Hand(0.5, 0.0, 0.0))[1]
    assert result.utilisation == pytest.approx(0.5 * 100.0 / 20.0, rel=1e-12)
    assert not result.holds


@pytest.mark.parametrize("tug_n", [0.0, 2.0, 10.0])
def test_a_hook_without_a_bolt_is_asked_for_a_hands_tug_too(tug_n: float) -> None:
    """At the bevel, by hand: W e / h + F against W tan 45, W of 1 kg 30 mm out on 60 mm."""
    level = part(distance_mm=30, depth_mm=60)
    seat = replace(level.seats[0], rest_z_mm=-12.0)
    wanted = Hand(0.1, tug_n, 0.0)
    found = check_cleat(replace(level, seats=(seat,)), OwnWeight(0.0, 0.0), margin=1.0, hand=wanted)
    (tug,) = [check for check in found if "unhooks" in check.name]
    assert tug.demand == pytest.approx(max(tug_n, 0.1 * 9.80665))
    assert tug.holds == (tug_n <= 9.80665 / 2)


def test_a_holder_screwed_to_the_wall_has_no_cleat_to_check() -> None:
    screwed = replace(part(distance_mm=60, depth_mm=60).hanging, on_rail=False)
    fixed = replace(part(distance_mm=60, depth_mm=60), hanging=screwed)
    assert check_cleat(fixed, OwnWeight(0.1, 10.0), margin=1.5, hand=Hand(0.1, 0.0, 0.0)) == ()


@pytest.mark.parametrize(("swept_mm3", "holds"), [(0.4, True), (0.6, False), (5.0, False)])
def test_a_tool_may_touch_by_the_chords_of_a_round_bore_and_no_more(
    swept_mm3: float, holds: bool
) -> None:
    """Chords 0.02 mm deep on 20 mm2 of touching faces overlap by 0.4 mm3; a corner does by more."""
    trial = SeatTrial("tool 1", swept_mm3, fall_mm=0.1, slip_mm=0.1, kept=True)
    (free,) = [one for one in check_seats([trial]) if one.name == "way out free"]
    assert free.holds is holds
    (fits,) = check_joint_interfaces([0.0, swept_mm3])
    assert fits.holds is holds
    assert fits.note == "holder 2"
