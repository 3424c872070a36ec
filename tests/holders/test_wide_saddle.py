"""Wide saddles for coils and loops; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import Trial

from cleatwright.holders.families.wide_saddle import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import Loop
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, block, prism

SECTORS = 24


def coil(opening_mm: float, bundle_mm: float, *, wound_mm: float = 20.0) -> ToolBody:
    """Return a ring of sectors whose inner polygon stands around a circle of the opening."""
    half, inner = math.pi / SECTORS, opening_mm / 2
    outer = inner + wound_mm
    spread = math.tan(half)
    sector = polygon(
        [
            (-inner * spread, inner),
            (inner * spread, inner),
            (outer * spread, outer),
            (-outer * spread, outer),
        ]
    )
    upright = prism(sector, bundle_mm).turned("x", 90.0).moved(0.0, bundle_mm / 2, 0.0)
    envelope = tuple(upright.turned("y", 360.0 * k / SECTORS) for k in range(SECTORS))
    grip = Loop(inner, opening_mm, opening_mm, bundle_mm)
    return ToolBody("coil", "x", envelope, 1.5, (0.0, 0.0, 0.0), (grip,), opening_mm)


def frame(width_mm: float, height_mm: float, bundle_mm: float) -> ToolBody:
    """Return a rectangular loop 6 mm stout, its inner top at z = 0."""
    x, y, low = width_mm / 2, bundle_mm / 2, -height_mm
    envelope: tuple[Solid, ...] = (
        block(-x - 6.0, -y, 0.0, x + 6.0, y, 6.0),
        block(-x - 6.0, -y, low - 6.0, x + 6.0, y, low),
        block(-x - 6.0, -y, low, -x, y, 0.0),
        block(x, -y, low, x + 6.0, y, 0.0),
    )
    grip = Loop(0.0, width_mm, height_mm, bundle_mm)
    return ToolBody("frame", "x", envelope, 0.3, (0.0, 0.0, low / 2), (grip,), width_mm)


TRIAL = Trial(
    FAMILY,
    st.one_of(
        st.builds(lambda d, share: coil(d, d * share), st.floats(34.0, 400.0), st.floats(0.1, 1.0)),
        st.builds(
            lambda w, h, share: frame(w, h, h * share),
            st.floats(34.0, 300.0),
            st.floats(34.0, 300.0),
            st.floats(0.1, 1.0),
        ),
    ),
    groups=tuple(
        tuple(coil(opening, opening / 3) for opening in openings)
        for openings in ((170.0,), (34.0, 60.0, 300.0, 40.0, 90.0, 50.0, 200.0))
    ),
    held=(coil(34.0, 34.0),),
    refused=(
        (coil(33.0, 10.0), "smaller than the arm"),
        (frame(100.0, 30.0, 10.0), "smaller than the arm"),
        (coil(60.0, 61.0), "stiff enough"),
    ),
)


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_loop_has_half_its_play_before_the_tip(play: float, kernel: MeshKernel) -> None:
    part = TRIAL.part(frame(80.0, 80.0, 30.0), fit=Fit(play))
    top = kernel.evaluate(part.seats[0].envelope()[0]).placed(shift(0.0, 0.0, 0.01))
    # pushed to the front by half the play, the loop's lower edge meets the foot of the ramp
    pushed = top.placed(shift(0.0, play / 2, 0.0))
    holder = kernel.evaluate(part.solid)
    assert holder.overlap_mm3(pushed) == pytest.approx(0.0, abs=1e-9)
    assert holder.overlap_mm3(pushed.placed(shift(0.0, 0.05, 0.0))) > 0.0


def test_the_crown_is_an_arc_of_six_tenths_of_the_width(kernel: MeshKernel) -> None:
    """The section at the saddle falls by R - sqrt(R^2 - x^2) (the circle's equation)."""
    part = TRIAL.part(frame(200.0, 200.0, 60.0), params={"saddle_mm": 50.0})
    body = kernel.evaluate(part.solid)
    middle = part.seats[0].pose.shift_mm[0]
    for x in (0.0, 10.0, 20.0, 24.0):
        fall = 30.0 - math.sqrt(30.0**2 - x**2)
        for above, hit in ((0.03, False), (-0.05, True)):
            probe = block(-0.005, 20.0, 0.0, 0.005, 25.0, 1.0)
            placed = kernel.evaluate(probe.moved(middle + x, 0.0, above - fall))
            assert (body.overlap_mm3(placed) > 1e-6) is hit


def test_volume_of_a_strip_along_the_crown_in_closed_form(kernel: MeshKernel) -> None:
    """A strip 4 wide between the webs is the area between two circles, drawn out along y."""
    front = TRIAL.front(frame(200.0, 200.0, 29.5), fit=Fit(0.5), params={"saddle_mm": 50.0})
    middle = front.seats[0].pose.shift_mm[0]
    strip = block(middle - 2.0, 5.0, -50.0, middle + 2.0, 100.0, 50.0)

    def under(radius: float) -> float:
        # the integral of sqrt(r^2 - x^2) from -2 to 2
        return 2.0 * math.sqrt(radius**2 - 4.0) + radius**2 * math.asin(2.0 / radius)

    def wedge(length: float, inner_from: float, inner_to: float) -> float:
        # Simpson's rule; the integrand is so smooth that its error is below 1e-6
        inside = under(inner_from) + 4.0 * under((inner_from + inner_to) / 2) + under(inner_to)
        return length * (under(30.0) - inside / 6.0)

    # root of 3 mm, saddle and ramp (a sheared prism) up to the end of the lip, broken edge
    axis_y = 5.0 + 1.0 + 15.0
    straight = axis_y + 15.0 + 8.0 + 2.0 - (5.0 + 3.0)
    expected = (
        wedge(3.0, 22.0, 25.0) + straight * (under(30.0) - under(25.0)) + wedge(1.0, 25.0, 27.0)
    )
    fine = MeshKernel(chord_error_mm=0.001).evaluate(front.solid & strip)
    assert fine.facts.volume_mm3 == pytest.approx(expected, rel=5e-4)
