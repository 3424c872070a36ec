"""Files of discs; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.disc_file import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import Disc
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import block, prism


def disc(diameter_mm: float, thickness_mm: float) -> ToolBody:
    """Return a disc about the x axis."""
    whole = prism(circle(diameter_mm), thickness_mm).turned("y", 90.0).moved(-thickness_mm / 2)
    grip = Disc(diameter_mm=diameter_mm, thickness_mm=thickness_mm)
    return ToolBody("disc", "x", (whole,), 0.3, (0.0, 0.0, 0.0), (grip,), diameter_mm)


TRIAL = Trial(
    FAMILY,
    st.builds(disc, st.floats(30.0, 420.0), st.floats(0.3, 60.0)),
    groups=(
        (disc(150.0, 3.0),),
        (disc(30.0, 0.3),),
        tuple(
            disc(*size)
            for size in (
                *((420.0, 4.0), (30.0, 60.0), (150.0, 3.0)),
                *((150.0, 3.0), (125.0, 25.0), (315.0, 3.2)),
            )
        ),
    ),
    guided=(HalfPlay(disc(150.0, 3.0), raised_mm=1.0),),
    held=(disc(30.0, 60.0), disc(420.0, 0.3)),
    refused=(
        (disc(29.0, 3.0), "diameter of 29 mm"),
        (disc(100.0, 61.0), "thickness of 61 mm"),
    ),
)


def test_a_disc_is_lifted_by_its_sagitta_the_lip_and_the_lift() -> None:
    """A flank at 30 degrees is touched r (1 - cos 30) above the lowest point, without play."""
    front = TRIAL.front(disc(200.0, 3.0), fit=Fit(0.0))
    up = front.seats[0].way_out[0][2]
    assert up == pytest.approx(100.0 * (1.0 - math.cos(math.radians(30.0))) + 5.0 + 1.0)


def test_equal_neighbours_share_a_fin_and_the_width_is_that_of_slots_and_fins() -> None:
    front = TRIAL.front(*([disc(150.0, 9.6)] * 5))
    assert front.width_mm == pytest.approx(5 * 10.0 + 6 * 5.0)
    centres = [seat.pose.shift_mm[0] for seat in front.seats]
    assert centres == pytest.approx([10.0, 25.0, 40.0, 55.0, 70.0])


def test_small_discs_stand_higher_so_that_all_back_flanks_lie_in_one_plane(
    kernel: MeshKernel,
) -> None:
    """The flank of a disc of radius r leaves the plate at (r + 1) tan 30 - r (1/cos 30 - 1)."""
    front = TRIAL.front(disc(200.0, 5.0), disc(100.0, 5.0), fit=Fit(0.0))
    tan, deep = math.tan(math.radians(30.0)), 1.0 / math.cos(math.radians(30.0)) - 1.0
    roots = [(r + 1.0) * tan - r * deep for r in (100.0, 50.0)]
    lows = [seat.pose.shift_mm[2] - r for seat, r in zip(front.seats, (100.0, 50.0), strict=True)]
    assert lows[1] - lows[0] == pytest.approx(roots[0] - roots[1])
    assert kernel.evaluate(front.solid).facts.bounds_mm[0][2] == pytest.approx(front.low_mm)


def test_the_fin_between_two_discs_is_solid(kernel: MeshKernel) -> None:
    front = TRIAL.front(disc(150.0, 5.0), disc(60.0, 5.0))
    x = (front.width_mm - 25.8) / 2 + 5.0 + 5.4
    probe = kernel.evaluate(block(x + 1.0, 6.0, 38.0, x + 4.0, 20.0, 40.0))
    assert kernel.evaluate(front.solid).overlap_mm3(probe) == pytest.approx(3.0 * 14.0 * 2.0)
