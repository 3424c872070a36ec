"""Oracles: the frustum of Heron and Egypt's Moscow papyrus, closed forms, and the mesh kernel."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import ShapeError
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.exact_volume import exact_moments
from cleatwright.shapes.outline import circle, hexagon, obround, rectangle
from cleatwright.shapes.solid import Loft, Revolved, Solid, block, prism

SIDE = st.floats(1.0, 50.0)


def test_the_frustum_of_the_moscow_papyrus_holds_56() -> None:
    """Moscow Mathematical Papyrus, problem 14: sides 4 and 2, height 6, volume 56."""
    frustum = Loft(rectangle(-2, -2, 2, 2), rectangle(-1, -1, 1, 1), 6.0)
    assert exact_moments(frustum).volume_mm3 == pytest.approx(56.0, rel=1e-12)


def test_the_centroid_of_a_pyramid_frustum_follows_the_handbook() -> None:
    """Z = h/4 (A1 + 2 sqrt(A1 A2) + 3 A2) / (A1 + sqrt(A1 A2) + A2), from the larger base A1."""
    frustum = Loft(rectangle(-2, -2, 2, 2), rectangle(-1, -1, 1, 1), 6.0)
    a, b = 16.0, 4.0
    root = math.sqrt(a * b)
    expected = 6.0 / 4 * (a + 2 * root + 3 * b) / (a + root + b)
    assert exact_moments(frustum).centroid_mm == pytest.approx((0.0, 0.0, expected), abs=1e-12)


def test_a_tube_is_the_difference_of_two_cylinders() -> None:
    tube = prism(circle(10.0), 7.0, holes=(circle(4.0),))
    assert exact_moments(tube).volume_mm3 == pytest.approx(math.pi * (25 - 4) * 7, rel=1e-12)


def test_an_eccentric_hole_pushes_the_centroid_away() -> None:
    """Lever rule: area 100 at 0 less area pi at 3."""
    plate = prism(rectangle(-5, -5, 5, 5), 2.0, holes=(circle(2.0, at=(3.0, 0.0)),))
    expected = -3.0 * math.pi / (100.0 - math.pi)
    assert exact_moments(plate).centroid_mm == pytest.approx((expected, 0.0, 1.0), abs=1e-12)


@settings(deadline=None, max_examples=30)
@given(a=SIDE, b=SIDE, c=SIDE, d=SIDE, shift=st.floats(-20.0, 20.0), height=SIDE)
def test_a_skew_loft_agrees_with_the_mesh(
    a: float, b: float, c: float, d: float, shift: float, height: float
) -> None:
    upper = rectangle(shift, 0.0, shift + c, d)
    solid = Loft(rectangle(0.0, 0.0, a, b), upper, height).turned("y", 30.0).moved(1.0, 2.0, 3.0)
    exact, facts = exact_moments(solid), MeshKernel().evaluate(solid).facts
    assert exact.volume_mm3 == pytest.approx(facts.volume_mm3, rel=1e-9)
    assert exact.centroid_mm == pytest.approx(facts.centroid_mm, abs=1e-6)


@pytest.mark.parametrize(
    "solid",
    [
        prism(hexagon(10.0), 5.0).turned("x", -90.0),
        prism(obround(6.0, 20.0, at=(4.0, -3.0)), 5.0).moved(1.0, 2.0, 3.0),
        block(-1.0, 2.0, 3.0, 4.0, 5.0, 6.0),
    ],
)
def test_a_placed_prism_agrees_with_the_mesh(solid: Solid) -> None:
    exact = exact_moments(solid)
    facts = MeshKernel(chord_error_mm=0.0005).evaluate(solid).facts
    assert exact.volume_mm3 == pytest.approx(facts.volume_mm3, rel=1e-3)
    assert exact.centroid_mm == pytest.approx(facts.centroid_mm, abs=1e-3)


@pytest.mark.parametrize(
    "solid",
    [
        prism(circle(5.0), 4.0, top_chamfer_mm=1.0),
        Loft(circle(5.0), circle(3.0), 2.0),
        Revolved(rectangle(0.0, 0.0, 1.0, 1.0)),
    ],
)
def test_a_solid_without_a_closed_form_is_refused(solid: Solid) -> None:
    with pytest.raises(ShapeError, match="no closed form"):
        exact_moments(solid)
