"""Ways out on a wall that is arranged by hand, so that every hit is known beforehand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import UnknownNameError
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit, build_units, plan_units
from cleatwright.design.planning import plan
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.parts.holder import Seat
from cleatwright.shapes.rigid import Rigid, shift
from cleatwright.siting.walls import Spot
from cleatwright.siting.ways_out import check_ways, prove_ways, surroundings
from cleatwright.wall.model import Place
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.way_out import Hindrance, Surroundings, WayProof
from cleatwright.workshop.document.store import load

KERNEL = MeshKernel()
EMPTY = Surroundings((), (), 0.0)
FAR_MM = 500.0
FINE_MM = 0.05


def units_of(folder: Path, text: str) -> tuple[Unit, ...]:
    folder.mkdir()
    (folder / "workshop.toml").write_text(text, "utf-8")
    workshop = load(folder)
    planned = plan_units(workshop, plan(workshop), run=Run())
    return build_units(planned, Run())


@pytest.fixture(scope="module")
def units(tmp_path_factory: pytest.TempPathFactory, shed_text: str) -> tuple[Unit, ...]:
    return units_of(tmp_path_factory.mktemp("ways") / "shed", shed_text)


def in_a_row(units: Sequence[Unit], *, dx: float = 0.0, dz: float = 0.0) -> dict[str, Spot]:
    keys = [unit.planned.key for unit in units]
    return {
        key: Spot(Place(key, FAR_MM * number + dx, 1000.0 + dz), None)
        for number, key in enumerate(keys, 1)
    }


def prove(
    units: Sequence[Unit], spots: Mapping[str, Spot], around: Surroundings = EMPTY
) -> dict[str, WayProof]:
    found = prove_ways(units, spots, around=around, run=Run())
    return {proof.tool: proof for proof in found}


def unit_with(units: Sequence[Unit], tool: str) -> tuple[Unit, Seat]:
    """Return the unit that is one holder with a tool, and the seat of the tool."""
    for unit in units:
        for holder, made in zip(unit.planned.holders, unit.holders, strict=True):
            for owned, seat in zip(holder.tools, made.part.seats, strict=True):
                if owned.name == tool:
                    return unit, seat
    raise AssertionError(tool)


def span_x(unit: Unit, seat: Seat, place: Place) -> tuple[float, float]:
    """Return from where to where an upright tool reaches, from the left edge of the wall."""
    right_edge = place.x_mm + unit.outer.part.bounds_mm[1][0]
    (x0, _, _), (x1, _, _) = seat.tool.extent_mm
    dx = seat.pose.shift_mm[0]
    return right_edge - (x1 + dx), right_edge - (x0 + dx)


def top_z(unit: Unit, seat: Seat, place: Place) -> float:
    high = seat.pose.shift_mm[2] + seat.tool.extent_mm[1][2]
    return high + place.z_mm - unit.outer.part.hanging.contact_z_mm


def test_every_tool_comes_off_a_wall_on_which_nothing_else_is_near(
    units: tuple[Unit, ...],
) -> None:
    proofs = prove(units, in_a_row(units), replace(EMPTY, hand_room_mm=40.0))
    assert list(proofs) == [
        tool.name for unit in units for one in unit.planned.holders for tool in one.tools
    ]
    assert all(proof.free for proof in proofs.values())
    assert [check.holds for check in check_ways(tuple(proofs.values()))] == [True, True]


@pytest.mark.parametrize("tool", ["Oil spray", "Driver 4", "Driver 5.5"])
@pytest.mark.parametrize("lacking", [0.15, 0.6])
def test_a_shelf_above_stops_a_tool_short_by_what_its_lift_lacks(
    units: tuple[Unit, ...], tool: str, lacking: float
) -> None:
    """Its lift is L, and the shelf begins L - short above it: it is met after L - short."""
    spots = in_a_row(units)
    unit, seat = unit_with(units, tool)
    lift = seat.way_out[0][2]
    assert seat.way_out[0] == (0.0, 0.0, lift)
    short_mm = lacking * lift
    low = top_z(unit, seat, spots[unit.planned.key].place) + lift - short_mm
    x0, x1 = span_x(unit, seat, spots[unit.planned.key].place)
    shelf = Hindrance("shelf", x0 - 100.0, low, x1 - x0 + 200.0, 300.0, 400.0)
    hit = prove(units, spots, replace(EMPTY, obstacles=(shelf,)))[tool].hit
    assert hit is not None
    assert (hit.name, hit.sort, hit.direction) == ("shelf", "obstacle", "down")
    assert hit.travel_mm == pytest.approx(lift - short_mm, abs=FINE_MM)
    assert hit.short_mm == pytest.approx(short_mm, abs=FINE_MM)


def test_an_obstacle_flush_with_the_wall_is_in_nobody_s_way(units: tuple[Unit, ...]) -> None:
    flush = Hindrance("window", 0.0, 0.0, 10_000.0, 6_000.0, 0.0)
    proofs = prove(units, in_a_row(units), replace(EMPTY, obstacles=(flush,), hand_room_mm=20.0))
    assert all(proof.free for proof in proofs.values())


def test_a_rail_stops_only_what_lies_as_near_to_the_wall(units: tuple[Unit, ...]) -> None:
    """A rail 18 mm thick lies behind every tool; one of 200 mm stops the lift 3 mm short."""
    spots = in_a_row(units)
    unit, seat = unit_with(units, "Driver 5.5")
    place = spots[unit.planned.key].place
    lift = seat.way_out[0][2]
    low = top_z(unit, seat, place) + lift - 3.0
    board = Profile(150.0, 18.0, 45.0)
    rail = Rail(2, low + 150.0, place.x_mm - 50.0, place.x_mm + 400.0, board)
    thin = replace(EMPTY, rails=(rail,))
    assert prove(units, spots, thin)["Driver 5.5"].free
    thick = replace(EMPTY, rails=(replace(rail, profile=Profile(150.0, 200.0, 30.0)),))
    hit = prove(units, spots, thick)["Driver 5.5"].hit
    assert hit is not None
    assert (hit.name, hit.sort) == ("R2", "rail")
    assert hit.travel_mm == pytest.approx(lift - 3.0, abs=FINE_MM)
    assert (hit.short_mm, hit.direction) == (pytest.approx(3.0, abs=FINE_MM), "down")


@pytest.mark.parametrize("left", [True, False])
def test_a_hand_at_a_can_needs_the_room_that_a_box_beside_it_takes(
    units: tuple[Unit, ...], left: bool
) -> None:
    """A box 5 mm beside the can leaves 7 of 12 mm to be made up, away from it."""
    spots = in_a_row(units)
    unit, seat = unit_with(units, "Oil spray")
    x0, x1 = span_x(unit, seat, spots[unit.planned.key].place)
    start = x0 - 5.0 - 80.0 if left else x1 + 5.0
    pipe = Hindrance("pipe", start, 0.0, 80.0, 3000.0, 400.0)
    around = replace(EMPTY, obstacles=(pipe,), hand_room_mm=12.0)
    proof = prove(units, spots, around)["Oil spray"]
    assert proof.hit is None
    assert proof.hand is not None
    assert proof.hand.travel_mm == 0.0
    assert proof.hand.short_mm == pytest.approx(7.0, abs=0.1)
    assert proof.hand.direction == ("right" if left else "left")
    assert prove(units, spots, replace(around, hand_room_mm=4.9))["Oil spray"].free
    verdicts = check_ways((proof,))
    assert [one.holds for one in verdicts] == [True, False]
    assert "Oil spray" in verdicts[1].note


def test_a_tool_meets_the_holder_that_hangs_in_its_place(units: tuple[Unit, ...]) -> None:
    spots = in_a_row(units)
    can, hammer = (unit_with(units, tool)[0] for tool in ("Oil spray", "Hammer"))
    there = spots[can.planned.key].place
    spots[hammer.planned.key] = Spot(Place(hammer.planned.key, there.x_mm, there.z_mm), None)
    proofs = prove(units, spots)
    hit = proofs["Oil spray"].hit
    assert hit is not None
    assert hit.travel_mm == 0.0
    assert hit.name == "Hammer"
    assert {hit.sort} <= {"holder", "tool"}
    assert "before it has moved" in proofs["Oil spray"].sentences[0]


def test_moving_the_whole_wall_changes_nothing(units: tuple[Unit, ...]) -> None:
    unit, seat = unit_with(units, "Oil spray")
    found: list[dict[str, WayProof]] = []
    for dx, dz in ((0.0, 0.0), (1234.5, -321.0)):
        spots = in_a_row(units, dx=dx, dz=dz)
        x0, _ = span_x(unit, seat, spots[unit.planned.key].place)
        pipe = Hindrance("pipe", x0 - 60.0, 0.0, 55.0, 3000.0, 400.0)
        found.append(prove(units, spots, replace(EMPTY, obstacles=(pipe,), hand_room_mm=12.0)))
    first, second = found
    assert first.keys() == second.keys()
    for one, other in zip(first.values(), second.values(), strict=True):
        assert (one.hit, one.hand is None) == (other.hit, other.hand is None)
        if one.hand is not None and other.hand is not None:
            assert one.hand.short_mm == pytest.approx(other.hand.short_mm, abs=0.02)
            assert one.hand.direction == other.hand.direction


def test_tools_on_carriers_come_off_past_them_and_stand_where_their_carrier_is(
    tmp_path: Path, shed_text: str
) -> None:
    """A shelf above a tool on a carrier is met where the offsets on the carrier say."""
    units = units_of(tmp_path / "carried", shed_text + '\n[defaults]\njoint = "dovetail"\n')
    assert all(unit.carrier is not None for unit in units)
    spots = in_a_row(units)
    assert all(proof.free for proof in prove(units, spots).values())
    unit, seat = unit_with(units, "Oil spray")
    place, lift = spots[unit.planned.key].place, seat.way_out[0][2]
    low = top_z(unit, seat, place) + unit.offsets_mm[0][2] + lift - 2.0
    x0, x1 = span_x(unit, seat, place)
    dx = unit.offsets_mm[0][0]
    shelf = Hindrance("shelf", x0 - dx, low, x1 - x0, 300.0, 400.0)
    hit = prove(units, spots, replace(EMPTY, obstacles=(shelf,)))["Oil spray"].hit
    assert hit is not None
    assert hit.travel_mm == pytest.approx(lift - 2.0, abs=FINE_MM)
    assert (hit.short_mm, hit.direction) == (pytest.approx(2.0, abs=FINE_MM), "down")


@settings(deadline=None, max_examples=12)
@given(
    pair=st.permutations(["Oil spray", "Hammer", "Driver 4", "Pliers"]),
    dx=st.floats(-120.0, 120.0),
    dz=st.floats(-220.0, 220.0),
)
def test_two_neighbours_meet_when_some_position_on_the_way_overlaps(
    units: tuple[Unit, ...], pair: Sequence[str], dx: float, dz: float
) -> None:
    """At 25 positions of each move the bodies are put where they are, and nothing is swept."""
    one, other = (unit_with(units, tool)[0] for tool in pair[:2])
    places = {
        one.planned.key: Place(one.planned.key, 1000.0, 1000.0),
        other.planned.key: Place(other.planned.key, 1000.0 + dx, 1000.0 + dz),
    }
    proofs = prove((one, other), {key: Spot(place, None) for key, place in places.items()})
    still = [other.outer.body.placed(wall_frame(other, places)), *at_rest(other, places)]
    for number, seat in enumerate(one.outer.part.seats):
        pieces, deepest = pieces_of(one, number, places), 0.0
        for x, y, z in seat.way_out:
            for k in range(25):
                there = shift(x * k / 24, y * k / 24, z * k / 24)
                moved = [piece.placed(there) for piece in pieces]
                deepest = max(deepest, *(p.overlap_mm3(b) for p in moved for b in still))
            pieces = [piece.placed(shift(x, y, z)) for piece in pieces]
        hit = proofs[one.planned.holders[0].tools[number].name].hit
        assert hit is not None or deepest <= 0.5
        assert hit is None or deepest > 0.0 or hit.short_mm < 5.0


def wall_frame(unit: Unit, places: Mapping[str, Place]) -> Rigid:
    """Return the motion of a part without a carrier: x to the left, its contact at its height."""
    part, place = unit.outer.part, places[unit.planned.key]
    return shift(
        -(place.x_mm + part.bounds_mm[1][0]),
        part.hanging.stand_off_mm,
        place.z_mm - part.hanging.contact_z_mm,
    )


def pieces_of(unit: Unit, number: int, places: Mapping[str, Place]) -> list[MeshBody]:
    seat = unit.outer.part.seats[number]
    frame = wall_frame(unit, places)
    return [KERNEL.evaluate(piece).placed(frame) for piece in seat.envelope()]


def at_rest(unit: Unit, places: Mapping[str, Place]) -> list[MeshBody]:
    seats = range(len(unit.outer.part.seats))
    return [piece for number in seats for piece in pieces_of(unit, number, places)]


def test_a_whole_job_gives_a_proof_for_each_of_its_tools(done: Any) -> None:
    proofs = done.job.panels[0].ways
    assert sorted(proof.tool for proof in proofs) == sorted(
        item.name for item in done.job.workshop.items()
    )
    assert [proof.hit for proof in proofs] == [None] * len(proofs)
    assert check_ways(proofs)[0].holds
    around = surroundings(done.job.workshop, done.job.rails)
    assert around.hand_room_mm == done.job.workshop.defaults.hand_room_mm
    assert around.rails == done.job.rails


def test_obstacles_of_a_document_stand_out_and_leave_their_margin_to_the_arrangement(
    tmp_path: Path, shed_text: str
) -> None:
    box = "x = 10\nz = 20\nwidth = 30\nheight = 40\nmargin = 50\ndepth = 60\n"
    pipe = f'\n[[wall.obstacle]]\nname = "pipe"\n{box}'
    lid = '\n[[panel]]\nname = "lid"\nwidth = 700\nheight = 400\n'
    rung = f'\n[[panel.obstacle]]\nname = "rung"\n{box}'
    (tmp_path / "workshop.toml").write_text(shed_text + pipe + lid + rung, "utf-8")
    workshop = load(tmp_path)
    assert surroundings(workshop, ()).obstacles == (Hindrance("pipe", 10, 20, 30, 40, 60),)
    on_lid = surroundings(workshop, (), panel="lid")
    assert on_lid.obstacles == (Hindrance("rung", 10, 20, 30, 40, 60),)
    with pytest.raises(UnknownNameError, match="panel"):
        surroundings(workshop, (), panel="roof")


def test_a_unit_without_a_place_is_named(units: tuple[Unit, ...]) -> None:
    spots = in_a_row(units)
    key = units[-1].planned.key
    del spots[key]
    with pytest.raises(UnknownNameError, match=key):
        prove(units, spots)


def test_a_wall_without_tools_has_no_verdict() -> None:
    assert check_ways(()) == ()
