"""Narrow hooks for small loops; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import Trial

from cleatwright.holders.families.loop_hook.family import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import Loop
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, block, prism

SECTORS = 16


def ring(opening_mm: float, bundle_mm: float, *, kg: float = 0.1) -> ToolBody:
    """Return a ring of sectors whose inner polygon stands around a circle of the opening."""
    half, inner = math.pi / SECTORS, opening_mm / 2
    outer, spread = inner + 4.0, math.tan(half)
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
    return ToolBody("ring", "x", envelope, kg, (0.0, 0.0, 0.0), (grip,), opening_mm)


def strap(width_mm: float, height_mm: float, bundle_mm: float) -> ToolBody:
    """Return a rectangular loop 3 mm stout, its inner top at z = 0."""
    x, y, low = width_mm / 2, bundle_mm / 2, -height_mm
    envelope: tuple[Solid, ...] = (
        block(-x - 3.0, -y, 0.0, x + 3.0, y, 3.0),
        block(-x - 3.0, -y, low - 3.0, x + 3.0, y, low),
        block(-x - 3.0, -y, low, -x, y, 0.0),
        block(x, -y, low, x + 3.0, y, 0.0),
    )
    grip = Loop(0.0, width_mm, height_mm, bundle_mm)
    return ToolBody("strap", "x", envelope, 0.15, (0.0, 0.0, low / 2), (grip,), width_mm)


TRIAL = Trial(
    FAMILY,
    st.one_of(
        st.builds(ring, st.floats(10.0, 80.0), st.floats(2.0, 40.0)),
        st.builds(strap, st.floats(10.0, 200.0), st.floats(10.0, 200.0), st.floats(2.0, 90.0)),
    ),
    groups=tuple(
        tuple(ring(opening, 10.0) for opening in openings)
        for openings in ((19.0,), (10.0, 45.0, 14.0, 80.0))
    ),
    held=(ring(10.0, 5.0),),
    refused=(
        (ring(9.9, 5.0), "smaller than a hook"),
        (strap(100.0, 9.0, 5.0), "smaller than a hook"),
        (strap(100.0, 60.0, 91.0), "bends"),
        (ring(60.0, 20.0, kg=0.5), "choose a wide saddle"),
        (ring(10.0, 80.0, kg=0.4), "for years"),
    ),
)


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_loop_has_half_its_play_before_the_tip(play: float, kernel: MeshKernel) -> None:
    part = TRIAL.part(strap(80.0, 80.0, 30.0), fit=Fit(play))
    top = kernel.evaluate(part.seats[0].envelope()[0]).placed(shift(0.0, 0.0, 0.01))
    # pushed to the front by half the play, the loop's lower edge meets the foot of the ramp
    pushed = top.placed(shift(0.0, play / 2, 0.0))
    holder = kernel.evaluate(part.solid)
    assert holder.overlap_mm3(pushed) == pytest.approx(0.0, abs=1e-9)
    assert holder.overlap_mm3(pushed.placed(shift(0.0, 0.05, 0.0))) > 0.0


def test_the_section_at_the_tip_is_a_crowned_rectangle(kernel: MeshKernel) -> None:
    """Closed form: a circular segment, a rectangle and two triangles broken off below.

    Width 10, depth 9: the crown's radius is 6, half its angle asin(5 / 6), its fall
    6 - sqrt(36 - 25); the lower edges are broken by 2 mm.
    """
    front = TRIAL.front(strap(60.0, 60.0, 30.0), params={"hook_mm": 10.0, "tip_mm": 8.0})
    # the tip's level part lies between 1 mm and 2.5 mm before the end
    end = front.reach_mm
    slab = block(0.0, end - 2.0, -60.0, front.width_mm, end - 1.5, 60.0)
    half = math.asin(5.0 / 6.0)
    segment = 36.0 / 2 * (2 * half - math.sin(2 * half))
    fall = 6.0 - math.sqrt(11.0)
    expected = 0.5 * (segment + 10.0 * (9.0 - fall) - 2.0**2)
    fine = MeshKernel(chord_error_mm=0.001).evaluate(front.solid & slab)
    assert fine.facts.volume_mm3 == pytest.approx(expected, rel=3e-4)
    assert fine.facts.bounds_mm[1][2] == pytest.approx(8.0, abs=1e-3)
    assert kernel.evaluate(front.solid).facts.bounds_mm[0][1] == pytest.approx(0.0)
