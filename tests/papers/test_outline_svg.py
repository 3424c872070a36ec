"""An outline goes out as a drawing and comes back as it was."""

from __future__ import annotations

import math

import pytest
from svgpathtools import svgstr2paths

from cleatwright.papers.kit.outline_svg import outline_svg
from cleatwright.shapes.outline import Outline, polygon, rectangle
from cleatwright.shapes.rounding import fillet
from cleatwright.workshop.outlines.file import outline_in

SHAPES = {
    "triangle": polygon([(0.0, 0.0), (80.0, 0.0), (10.0, 50.0)]),
    "rounded": fillet(rectangle(-40.0, -20.0, 60.0, 30.0), 8.0),
    "half disc": Outline(((-30.0, 0.0), (30.0, 0.0)), (0.0, 1.0)),
    "bay": Outline(
        ((0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (40.0, 40.0), (20.0, 40.0), (0.0, 40.0)),
        (0.0, 0.0, 0.0, -0.5, 0.0, 0.0),
    ),
}


@pytest.mark.parametrize("name", sorted(SHAPES))
def test_it_comes_back_with_its_area_and_its_corners(name: str) -> None:
    shape = SHAPES[name]
    back = outline_in(outline_svg(shape), name="x.svg")
    assert back.area_mm2 == pytest.approx(shape.area_mm2, rel=2e-3)
    (ax0, ay0, ax1, ay1), (bx0, by0, bx1, by1) = shape.bounds, back.bounds
    assert (bx1 - bx0, by1 - by0) == pytest.approx((ax1 - ax0, ay1 - ay0), abs=0.1)


def test_another_reader_finds_the_same_length() -> None:
    """A half disc of radius 30 has a rim of 30 pi + 60."""
    paths = svgstr2paths(outline_svg(SHAPES["half disc"]).decode())[0]
    assert paths[0].length() == pytest.approx(30.0 * math.pi + 60.0, rel=1e-4)
