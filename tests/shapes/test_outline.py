"""Outlines of lines and arcs against closed forms and fine polygons."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import ShapeError
from cleatwright.shapes.outline import (
    Edge,
    Outline,
    Region,
    circle,
    hexagon,
    obround,
    polygon,
    rectangle,
)

coordinate = st.floats(-2.0, 2.0)
bulge = st.one_of(st.just(0.0), st.floats(0.05, 1.5), st.floats(-0.6, -0.05))


@st.composite
def outlines(draw: st.DrawFn) -> Outline:
    """Draw a quadrangle of about 20 mm with any mixture of lines, bulging and hollow arcs."""
    frame = ((-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0))
    corners = tuple((x + draw(coordinate), y + draw(coordinate)) for x, y in frame)
    try:
        return Outline(corners, tuple(draw(bulge) for _ in corners))
    except ShapeError:
        assume(False)  # noqa: FBT003 - hypothesis takes it so
        raise


arcs = st.builds(
    Edge,
    start=st.tuples(coordinate, coordinate),
    end=st.tuples(st.floats(3.0, 9.0), coordinate),
    bulge=bulge,
)


def _shoelace(points: list[tuple[float, float]]) -> tuple[float, float, float]:
    area = mx = my = 0.0
    for (x0, y0), (x1, y1) in zip(points, [*points[1:], points[0]], strict=True):
        cross = x0 * y1 - x1 * y0
        area += cross / 2
        mx += (x0 + x1) * cross / 6
        my += (y0 + y1) * cross / 6
    return area, mx, my


@settings(deadline=None, max_examples=60)
@given(outlines())
def test_area_centroid_and_length_are_the_limit_of_fine_polygons(outline: Outline) -> None:
    """A chord cuts off at most 0.68 of its length times its sagitta (see the kernels' tests)."""
    error = 1e-3
    points = outline.polygon(error)
    area, mx, my = _shoelace(points)
    lost = 0.68 * error * outline.perimeter_mm
    reach = 80.0
    assert abs(area - outline.area_mm2) <= lost
    assert abs(mx - outline.centroid[0] * outline.area_mm2) <= lost * reach
    assert abs(my - outline.centroid[1] * outline.area_mm2) <= lost * reach
    around = sum(math.dist(p, q) for p, q in zip(points, [*points[1:], points[0]], strict=True))
    # a chord is shorter than its arc by d² / 24, and d² is at most 8 e / r with r > 3 mm
    assert outline.perimeter_mm - around + 1e-9 >= 0.0
    assert around >= outline.perimeter_mm * (1.0 - error / 9.0 * 1.01) - 1e-9


@settings(deadline=None, max_examples=60)
@given(outlines())
def test_the_box_touches_the_outline_on_all_four_sides(outline: Outline) -> None:
    points = outline.polygon(1e-3)
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    for mine, theirs in zip(outline.bounds, (min(xs), min(ys), max(xs), max(ys)), strict=True):
        assert abs(mine - theirs) <= 1e-3 + 1e-9
    x0, y0, x1, y1 = outline.bounds
    assert x0 <= min(xs) + 1e-9
    assert y0 <= min(ys) + 1e-9
    assert x1 >= max(xs) - 1e-9
    assert y1 >= max(ys) - 1e-9


@settings(deadline=None, max_examples=40)
@given(outlines(), st.floats(-180.0, 180.0), coordinate, coordinate)
def test_a_rigid_motion_keeps_area_and_length_and_takes_the_centroid_along(
    outline: Outline, degrees: float, dx: float, dy: float
) -> None:
    moved = outline.turned(degrees).moved(dx, dy)
    assert moved.area_mm2 == pytest.approx(outline.area_mm2, rel=1e-12)
    assert moved.perimeter_mm == pytest.approx(outline.perimeter_mm, rel=1e-12)
    z = complex(*outline.centroid) * complex(
        math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    ) + complex(dx, dy)
    assert moved.centroid == pytest.approx((z.real, z.imag), abs=1e-9)


@settings(deadline=None, max_examples=60)
@given(arcs, st.floats(0.0, 1.0))
def test_each_point_of_an_arc_lies_on_its_circle_and_its_tangent_is_square_to_the_radius(
    edge: Edge, t: float
) -> None:
    (x, y), (ux, uy) = edge.at(t), edge.direction_at(t)
    assert math.hypot(ux, uy) == pytest.approx(1.0)
    assert edge.at(0.0) == pytest.approx(edge.start, abs=1e-9)
    assert edge.at(1.0) == pytest.approx(edge.end, abs=1e-9)
    if edge.bulge:
        cx, cy = edge.centre
        assert math.hypot(x - cx, y - cy) == pytest.approx(edge.radius_mm)
        assert (x - cx) * ux + (y - cy) * uy == pytest.approx(0.0, abs=1e-7)
        # to the left of the radius for an arc that turns to the left
        assert math.copysign(1.0, (x - cx) * uy - (y - cy) * ux) == math.copysign(1.0, edge.bulge)


@settings(deadline=None, max_examples=60)
@given(arcs, st.floats(0.001, 0.5))
def test_chords_keep_their_sagitta_and_one_fewer_would_not(edge: Edge, error: float) -> None:
    """The sagitta of a chord with step d is r (1 - cos(d / 2)); no step is over 45 degrees."""
    n = edge.segments(error)
    if not edge.bulge:
        assert n == 1
        return
    sagitta = edge.radius_mm * (1.0 - math.cos(edge.sweep / n / 2))
    assert sagitta <= error * (1.0 + 1e-6)
    assert abs(edge.sweep) / n <= math.pi / 4 + 1e-6
    if n > 1:
        fewer = abs(edge.sweep) / (n - 1)
        assert edge.radius_mm * (1.0 - math.cos(fewer / 2)) > error or fewer > math.pi / 4


def test_closed_forms_of_plain_outlines() -> None:
    disc = circle(10.0, at=(3.0, -2.0))
    assert disc.area_mm2 == pytest.approx(25.0 * math.pi, rel=1e-14)
    assert disc.perimeter_mm == pytest.approx(10.0 * math.pi, rel=1e-14)
    assert disc.centroid == pytest.approx((3.0, -2.0))
    assert disc.bounds == pytest.approx((-2.0, -7.0, 8.0, 3.0))
    slot = obround(6.0, 16.0, at=(1.0, 2.0))
    assert slot.area_mm2 == pytest.approx(9.0 * math.pi + 60.0, rel=1e-14)
    assert slot.bounds == pytest.approx((-2.0, -6.0, 4.0, 10.0))
    nut = hexagon(13.0)
    assert nut.area_mm2 == pytest.approx(math.sqrt(3.0) / 2.0 * 169.0, rel=1e-14)
    assert nut.bounds[3] - nut.bounds[1] == pytest.approx(13.0)
    frame = Region(rectangle(0.0, 0.0, 9.0, 9.0), (circle(4.0, at=(4.0, 4.0)),))
    assert frame.area_mm2 == pytest.approx(81.0 - 4.0 * math.pi, rel=1e-14)


def test_a_half_disc_has_its_centroid_at_four_r_over_three_pi() -> None:
    half = Outline(((-3.0, 0.0), (3.0, 0.0)), (0.0, 1.0))
    assert half.area_mm2 == pytest.approx(4.5 * math.pi)
    assert half.centroid == pytest.approx((0.0, 4.0 / math.pi))
    assert half.bounds == pytest.approx((-3.0, 0.0, 3.0, 3.0))


@pytest.mark.parametrize(
    ("corners", "bulges", "message"),
    [
        (((0.0, 0.0), (0.0, 1.0), (1.0, 0.0)), (0.0, 0.0, 0.0), "counter-clockwise"),
        (((0.0, 0.0), (1.0, 0.0), (2.0, 0.0)), (0.0, 0.0, 0.0), "enclose an area"),
        (((0.0, 0.0), (1.0, 0.0), (math.nan, 1.0)), (0.0, 0.0, 0.0), "not finite"),
        (((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)), (0.0, math.inf, 0.0), "not finite"),
        (((0.0, 0.0), (1.0, 0.0), (1.0, 0.0), (0.0, 1.0)), (0.0,) * 4, "at one place"),
        (((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)), (0.0, 0.0), "one bulge for each"),
        (((0.0, 0.0),), (1.0,), "two or more corners"),
    ],
)
def test_numbers_that_are_no_outline_are_refused(
    corners: tuple[tuple[float, float], ...], bulges: tuple[float, ...], message: str
) -> None:
    with pytest.raises(ShapeError, match=message):
        Outline(corners, bulges)


@pytest.mark.parametrize("diameter", [0.0, -1.0, math.nan])
def test_a_circle_needs_a_diameter(diameter: float) -> None:
    with pytest.raises(ShapeError, match="circle of diameter"):
        circle(diameter)


@pytest.mark.parametrize(("width", "length"), [(5.0, 5.0), (6.0, 5.0), (0.0, 5.0)])
def test_a_slot_is_longer_than_wide(width: float, length: float) -> None:
    with pytest.raises(ShapeError, match="a slot of width"):
        obround(width, length)


def test_a_clockwise_rectangle_is_refused() -> None:
    with pytest.raises(ShapeError, match="counter-clockwise"):
        rectangle(5.0, 0.0, 0.0, 5.0)
    with pytest.raises(ShapeError, match="no centre"):
        _ = next(polygon([(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)]).edges).centre
