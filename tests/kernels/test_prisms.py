"""Prisms against closed forms, in both kernels."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.outline import Outline, circle, hexagon, obround, polygon, rectangle
from cleatwright.shapes.rounding import fillet
from cleatwright.shapes.solid import block, prism


def test_a_box_is_its_three_edges(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    want = expect(
        volume=60.0, area=94.0, centroid=(2.5, 4.0, 5.5), bounds=((1.0, 2.0, 3.0), (4.0, 6.0, 8.0))
    )
    agrees(block(1.0, 2.0, 3.0, 4.0, 6.0, 8.0), want)


def test_a_hexagonal_bar_has_half_root_three_of_its_flats_squared(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    s, h = 13.0, 20.0
    section, corner = math.sqrt(3.0) / 2.0 * s**2, s / math.sqrt(3.0)
    want = expect(
        volume=section * h,
        area=2.0 * section + 6.0 * corner * h,
        centroid=(0.0, 0.0, h / 2),
        bounds=((-corner, -s / 2, 0.0), (corner, s / 2, h)),
    )
    agrees(prism(hexagon(s), h), want)


def test_a_rounded_plate_with_a_bore(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """A fillet takes (4 - pi) / 4 r² from each corner; a bore off centre moves the centroid."""
    r, bore, h = 4.0, 6.0, 5.0
    plate, hole = 600.0 - (4.0 - math.pi) * r**2, math.pi * bore**2 / 4
    section = plate - hole
    arcs = 2.0 * math.pi * r + math.pi * bore
    around = 2.0 * (22.0 + 12.0) + arcs
    want = expect(
        volume=section * h,
        area=2.0 * section + around * h,
        centroid=(
            (15.0 * plate - 12.0 * hole) / section,
            (10.0 * plate - 8.0 * hole) / section,
            h / 2,
        ),
        bounds=((0.0, 0.0, 0.0), (30.0, 20.0, h)),
        genus=1,
        curved_mm2=arcs * h,
        arcs_mm=arcs,
        radius_mm=3.0,
    )
    outline = fillet(rectangle(0.0, 0.0, 30.0, 20.0), r)
    agrees(prism(outline, h, holes=(circle(bore, at=(12.0, 8.0)),)), want)


def test_an_obround_bar_is_a_rectangle_and_a_circle(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    w, length, h = 6.0, 16.0, 3.0
    section = math.pi * w**2 / 4 + w * (length - w)
    want = expect(
        volume=section * h,
        area=2.0 * section + (math.pi * w + 2.0 * (length - w)) * h,
        centroid=(1.0, -2.0, h / 2),
        bounds=((-2.0, -10.0, 0.0), (4.0, 6.0, h)),
        curved_mm2=math.pi * w * h,
        arcs_mm=math.pi * w,
        radius_mm=w / 2,
    )
    agrees(prism(obround(w, length, at=(1.0, -2.0)), h), want)


def test_an_arc_that_bites_into_a_square(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """A half disc has its centroid at 4 r / (3 pi) from its diameter (Archimedes)."""
    side, r, h = 10.0, 3.0, 4.0
    bite = math.pi * r**2 / 2
    section = side**2 - bite
    corners = ((0.0, 0.0), (side, 0.0), (side, side), (8.0, side), (2.0, side), (0.0, side))
    want = expect(
        volume=section * h,
        area=2.0 * section + (4.0 * side - 2.0 * r + math.pi * r) * h,
        centroid=(5.0, (side**3 / 2 - bite * (side - 4.0 * r / (3.0 * math.pi))) / section, h / 2),
        bounds=((0.0, 0.0, 0.0), (side, side, h)),
        curved_mm2=math.pi * r * h,
        arcs_mm=math.pi * r,
        radius_mm=r,
    )
    agrees(prism(Outline(corners, (0.0, 0.0, 0.0, -1.0, 0.0, 0.0)), h), want)


def _inset(outline: Outline, c: float, k: float, sign: int) -> tuple[float, float, float]:
    """Return area, its integral and its first moment over an inset growing from 0 to ``c``.

    Steiner: the parallel body of a convex outline at distance t has area A + P t + k t², where k is
    pi for smooth corners and the sum of tan(turn / 2) for mitred ones; inward with -t.
    """
    a, p = outline.area_mm2, sign * outline.perimeter_mm
    whole = a * c + p * c**2 / 2 + k * c**3 / 3
    moment = a * c**2 / 2 + p * c**3 / 3 + k * c**4 / 4
    return a + p * c + k * c**2, whole, moment


def _chamfered(
    loops: list[tuple[Outline, float, int, int]], h: float, low: float, high: float
) -> tuple[float, float, float]:
    """Return volume, area and z moment of a prism of (outline, k, sign of the inset, sign)."""
    volume = area = moment = 0.0
    for outline, k, inset, sign in loops:
        a0, v0, m0 = _inset(outline, low, k, inset)
        a1, v1, m1 = _inset(outline, high, k, inset)
        middle = h - low - high
        volume += sign * (v0 + v1 + outline.area_mm2 * middle)
        moment += sign * (
            (low * v0 - m0) + (h - high) * v1 + m1 + outline.area_mm2 * middle * (low + middle / 2)
        )
        # a strip at 45 degrees is sqrt 2 times as wide as it is high
        area += sign * (a0 + a1) + outline.perimeter_mm * middle
        area += math.sqrt(2.0) * sum(
            outline.perimeter_mm * c + inset * k * c**2 for c in (low, high)
        )
    return volume, area, moment / volume


@pytest.mark.parametrize(("low", "high", "h"), [(1.0, 2.0, 10.0), (0.0, 1.5, 6.0), (1.0, 2.0, 3.0)])
def test_chamfers_integrate_the_parallel_outlines_of_steiner(
    agrees: Callable[..., None], expect: Callable[..., object], low: float, high: float, h: float
) -> None:
    """Also when the two chamfers meet and nothing upright is left between them."""
    outer, r = fillet(rectangle(0.0, 0.0, 30.0, 20.0), 4.0), 4.0
    bore = circle(6.0, at=(15.0, 10.0))
    loops = [(outer, math.pi, -1, 1), (bore, math.pi, 1, -1)]
    volume, area, z = _chamfered(loops, h, low, high)
    arcs = 2.0 * math.pi * r + 6.0 * math.pi + 2.0 * math.pi * (low + high)
    want = expect(
        volume=volume,
        area=area,
        centroid=(15.0, 10.0, z),
        bounds=((0.0, 0.0, 0.0), (30.0, 20.0, h)),
        genus=1,
        curved_mm2=arcs * h * math.sqrt(2.0),
        arcs_mm=arcs,
        # the smallest arc that is left is that of the most inset corner
        radius_mm=r - max(low, high),
    )
    solid = prism(outer, h, holes=(bore,), bottom_chamfer_mm=low, top_chamfer_mm=high)
    agrees(solid, want)


def test_a_chamfered_sharp_corner_is_mitred(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """For a triangle the mitre constant k is the sum of tan(turn / 2) over its corners."""
    outline = polygon([(0.0, 0.0), (12.0, 0.0), (0.0, 9.0)])
    turns = [math.pi / 2, math.pi - math.atan2(9.0, 12.0), math.pi - math.atan2(12.0, 9.0)]
    k = sum(math.tan(turn / 2) for turn in turns)
    volume, area, z = _chamfered([(outline, k, -1, 1)], 5.0, 0.0, 1.0)
    # each section is similar about the incentre (r, r), r = (a + b - c) / 2 = 3
    flat = outline.area_mm2 * 4.0
    tip = volume - flat
    # the integral of area times scale up to the chamfer, the scale being s = 1 - t / r
    shift = outline.area_mm2 * 3.0 * (1.0 - (1.0 - 1.0 / 3.0) ** 4) / 4.0
    x = (flat * 4.0 + tip * 3.0 + shift * (4.0 - 3.0)) / volume
    y = (flat * 3.0 + tip * 3.0) / volume
    want = expect(
        volume=volume, area=area, centroid=(x, y, z), bounds=((0.0, 0.0, 0.0), (12.0, 9.0, 5.0))
    )
    agrees(prism(outline, 5.0, top_chamfer_mm=1.0), want)


def test_the_size_of_a_body_is_that_of_its_box_wherever_it_lies(mesh: MeshKernel) -> None:
    facts = mesh.evaluate(block(-7.0, 20.0, 3.0, 5.0, 21.0, 9.0)).facts
    assert facts.size_mm == pytest.approx((12.0, 1.0, 6.0))
