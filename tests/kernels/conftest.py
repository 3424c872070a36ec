"""One comparison for every closed form: both kernels against mathematics.

The exact kernel must give it to rounding. The mesh kernel replaces arcs by chords
whose sagitta is at most e. A chord of an arc with step d cuts off a circular segment
of area r² (d - sin d) / 2, which is at most 0.68 of chord times sagitta for d up to
45 degrees (2/3 in the limit of a parabola, Archimedes). So each curved direction
moves a surface of area S by a volume of at most 0.68 e S. A chord is shorter than its arc by
the fraction d² / 24 (series of sin).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import pytest

from cleatwright.kernels.api import CHORD_ERROR_MM
from cleatwright.kernels.exact import ExactKernel
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.facts import BodyFacts, Bounds
from cleatwright.shapes.rigid import Vector
from cleatwright.shapes.solid import Solid

SEGMENT = 0.68
# the library of the exact kernel widens boxes of curved faces by its Precision::Confusion
BOX_SLACK_MM = 2.1e-7
# the mesh library puts plane sections on a grid of about 1e-8 mm
GRID_MM = 1e-7


@dataclass(frozen=True)
class Expected:
    """What mathematics says of a solid, and what of it is curved.

    ``curved_mm2`` is the area of the curved faces, ``bends`` in how many directions they are
    divided into chords; ``arcs_mm`` the length of arcs around flat faces, ``radius_mm`` the
    least radius. ``slack`` is the relative bound for the exact kernel.
    """

    volume: float
    centroid: Vector
    bounds: Bounds
    genus: int = 0
    bodies: int = 1
    area: float | None = None
    curved_mm2: float = 0.0
    bends: int = 1
    arcs_mm: float = 0.0
    radius_mm: float = 1.0
    slack: float = 1e-9


def _distance(a: Bounds, b: Bounds) -> float:
    return max(abs(p - q) for s, t in zip(a, b, strict=True) for p, q in zip(s, t, strict=True))


def _check_exact(facts: BodyFacts, want: Expected) -> None:
    size = math.hypot(*facts.size_mm)
    assert facts.volume_mm3 == pytest.approx(want.volume, rel=want.slack)
    assert math.dist(facts.centroid_mm, want.centroid) <= want.slack * size
    assert _distance(facts.bounds_mm, want.bounds) <= BOX_SLACK_MM
    assert (facts.genus, facts.bodies) == (want.genus, want.bodies)
    if want.area is not None:
        assert facts.area_mm2 == pytest.approx(want.area, rel=want.slack)


def _check_mesh(facts: BodyFacts, want: Expected) -> None:
    e, size = CHORD_ERROR_MM, math.hypot(*facts.size_mm)
    lost = want.bends * SEGMENT * e * want.curved_mm2 + GRID_MM * facts.area_mm2
    assert abs(facts.volume_mm3 - want.volume) <= lost
    # what was lost lay within one size of the centroid
    assert math.dist(facts.centroid_mm, want.centroid) <= lost * size / facts.volume_mm3
    bend = want.bends * e if want.curved_mm2 else 0.0
    assert _distance(facts.bounds_mm, want.bounds) <= bend + GRID_MM
    assert (facts.genus, facts.bodies) == (want.genus, want.bodies)
    if want.area is not None:
        step = min(2.0 * math.acos(1.0 - min(1.0, e / want.radius_mm)), math.pi / 4)
        shorter = 1.01 * want.bends * want.curved_mm2 * step**2 / 24.0
        slack = shorter + 2.0 * SEGMENT * e * want.arcs_mm + GRID_MM * size
        assert abs(facts.area_mm2 - want.area) <= slack


Check = Callable[[Solid, Expected], None]


@pytest.fixture(scope="session")
def exact() -> ExactKernel:
    """Return the exact kernel."""
    return ExactKernel()


@pytest.fixture(scope="session")
def mesh() -> MeshKernel:
    """Return the mesh kernel at its default chord error."""
    return MeshKernel()


@pytest.fixture(scope="session")
def expect() -> type[Expected]:
    """Return the record of what mathematics says."""
    return Expected


@pytest.fixture(scope="session")
def agrees(exact: ExactKernel, mesh: MeshKernel) -> Check:
    """Return the check of one solid in both kernels."""

    def check(solid: Solid, want: Expected) -> None:
        _check_exact(exact.evaluate(solid).facts, want)
        _check_mesh(mesh.evaluate(solid).facts, want)

    return check
