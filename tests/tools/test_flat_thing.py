"""Flat things, bottles and cartridges: closed forms, and convex pieces that cover an outline."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull
from shapely import Polygon, union_all

from cleatwright.base.errors import MeasureError
from cleatwright.parts.grips import FlatOutline, InvertedNeck
from cleatwright.shapes.outline import Outline, circle, polygon, rectangle
from cleatwright.tools.features.convex import MOST_PIECES, convex_parts
from cleatwright.tools.registry import tool_body


def star(radii: list[float]) -> Outline:
    turns = [2 * math.pi * k / len(radii) for k in range(len(radii))]
    return polygon([(r * math.cos(a), r * math.sin(a)) for r, a in zip(radii, turns, strict=True)])


@settings(deadline=None, max_examples=60)
@given(st.lists(st.floats(10.0, 90.0), min_size=3, max_size=30))
def test_convex_parts_are_convex_and_cover_the_outline_once(radii: list[float]) -> None:
    """Oracles: Qhull for each part, and the union of all parts by a general library."""
    outline = star(radii)
    parts = convex_parts(outline)
    for part in parts:
        assert part.area_mm2 == pytest.approx(ConvexHull(part.corners).volume, rel=1e-6)
    assert sum(part.area_mm2 for part in parts) == pytest.approx(outline.area_mm2, rel=1e-9)
    covered = union_all([Polygon(part.corners) for part in parts])
    assert covered.symmetric_difference(Polygon(outline.corners)).area < 1e-6


@pytest.mark.parametrize(
    ("outline", "pieces"),
    [
        (rectangle(0.0, 0.0, 40.0, 20.0), 1),
        # an L has one corner that turns in, a T two, a plus four
        (polygon([(0, 0), (60, 0), (60, 20), (20, 20), (20, 90), (0, 90)]), 2),
        (polygon([(20, 0), (40, 0), (40, 60), (60, 60), (60, 80), (0, 80), (0, 60), (20, 60)]), 2),
    ],
)
def test_known_shapes_fall_into_the_fewest_pieces(outline: Outline, pieces: int) -> None:
    """Each cut removes at most two corners that turn in (Chazelle's bound, from memory)."""
    assert len(convex_parts(outline)) == pieces


def test_a_flat_thing_stands_on_zero_about_its_middle() -> None:
    body = tool_body("flat-thing", {"thickness": 10.0}, outline=circle(50.0, at=(300.0, -80.0)))
    (x0, y0, z0), (x1, y1, z1) = body.extent_mm
    assert (x0, x1, y0, y1) == pytest.approx((-25.0, 25.0, -5.0, 5.0), abs=0.03)
    assert (z0, z1) == pytest.approx((0.0, 50.0), abs=0.03)
    grip = body.needed_grip(FlatOutline)
    assert grip.thickness_mm == 10.0
    # steel of 7850 kg/m3 (steel tables, from memory)
    assert body.mass_kg == pytest.approx(math.pi * 0.025**2 * 0.010 * 7850, rel=2e-3)


def test_an_outline_that_is_too_small_or_too_rugged_is_refused() -> None:
    with pytest.raises(MeasureError, match="9 by 30 mm"):
        tool_body("flat-thing", {"thickness": 10.0}, outline=rectangle(0.0, 0.0, 9.0, 30.0))
    saw = star([50.0 + 9.0 * (k % 2) for k in range(2 * MOST_PIECES + 10)])
    with pytest.raises(MeasureError, match="convex pieces"):
        tool_body("flat-thing", {"thickness": 10.0}, outline=saw)


def test_a_bottle_weighs_what_its_cylinders_and_its_cone_hold() -> None:
    """Water of 1000 kg/m3; a frustum holds pi h / 12 (a² + a b + b²) (closed form)."""
    sizes = {"body": 60.0, "height": 200.0, "neck": 24.0, "neck_length": 40.0, "shoulder": 20.0}
    body = tool_body("bottle", sizes)
    volume = math.pi / 4 * (60**2 * 140 + 24**2 * 40) + math.pi * 20 / 12 * (
        60**2 + 60 * 24 + 24**2
    )
    assert body.mass_kg == pytest.approx(volume * 1e-6, rel=1e-9)


def test_on_its_head_the_neck_of_a_bottle_ends_at_zero_with_the_body_above() -> None:
    sizes = {"body": 60.0, "height": 200.0, "neck": 24.0, "neck_length": 40.0, "shoulder": 20.0}
    grip = tool_body("bottle", sizes).needed_grip(InvertedNeck)
    heights = [grip.pose.apply((0.0, 0.0, z))[2] for z in (200.0, 160.0, 140.0, 0.0)]
    assert heights == pytest.approx([-40.0, 0.0, 20.0, 160.0])
