"""Rests for round rims; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import Trial

from cleatwright.holders.families.rim_rest import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import RoundRim
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift, turn
from cleatwright.shapes.solid import prism


def rim(diameter_mm: float, depth_mm: float, *, kg: float = 0.5) -> ToolBody:
    """Return a full round thing, its axis along y, standing at z = 0."""
    solid = prism(circle(diameter_mm), depth_mm).turned("x", 90.0)
    solid = solid.moved(0.0, depth_mm / 2, diameter_mm / 2)
    grip = RoundRim(diameter_mm / 2, diameter_mm, depth_mm)
    centre = (0.0, 0.0, diameter_mm / 2)
    return ToolBody("rim", "x", (solid,), kg, centre, (grip,), diameter_mm)


TRIAL = Trial(
    FAMILY,
    st.builds(rim, st.floats(60.0, 400.0), st.floats(66.7, 160.0), kg=st.floats(0.05, 2.0)),
    groups=(
        (rim(60.0, 12.0),),
        (rim(650.0, 120.0),),
        (rim(300.0, 75.0), rim(90.0, 20.0), rim(200.0, 160.0)),
    ),
    held=(rim(90.0, 15.0), rim(60.0, 12.0), rim(650.0, 160.0)),
    refused=(
        (rim(59.0, 30.0), "outside the 60 to 650 mm"),
        (rim(660.0, 150.0), "outside the 60 to 650 mm"),
        (rim(65.0, 11.5), "outside the 12 to 160 mm"),
        (rim(300.0, 49.0), "topples over"),
        (rim(100.0, 20.0, kg=40.0), "too much for two webs"),
    ),
)


@pytest.mark.parametrize(("diameter", "slant"), [(300.0, 45.0 / 150.0), (90.0, 0.6)])
def test_the_rim_touches_each_ledge_at_its_middle(
    kernel: MeshKernel, diameter: float, slant: float
) -> None:
    """A tangent plane at an angle whose sine is ``slant``: turned about it, the gap stays 0."""
    part = TRIAL.part(rim(diameter, 60.0))
    holder = kernel.evaluate(part.solid)
    (piece,) = [kernel.evaluate(one) for one in part.seats[0].envelope()]
    assert holder.gap_mm(piece, within_mm=1.0) == pytest.approx(0.0, abs=0.02)
    # raised square to one ledge by 2 mm, the other one is 2 cos(2 angle) away, and its lip,
    # which leans by 45 degrees, half the play and that over the root of 2; the plate lies 1 mm
    # and half the play behind
    degrees = math.degrees(math.asin(slant))
    for side in (-1, 1):
        raised = piece.placed(shift(*turn("y", -side * degrees).apply((0.0, 0.0, 2.0))))
        gap = holder.gap_mm(raised, within_mm=5.0)
        away = 2.0 * math.cos(2.0 * math.radians(degrees))
        assert gap == pytest.approx(min(away, (away + 0.2) / math.sqrt(2.0), 1.2), abs=0.03)


def test_a_push_sideways_must_lift_the_rim_up_its_ledge() -> None:
    """Without friction it climbs from the tangent of the angle on: 0.3 / 0.954 of its weight."""
    part = TRIAL.part(rim(300.0, 75.0))
    (_, _, up), *_ = part.seats[0].way_out
    assert up == pytest.approx((6.0 + 1.0) / math.sqrt(1.0 - 0.3**2))


def test_a_rim_is_never_taken_for_a_narrower_one_by_the_play(kernel: MeshKernel) -> None:
    """The ledges are tangents of the rim as measured; play goes to its depth alone."""
    part = TRIAL.part(rim(300.0, 75.0), fit=Fit(0.6, 0.2))
    (size,) = part.seats[0].sizes
    assert (size.label, size.made_mm) == ("ledge length", pytest.approx(75.8))
    (piece,) = [kernel.evaluate(one) for one in part.seats[0].envelope()]
    gap = kernel.evaluate(part.solid).gap_mm(piece, within_mm=1.0)
    assert gap == pytest.approx(0.0, abs=0.02)
