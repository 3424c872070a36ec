"""The two kernels against each other on random trees."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest

from cleatwright.kernels.api import CHORD_ERROR_MM
from cleatwright.kernels.exact import ExactKernel
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.outline import circle, hexagon, rectangle
from cleatwright.shapes.rounding import fillet
from cleatwright.shapes.solid import (
    Difference,
    Intersection,
    Loft,
    Placed,
    Revolved,
    Solid,
    Union,
    prism,
)

AXES = ("x", "y", "z")


def _leaf(dice: random.Random) -> Solid:
    """Return a random primitive around the origin, 10 to 30 mm in size."""
    a, b, h = (dice.uniform(10.0, 30.0) for _ in range(3))
    plate = fillet(rectangle(-a / 2, -b / 2, a / 2, b / 2), dice.uniform(2.0, 4.0))
    bore = circle(dice.uniform(2.0, 5.0))
    made = (
        prism(plate, h, holes=(bore,), bottom_chamfer_mm=1.0, top_chamfer_mm=0.5),
        prism(hexagon(a), h),
        Revolved(fillet(rectangle(0.0, 0.0, a / 2, h), 2.0, only=(1, 2))),
        Revolved(circle(a / 3, at=(a / 2, 0.0))),
        Loft(plate, plate.turned(dice.uniform(-20.0, 20.0)), h),
        Loft(circle(a), circle(b), h),
    )
    return _placed(dice.choice(made).moved(dz=-h / 2), dice)


def _placed(solid: Solid, dice: random.Random) -> Solid:
    turned = solid.turned(dice.choice(AXES), dice.uniform(-180.0, 180.0))
    return turned.moved(*(dice.uniform(-3.0, 3.0) for _ in range(3)))


def _tree(dice: random.Random, depth: int) -> Solid:
    if depth == 0:
        return _leaf(dice)
    left, right = _tree(dice, depth - 1), _leaf(dice)
    return _placed(dice.choice((left | right, left - right, left & right)), dice)


def _leaves(solid: Solid) -> Iterator[Solid]:
    match solid:
        case Placed():
            yield from _leaves(solid.solid)
        case Union() | Intersection():
            for part in solid.solids:
                yield from _leaves(part)
        case Difference():
            for part in (solid.solid, *solid.cuts):
                yield from _leaves(part)
        case _:
            yield solid


@pytest.mark.parametrize("seed", range(20))
def test_random_trees_differ_by_no_more_than_their_chords(
    exact: ExactKernel, mesh: MeshKernel, seed: int
) -> None:
    """Where two trees differ, some leaf differs: the errors of the leaves add up at most.

    A leaf is moved by at most its area times 0.68 e for each of two curved directions.
    """
    dice = random.Random(seed)  # noqa: S311 - a repeatable choice of shapes, no secret
    tree = _tree(dice, 1 + seed % 2)
    true, near = exact.evaluate(tree).facts, mesh.evaluate(tree).facts
    areas = sum(exact.evaluate(leaf).facts.area_mm2 for leaf in _leaves(tree))
    lost = 2.0 * 0.68 * CHORD_ERROR_MM * areas
    assert abs(true.volume_mm3 - near.volume_mm3) <= lost
    size = sum(true.size_mm)
    for a, b in zip(true.centroid_mm, near.centroid_mm, strict=True):
        assert abs(a - b) <= lost * size / near.volume_mm3
    # a web thinner than the chord error breaks, so the topology is that of a finer mesh
    fine = MeshKernel(chord_error_mm=CHORD_ERROR_MM / 10.0).evaluate(tree).facts
    assert (true.genus, true.bodies) == (fine.genus, fine.bodies)
