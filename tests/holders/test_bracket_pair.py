"""Pairs of brackets; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.bracket_pair import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import LyingBar
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import Solid, block, prism


def bar(
    length_mm: float,
    depth_mm: float,
    height_mm: float = 0.0,
    *,
    com_mm: float = 0.0,
    head_mm: float = 0.0,
) -> ToolBody:
    """Return a bar along x, round without a height; a head beyond one end, so wide both ways."""
    tall, y = height_mm or depth_mm, depth_mm / 2
    whole: Solid = block(-length_mm / 2, -y, 0.0, length_mm / 2, y, tall)
    if not height_mm:
        lying = prism(circle(depth_mm), length_mm).turned("y", 90.0)
        whole = lying.moved(-length_mm / 2, 0.0, depth_mm / 2)
    pieces = [whole]
    if head_mm:
        end, h = length_mm / 2, head_mm / 2
        pieces.append(block(end, -h, tall / 2 - h, end + 20.0, h, tall / 2 + h))
    grip = LyingBar(
        length_mm=length_mm, depth_mm=depth_mm, height_mm=tall, round_section=not height_mm
    )
    com = (com_mm, 0.0, tall / 2)
    return ToolBody("bar", "x", tuple(pieces), 0.8, com, (grip,), length_mm)


TRIAL = Trial(
    FAMILY,
    st.builds(
        bar,
        st.floats(130.0, 2000.0),
        st.floats(2.0, 120.0),
        st.one_of(st.just(0.0), st.floats(2.0, 120.0)),
        com_mm=st.floats(-40.0, 40.0),
        head_mm=st.one_of(st.just(0.0), st.floats(20.0, 150.0)),
    ),
    groups=(
        (bar(600.0, 25.0, 60.0),),
        (bar(1300.0, 25.0),),
        (bar(600.0, 25.0, 60.0), bar(1300.0, 28.0), bar(120.0, 2.0, 2.0), bar(300.0, 20.0, 45.0)),
    ),
    guided=(HalfPlay(bar(400.0, 30.0, 50.0), raised_mm=0.5),),
    held=(bar(120.0, 20.0, 20.0),),
    refused=(
        (bar(119.0, 20.0, 20.0), "shorter than"),
        (bar(400.0, 20.0, 20.0, com_mm=190.0), "balances 190 mm"),
        (bar(400.0, 150.0, 20.0), "depth of 150 mm"),
    ),
)


def test_a_round_pole_touches_both_flanks_at_30_degrees(kernel: MeshKernel) -> None:
    """A circle on two tangents at 30 degrees touches them 30 degrees beside its lowest point."""
    part = TRIAL.part(bar(1000.0, 28.0))
    (x, y, z), radius = part.seats[0].pose.shift_mm, 14.0
    body = kernel.evaluate(part.solid)
    for side in (-1, 1):
        touch_y = y + side * radius * math.sin(math.radians(30.0))
        touch_z = z + radius * (1.0 - math.cos(math.radians(30.0)))
        probe = block(x - 200.0, touch_y - 0.05, touch_z, x + 200.0, touch_y + 0.05, touch_z + 1.0)
        assert body.overlap_mm3(kernel.evaluate(probe)) < 0.1 * 16.0 * 0.06
        under = block(x - 99.0, touch_y - 0.05, touch_z - 1.0, x + 99.0, touch_y + 0.05, touch_z)
        assert body.overlap_mm3(kernel.evaluate(under)) == pytest.approx(0.1 * 16.0, rel=0.05)


@pytest.mark.parametrize(("com", "aside"), [(0.0, 0.0), (40.0, -40.0), (-120.0, 94.0)])
def test_the_centre_of_mass_comes_to_the_middle_as_far_as_the_bar_reaches(
    com: float, aside: float
) -> None:
    """400 mm of bar on a span of 200 with brackets of 8 can move (400 - 208) / 2 - 2 = 94."""
    front = TRIAL.front(bar(400.0, 30.0, 50.0, com_mm=com), params={"span_mm": 200.0})
    assert front.seats[0].pose.shift_mm[0] - front.width_mm / 2 == pytest.approx(aside)
    assert abs(front.seats[0].com_mm[0] - front.width_mm / 2) < 100.0


def test_brackets_stand_half_a_length_apart_but_no_more_than_the_span() -> None:
    for length, span in ((200.0, 100.0), (2000.0, 160.0)):
        front = TRIAL.front(bar(length, 30.0, 50.0))
        assert front.width_mm == pytest.approx(span + 8.0 + 6.0)


def test_volume_of_one_pair_in_closed_form(kernel: MeshKernel) -> None:
    """Prisms 8 wide: a triangle, the slab of 6, the lip of 5 by 6 less a bevel of 1 by 1."""
    front = TRIAL.front(bar(400.0, 29.5, 50.0), fit=Fit(0.5))
    end = 30.0 + 5.0
    section = end**2 / 2 + 5.0 * (end + 6.0) + 6.0 * end + 5.0 * 6.0 - 0.5
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    assert measured == pytest.approx(2 * 8.0 * section, rel=1e-6)
