"""Pockets in the outline of flat tools: closed forms, print rules, and any outline."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import Trial

from cleatwright.holders.families.shadow_pocket.family import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.outline import Outline, circle, polygon, rectangle
from cleatwright.shapes.rigid import shift
from cleatwright.tools.registry import tool_body

# an angle, a fork of two tines, and a hook that opens to the side by less than the lift
ANGLE = polygon([(0, 0), (22, 0), (26, 105), (60, 115), (60, 150), (4, 150)])
FORK = polygon([(0, 0), (16, 0), (22, 80), (28, 80), (34, 0), (50, 0), (36, 120), (14, 120)])
HOOK = polygon([(0, 0), (40, 0), (40, 30), (15, 30), (15, 33), (40, 33), (40, 60), (0, 60)])


def flat(outline: Outline, thickness_mm: float = 16.0) -> ToolBody:
    return tool_body("flat-thing", {"thickness": thickness_mm}, outline=outline)


@st.composite
def stars(draw: st.DrawFn) -> ToolBody:
    """Return a flat tool whose corners lie around a point at any distances."""
    count = draw(st.integers(3, 14))
    radii = draw(st.lists(st.floats(12.0, 60.0), min_size=count, max_size=count))
    first = draw(st.floats(0.0, 1.0))
    turns = [2 * math.pi * (k + first) / count for k in range(count)]
    points = [(r * math.cos(a), r * math.sin(a)) for r, a in zip(radii, turns, strict=True)]
    return flat(polygon(points), draw(st.floats(8.0, 40.0)))


TRIAL = Trial(
    FAMILY,
    stars(),
    groups=((flat(ANGLE), flat(FORK), flat(HOOK), flat(circle(30.0), 40.0)),),
    # half of 10 mm over 143 mm is 2.003 degrees, over 144 mm 1.989 degrees
    held=(flat(rectangle(0.0, 0.0, 30.0, 286.0), 10.0),),
    refused=((flat(rectangle(0.0, 0.0, 30.0, 288.0), 10.0), "tip"),),
)


@pytest.mark.parametrize(("play", "correction"), [(0.2, 0.0), (0.6, 0.1)])
def test_a_tool_has_half_the_play_to_every_straight_edge(
    kernel: MeshKernel, play: float, correction: float
) -> None:
    """Raised from its ledge by half the play, it is as far from the ledge as from the sides."""
    part = TRIAL.part(flat(ANGLE), fit=Fit(play, correction))
    half = (play + correction) / 2
    holder = kernel.evaluate(part.solid)
    seated = [piece.placed(shift(0.0, 0.0, half)) for piece in part.seats[0].envelope()]
    gaps = [kernel.evaluate(piece).gap_mm(holder, within_mm=2.0) for piece in seated]
    assert min(gaps) == pytest.approx(half, abs=2e-3)


def test_a_ledge_is_as_deep_as_the_tool_is_thick(kernel: MeshKernel) -> None:
    """0.1 mm lower, a rectangle of 30 by 12 mm shares all of its base with the ledge."""
    part = TRIAL.part(flat(rectangle(0.0, 0.0, 30.0, 60.0), 12.0))
    (piece,) = part.seats[0].envelope()
    shared = kernel.evaluate(piece.moved(dz=-0.1)).overlap_mm3(kernel.evaluate(part.solid))
    assert shared == pytest.approx(0.1 * 30.0 * 12.0, rel=2e-3)
