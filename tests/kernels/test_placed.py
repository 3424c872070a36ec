"""Motions: a volume cannot see a wrong rotation, so centroids and boxes are checked."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import product

import pytest

from cleatwright.kernels.exact import ExactKernel
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.outline import polygon, rectangle
from cleatwright.shapes.rigid import Axis, Vector, shift, turn
from cleatwright.shapes.solid import Revolved, across, block, prism

BAR = block(1.0, 2.0, 3.0, 5.0, 4.0, 4.0)
CENTRE = (3.0, 3.0, 3.5)
CORNERS = tuple(product((1.0, 5.0), (2.0, 4.0), (3.0, 4.0)))


def _rotated(point: Vector, axis: Axis, degrees: float) -> Vector:
    """Rotate by Rodrigues' formula v cos + (k x v) sin + k (k . v) (1 - cos)."""
    k = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}[axis]
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    cross = (
        k[1] * point[2] - k[2] * point[1],
        k[2] * point[0] - k[0] * point[2],
        k[0] * point[1] - k[1] * point[0],
    )
    along = sum(a * b for a, b in zip(k, point, strict=True)) * (1.0 - c)
    x, y, z = (v * c + w * s + a * along for v, w, a in zip(point, cross, k, strict=True))
    return (x, y, z)


@pytest.mark.parametrize("axis", ["x", "y", "z"])
@pytest.mark.parametrize("degrees", [90.0, 180.0, -90.0, 33.0, -120.0])
def test_a_turned_bar_is_where_the_right_hand_rule_puts_it(
    agrees: Callable[..., None], expect: Callable[..., object], axis: Axis, degrees: float
) -> None:
    points = [_rotated(corner, axis, degrees) for corner in CORNERS]
    low, high = (tuple(pick(p[k] for p in points) for k in range(3)) for pick in (min, max))
    want = expect(
        volume=8.0, area=28.0, centroid=_rotated(CENTRE, axis, degrees), bounds=(low, high)
    )
    agrees(BAR.turned(axis, degrees), want)


def test_turning_then_shifting_is_not_shifting_then_turning(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """A quarter turn about z takes (x, y) to (-y, x)."""
    want = expect(volume=8.0, centroid=(7.0, 3.0, 3.5), bounds=((6.0, 1.0, 3.0), (8.0, 5.0, 4.0)))
    agrees(BAR.turned("z", 90.0).moved(10.0), want)
    want = expect(
        volume=8.0, centroid=(-3.0, 13.0, 3.5), bounds=((-4.0, 11.0, 3.0), (-2.0, 15.0, 4.0))
    )
    agrees(BAR.moved(10.0).turned("z", 90.0), want)


def test_a_chain_of_motions_equals_one_composed_motion(
    exact: ExactKernel, mesh: MeshKernel
) -> None:
    motion = turn("x", 30.0).then(shift(1.0, 2.0, 3.0)).then(turn("z", -75.0))
    chain = BAR.turned("x", 30.0).moved(1.0, 2.0, 3.0).turned("z", -75.0)
    for kernel in (exact, mesh):
        one, many = kernel.evaluate(BAR.placed(motion)).facts, kernel.evaluate(chain).facts
        assert one.centroid_mm == pytest.approx(motion.apply(CENTRE), abs=1e-9)
        assert many.centroid_mm == pytest.approx(motion.apply(CENTRE), abs=1e-9)


def test_a_leaning_cylinder_has_the_box_of_its_two_discs(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """A disc of radius r across the unit vector u reaches r sqrt(1 - u²) along each axis."""
    r, h = 4.0, 9.0
    u = _rotated(_rotated((0.0, 0.0, 1.0), "x", 25.0), "y", 40.0)
    reach = [r * math.sqrt(1.0 - c * c) for c in u]
    low = tuple(min(0.0, h * c) - d for c, d in zip(u, reach, strict=True))
    high = tuple(max(0.0, h * c) + d for c, d in zip(u, reach, strict=True))
    side = 2.0 * math.pi * r * h
    want = expect(
        volume=math.pi * r**2 * h,
        area=side + 2.0 * math.pi * r**2,
        centroid=tuple(h / 2 * c for c in u),
        bounds=(low, high),
        curved_mm2=side,
        arcs_mm=4.0 * math.pi * r,
        radius_mm=r,
    )
    agrees(Revolved(rectangle(0.0, 0.0, r, h)).turned("x", 25.0).turned("y", 40.0), want)


def test_a_profile_across_lies_in_the_yz_plane_and_grows_along_x(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """A right triangle with its right angle at (y, z) = (1, 2) has its centroid a third along."""
    want = expect(
        volume=9.0 * 4.0,
        centroid=(5.0, 1.0 + 2.0, 2.0 + 1.0),
        bounds=((3.0, 1.0, 2.0), (7.0, 7.0, 5.0)),
    )
    agrees(across(polygon([(1.0, 2.0), (7.0, 2.0), (1.0, 5.0)]), 3.0, 7.0), want)


def test_far_from_the_origin_nothing_is_lost_but_rounding(
    exact: ExactKernel, mesh: MeshKernel
) -> None:
    plate = prism(rectangle(0.0, 0.0, 30.0, 20.0), 5.0)
    for kernel in (exact, mesh):
        facts = kernel.evaluate(plate.moved(1000.0, -2000.0, 500.0)).facts
        assert facts.volume_mm3 == pytest.approx(3000.0, rel=1e-9)
        assert facts.centroid_mm == pytest.approx((1015.0, -1990.0, 502.5), abs=1e-6)
