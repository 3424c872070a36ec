"""Bars for tools with two legs; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.straddle_bar import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import Straddle
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block


def two_legs(
    gap_mm: float, *, leg_mm: float = 12.0, thickness_mm: float = 11.0, legs_mm: float = 100.0
) -> ToolBody:
    """Return two box legs that meet in a box head; the legs meet 5 mm above the full gap."""
    inner, wide, half = gap_mm / 2, gap_mm / 2 + leg_mm, thickness_mm / 2
    envelope = (
        block(-wide, -half, 0.0, -inner, half, legs_mm),
        block(inner, -half, 0.0, wide, half, legs_mm),
        block(-wide, -half, legs_mm - 5.0, wide, half, legs_mm + 60.0),
    )
    grip = Straddle(legs_mm, gap_mm, 5.0, legs_mm, thickness_mm, 2 * wide)
    return ToolBody("two-legs", "x", envelope, 0.25, (0.0, 0.0, legs_mm), (grip,), legs_mm)


TRIAL = Trial(
    FAMILY,
    st.builds(
        two_legs,
        st.floats(6.0, 60.0),
        leg_mm=st.floats(3.0, 30.0),
        thickness_mm=st.floats(3.0, 60.0),
        legs_mm=st.floats(40.0, 600.0),
    ),
    groups=tuple(
        tuple(two_legs(gap) for gap in gaps)
        for gaps in ((9.0,), (6.0, 30.0, 12.0, 60.0, 7.5, 20.0, 15.0))
    ),
    # legs that rest have left the crotch, so that only the flanks are near
    guided=(HalfPlay(two_legs(12.0), pieces=(1,)),),
    held=(two_legs(6.0),),
    refused=(
        (two_legs(5.9), "5.9 mm apart"),
        (replace(two_legs(9.0), kind="peg", grips=()), "needs a straddle, which a peg does not"),
    ),
)


def test_a_bar_is_the_gap_less_play_and_correction() -> None:
    part = TRIAL.part(two_legs(9.0), fit=Fit(0.4, 0.1))
    bar = part.seats[0].sizes[0]
    assert bar.measured_mm == 9.0
    assert bar.made_mm == pytest.approx(9.0 - 0.4 - 0.1)


def test_the_tool_has_its_play_before_the_lip(kernel: MeshKernel) -> None:
    """Lifted by 2 mm, its lower front edge is (play / 2 + 2) / sqrt 2 from a face at 45 degrees."""
    part = TRIAL.on_rail(two_legs(12.0), fit=Fit(0.6))
    head = kernel.evaluate(part.seats[0].envelope()[2]).placed(shift(0.0, 0.0, 2.0))
    gap = kernel.evaluate(part.solid).gap_mm(head, within_mm=5.0)
    assert gap == pytest.approx((0.3 + 2.0) / math.sqrt(2.0), abs=1e-6)


def test_volume_of_one_bar_in_closed_form(kernel: MeshKernel) -> None:
    """Bar 10 wide, 8 high, 4 of lip: a prism whose rims are cut by 1 mm, and a web.

    A section that shrinks by t has the area A - P t + 4 t^2: its corners turn by 45 degrees
    as often to the right as to the left, and by 90 degrees four times.
    """
    front = TRIAL.front(two_legs(10.5), fit=Fit(0.5))
    lip_y = 5.0 + 1.0 + 2 * 11.5 / 2
    end, run = lip_y + 4.0 + 3.0, lip_y - 5.0
    cove = 3.0**2 / 2 + 3.0 * 5.0
    area = end * 8.0 + 3.0 * 4.0 + 4.0**2 / 2 + cove
    level = 5.0 + (end - 8.0) + 3.0 + lip_y
    perimeter = level + (8.0 + 3.0) + (8.0 + 4.0) + (3.0 + 4.0) * math.sqrt(2.0)
    bar = area * (10.0 - 2 * 1.0) + 2 * (area - perimeter / 2 + 4.0 / 3)
    web = 4.0 * (run**2 / 2 + run * 5.0 - cove)
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    assert measured == pytest.approx(bar + web, rel=1e-6)


@pytest.mark.parametrize(("above_mm", "depth_mm"), [(3.9, 30.0), (4.1, 11.0), (-2.0, 30.0)])
def test_only_what_comes_down_behind_the_lip_moves_the_lip_out(
    above_mm: float, depth_mm: float
) -> None:
    """A head 30 mm deep that begins below the top of a lip of 4 mm must stay behind the lip."""
    plain = two_legs(12.0)
    rest = 100.0 - 5.0
    head = block(-18.0, -15.0, rest + above_mm, 18.0, 15.0, rest + 60.0)
    tool = ToolBody(
        "two-legs", "x", (*plain.envelope, head), 0.25, (0.0, 0.0, 100.0), plain.grips, 100.0
    )
    part = TRIAL.part(tool, params={"lip_mm": 4.0})
    assert part.seats[0].sizes[1].measured_mm == pytest.approx(depth_mm)
