"""Boards with holes, slots and grooves: a part goes in, drops, rests and does not come off."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
import trimesh
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.mounts.shelf import assert_whole, shelf

from cleatwright.base.errors import DesignError
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import perforated_board, slotted_board, slotwall, t_slot
from cleatwright.mounts.printed.perforated_board import PerforatedBoardParams
from cleatwright.mounts.printed.slotted_board import SlottedBoardParams
from cleatwright.mounts.printed.slotwall import SlotwallParams
from cleatwright.mounts.printed.t_slot import TSlotParams
from cleatwright.parts.holder import Front, HolderPart, front_mark
from cleatwright.shapes.outline import circle, polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Difference, Solid, across, block, prism
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm

KERNEL = MeshKernel()
SETTINGS = MountSettings()
# the chords of two dozen round holes and buttons overlap by a trifle
TOUCH_MM3 = 2.0


def on_board(width_mm: float, tall_mm: float) -> Front:
    """Return a shelf on a tall plate that has a place for a mark, however narrow it is."""
    place = front_mark(0.0, max(width_mm, 60.0), z0=-tall_mm, z1=-8.0, y_mm=5.0)
    return replace(shelf(width_mm, low_mm=-tall_mm), mark_place=place)


def goes_in(part: HolderPart, body: MeshBody, board: Solid, *, drop_mm: float) -> None:
    """The part comes straight in, raised, then down; it rests and cannot be pulled off."""
    wall = KERNEL.evaluate(board)
    depth = -part.bounds_mm[0][1]
    for share in (1.0, 0.75, 0.5, 0.25, 0.0):
        coming = body.placed(shift(0.0, share * (depth + 1.0), drop_mm))
        assert coming.overlap_mm3(wall) < TOUCH_MM3, "it does not go in"
    for share in (0.75, 0.5, 0.25, 0.0):
        sinking = body.placed(shift(0.0, 0.0, share * drop_mm))
        assert sinking.overlap_mm3(wall) < TOUCH_MM3, "it does not drop"
    assert body.placed(shift(0.0, 0.0, -1.0)).overlap_mm3(wall) > TOUCH_MM3, "nothing carries it"
    assert body.placed(shift(0.0, 1.5, 0.0)).overlap_mm3(wall) > TOUCH_MM3, "it pulls off"


PERFORATED = st.builds(
    PerforatedBoardParams,
    hole_mm=st.floats(4.5, 12.0),
    pitch_mm=st.floats(15.0, 60.0),
    board_mm=st.floats(2.5, 12.0),
    play_mm=st.floats(0.2, 0.9),
)


@settings(max_examples=15, deadline=None)
@given(p=PERFORATED, width=st.floats(20.0, 220.0), tall=st.floats(20.0, 120.0))
def test_buttons_go_through_a_perforated_board_of_any_hole_and_pitch(
    p: PerforatedBoardParams, width: float, tall: float
) -> None:
    assume(p.pitch_mm > p.hole_mm + 3.0)
    front = on_board(width, tall)
    part = perforated_board.attach("test", front, SETTINGS, p)
    body = assert_whole(part)
    columns = columns_of(body, -p.board_mm / 2)
    rows = rows_of(body, -p.board_mm / 2)
    assert len(rows) == 2
    for one, other in pairwise(columns):
        steps = (other - one) / p.pitch_mm
        assert steps == pytest.approx(round(steps), abs=1e-4)
    # the lens of the bar lies between the bottom of its hole and the top of the raised hole
    across_mm, drop = p.hole_mm - p.play_mm, perforated_board.drop_mm(p)
    heights = [z + drop / 2 for z in rows]
    assert (heights[1] - heights[0]) / p.pitch_mm == pytest.approx(
        round((heights[1] - heights[0]) / p.pitch_mm), abs=1e-4
    )
    # a hole is larger than its button by the play, all round: the bar rests on its bottom
    sunk = (p.hole_mm - across_mm) / 2
    holes = tuple(
        prism(circle(p.hole_mm), p.board_mm + 2.0).turned("x", 90.0).moved(x, 1.0, z + sunk)
        for x in columns
        for z in heights
    )
    low, high = part.bounds_mm
    plain = block(-5.0, -p.board_mm, low[2] - 30.0, width + 5.0, 0.0, high[2] + 30.0)
    goes_in(part, body, Difference(plain, holes), drop_mm=drop)


def columns_of(body: MeshBody, y_mm: float) -> list[float]:
    """Return the middle x of each piece of a section across y, from the mesh."""
    return sorted({round(x, 4) for x, _ in _middles(body, y_mm)})


def rows_of(body: MeshBody, y_mm: float) -> list[float]:
    """Return the middle z of each piece of a section across y, from the mesh."""
    return sorted({round(z, 4) for _, z in _middles(body, y_mm)})


def _middles(body: MeshBody, y_mm: float) -> list[tuple[float, float]]:
    mesh = trimesh.Trimesh(body.vertices_mm, body.triangles, process=False)
    section = mesh.section(plane_origin=(0.0, y_mm, 0.0), plane_normal=(0.0, 1.0, 0.0))
    assert section is not None
    middles: list[tuple[float, float]] = []
    for loop in section.discrete:
        low, high = loop.min(axis=0), loop.max(axis=0)
        middles.append(((low[0] + high[0]) / 2, (low[2] + high[2]) / 2))
    return middles


# the model asks for names without the unit, so that "builds" would add them a second time
SLOTTED = st.fixed_dictionaries(
    {
        "slot_width_mm": st.floats(3.5, 15.0),
        "slot_height_mm": st.floats(9.0, 60.0),
        "pitch_mm": st.floats(20.0, 100.0),
        "board_mm": st.floats(0.7, 25.0),
        "play_mm": st.floats(0.2, 1.0),
    }
).map(SlottedBoardParams.model_validate)


@settings(max_examples=15, deadline=None)
@given(p=SLOTTED, width=st.floats(25.0, 220.0), tall=st.floats(20.0, 120.0))
def test_tabs_go_through_a_slotted_board_of_any_slot_and_pitch(
    p: SlottedBoardParams, width: float, tall: float
) -> None:
    assume(p.pitch_mm > p.slot_height_mm + 6.0)
    part = slotted_board.attach("test", on_board(width, tall), SETTINGS, p)
    body = assert_whole(part)
    hook = slotted_board.hook_of(p)
    columns = columns_of(body, -p.board_mm / 2)
    # a tab rests on the lower end of its slot: the slot begins where the bar begins
    lows = [z - hook.bar_mm / 2 for z in rows_of(body, -p.board_mm / 2)]
    assert len(lows) == 2
    assert (lows[1] - lows[0]) / p.pitch_mm == pytest.approx(
        round((lows[1] - lows[0]) / p.pitch_mm), abs=1e-4
    )
    half = p.slot_width_mm / 2
    slots = tuple(
        block(x - half, -p.board_mm - 1.0, z, x + half, 1.0, z + p.slot_height_mm)
        for x in columns
        for z in lows
    )
    low, high = part.bounds_mm
    plain = block(-20.0, -p.board_mm, low[2] - 80.0, width + 20.0, 0.0, high[2] + 80.0)
    goes_in(part, body, Difference(plain, slots), drop_mm=hook.drop_mm)


@settings(max_examples=15, deadline=None)
@given(
    mouth=st.floats(6.0, 20.0),
    lip=st.floats(1.0, 12.0),
    play=st.floats(0.2, 1.0),
    spare=st.floats(0.0, 8.0),
    width=st.floats(20.0, 250.0),
)
def test_a_hook_goes_into_the_groove_of_a_slotwall_panel(
    mouth: float, lip: float, play: float, spare: float, width: float
) -> None:
    groove = lip + play + 3.0 + play + spare
    assume(5.0 <= groove <= 25.0)
    p = SlotwallParams(mouth_mm=mouth, lip_mm=lip, groove_mm=groove, play_mm=play)
    part = slotwall.attach("test", on_board(width, 60.0), SETTINGS, p)
    body = assert_whole(part)
    hook = slotwall.hook_of(p)
    (middle,) = rows_of(body, -lip / 2)
    z = middle - hook.bar_mm / 2
    # a panel with one T-shaped groove: mouth at the face, wider behind the lips
    wide = hook.drop_mm + 3.0
    profile = polygon(
        [
            (-groove - 6.0, -200.0),
            (0.0, -200.0),
            (0.0, z),
            (-lip, z),
            (-lip, z - wide),
            (-groove, z - wide),
            (-groove, z + mouth + wide),
            (-lip, z + mouth + wide),
            (-lip, z + mouth),
            (0.0, z + mouth),
            (0.0, 200.0),
            (-groove - 6.0, 200.0),
        ]
    )
    goes_in(part, body, across(profile, -5.0, width + 5.0), drop_mm=hook.drop_mm)


def test_a_groove_too_shallow_for_the_hook_is_refused_with_what_it_takes() -> None:
    with pytest.raises(DesignError, match=r"at least 10 mm behind a lip of 6 mm"):
        slotwall.attach("test", on_board(80.0, 60.0), SETTINGS, SlotwallParams(groove_mm=7.0))


@settings(max_examples=20, deadline=None)
@given(
    slot=st.floats(5.0, 12.0),
    pitch=st.floats(15.0, 120.0),
    width=st.floats(25.0, 250.0),
    tall=st.floats(20.0, 140.0),
)
def test_holes_for_a_t_slot_profile_lie_in_two_of_its_slots(
    slot: float, pitch: float, width: float, tall: float
) -> None:
    part = t_slot.attach(
        "test", on_board(width, tall), SETTINGS, TSlotParams(slot_mm=slot, pitch_mm=pitch)
    )
    body = assert_whole(part)
    thread = part.hardware[0].name.split()[2]
    hole = clearance_hole_mm(thread, "medium")
    assert hole - 1.0 <= slot or thread == "M4", "the screw is no wider than the slot"
    count = sum(one.count for one in part.hardware if "nut" in one.name)
    assert part.genus == count
    mesh = trimesh.Trimesh(body.vertices_mm, body.triangles, process=False)
    section = mesh.section(plane_origin=(0.0, 2.5, 0.0), plane_normal=(0.0, 1.0, 0.0))
    assert section is not None
    rings = [loop for loop in section.discrete if math.isclose(_wide(loop), hole, abs_tol=0.05)]
    assert len(rings) == count
    heights = sorted({round(float((r[:, 2].min() + r[:, 2].max()) / 2), 3) for r in rings})
    assert len(heights) == 2
    steps = (heights[1] - heights[0]) / pitch
    assert steps == pytest.approx(round(steps), abs=1e-3)


def _wide(loop) -> float:  # noqa: ANN001 - an array of the outside reader
    return float(loop[:, 0].max() - loop[:, 0].min())
