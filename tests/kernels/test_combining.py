"""Unions, differences and intersections against closed forms, and their failures."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from cleatwright.base.errors import KernelError
from cleatwright.kernels.exact import ExactKernel
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.outline import Outline, circle, polygon, rectangle
from cleatwright.shapes.solid import (
    Difference,
    Intersection,
    Loft,
    Revolved,
    Solid,
    Union,
    across,
    block,
    prism,
)

BALL = Revolved(Outline(((0.0, -5.0), (0.0, 5.0)), (1.0, 0.0)))
ROD = Revolved(rectangle(0.0, -20.0, 5.0, 20.0))
BOW_TIE = polygon([(0.0, 0.0), (10.0, 0.0), (2.0, 8.0), (10.0, 8.0), (0.0, -0.5)])

SAID = {"exact": "exact shapes", "mesh": "shapes of triangles"}


def test_two_boxes_count_their_common_part_once(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """Inclusion and exclusion: 64 + 64 - 8, and the moments likewise."""
    a, b = block(0.0, 0.0, 0.0, 4.0, 4.0, 4.0), block(2.0, 2.0, 2.0, 6.0, 6.0, 6.0)
    want = expect(
        volume=120.0,
        area=2 * 96.0 - 24.0,
        centroid=(3.0, 3.0, 3.0),
        bounds=((0.0, 0.0, 0.0), (6.0, 6.0, 6.0)),
    )
    agrees(a | b, want)
    cut = (64.0 * 2.0 - 8.0 * 3.0) / 56.0
    want = expect(
        volume=56.0, area=96.0, centroid=(cut,) * 3, bounds=((0.0, 0.0, 0.0), (4.0, 4.0, 4.0))
    )
    agrees(a - b, want)
    want = expect(
        volume=8.0, area=24.0, centroid=(3.0,) * 3, bounds=((2.0, 2.0, 2.0), (4.0, 4.0, 4.0))
    )
    agrees(a & b, want)


def test_an_eighth_of_a_ball_has_its_centroid_at_three_eighths_of_the_radius(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    cap = math.pi * 25.0 / 2.0
    want = expect(
        volume=math.pi * 125.0 / 6.0,
        area=cap + 3.0 * math.pi * 25.0 / 4.0,
        centroid=(1.875, 1.875, 1.875),
        bounds=((0.0, 0.0, 0.0), (5.0, 5.0, 5.0)),
        curved_mm2=cap,
        bends=2,
        arcs_mm=3.0 * math.pi * 2.5,
        radius_mm=5.0,
    )
    agrees(block(0.0, 0.0, 0.0, 9.0, 9.0, 9.0) & BALL, want)


def test_two_crossing_rods_share_sixteen_thirds_r_cubed(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """The bicylinder of Archimedes and Zu Chongzhi: V = 16 r³ / 3, A = 16 r²."""
    want = expect(
        volume=16.0 * 125.0 / 3.0,
        area=16.0 * 25.0,
        centroid=(0.0, 0.0, 0.0),
        bounds=((-5.0, -5.0, -5.0), (5.0, 5.0, 5.0)),
        curved_mm2=400.0,
        # the faces meet in two ellipses with axes r and r sqrt 2, each shorter than 2 pi r sqrt 2
        arcs_mm=2.0 * 2.0 * math.pi * 5.0 * math.sqrt(2.0),
        radius_mm=5.0,
    )
    agrees(ROD & ROD.turned("x", 90.0), want)


def test_a_bore_through_a_plate_is_one_hole(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    bore = math.pi * 16.0
    left = 600.0 - bore
    want = expect(
        volume=left * 5.0,
        area=2.0 * left + 100.0 * 5.0 + 8.0 * math.pi * 5.0,
        centroid=((15.0 * 600.0 - 10.0 * bore) / left, 10.0, 2.5),
        bounds=((0.0, 0.0, 0.0), (30.0, 20.0, 5.0)),
        genus=1,
        curved_mm2=8.0 * math.pi * 5.0,
        arcs_mm=8.0 * math.pi,
        radius_mm=4.0,
    )
    tool = prism(circle(8.0, at=(10.0, 10.0)), 9.0).moved(0.0, 0.0, -2.0)
    agrees(block(0.0, 0.0, 0.0, 30.0, 20.0, 5.0) - tool, want)


def test_three_square_passages_that_meet_in_a_cube_are_five_holes(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """One level of Menger's sponge has 20 of its 27 cells and genus 5; its area is 72."""
    rod = block(1.0, 1.0, -1.0, 2.0, 2.0, 4.0)
    centre = rod.moved(-1.5, -1.5, -1.5)
    cuts = tuple(centre.turned(axis, 90.0).moved(1.5, 1.5, 1.5) for axis in ("x", "y", "z"))
    want = expect(
        volume=20.0,
        area=72.0,
        centroid=(1.5, 1.5, 1.5),
        bounds=((0.0, 0.0, 0.0), (3.0, 3.0, 3.0)),
        genus=5,
    )
    agrees(Difference(block(0.0, 0.0, 0.0, 3.0, 3.0, 3.0), cuts), want)


