"""Combs for flat tools on edge; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import strategies as st
from tests.holders.trial import Trial

from cleatwright.holders.families.edge_comb.family import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import FlatEdge
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block


def headed_bar(
    width_mm: float,
    *,
    thickness_mm: float = 6.0,
    straight_mm: float = 100.0,
    head: float = 2.0,
    balance: float = 0.5,
) -> ToolBody:
    """Return a flat bar between two box heads, ``head`` (>= 1) times as wide and 1.4 as thick.

    ``balance`` is the share of the straight part that lies below the centre of mass,
    as far as a comb can take it.
    """
    x, y, end = width_mm / 2, thickness_mm / 2, 20.0
    low, high = end, end + straight_mm
    envelope = (
        block(-x * head, -y * 1.4, 0.0, x * head, y * 1.4, end),
        block(-x, -y, low, x, y, high),
        block(-x * head, -y * 1.4, high, x * head, y * 1.4, high + end),
    )
    com = min(max(low + balance * straight_mm, low + 8.0), high - 8.0)
    grip = FlatEdge(low, high, width_mm, thickness_mm)
    return ToolBody("bar", "x", envelope, 0.3, (0.0, 0.0, com), (grip,), width_mm * head)


TRIAL = Trial(
    FAMILY,
    st.builds(
        headed_bar,
        st.floats(5.0, 60.0),
        thickness_mm=st.floats(2.0, 15.0),
        straight_mm=st.floats(27.0, 400.0),
        head=st.floats(1.0, 3.0),
        balance=st.floats(0.0, 1.0),
    ),
    groups=tuple(
        tuple(headed_bar(w, thickness_mm=w / 3) for w in widths)
        for widths in ((12.0,), (6.0, 30.0, 12.0, 45.0, 8.0, 20.0, 15.0))
    ),
    held=(headed_bar(12.0, straight_mm=27.0),),
    refused=(
        (headed_bar(12.0, straight_mm=26.0), "too short"),
        (replace(headed_bar(12.0), com_mm=(0.0, 0.0, 125.0)), "balances at 125 mm"),
    ),
)


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_shaft_has_half_the_play_on_each_side(play: float, kernel: MeshKernel) -> None:
    part = TRIAL.part(headed_bar(20.0), fit=Fit(play))
    up = (0.0, 3.0 * math.cos(math.radians(30.0)), 3.0 * math.sin(math.radians(30.0)))
    shaft = kernel.evaluate(part.seats[0].envelope()[1]).placed(shift(*up))
    gap = kernel.evaluate(part.solid).gap_mm(shaft, within_mm=2.0)
    assert gap == pytest.approx(play / 2, abs=1e-6)


def test_the_biggest_lies_lowest_and_each_balances_between_the_cheeks() -> None:
    part = TRIAL.part(*(headed_bar(w) for w in (12.0, 30.0, 20.0)), params={"span_mm": 60.0})
    assert [seat.tool.order_mm for seat in part.seats] == [24.0, 40.0, 60.0]
    heights = [seat.rest_z_mm for seat in part.seats]
    assert heights == sorted(heights, reverse=True)
    assert [seat.com_mm[0] for seat in part.seats] == pytest.approx([30.0] * 3)


def test_heads_of_neighbours_are_a_hand_room_apart(kernel: MeshKernel) -> None:
    part = TRIAL.part(headed_bar(30.0), headed_bar(18.0))
    upper, lower = ([kernel.evaluate(p) for p in seat.envelope()] for seat in part.seats)
    assert upper[0].gap_mm(lower[0], within_mm=50.0) == pytest.approx(12.0, abs=1e-6)


def test_volume_of_one_comb_in_closed_form(kernel: MeshKernel) -> None:
    """Two cheeks 5 thick less a slot 6.5 wide and 13 deep at 30 degrees, with two fillets."""
    front = TRIAL.front(headed_bar(20.0, head=1.0), fit=Fit(0.5))
    cos, tan = math.sqrt(0.75), math.sqrt(1.0 / 3.0)
    # the heads are 8.4 thick; their rear corner stands 4 mm before the plate of 5 mm
    bottom_y = 5.0 + 4.0 + 4.2 * 0.5
    reach = bottom_y + 13.0 * cos + 3.25 * 0.5
    mouth_z = 13.0 * 0.5 - 3.25 * cos
    toe = mouth_z - 6.0 / cos
    heel = toe - (reach - 5.0)

    def top_at(y: float) -> float:
        # the top is a line 3.25 + 6 above the slot's middle, measured across it
        return (3.25 + 6.0) / cos + (y - bottom_y) * tan

    outline = [
        (0.0, heel),
        (5.0, heel),
        (reach, toe),
        (reach, top_at(reach)),
        (5.0, top_at(5.0)),
        (0.0, top_at(5.0)),
    ]
    pairs = zip(outline, outline[1:] + outline[:1], strict=True)
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2
    slot = 6.5 * 13.0 + 6.5**2 * tan / 2
    flares = 0.5 * 1.5 * (1.5 / (1.5 + tan) + 1.5 / (1.5 - tan))
    fillet = (3.0 * 5.0 + 3.0**2 / 2) * (top_at(5.0) - heel - 3.0)
    expected = 2 * 5.0 * (area - slot - flares) + 2 * fillet
    assert kernel.evaluate(front.solid).facts.volume_mm3 == pytest.approx(expected, rel=1e-6)
