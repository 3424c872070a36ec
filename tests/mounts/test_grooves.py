"""Plates in the grooves of a back that was made for a rail, as they are printed and hung.

Sources: a dovetail holds in every direction across its groove; a hole of a board is as it is
drilled; ISO 273 for the holes of machine screws.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import assume, example, given, reject, settings
from hypothesis import strategies as st
from tests.mounts.sections import fitted
from tests.mounts.shelf import shelf

from cleatwright.base.errors import RailHoldError
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat
from cleatwright.mounts.printed.perforated_board import PerforatedBoardParams
from cleatwright.mounts.registry import MOUNTS
from cleatwright.parts.fitting import Fitting
from cleatwright.parts.groove_hold import GrooveHold
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Difference, Solid, block, prism
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm

KERNEL = MeshKernel()
SETTINGS = MountSettings()
IN_GROOVES = sorted(mount.name for mount in MOUNTS.values() if mount.in_grooves)
WIDTHS = [20.0, 32.0, 42.0, 60.0, 140.0]
# what a filament printer leaves between two parts that slide (common practice, no source)
MOST_PLAY_MM = 0.3
TOUCH_MM3 = 1e-3


def on_rail(width_mm: float, **how: float) -> HolderPart:
    return french_cleat.attach("test", shelf(width_mm, **how), SETTINGS)


def in_grooves(part: HolderPart, mount: str, **measures: float) -> HolderPart:
    chosen = MOUNTS[mount]
    assert chosen.in_grooves is not None
    params = chosen.params(**{**dict(chosen.example), **measures})
    return chosen.in_grooves.attach(part, SETTINGS, params)


def bodies(part: HolderPart, *names: str) -> list[MeshBody]:
    return [fitted(one, KERNEL) for one in part.fittings if not names or one.name in names]


def plates(part: HolderPart) -> list[MeshBody]:
    return bodies(part, "screw-plate", "hook-plate")


def hold(part: HolderPart) -> GrooveHold:
    assert part.hanging.in_grooves is not None
    return part.hanging.in_grooves


def meets(one: MeshBody, other: MeshBody, *move: float) -> bool:
    return one.placed(shift(*move)).overlap_mm3(other) > TOUCH_MM3


def test_screws_boards_and_profiles_take_a_back_with_grooves() -> None:
    assert {"wall-screws", "perforated-board", "t-slot"} <= set(IN_GROOVES)


@pytest.mark.parametrize("mount", IN_GROOVES)
@pytest.mark.parametrize("width_mm", WIDTHS)
def test_the_front_stays_as_it_is_and_nothing_overlaps(mount: str, width_mm: float) -> None:
    rail = on_rail(width_mm)
    try:
        part = in_grooves(rail, mount)
    except RailHoldError:
        # no two slots of a board within 42 mm
        assert (mount, width_mm) == ("slotted-board", 42.0)
        return
    assert replace(rail, hanging=part.hanging) == replace(
        part, fittings=rail.fittings, hardware=rail.hardware
    )
    pieces = [KERNEL.evaluate(part.solid), *bodies(part)]
    assert not any(meets(a, b) for a, b in combinations(pieces, 2))
    # all but the bolt and what goes into the board lies between the back and the wall
    wall = -part.hanging.stand_off_mm
    assert all(one.facts.bounds_mm[0][1] == pytest.approx(wall) for one in plates(part))


@pytest.mark.parametrize("mount", IN_GROOVES)
@pytest.mark.parametrize("width_mm", [20.0, 60.0, 140.0])
def test_a_plate_is_held_by_its_groove_in_every_way_but_along_it(
    mount: str, width_mm: float
) -> None:
    part = in_grooves(on_rail(width_mm), mount)
    front = KERNEL.evaluate(part.solid)
    for k, one in enumerate(plates(part)):
        for move in ((0.0, -MOST_PLAY_MM), (0.0, 0.0, MOST_PLAY_MM), (0.0, 0.0, -MOST_PLAY_MM)):
            assert meets(one, front, *move), move
        out, into = (-1.0, 1.0) if k == 0 else (1.0, -1.0)
        assert not any(meets(one, front, out * 4.0 * step) for step in range(50))
        assert meets(one, front, into * MOST_PLAY_MM)


@pytest.mark.parametrize("mount", ["wall-screws", "t-slot"])
@pytest.mark.parametrize("width_mm", WIDTHS)
def test_a_driver_reaches_every_screw_past_the_front(mount: str, width_mm: float) -> None:
    """A bit and its holder of 11 mm, from far before the holder to the face of the plate."""
    part = in_grooves(on_rail(width_mm, high_mm=12.0), mount)
    front, own = KERNEL.evaluate(part.solid), hold(part)
    assert len(own.rows_mm) == 2
    for x in own.columns_mm:
        for z in own.rows_mm:
            way = KERNEL.evaluate(_rod(11.0, x, z, 0.0, 300.0))
            assert not meets(way, front)
            screw = KERNEL.evaluate(_rod(3.9, x, z, -50.0, 50.0))
            assert not any(meets(screw, one) for one in plates(part)), "its hole is not free"


def _rod(diameter_mm: float, x: float, z: float, y0: float, y1: float) -> Solid:
    return prism(circle(diameter_mm), y1 - y0).turned("x", -90.0).moved(x, y0, z)


def test_the_rows_of_a_profile_are_slots_apart_and_take_its_screw() -> None:
    for pitch in (15.0, 20.0, 40.0):
        part = in_grooves(on_rail(80.0), "t-slot", pitch_mm=pitch)
        upper, lower = hold(part).rows_mm
        assert (upper - lower) / pitch == pytest.approx(round((upper - lower) / pitch))
        bores = {dict(one.measures)["bore_mm"] for one in part.fittings}
        assert bores == {clearance_hole_mm("M6", "medium")}


def test_slots_far_apart_take_one_row_of_two_plates_and_no_single_one() -> None:
    """A single plate on one screw turns about it."""
    assert len(hold(in_grooves(on_rail(80.0), "t-slot", pitch_mm=200.0)).rows_mm) == 1
    with pytest.raises(RailHoldError, match="nothing leaves room"):
        in_grooves(on_rail(20.0), "t-slot", pitch_mm=200.0)


@pytest.mark.parametrize("mount", IN_GROOVES)
def test_a_single_plate_is_locked_sideways_by_the_bolt_below_it(mount: str) -> None:
    part = in_grooves(on_rail(20.0), mount)
    (plate,), (bolt,) = plates(part), bodies(part, "bolt")
    assert meets(bolt, plate, 0.4)
    assert meets(bolt, plate, -0.4)
    # drawn to the front it lets the plate slide off
    assert not meets(bolt, KERNEL.evaluate(part.solid), 0.0, 4.9)
    drawn = bolt.placed(shift(0.0, 4.9))
    assert not any(meets(plate, drawn, -4.0 * step) for step in range(20))


PERFORATED = st.builds(
    PerforatedBoardParams,
    hole_mm=st.floats(4.5, 12.0),
    pitch_mm=st.floats(15.0, 40.0),
    board_mm=st.floats(2.5, 12.0),
    play_mm=st.floats(0.2, 0.9),
)


@settings(max_examples=15, deadline=None)
@given(p=PERFORATED, width=st.floats(20.0, 220.0))
# a wide hole with much play, in which a round pin rises by more than a square one would
@example(
    p=PerforatedBoardParams(hole_mm=7.75, pitch_mm=15.0, board_mm=3.0, play_mm=0.875), width=20.0
)
def test_hooks_go_through_round_holes_drop_hold_and_are_pinned(
    p: PerforatedBoardParams, width: float
) -> None:
    """In straight, down until the bars rest on the edges of the holes, and not out again."""
    assume(p.pitch_mm > 1.6 * p.hole_mm)
    chosen = MOUNTS["perforated-board"].in_grooves
    assert chosen is not None
    try:
        part = chosen.attach(on_rail(width), SETTINGS, p)
    except RailHoldError:
        # holes so far apart that one row is left, which a knock turns
        reject()
    hooks = bodies(part, "board-hook")
    wide, bar, drop = (dict(_first(part, "board-hook").measures)[k] for k in HOOK)
    # where the lower corners of a bar rest in a hole
    rest = ((p.hole_mm / 2) ** 2 - (wide / 2) ** 2) ** 0.5
    board = KERNEL.evaluate(_drilled(part, p, above_mm=rest))
    middle = (bar - drop) / 2
    raised, deep = rest - middle, p.board_mm + p.play_mm + 4.0
    for one in (*hooks, *plates(part)):
        for share in (1.0, 0.75, 0.5, 0.25, 0.0):
            assert one.placed(shift(0.0, share * deep, raised)).overlap_mm3(board) < 0.5
            assert one.placed(shift(0.0, 0.0, share * raised)).overlap_mm3(board) < 0.5
    for one in hooks:
        assert meets(one, board, 0.0, 0.0, -0.3), "nothing carries it"
        assert meets(one, board, 0.0, p.play_mm + 0.3), "it pulls off"
        # a pin of 1.75 mm has room over its bar, and stops it before its nose comes free
        (x0, _, _), (x1, _, top) = one.facts.bounds_mm
        into = -part.hanging.stand_off_mm - p.board_mm
        pin = KERNEL.evaluate(_rod(1.75, (x0 + x1) / 2, top + 0.875, into, 5.0))
        assert pin.overlap_mm3(board) < TOUCH_MM3
        assert meets(pin, board, 0.0, 0.0, 0.9 * drop)
        assert meets(one, board, 0.0, 0.5 * deep, 0.9 * drop), "it comes out all the same"


HOOK = ("wide_mm", "bar_mm", "drop_mm")


def _first(part: HolderPart, name: str) -> Fitting:
    return next(one for one in part.fittings if one.name == name)


def _drilled(part: HolderPart, p: PerforatedBoardParams, *, above_mm: float) -> Solid:
    back = -part.hanging.stand_off_mm
    own = hold(part)
    cuts = tuple(
        _rod(p.hole_mm, x, z + above_mm, back - p.board_mm - 1.0, back + 1.0)
        for x in own.columns_mm
        for z in own.rows_mm
    )
    return Difference(block(-400.0, back - p.board_mm, -400.0, 600.0, back, 400.0), cuts)


@pytest.mark.parametrize("mount", IN_GROOVES)
@pytest.mark.parametrize("width_mm", WIDTHS)
def test_plates_that_are_not_alike_have_their_outer_corners_cut_off(
    mount: str, width_mm: float
) -> None:
    """So that none goes on the other side: 3 by 3 mm are missing there, none of those alike."""
    try:
        part = in_grooves(on_rail(width_mm), mount)
    except RailHoldError:
        return
    found = [one for one in part.fittings if one.name in {"screw-plate", "hook-plate"}]
    measures = [{**dict(one.measures), "corner": 0.0} for one in found]
    same = all(one == measures[0] for one in measures)
    for number, body in enumerate(plates(part)):
        (x0, y0, _), (x1, _, z1) = body.facts.bounds_mm
        column = hold(part).columns_mm[number]
        half = measures[number]["half_mm"]
        near, far = max(x0, column - half), min(x1, column + half)
        for outer, x in ((number == 0, near), (number == 1, far)):
            probe = KERNEL.evaluate(block(x - 0.8, y0 + 1.0, z1 - 0.8, x + 0.8, y0 + 4.0, z1 + 1.0))
            cut = body.overlap_mm3(probe) == 0.0
            assert cut is (outer and not same)
