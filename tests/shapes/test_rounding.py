"""Fillets and offsets against Steiner's formulas for parallel curves.

Rounding a corner that turns by t with radius r takes r² (tan(t / 2) - t / 2) from the area
and r (2 tan(t / 2) - t) from the length; a reflex corner gives the area back. An outline
that turns once and is smooth has at distance d the area A + P d + pi d² and the length
P + 2 pi d; with mitred corners the sum of tan(t / 2) over the signed turns stands in the
place of pi.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import ShapeError
from cleatwright.shapes.outline import Outline, circle, obround, polygon, rectangle
from cleatwright.shapes.rounding import fillet, offset

L_SHAPE = polygon([(0.0, 0.0), (20.0, 0.0), (20.0, 8.0), (8.0, 8.0), (8.0, 20.0), (0.0, 20.0)])


@st.composite
def stars(draw: st.DrawFn) -> Outline:
    """Draw a polygon around the origin whose edges have room for fillets of 1 mm."""
    n = draw(st.integers(3, 8))
    radii = [draw(st.floats(16.0, 24.0)) for _ in range(n)]
    angles = [2.0 * math.pi * (k + draw(st.floats(-0.1, 0.1))) / n for k in range(n)]
    return polygon([(r * math.cos(a), r * math.sin(a)) for r, a in zip(radii, angles, strict=True)])


def _turns(outline: Outline) -> list[float]:
    edges = list(outline.edges)
    turns: list[float] = []
    for before, after in zip([edges[-1], *edges[:-1]], edges, strict=True):
        a, b = complex(*before.direction_at(1.0)), complex(*after.direction_at(0.0))
        turn = b / a
        turns.append(math.atan2(turn.imag, turn.real))
    return turns


@settings(deadline=None, max_examples=60)
@given(stars(), st.floats(0.2, 1.0))
def test_a_fillet_takes_what_the_closed_form_says(outline: Outline, r: float) -> None:
    turns = _turns(outline)
    assert sum(turns) == pytest.approx(2.0 * math.pi)
    rounded = fillet(outline, r)
    area = sum(math.copysign(r**2 * (math.tan(abs(t) / 2) - abs(t) / 2), t) for t in turns)
    length = sum(r * (2.0 * math.tan(abs(t) / 2) - abs(t)) for t in turns)
    assert rounded.area_mm2 == pytest.approx(outline.area_mm2 - area, rel=1e-9)
    assert rounded.perimeter_mm == pytest.approx(outline.perimeter_mm - length, rel=1e-9)
    for edge in rounded.edges:
        assert edge.bulge == 0.0 or edge.radius_mm == pytest.approx(r, rel=1e-6)
    assert all(abs(turn) < 1e-6 for turn in _turns(rounded))


@settings(deadline=None, max_examples=60)
@given(stars(), st.floats(-0.9, 3.0))
def test_smooth_outlines_offset_by_steiner(outline: Outline, d: float) -> None:
    # an inner arc of radius r is gone at an offset of r outward, so reflex corners stay sharp here
    convex = {i for i, turn in enumerate(_turns(outline)) if turn > 0.0}
    smooth = fillet(outline, 1.0, only=convex)
    k = math.pi + sum(math.tan(t / 2) - t / 2 for t in _turns(smooth))
    moved = offset(smooth, d)
    assert moved.area_mm2 == pytest.approx(
        smooth.area_mm2 + smooth.perimeter_mm * d + k * d**2, rel=1e-9
    )
    assert moved.perimeter_mm == pytest.approx(smooth.perimeter_mm + 2.0 * k * d, rel=1e-9)
    back = offset(moved, -d)
    for p, q in zip(back.corners, smooth.corners, strict=True):
        assert p == pytest.approx(q, abs=1e-6)


@settings(deadline=None, max_examples=60)
@given(stars(), st.floats(-1.0, 1.0))
def test_mitred_outlines_offset_by_the_sum_of_tangents(outline: Outline, d: float) -> None:
    k = sum(math.tan(turn / 2) for turn in _turns(outline))
    moved = offset(outline, d)
    assert moved.area_mm2 == pytest.approx(
        outline.area_mm2 + outline.perimeter_mm * d + k * d**2, rel=1e-9
    )
    for old, new in zip(outline.edges, moved.edges, strict=True):
        # outward is to the right of a counter-clockwise edge
        (ux, uy), (x, y) = old.direction_at(0.5), new.start
        away = (x - old.start[0]) * uy - (y - old.start[1]) * ux
        assert away == pytest.approx(d, abs=1e-9)


def test_circles_and_slots_offset_to_circles_and_slots() -> None:
    assert offset(circle(10.0, at=(1.0, 2.0)), 1.5).bounds == pytest.approx(
        circle(13.0, at=(1.0, 2.0)).bounds
    )
    narrower = offset(obround(6.0, 16.0), -1.0)
    for p, q in zip(narrower.corners, obround(4.0, 14.0).corners, strict=True):
        assert p == pytest.approx(q, abs=1e-12)
    assert offset(L_SHAPE, 0.0) is L_SHAPE


def test_only_the_corners_asked_for_are_rounded() -> None:
    rounded = fillet(rectangle(0.0, 0.0, 10.0, 10.0), 2.0, only={0, 2})
    assert rounded.area_mm2 == pytest.approx(100.0 - 2.0 * (4.0 - math.pi))
    assert (10.0, 0.0) in rounded.corners
    assert (0.0, 0.0) not in rounded.corners


def test_an_inner_corner_is_filled() -> None:
    rounded = fillet(L_SHAPE, 3.0, only={3})
    assert rounded.area_mm2 == pytest.approx(L_SHAPE.area_mm2 + (1.0 - math.pi / 4.0) * 9.0)


def test_fillets_that_just_fit_leave_a_circle() -> None:
    rounded = fillet(rectangle(0.0, 0.0, 10.0, 10.0), 5.0)
    assert rounded.area_mm2 == pytest.approx(25.0 * math.pi)
    assert all(edge.bulge > 0.0 for edge in rounded.edges)


@pytest.mark.parametrize("radius", [5.001, 8.0, 100.0])
def test_a_fillet_that_is_too_large_is_refused(radius: float) -> None:
    with pytest.raises(ShapeError, match="does not fit on an edge of 10 mm"):
        fillet(rectangle(0.0, 0.0, 10.0, 10.0), radius)


@pytest.mark.parametrize("radius", [0.0, -1.0, math.nan])
def test_a_fillet_needs_a_radius(radius: float) -> None:
    with pytest.raises(ShapeError, match="a fillet of radius"):
        fillet(L_SHAPE, radius)


@pytest.mark.parametrize("distance", [-2.0, -2.5, -6.0])
def test_an_offset_that_eats_an_arc_or_an_edge_is_refused(distance: float) -> None:
    rounded = fillet(rectangle(0.0, 0.0, 10.0, 30.0), 2.0)
    with pytest.raises(ShapeError, match="consumes an edge"):
        offset(rounded, distance)


def test_an_offset_past_the_middle_is_refused() -> None:
    with pytest.raises(ShapeError, match="consumes an edge"):
        offset(rectangle(0.0, 0.0, 10.0, 30.0), -7.0)


def test_an_arc_that_meets_a_line_at_a_corner_cannot_be_offset() -> None:
    half = Outline(((-3.0, 0.0), (3.0, 0.0)), (0.0, 1.0))
    with pytest.raises(ShapeError, match="run into their neighbours without a corner"):
        offset(half, 1.0)


def test_an_offset_that_is_not_a_number_is_refused() -> None:
    with pytest.raises(ShapeError, match="not finite"):
        offset(L_SHAPE, math.nan)
