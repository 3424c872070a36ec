"""Sheaths for blades; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.blade_sheath.family import FAMILY, LEAST_BEARING_MM
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import Blade
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block


def blade(
    length_mm: float, width_mm: float, thick_mm: float, *, past_mm: float = 8.0, x_mm: float = 0.0
) -> ToolBody:
    """Return a box blade under a box handle ``past_mm`` thicker on both sides, 100 mm high."""
    w, t = width_mm / 2, thick_mm / 2
    x, y = x_mm / 2 or w, t + past_mm
    envelope = (
        block(-w, -t, 0.0, w, t, length_mm),
        block(-x, -y, length_mm, x, y, length_mm + 100.0),
    )
    grip = Blade(length_mm, length_mm, width_mm, thick_mm, 2 * x, 2 * y)
    return ToolBody("blade", "x", envelope, 0.2, (0.0, 0.0, length_mm), (grip,), width_mm)


TRIAL = Trial(
    FAMILY,
    st.builds(
        blade,
        st.floats(15.0, 180.0),
        st.floats(2.0, 120.0),
        st.floats(0.8, 40.0),
        past_mm=st.floats(LEAST_BEARING_MM, 25.0),
        x_mm=st.one_of(st.just(0.0), st.floats(4.0, 60.0)),
    ),
    groups=tuple(
        tuple(blade(60.0 + w, w, 2.0 + w / 8) for w in widths)
        for widths in ((26.0,), (6.0, 40.0, 2.0, 18.0, 120.0, 8.0))
    ),
    guided=(HalfPlay(blade(80.0, 26.0, 6.0)),),
    held=(blade(15.0, 2.0, 0.8, past_mm=LEAST_BEARING_MM), blade(180.0, 120.0, 40.0)),
    refused=(
        (blade(14.0, 20.0, 4.0), "its blade of 14 mm"),
        (blade(181.0, 20.0, 4.0), "its blade of 181 mm"),
        (blade(80.0, 20.0, 0.7), "20 by 0.7 mm"),
        (blade(80.0, 121.0, 4.0), "121 by 4 mm"),
        (blade(80.0, 20.0, 4.0, past_mm=2.0), "by 2 mm on each side only"),
    ),
)


@pytest.mark.parametrize("tip", [1.5, 5.0])
def test_the_edge_hangs_above_the_bottom_and_touches_nothing(
    tip: float, kernel: MeshKernel
) -> None:
    part = TRIAL.part(blade(80.0, 26.0, 6.0), fit=Fit(20.0), params={"tip_mm": tip})
    held = kernel.evaluate(part.seats[0].envelope()[0])
    gap = kernel.evaluate(part.solid).gap_mm(held, within_mm=30.0)
    assert gap == pytest.approx(tip, abs=1e-6)


def test_the_edge_is_covered_on_every_side_but_for_two_drains(kernel: MeshKernel) -> None:
    """A sheet through the lower blade, wider than the sheath, is cut where its walls stand."""
    part = TRIAL.part(blade(80.0, 26.0, 6.0, past_mm=12.0))
    body, axis = kernel.evaluate(part.solid), 5.0 + 1.0 + 15.0
    x = part.seats[0].pose.shift_mm[0]
    sheet = block(x - 13.2, axis - 3.2 - 2.7, -70.0, x + 13.2, axis - 3.2, -69.0)
    assert body.overlap_mm3(kernel.evaluate(sheet)) == pytest.approx(26.4 * 2.7, rel=1e-6)
    before = block(x - 13.2, axis + 3.2, -70.0, x + 13.2, axis + 5.9, -69.0)
    assert body.overlap_mm3(kernel.evaluate(before)) == pytest.approx(26.4 * 2.7, rel=1e-6)
    below = kernel.evaluate(block(x - 13.2, axis - 3.2, -84.0, x + 13.2, axis + 3.2, -83.0))
    assert body.overlap_mm3(below) == pytest.approx(26.4 * 6.4 - 6.0 * 4.0, rel=1e-6)


def test_volume_of_one_sheath_in_closed_form() -> None:
    """Two prisms less pocket, bevelled mouth and drain; too near to the plate for a relief."""
    front = TRIAL.front(blade(60.0, 19.5, 3.5, past_mm=4.0), fit=Fit(0.5))
    wall, depth = 2.7, 60.0 + 3.0
    # the handle reaches 5.75 behind the axis, which leaves too little for a relief
    axis = 5.0 + 1.0 + 5.75
    half, end, knee = 10.0 + wall, axis + 2.0 + wall, axis + 2.0 + depth + 3.0 * math.sqrt(2.0)
    high = knee - 5.0
    fin = 2 * half * (end * high - (end - 5.0) ** 2 / 2)
    roots = 2 * ((3.0 * 5.0 + 3.0**2 / 2) * high - 3.0**3 / 6)
    # what a round corner of 2 mm takes away, and the moment of that about the front
    gone, moment = (4.0 - math.pi) * 1.0, 20.0 / 3.0 - 2.0 * math.pi
    corners = 2 * (gone * (knee - end) + moment)
    pocket = 20.0 * 4.0 * depth
    mouth = (20.0 + 4.0) * 0.8**2 + 4.0 * 0.8**3 / 3
    drain = 6.0 * 4.0 * (knee - axis - depth)
    expected = fin + roots - corners - pocket - mouth - drain
    measured = MeshKernel(chord_error_mm=1e-4).evaluate(front.solid).facts.volume_mm3
    assert measured == pytest.approx(expected, rel=1e-5)


def test_a_thick_handle_leaves_a_relief_behind_the_pocket() -> None:
    for past, genus in ((4.0, 1), (16.0, 2)):
        front = TRIAL.front(blade(60.0, 20.0, 4.0, past_mm=past))
        assert front.genus == genus


def test_it_guards_and_leaves_the_way_out_straight_up() -> None:
    front = TRIAL.front(blade(80.0, 26.0, 6.0))
    assert FAMILY.guards
    assert front.seats[0].way_out[0] == (0.0, 0.0, 81.0)
    assert front.seats[0].pose == shift(front.width_mm / 2, 5.0 + 1.0 + 11.0, -80.0)


def between_mm(width_mm: float, room_mm: float, *, x_mm: float) -> tuple[float, float]:
    """Return the room between two equal sheaths and that between the tools in them."""
    pair = [blade(60.0, width_mm, 4.0, x_mm=x_mm)] * 2
    part = TRIAL.part(*pair, ctx=BuildContext(hand_room_mm=room_mm), params={"wall_mm": 3.0})
    left, right = (seat.pose.shift_mm[0] for seat in part.seats)
    sheath = part.seats[0].sizes[0].made_mm + 2 * 3.0
    return right - left - sheath, right - left - x_mm


def test_sheaths_keep_their_roots_apart_and_no_more() -> None:
    """Roots of 3 mm stand out at both sides of each; 1 mm of plate stays flat between two."""
    sheaths, _ = between_mm(40.0, 0.0, x_mm=40.0)
    assert sheaths == pytest.approx(3.0 + 1.0 + 3.0)


def test_handles_wider_than_their_sheaths_keep_the_room_of_a_hand() -> None:
    _, handles = between_mm(20.0, 22.0, x_mm=60.0)
    assert handles == pytest.approx(22.0)
