"""Oracle: closed forms of cut boxes, pipes and spheres."""

from __future__ import annotations

import math

import pytest

from cleatwright.kernels.mesh import MeshKernel
from cleatwright.kernels.mesh.plane_section import section_across_x
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import Difference, across, block


def area_mm2(loop: tuple[tuple[float, float], ...]) -> float:
    """Return the signed area of a closed line by the shoelace formula."""
    pairs = zip(loop, (*loop[1:], loop[0]), strict=True)
    return sum(a * d - b * c for (a, b), (c, d) in pairs) / 2


def test_a_box_is_cut_in_its_own_rectangle_where_it_stands() -> None:
    body = MeshKernel().evaluate(block(5.0, -3.0, 7.0, 15.0, 17.0, 37.0))
    (loop,) = section_across_x(body, 8.0)
    assert area_mm2(loop) == pytest.approx(600.0)
    assert {(round(y, 6), round(z, 6)) for y, z in loop} == {
        (-3.0, 7.0),
        (17.0, 7.0),
        (17.0, 37.0),
        (-3.0, 37.0),
    }


def test_a_bore_is_a_line_the_other_way_round() -> None:
    """Area of a square less that of a circle; the chord error of the circle stays small."""
    bore = across(circle(16.0, at=(20.0, 20.0)), -5.0, 15.0)
    bored = Difference(block(0.0, 0.0, 0.0, 10.0, 40.0, 40.0), (bore,))
    loops = section_across_x(MeshKernel().evaluate(bored), 5.0)
    areas = sorted(area_mm2(loop) for loop in loops)
    assert len(areas) == 2
    assert areas[0] == pytest.approx(-math.pi * 64.0, rel=0.01)
    assert sum(areas) == pytest.approx(1600.0 - math.pi * 64.0, rel=0.01)


def test_a_plane_beside_a_body_cuts_nothing() -> None:
    body = MeshKernel().evaluate(block(0.0, 0.0, 0.0, 10.0, 20.0, 30.0))
    assert section_across_x(body, -1.0) == ()
    assert section_across_x(body, 10.5) == ()
