"""How far a convex piece comes before it meets a body; closed forms and overlaps are the oracle."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cleatwright.kernels.mesh import Convex, MeshKernel
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import Axis
from cleatwright.shapes.solid import Solid, across, block, prism

KERNEL = MeshKernel()
AXES: tuple[Axis, ...] = ("x", "y", "z")
OUT = (0.0, 40.0, 0.0)
angles = st.floats(-40.0, 40.0)
halves = st.floats(3.0, 30.0)


def piece_of(solid: Solid) -> Convex:
    return Convex(KERNEL.corners(solid))


def test_two_ridges_that_cross_meet_after_the_distance_between_them() -> None:
    """An upright ridge at y = 0 and a level one at y = 10 have no corner in each other's way."""
    upright = prism(polygon([(-20.0, -20.0), (20.0, -20.0), (0.0, 0.0)]), 100.0).moved(dz=-50.0)
    level = across(polygon([(10.0, 0.0), (30.0, -20.0), (30.0, 20.0)]), -50.0, 50.0)
    piece, body = piece_of(upright), KERNEL.evaluate(level)
    assert piece.travel_mm(OUT, body) == math.inf
    assert piece.edge_travel_mm(OUT, body) == pytest.approx(10.0)
    assert piece.edge_travel_mm((0.0, 9.9, 0.0), body) == math.inf


def test_a_corner_that_only_grazes_an_edge_is_no_crossing() -> None:
    """The upper edges of the piece end in the plane of the body's side, and go past along it."""
    piece = piece_of(block(-10.0, -10.0, -5.0, 0.0, 0.0, 5.0))
    assert piece.edge_travel_mm(OUT, KERNEL.evaluate(block(0.0, 10.0, -9.0, 9.0, 20.0, 9.0))) == (
        math.inf
    )


@settings(deadline=None, max_examples=60)
@given(sizes=st.tuples(*[halves] * 6), turns=st.tuples(*[angles] * 6))
def test_a_piece_is_free_just_before_it_meets_a_body_and_not_just_after(
    sizes: tuple[float, ...], turns: tuple[float, ...]
) -> None:
    a, b, c, d, e, f = sizes
    still: Solid = block(-a, 10.0, -b, c, 20.0, d)
    moved: Solid = block(-e, -20.0, -f, e, -10.0, f)
    for axis, one, other in zip(AXES, turns[:3], turns[3:], strict=True):
        still, moved = still.turned(axis, one), moved.turned(axis, other)
    piece, body = piece_of(moved), KERNEL.evaluate(still)
    assume(piece.swept_overlap_mm3((0.0, 0.01, 0.0), body) == 0.0)
    # a corner may be the first to meet, or an edge
    met = min(piece.travel_mm(OUT, body), piece.edge_travel_mm(OUT, body))
    if math.isinf(met):
        assert piece.swept_overlap_mm3(OUT, body) < 1e-6
        return
    assert piece.swept_overlap_mm3((0.0, met + 0.1, 0.0), body) > 0.0
    if math.isinf(piece.travel_mm(OUT, body)):
        # overlaps of faces that touch are rounded
        assert piece.swept_overlap_mm3((0.0, met - 1e-3, 0.0), body) < 1e-6
