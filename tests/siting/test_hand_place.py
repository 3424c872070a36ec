"""Where a hand takes a tool; the tools are boxes whose places are known by construction."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from cleatwright.kernels.mesh import Convex, MeshKernel
from cleatwright.shapes.solid import Solid, block, joined
from cleatwright.siting.hand_place import HOLD_MM, hand_places
from cleatwright.standards.people.hands import HAND_MM

KERNEL = MeshKernel()
ROOM_MM = 12.0


def taken(holder: Solid, *tool: Solid) -> list[list[float]]:
    """Return x0, y0, z0, x1, y1, z1 of each place of the hand, in the order of trial."""
    pieces = [Convex(KERNEL.corners(one)) for one in tool]
    places = hand_places(pieces, KERNEL.evaluate(holder), room_mm=ROOM_MM)
    found: list[list[float]] = []
    for place in places:
        boxes = np.stack([piece.box_mm for piece in place])
        found.append([*boxes[:, 0].min(axis=0).tolist(), *boxes[:, 1].max(axis=0).tolist()])
    return found


def test_a_handle_above_its_holder_is_taken_and_not_the_shaft_below_it() -> None:
    """A shaft from 0 to 100 in a block of 30, its handle from 100 to 200 above."""
    shaft, handle = block(-3, 30, 0, 3, 36, 100), block(-15, 20, 100, 15, 46, 200)
    places = taken(block(-30, 0, -5, 30, 50, 30), shaft, handle)
    assert places == [pytest.approx([-27, 20, 200 - HAND_MM, 27, 58, 200])]


def test_a_long_handle_is_taken_next_to_its_holder_first_and_then_anywhere() -> None:
    places = taken(block(-30, 0, -5, 30, 50, 30), block(-15, 20, 0, 15, 46, 400))
    assert places[0] == pytest.approx([-27, 20, 30, 27, 58, 30 + HAND_MM])
    assert places[-1][5] == pytest.approx(400.0)
    # half a hand apart at the most, so that no place is missed
    starts = [place[2] for place in places]
    assert all(0.0 < b - a <= HAND_MM / 2 for a, b in pairwise(starts))


def test_a_hammer_is_taken_by_the_handle_that_hangs_below() -> None:
    """Its head of 25 mm above the fork has no room for three fingers."""
    head, handle = block(-50, 30, 0, 50, 50, 25), block(-15, 30, -250, 15, 45, 0)
    fork = joined(block(-40, 0, -10, -17, 60, 0), block(17, 0, -10, 40, 60, 0))
    places = taken(joined(fork, block(-40, 0, -10, 40, 5, 0)), head, handle)
    assert places[0] == pytest.approx([-27, 30, -10 - HAND_MM, 27, 57, -10])
    assert places[-1][2] == pytest.approx(-250.0)


def test_the_head_is_taken_when_three_fingers_have_room_on_it() -> None:
    head = block(-50, 30, 0, 50, 50, HOLD_MM)
    handle = block(-15, 30, -250, 15, 45, 0)
    places = taken(block(-40, 0, -10, 40, 60, 0), head, handle)
    assert places[0][2] == pytest.approx(0.0)
    assert places[0][5] == pytest.approx(HOLD_MM)


def test_a_pistol_grip_is_taken_by_its_handle() -> None:
    """The body of 80 mm lies above, and the handle of 90 mm goes down to a wider foot."""
    drill = block(-30, 0, 0, 30, 180, 80), block(-17, 60, -90, 17, 100, 0)
    foot = block(-40, 40, -150, 40, 130, -90)
    pieces = [Convex(KERNEL.corners(one)) for one in (*drill, foot)]
    arms = KERNEL.evaluate(block(-50, 0, -12, 50, 60, 0))
    (place,) = hand_places(pieces, arms, room_mm=ROOM_MM, handle=(-90.0, 0.0))
    (handle,) = place
    assert handle.box_mm.tolist() == [[-29.0, 60.0, -90.0], [29.0, 112.0, 0.0]]


def test_a_thing_that_hardly_stands_out_is_taken_anywhere() -> None:
    places = taken(block(-30, 0, -5, 30, 60, 45), block(-20, 20, 0, 20, 50, 50))
    assert places == [pytest.approx([-32, 20, 0, 32, 62, 50])]


def test_a_tool_with_nothing_beside_it_is_taken_in_its_middle_first() -> None:
    places = taken(block(-30, 0, 0, 30, 5, 40), block(-20, 20, 0, 20, 50, 300))
    assert (places[0][2] + places[0][5]) / 2 == pytest.approx(150.0)


def test_a_lying_level_is_taken_across_from_its_middle_outwards() -> None:
    """Fingers need their room above, below and before it, and none at its ends."""
    places = taken(block(-30, 0, -5, 30, 60, 30), block(-300, 20, 0, 300, 45, 60))
    half = HAND_MM / 2
    assert places[0] == pytest.approx([-half, 20, -ROOM_MM, half, 57, 60 + ROOM_MM])
    assert min(place[0] for place in places) == pytest.approx(-300.0)
    assert max(place[3] for place in places) == pytest.approx(300.0)
