"""Cradles for lying things; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.cradle import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import LyingBar
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, block, prism


def lying(
    length_mm: float,
    depth_mm: float,
    height_mm: float = 0.0,
    *,
    com_mm: float = 0.0,
    head_mm: float = 0.0,
) -> ToolBody:
    """Return a thing along x, round without a height; a thicker head beyond one end."""
    tall, y = height_mm or depth_mm, depth_mm / 2
    whole: Solid = block(-length_mm / 2, -y, 0.0, length_mm / 2, y, tall)
    if not height_mm:
        turned = prism(circle(depth_mm), length_mm).turned("y", 90.0)
        whole = turned.moved(-length_mm / 2, 0.0, depth_mm / 2)
    pieces = [whole]
    if head_mm:
        end, h = length_mm / 2, depth_mm / 2 + head_mm
        pieces.append(block(end, -h, tall / 2 - h, end + 30.0, h, tall / 2 + h))
    grip = LyingBar(
        length_mm=length_mm, depth_mm=depth_mm, height_mm=tall, round_section=not height_mm
    )
    com = (com_mm, 0.0, tall / 2)
    return ToolBody("lying", "x", tuple(pieces), 1.5, com, (grip,), length_mm)


TRIAL = Trial(
    FAMILY,
    st.builds(
        lying,
        st.floats(50.0, 500.0),
        st.floats(6.0, 180.0),
        st.one_of(st.just(0.0), st.floats(5.0, 200.0)),
        com_mm=st.floats(-14.0, 14.0),
        head_mm=st.one_of(st.just(0.0), st.floats(1.0, 30.0)),
    ),
    groups=(
        (lying(245.0, 62.0, 135.0),),
        (lying(160.0, 28.0),),
        (lying(245.0, 62.0, 135.0), lying(40.0, 6.0, 5.0), lying(120.0, 180.0), lying(90.0, 12.0)),
    ),
    guided=(HalfPlay(lying(200.0, 60.0, 90.0), raised_mm=0.5),),
    held=(lying(40.0, 6.0, 5.0),),
    refused=(
        (lying(39.0, 20.0, 20.0), "shorter than"),
        (lying(60.0, 5.0, 20.0), "depth of 5 mm"),
        (lying(100.0, 20.0, 20.0, com_mm=45.0), "balances 45 mm"),
        # 0.925 kg x 9.80665 x 75 / 425: a level of 1 m on 150 mm
        (replace(lying(1000.0, 23.0, 50.0), mass_kg=0.925), "a knock of 1.6 N down on an end"),
    ),
)


@pytest.mark.parametrize(("mass_kg", "width_mm"), [(1.5, 98.0), (0.4, 138.0)])
def test_a_trough_is_as_wide_as_a_knock_on_an_end_asks(mass_kg: float, width_mm: float) -> None:
    """W w / 2 = 5 (245 - w) / 2: 61.5 mm for 14.7 N, less than 0.4 of 245; 137.3 for 3.92 N."""
    tool = replace(lying(245.0, 62.0, 135.0), mass_kg=mass_kg)
    low, high = TRIAL.part(tool, params={"share": 0.4}).bounds_mm
    assert high[0] - low[0] == pytest.approx(width_mm)


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_box_has_half_the_play_behind_it_and_before_the_sloped_lip(
    play: float, kernel: MeshKernel
) -> None:
    """An edge at the foot of a plane at 45 degrees, raised by h, is h / root two away from it."""
    part = TRIAL.part(lying(200.0, 60.0, 90.0), fit=Fit(play))
    held = kernel.evaluate(part.seats[0].envelope()[0])
    body = kernel.evaluate(part.solid)
    raised = held.placed(shift(0.0, 0.0, 0.5))
    assert body.gap_mm(raised, within_mm=5.0) == pytest.approx(play / 2, abs=1e-6)
    forward = held.placed(shift(0.0, play / 2, 0.1))
    assert body.gap_mm(forward, within_mm=5.0) == pytest.approx(0.1 / math.sqrt(2.0), abs=1e-6)


def test_a_thing_lies_in_the_middle_of_its_trough_by_its_weight() -> None:
    """Of 200 mm, 120 lie in the trough: it can move (200 - 4 - 120) / 2 = 38 mm each way."""
    for com, off in ((0.0, 0.0), (-30.0, 0.0), (50.0, 12.0)):
        front = TRIAL.front(lying(200.0, 60.0, 90.0, com_mm=com))
        assert front.width_mm == pytest.approx(120.0)
        assert front.seats[0].com_mm[0] - 60.0 == pytest.approx(off)


def test_volume_of_one_flat_cradle_in_closed_form(kernel: MeshKernel) -> None:
    """A sheet 5 high along floor and lip, and three ribs below half its height."""
    front = TRIAL.front(lying(200.0, 59.5, 90.0), fit=Fit(0.5))
    reach, lip = 60.0, 7.0
    sheet = 5.0 * (5.0 + reach + lip)
    deep = 5.0 + (reach + lip) / 2
    # from half the sheet down to the foot; half of the sheet is common to both
    rib = (deep - 2.5) * 5.0 + (deep - 2.5) * reach / 2
    common = 2.5 * 5.0 + 2.5 * (reach - 2.5 * reach / (deep - 2.5) / 2)
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    assert measured == pytest.approx(120.0 * sheet + 3 * 4.0 * (rib - common), rel=1e-6)


def test_a_round_thing_lies_on_two_flanks(kernel: MeshKernel) -> None:
    """Under a circle between flanks at 30 degrees the vertex is r (1 / cos 30 - 1) deep."""
    part = TRIAL.part(lying(200.0, 80.0))
    x, y, z = part.seats[0].pose.shift_mm
    body = kernel.evaluate(part.solid)
    deep = 40.0 * (1.0 / math.cos(math.radians(30.0)) - 1.0)
    below = kernel.evaluate(block(x - 1.0, y - 0.01, z - 20.0, x + 1.0, y + 0.01, z))
    assert body.overlap_mm3(below) > 0.0
    free = kernel.evaluate(block(x - 1.0, y - 0.01, z - deep + 0.02, x + 1.0, y + 0.01, z))
    assert body.overlap_mm3(free) == pytest.approx(0.0, abs=1e-6)
