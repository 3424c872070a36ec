"""Bars for clamps; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import Trial

from cleatwright.holders.families.clamp_bar.family import FAMILY
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import HookedArm
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.solid import Solid, block


def clamp(
    reach_mm: float,
    *,
    bar_y_mm: float = 20.0,
    width_mm: float = 26.0,
    nose_mm: float = 0.0,
    free_mm: float = 90.0,
    kg: float = 1.0,
) -> ToolBody:
    """Return a bar with two jaws towards the wall; the fixed one ends in a nose."""
    x, y, z, wide = 3.0, bar_y_mm / 2, 260.0, width_mm / 2
    back = -y - reach_mm
    envelope: list[Solid] = [
        block(-x, -y, 0.0, x, y, z + 20.0),
        block(-wide / 2, back, z, wide / 2, -y, z + 20.0),
        block(-wide, back, z - free_mm - 30.0, wide, -y, z - free_mm),
    ]
    if nose_mm:
        envelope.append(block(-wide / 2, back, z - nose_mm, wide / 2, back + 15.0, z))
    grip = HookedArm(
        z_mm=z,
        bar_y_mm=bar_y_mm,
        arm_x_mm=wide,
        reach_mm=reach_mm,
        free_mm=free_mm,
        nose_mm=nose_mm,
        nose_y_mm=15.0 if nose_mm else 0.0,
    )
    return ToolBody("clamp", "x", tuple(envelope), kg, (0.0, -y, z - 60.0), (grip,), reach_mm)


TRIAL = Trial(
    FAMILY,
    st.builds(
        clamp,
        st.floats(25.0, 150.0),
        bar_y_mm=st.floats(5.0, 40.0),
        width_mm=st.floats(10.0, 60.0),
        nose_mm=st.one_of(st.just(0.0), st.floats(1.0, 8.0)),
    ),
    groups=tuple(
        tuple(clamp(reach, nose_mm=nose) for reach in reaches)
        for nose in (0.0, 4.0)
        for reaches in ((60.0,), (40.0, 100.0, 25.0, 60.0))
    ),
    held=(clamp(60.0, kg=5.0),),
    refused=(
        (clamp(9.0), "between its bar and its nose"),
        (clamp(151.0), "too large for their load"),
        (clamp(60.0, free_mm=30.0), "open its jaws"),
        (clamp(60.0, kg=20.0), "for years"),
    ),
)


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_the_bar_ends_the_play_before_the_nose(play: float, kernel: MeshKernel) -> None:
    """The nose leans in by its own height; the gap is the play, seen along a level line."""
    part = TRIAL.part(clamp(35.0, nose_mm=4.0), fit=Fit(play), params={"bar_mm": 24.0})
    seat = part.seats[0]
    bar = seat.sizes[1]
    assert bar.made_mm == pytest.approx(35.0 - 15.0 - play)
    nose = kernel.evaluate(seat.envelope()[3])
    gap = kernel.evaluate(part.solid).gap_mm(nose, within_mm=5.0)
    assert gap == pytest.approx(play * math.cos(math.radians(3.0)), abs=1e-4)


def test_volume_of_one_bay_in_closed_form(kernel: MeshKernel) -> None:
    """A side profile drawn over the whole width, less a bay and an arch: areas by hand."""
    room = BuildContext(hand_room_mm=17.0)
    front = TRIAL.front(clamp(60.0, width_mm=26.0), ctx=room, params={"bar_mm": 14.0})
    slope = math.tan(math.radians(3.0))
    # 26 wide and 6 of room at each side: the bay is 38, its arch rises by 15 to a bridge of 8
    face = 12.0 + 15.0 + 2.0
    assert front.width_mm == pytest.approx(38.0 + 2 * 5.0)
    # without an arch and a bay, and with both: what is gone lies between the webs
    webs = kernel.evaluate(front.solid & block(0.0, 0.0, -300.0, 5.0, 300.0, 10.0))
    edge = front.reach_mm - face * slope
    run = front.reach_mm - 5.0
    low = -face - run
    side = 0.0
    profile = [
        (0.0, low),
        (5.0, low),
        (front.reach_mm, -face),
        (edge + 1.5 * slope, -1.5),
        (edge - 1.5, -1.5 * slope),
        (0.0, -edge * slope),
    ]
    for (y0, z0), (y1, z1) in zip(profile, profile[1:] + profile[:1], strict=True):
        side += (y0 * z1 - y1 * z0) / 2
    assert webs.facts.volume_mm3 == pytest.approx(5.0 * side, rel=1e-6)
    # the bar above the crown of its arch, 14 deep at the top; cut level below its chamfer
    level = block(0.0, 8.0, -12.0, front.width_mm, 300.0, -10.0)
    bar = kernel.evaluate(front.solid & level & block(23.0, 0.0, -99.0, 25.0, 300.0, 9.0))
    assert bar.facts.volume_mm3 == pytest.approx(2.0 * 2.0 * (14.0 + 11.0 * slope), rel=1e-6)