def test_a_cavity_is_neither_a_hole_nor_a_body(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    want = expect(
        volume=1000.0 - 8.0,
        area=624.0,
        centroid=((5000.0 - 24.0) / 992.0,) * 3,
        bounds=((0.0, 0.0, 0.0), (10.0, 10.0, 10.0)),
    )
    agrees(block(0.0, 0.0, 0.0, 10.0, 10.0, 10.0) - block(2.0, 2.0, 2.0, 4.0, 4.0, 4.0), want)


def test_two_rings_apart_are_two_bodies_with_a_hole_each(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    ring = prism(rectangle(0.0, 0.0, 6.0, 6.0), 2.0, holes=(rectangle(2.0, 2.0, 4.0, 4.0),))
    want = expect(
        volume=128.0,
        centroid=(8.0, 3.0, 1.0),
        bounds=((0.0, 0.0, 0.0), (16.0, 6.0, 2.0)),
        genus=2,
        bodies=2,
    )
    agrees(ring | ring.moved(10.0), want)


def test_a_boss_whose_corner_touches_the_rim_is_no_hole(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """The rim and the foot of the boss share a vertex, so the face between them is no ring."""
    boss = prism(polygon([(5.0, 0.0), (8.0, 3.0), (5.0, 6.0), (2.0, 3.0)]), 5.0)
    want = expect(
        volume=200.0 + 18.0 * 3.0,
        area=2.0 * 100.0 + 40.0 * 2.0 + 4.0 * math.hypot(3.0, 3.0) * 3.0,
        centroid=(5.0, (200.0 * 5.0 + 54.0 * 3.0) / 254.0, (200.0 * 1.0 + 54.0 * 3.5) / 254.0),
        bounds=((0.0, 0.0, 0.0), (10.0, 10.0, 5.0)),
    )
    agrees(block(0.0, 0.0, 0.0, 10.0, 10.0, 2.0) | boss, want)


def test_a_rib_of_any_height_leaves_no_crack_under_the_plate_it_touches(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """A profile that ends at z = -7 / 3 and a plate that starts there share the whole face."""
    z = -7.0 / 3.0
    rib = across(polygon([(0.0, z - 5.0), (9.0, z), (0.0, z)]), 0.0, 4.0)
    plate = block(0.0, 0.0, z, 4.0, 9.0, 0.0)
    rib_mm3, plate_mm3 = 9.0 * 5.0 / 2.0 * 4.0, 36.0 * 7.0 / 3.0
    whole = rib_mm3 + plate_mm3
    want = expect(
        volume=whole,
        area=36.0 + 4.0 * 5.0 + 4.0 * math.hypot(9.0, 5.0) + 45.0 + 26.0 * 7.0 / 3.0,
        centroid=(
            2.0,
            (rib_mm3 * 3.0 + plate_mm3 * 4.5) / whole,
            (rib_mm3 * (z - 5.0 / 3.0) + plate_mm3 * z / 2.0) / whole,
        ),
        bounds=((0.0, 0.0, z - 5.0), (4.0, 9.0, 0.0)),
    )
    agrees(rib | plate, want)


def test_two_boxes_face_to_face_become_one(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    want = expect(
        volume=2.0, area=10.0, centroid=(0.5, 0.5, 1.0), bounds=((0.0, 0.0, 0.0), (1.0, 1.0, 2.0))
    )
    unit = block(0.0, 0.0, 0.0, 1.0, 1.0, 1.0)
    agrees(unit | unit.moved(dz=1.0), want)


UNIT = block(0.0, 0.0, 0.0, 1.0, 1.0, 1.0)
CROSSED = prism(BOW_TIE, 3.0)
STRAY_HOLE = prism(rectangle(0.0, 0.0, 9.0, 9.0), 2.0, holes=(circle(2.0, at=(20.0, 20.0)),))
MERGED_HOLES = prism(
    rectangle(0.0, 0.0, 9.0, 9.0),
    2.0,
    holes=(circle(2.0, at=(4.0, 4.0)), circle(2.0, at=(5.0, 4.0))),
)
WIDENED_HOLE = prism(
    rectangle(0.0, 0.0, 10.0, 10.0), 4.0, holes=(circle(9.5, at=(5.0, 5.0)),), top_chamfer_mm=0.5
)
TOO_FAR = UNIT.moved(1e308).moved(1e308)


@pytest.mark.parametrize("kernel_name", ["exact", "mesh"])
@pytest.mark.parametrize(
    ("bad", "node"),
    [
        pytest.param(CROSSED, "Prism", id="crossed prism"),
        pytest.param(prism(BOW_TIE, 3.0, top_chamfer_mm=0.1), "Prism", id="crossed chamfer"),
        pytest.param(Loft(BOW_TIE, BOW_TIE, 3.0), "Loft", id="crossed loft"),
        pytest.param(Revolved(BOW_TIE.moved(1.0, 0.0)), "Revolved", id="crossed profile"),
        pytest.param(STRAY_HOLE, "Prism", id="hole outside"),
        pytest.param(MERGED_HOLES, "Prism", id="holes that meet"),
        pytest.param(WIDENED_HOLE, "Prism", id="chamfer through the rim"),
        pytest.param(TOO_FAR, "Placed", id="place beyond numbers"),
        pytest.param(UNIT & UNIT.moved(5.0), "Intersection", id="nothing in common"),
        pytest.param(UNIT - block(-1.0, -1.0, -1.0, 2.0, 2.0, 2.0), "Difference", id="all gone"),
    ],
)
def test_an_unsound_node_in_a_union_is_named_and_does_not_vanish(
    request: pytest.FixtureRequest, kernel_name: str, bad: Solid, node: str
) -> None:
    kernel = request.getfixturevalue(kernel_name)
    for tree in (bad, Union((UNIT, bad)), Union((bad, UNIT)), Union((bad,))):
        with pytest.raises(KernelError, match=f"{SAID[kernel_name]}: {node} [0-9a-f]{{10}} gave"):
            kernel.evaluate(tree)


@pytest.mark.parametrize("kernel_name", ["exact", "mesh"])
def test_a_node_that_no_kernel_knows_is_refused(
    request: pytest.FixtureRequest, kernel_name: str
) -> None:
    with pytest.raises(KernelError, match="does not know Solid"):
        request.getfixturevalue(kernel_name).evaluate(Union((UNIT, Solid())))


def test_a_union_or_intersection_of_one_and_an_empty_difference_change_nothing(
    exact: ExactKernel, mesh: MeshKernel
) -> None:
    for kernel in (exact, mesh):
        for tree in (Union((UNIT,)), Intersection((UNIT,)), Difference(UNIT, ())):
            assert kernel.evaluate(tree).facts == kernel.evaluate(UNIT).facts
