"""Ruled lofts against the prismatoid rule and numerical integration, in both kernels.

Between paired points that move in straight lines the section's area is a quadratic of the
height (the shoelace sum of linear functions), so Simpson's rule gives the volume exactly;
that is the prismatoid rule. Its middle section is the outline half way between.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest

from cleatwright.kernels.api import CHORD_ERROR_MM
from cleatwright.kernels.exact import ExactKernel
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.outline import Outline, circle, polygon, rectangle
from cleatwright.shapes.rounding import fillet
from cleatwright.shapes.solid import Loft, LoftChain

# the library of the exact kernel stores a conical strip as a rational spline; what it gives
# differs from the cone by 8e-10, whatever bound its integration is asked for
SPLINE_SLACK = 3e-9
_GAUSS = np.polynomial.legendre.leggauss(4)
ROUNDED = fillet(rectangle(-15.0, -10.0, 15.0, 10.0), 4.0)
SQUARE = Outline(((-5.0, -5.0), (5.0, -5.0), (5.0, 5.0), (-5.0, 5.0)), (0.0,) * 4)
QUARTERS = Outline(
    ((-3.0, -3.0), (3.0, -3.0), (3.0, 3.0), (-3.0, 3.0)), (math.tan(math.pi / 8),) * 4
)


def _points(outline: Outline, per_edge: int) -> np.ndarray:
    return np.array([e.at(k / per_edge) for e in outline.edges for k in range(per_edge)])


def _moments(points: np.ndarray) -> tuple[float, float, float]:
    """Return area and first moments of a polygon (n, 2)."""
    x0, y0 = points.T
    x1, y1 = np.roll(points, -1, axis=0).T
    cross = x0 * y1 - x1 * y0
    return (
        float(cross.sum() / 2),
        float(((x0 + x1) * cross).sum() / 6),
        float(((y0 + y1) * cross).sum() / 6),
    )


def _integrated(loft: Loft, per_edge: int) -> np.ndarray:
    """Return volume and first moments by Gauss integration of the sections over the height."""
    low, high = _points(loft.lower, per_edge), _points(loft.upper, per_edge)
    total = np.zeros(4)
    for node, weight in zip(*_GAUSS, strict=True):
        t = (node + 1.0) / 2.0
        area, mx, my = _moments(low * (1.0 - t) + high * t)
        total += weight / 2.0 * loft.height_mm * np.array([area, mx, my, area * t * loft.height_mm])
    return total


def _limit(loft: Loft) -> tuple[float, tuple[float, float, float]]:
    """Return volume and centroid at infinitely many points (Richardson: errors fall as 1 / n²)."""
    coarse, fine = _integrated(loft, 200), _integrated(loft, 400)
    volume, mx, my, mz = fine + (fine - coarse) / 3.0
    return float(volume), (float(mx / volume), float(my / volume), float(mz / volume))


def _box(loft: Loft) -> Bounds:
    a, b = loft.lower.bounds, loft.upper.bounds
    return (
        (min(a[0], b[0]), min(a[1], b[1]), 0.0),
        (max(a[2], b[2]), max(a[3], b[3]), loft.height_mm),
    )


def _sides(loft: Loft) -> float:
    """Return an upper bound of the area of the sides: the longer rim times the longest rule."""
    low, high = _points(loft.lower, 50), _points(loft.upper, 50)
    rule = np.hypot(np.linalg.norm(low - high, axis=1).max(), loft.height_mm)
    return max(loft.lower.perimeter_mm, loft.upper.perimeter_mm) * float(rule)


def test_a_frustum_of_a_pyramid(agrees: Callable[..., None], expect: Callable[..., object]) -> None:
    """V = h / 3 (A + sqrt(A B) + B), the Moscow papyrus; similar sections about one apex."""
    h, big, small = 9.0, 200.0, 32.0
    volume = h / 3.0 * (big + math.sqrt(big * small) + small)
    # full pyramid minus its tip, each with its centroid at a quarter of its height
    full = h / (1.0 - math.sqrt(small / big))
    tip = full - h
    moment = big * full**2 / 12.0 - small * tip * (h + tip / 4.0) / 3.0
    z = moment / volume
    slide = (2.0 + 4.0 / 2 - 5.0, 2.0 + 8.0 / 2 - 10.0)
    want = expect(
        volume=volume,
        area=big + small + _pyramid_sides(h),
        centroid=(5.0 + slide[0] * z / h, 10.0 + slide[1] * z / h, z),
        bounds=((0.0, 0.0, 0.0), (10.0, 20.0, h)),
    )
    agrees(Loft(rectangle(0.0, 0.0, 10.0, 20.0), rectangle(2.0, 2.0, 6.0, 10.0), h), want)


def test_a_chain_of_lofts_is_an_hourglass_of_two_frusta(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """V = h / 3 (A + sqrt(A B) + B) for each half; from z = 2, twice as high above the waist."""
    big, small, low, high = 200.0, 32.0, 9.0, 18.0
    share = (big + math.sqrt(big * small) + small) / 3.0
    # the centroid of a frustum lies h / 4 (A + 2 sqrt(A B) + 3 B) / (A + sqrt(A B) + B) above A
    mean = (big + 2.0 * math.sqrt(big * small) + 3.0 * small) / (12.0 * share)
    below, above = 2.0 + low * mean, 2.0 + low + high * (1.0 - mean)
    wide, waist = rectangle(-5.0, -10.0, 5.0, 10.0), rectangle(-2.0, -4.0, 2.0, 4.0)

    def sides(h: float) -> float:
        # two trapezia with a mean width of 7 that lean by 6, two of 14 that lean by 3
        return 14.0 * math.hypot(6.0, h) + 28.0 * math.hypot(3.0, h)

    want = expect(
        volume=share * (low + high),
        area=2 * big + sides(low) + sides(high),
        centroid=(0.0, 0.0, (below * low + above * high) / (low + high)),
        bounds=((-5.0, -10.0, 2.0), (5.0, 10.0, 2.0 + low + high)),
    )
    agrees(LoftChain((wide, waist, wide), (2.0, 2.0 + low, 2.0 + low + high)), want)


def test_a_chain_of_round_lofts_is_the_union_of_its_links() -> None:
    """A chain has the chords of its finest link on every level, a union those of each link."""
    kernel = MeshKernel()
    chain = LoftChain((circle(8.0), circle(8.0, at=(0.0, 3.0)), circle(6.0)), (0.0, 3.0, 9.0))
    one, other = kernel.evaluate(chain), kernel.evaluate(chain.as_union)
    assert one.facts.volume_mm3 == pytest.approx(other.facts.volume_mm3, rel=1e-3)
    assert one.facts.bodies == other.facts.bodies == 1
    assert ExactKernel().evaluate(chain).facts.genus == one.facts.genus == 0


def _pyramid_sides(h: float) -> float:
    """Return the four trapezia: mean width times slant height; the rims are 10 x 20 and 4 x 8."""
    leans = ((2.0, 7.0), (4.0, 14.0), (10.0, 7.0), (2.0, 14.0))
    return sum(width * math.hypot(lean, h) for lean, width in leans)


def test_a_frustum_of_a_cone(agrees: Callable[..., None], expect: Callable[..., object]) -> None:
    h, big, small = 9.0, 5.0, 3.0
    volume = math.pi * h / 3.0 * (big**2 + big * small + small**2)
    mean = (big**2 + 2.0 * big * small + 3.0 * small**2) / (big**2 + big * small + small**2)
    slant = math.pi * (big + small) * math.hypot(h, big - small)
    want = expect(
        volume=volume,
        area=slant + math.pi * (big**2 + small**2),
        centroid=(0.0, 0.0, h / 4.0 * mean),
        bounds=((-big, -big, 0.0), (big, big, h)),
        curved_mm2=slant,
        arcs_mm=2.0 * math.pi * (big + small),
        radius_mm=small,
        slack=SPLINE_SLACK,
    )
    agrees(Loft(circle(2.0 * big), circle(2.0 * small), h), want)


@pytest.mark.parametrize(
    "loft",
    [
        pytest.param(Loft(circle(10.0), circle(6.0, at=(2.0, 1.0)), 9.0), id="oblique cone"),
        pytest.param(Loft(SQUARE, SQUARE.turned(30.0), 9.0), id="twisted square"),
        pytest.param(Loft(ROUNDED, ROUNDED.turned(40.0), 9.0), id="twisted rounded plate"),
        pytest.param(Loft(SQUARE, QUARTERS, 9.0), id="square to round"),
        pytest.param(
            Loft(
                polygon([(0.0, 0.0), (9.0, 1.0), (2.0, 7.0)]),
                polygon([(1.0, 1.0), (6.0, 0.0), (4.0, 9.0)]),
                5.0,
            ),
            id="skew triangles",
        ),
    ],
)
def test_a_loft_is_the_integral_of_its_sections(
    agrees: Callable[..., None], expect: Callable[..., object], loft: Loft
) -> None:
    volume, centroid = _limit(loft)
    want = expect(
        volume=volume,
        centroid=centroid,
        bounds=_box(loft),
        curved_mm2=_sides(loft) / 0.68,
        # chords along the rims, and flat triangles for twisted sides
        bends=2,
        slack=SPLINE_SLACK,
    )
    agrees(loft, want)


def test_the_prismatoid_rule_gives_a_twisted_square_exactly(exact: ExactKernel) -> None:
    """Half way the square is turned by half the angle and shrunk to cos(15 degrees)."""
    h, turn = 9.0, math.radians(30.0)
    middle = 100.0 * math.cos(turn / 2.0) ** 2
    facts = exact.evaluate(Loft(SQUARE, SQUARE.turned(30.0), h)).facts
    assert facts.volume_mm3 == pytest.approx(h / 6.0 * (200.0 + 4.0 * middle), rel=1e-12)


@pytest.mark.parametrize(
    "loft",
    [
        Loft(SQUARE, QUARTERS, 9.0),
        Loft(SQUARE, SQUARE.turned(30.0), 9.0),
        Loft(ROUNDED, ROUNDED.turned(40.0), 9.0),
    ],
)
def test_no_facet_leaves_the_ruled_side_by_more_than_both_errors(
    mesh: MeshKernel, loft: Loft
) -> None:
    """The middle of each facet of a side is measured against the section at its own height."""
    corners = mesh.evaluate(loft).corners_mm
    middles = corners.mean(axis=1)
    sides = middles[(np.ptp(corners[:, :, 2], axis=1) > 1e-9)]
    low, high = _points(loft.lower, 300), _points(loft.upper, 300)
    for x, y, z in sides[:: max(1, len(sides) // 400)]:
        section = low * (1.0 - z / loft.height_mm) + high * z / loft.height_mm
        away = _distance_to_loop(np.array([x, y]), section)
        assert away <= 2.0 * CHORD_ERROR_MM


def _distance_to_loop(point: np.ndarray, loop: np.ndarray) -> float:
    start, along = loop, np.roll(loop, -1, axis=0) - loop
    t = np.einsum("ij,ij->i", point - start, along) / np.einsum("ij,ij->i", along, along)
    nearest = start + np.clip(t, 0.0, 1.0)[:, None] * along
    return float(np.linalg.norm(nearest - point, axis=1).min())
