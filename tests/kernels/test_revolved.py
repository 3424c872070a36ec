"""Turned bodies against the rules of Pappus and closed forms, in both kernels."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from cleatwright.kernels.exact import ExactKernel
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.outline import Outline, circle, polygon, rectangle
from cleatwright.shapes.rounding import fillet
from cleatwright.shapes.solid import Revolved


def _turned_area(profile: Outline) -> float:
    """Return the area by the first rule of Pappus: the path of each edge's own centroid.

    The centroid of an arc lies at chord / sweep from its centre, toward its middle.
    """
    total = 0.0
    for edge in profile.edges:
        if edge.bulge:
            reach = edge.chord_mm / abs(edge.sweep)
            r = edge.centre[0] + (edge.at(0.5)[0] - edge.centre[0]) / edge.radius_mm * reach
        else:
            r = (edge.start[0] + edge.end[0]) / 2
        total += 2.0 * math.pi * r * edge.length_mm
    return total


def _turned(profile: Outline) -> float:
    """Return the volume by the second rule of Pappus: the path of the area's centroid."""
    return 2.0 * math.pi * profile.centroid[0] * profile.area_mm2


BALL = Outline(((0.0, -5.0), (0.0, 5.0)), (1.0, 0.0))
HALF_BALL = Outline(((0.0, 0.0), (5.0, 0.0), (0.0, 5.0)), (0.0, math.tan(math.pi / 8), 0.0))


@pytest.mark.parametrize(
    ("profile", "z", "genus"),
    [
        pytest.param(rectangle(4.0, 1.0, 7.0, 9.0), 5.0, 1, id="tube"),
        pytest.param(rectangle(0.0, 0.0, 6.0, 3.0), 1.5, 0, id="disc"),
        # a cone has its centroid at a quarter of its height
        pytest.param(polygon([(0.0, 0.0), (5.0, 0.0), (0.0, 8.0)]), 2.0, 0, id="cone"),
        pytest.param(BALL, 0.0, 0, id="ball"),
        # half a ball has its centroid at 3 r / 8
        pytest.param(HALF_BALL, 1.875, 0, id="half ball"),
        pytest.param(circle(4.0, at=(10.0, 3.0)), 3.0, 1, id="torus"),
        pytest.param(fillet(rectangle(3.0, 0.0, 11.0, 6.0), 2.0), 3.0, 1, id="rounded ring"),
    ],
)
def test_pappus(
    agrees: Callable[..., None],
    expect: Callable[..., object],
    profile: Outline,
    z: float,
    genus: int,
) -> None:
    _, z0, reach, z1 = profile.bounds
    area = _turned_area(profile)
    want = expect(
        volume=_turned(profile),
        area=area,
        centroid=(0.0, 0.0, z),
        bounds=((-reach, -reach, z0), (reach, reach, z1)),
        genus=genus,
        curved_mm2=area,
        # one division around the axis and one along the arcs of the profile
        bends=2,
        arcs_mm=2.0 * math.pi * sum(corner[0] for corner in profile.corners),
        # the finest turning is that of the smallest circle of either direction
        radius_mm=2.0,
    )
    agrees(Revolved(profile), want)


def test_a_ball_is_four_thirds_pi_r_cubed(exact: ExactKernel) -> None:
    facts = exact.evaluate(Revolved(BALL)).facts
    assert facts.volume_mm3 == pytest.approx(4.0 / 3.0 * math.pi * 125.0, rel=1e-12)
    assert facts.area_mm2 == pytest.approx(4.0 * math.pi * 25.0, rel=1e-12)


def test_the_error_of_the_mesh_falls_with_the_chord_error(exact: ExactKernel) -> None:
    """The sagitta is r d² / 8, the volume lost is in proportion to d²: a quarter for a quarter."""
    torus = Revolved(circle(4.0, at=(10.0, 0.0)))
    true = exact.evaluate(torus).facts.volume_mm3
    errors = [
        true - MeshKernel(chord_error_mm=e).evaluate(torus).facts.volume_mm3
        for e in (0.04, 0.01, 0.0025)
    ]
    assert errors[0] / errors[1] == pytest.approx(4.0, rel=0.25)
    assert errors[1] / errors[2] == pytest.approx(4.0, rel=0.12)
