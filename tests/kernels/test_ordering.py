"""A mesh is the same mesh in whatever order its corners and triangles came."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.kernels.mesh import MeshKernel
from cleatwright.kernels.mesh.ordering import Faces, Points, ordered
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import Difference, Union, block, prism

PLATE = block(0.0, 0.0, 0.0, 60.0, 8.0, 40.0)
BORE = prism(circle(6.0), 20.0).turned("x", -90.0)
RACK = Difference(
    Union((PLATE, block(0.0, 0.0, 0.0, 60.0, 50.0, 6.0))),
    (BORE.moved(15.0, -1.0, 25.0), BORE.moved(45.0, -1.0, 25.0)),
)


def meshes() -> dict[str, tuple[Points, Faces]]:
    rack = MeshKernel().evaluate(RACK)
    cube = trimesh.creation.box((2.0, 2.0, 2.0))
    # two cubes that share nothing but a corner, each with a vertex of its own there
    touching = (
        np.concatenate([cube.vertices, cube.vertices + 2.0]),
        np.concatenate([cube.faces, cube.faces + 8]).astype(np.uint32),
    )
    return {"rack": (rack.vertices_mm, rack.triangles), "touching cubes": touching}


MESHES = meshes()


@pytest.mark.parametrize("name", sorted(MESHES))
@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 2**32 - 1))
def test_a_shuffled_mesh_is_put_in_the_same_order(name: str, seed: int) -> None:
    points, faces = MESHES[name]
    chance = np.random.default_rng(seed)
    order = chance.permutation(len(points))
    place = np.argsort(order).astype(np.uint32)
    turns = chance.integers(0, 3, size=(len(faces), 1))
    turned = np.take_along_axis(faces, (turns + np.arange(3)) % 3, axis=1)
    shuffled = chance.permutation(place[turned])
    one, other = ordered(points, faces), ordered(points[order], shuffled)
    assert np.array_equal(one[0], other[0])
    assert np.array_equal(one[1], other[1])


@pytest.mark.parametrize("name", sorted(MESHES))
def test_an_ordered_mesh_is_the_same_body(name: str) -> None:
    """Volume and area by trimesh, before and after; it stays closed and turned outward."""
    points, faces = MESHES[name]
    plain = trimesh.Trimesh(points, faces, process=False)
    after = trimesh.Trimesh(*ordered(points, faces), process=False)
    assert after.is_watertight
    assert after.is_winding_consistent
    assert after.volume == pytest.approx(plain.volume, rel=1e-12)
    assert after.area == pytest.approx(plain.area, rel=1e-12)
    assert after.euler_number == plain.euler_number


def test_the_facts_of_a_body_do_not_depend_on_what_was_built_before() -> None:
    alone = MeshKernel().evaluate(RACK)
    busy = MeshKernel()
    for k in range(5):
        busy.evaluate(Union((PLATE.moved(float(k), 0.0, 0.0), PLATE)))
    busy.evaluate(RACK.solid)
    among = busy.evaluate(RACK)
    assert among.facts == alone.facts
    assert among.vertices_mm.tobytes() == alone.vertices_mm.tobytes()
    assert among.triangles.tobytes() == alone.triangles.tobytes()
