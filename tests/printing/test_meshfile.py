"""What may be printed: closed, turned outward, with material inside."""

import numpy as np
import pytest
import trimesh
from numpy.typing import NDArray

from cleatwright.base.errors import PartError
from cleatwright.printing.meshfile import PrintMesh, print_mesh
from cleatwright.shapes.rigid import shift, turn


def tetrahedron() -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    corners = np.array([[0, 0, 0], [3, 0, 0], [0, 4, 0], [0, 0, 5]], dtype=np.float64)
    return corners, np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]])


def made(corners: NDArray[np.float64], triangles: NDArray[np.int64]) -> PrintMesh:
    return print_mesh("part", "M", vertices=corners, triangles=triangles)


def test_volume_and_bounds_of_a_tetrahedron_by_hand() -> None:
    """A corner of a box holds a sixth of it: 3 x 4 x 5 / 6 = 10."""
    mesh = made(*tetrahedron())
    assert mesh.volume_mm3 == pytest.approx(10.0)
    assert mesh.bounds_mm == ((0.0, 0.0, 0.0), (3.0, 4.0, 5.0))


def test_volume_agrees_with_a_reference_library_far_from_the_origin() -> None:
    ball = trimesh.creation.icosphere(subdivisions=3, radius=12.0)
    mesh = print_mesh("ball", "B", vertices=ball.vertices + 1e5, triangles=ball.faces)
    assert mesh.volume_mm3 == pytest.approx(float(ball.volume), rel=1e-9)


def test_an_open_mesh_is_refused() -> None:
    corners, triangles = tetrahedron()
    with pytest.raises(PartError, match="open or turned over at 3 edges"):
        made(corners, triangles[:-1])


def test_one_flipped_triangle_is_refused() -> None:
    corners, triangles = tetrahedron()
    triangles[0] = triangles[0][::-1]
    with pytest.raises(PartError, match="used twice in one direction"):
        made(corners, triangles)


def test_a_mesh_inside_out_is_refused() -> None:
    corners, triangles = tetrahedron()
    with pytest.raises(PartError, match="inside out"):
        made(corners, triangles[:, ::-1])


def test_a_mirrored_mesh_is_refused() -> None:
    corners, triangles = tetrahedron()
    with pytest.raises(PartError, match="inside out"):
        made(corners * [-1, 1, 1], triangles)


def test_a_flat_mesh_is_refused() -> None:
    corners, triangles = tetrahedron()
    with pytest.raises(PartError, match="flat"):
        made(corners * [1, 1, 0], triangles)


def test_two_shells_that_share_an_edge_are_refused() -> None:
    """The specification allows an edge to belong to two triangles only."""
    corners, triangles = tetrahedron()
    more = np.vstack([corners, [[-3, 0, 0], [0, -4, 0]]])
    other = np.array([[0, 5, 4], [0, 4, 3], [0, 3, 5], [4, 5, 3]])
    with pytest.raises(PartError, match="used twice"):
        made(more, np.vstack([triangles, other]))


@pytest.mark.parametrize("wrong", [np.nan, np.inf, -np.inf])
def test_a_corner_that_is_not_finite_is_refused(wrong: float) -> None:
    corners, triangles = tetrahedron()
    corners[1, 2] = wrong
    with pytest.raises(PartError, match="not finite"):
        made(corners, triangles)


@pytest.mark.parametrize("wrong", [-1, 4])
def test_an_index_without_a_corner_is_refused(wrong: int) -> None:
    corners, triangles = tetrahedron()
    triangles[0, 0] = wrong
    with pytest.raises(PartError, match="does not exist"):
        made(corners, triangles)


def test_a_triangle_with_one_corner_twice_is_refused() -> None:
    corners, triangles = tetrahedron()
    triangles[0] = [0, 0, 1]
    with pytest.raises(PartError, match="one corner twice"):
        made(corners, triangles)


def test_an_empty_mesh_and_arrays_of_other_shapes_are_refused() -> None:
    corners, triangles = tetrahedron()
    with pytest.raises(PartError, match="empty"):
        made(corners, triangles[:0])
    with pytest.raises(PartError, match="shapes"):
        made(corners[:, :2], triangles)


def test_the_arrays_are_copies_that_cannot_be_changed() -> None:
    corners, triangles = tetrahedron()
    mesh = made(corners, triangles)
    corners[0, 0] = 99.0
    assert mesh.vertices[0, 0] == 0.0
    with pytest.raises(ValueError, match="read-only"):
        mesh.vertices[0, 0] = 1.0
    assert (mesh.vertices.dtype, mesh.triangles.dtype) == (np.float64, np.uint32)


def test_a_rigid_motion_moves_corners_and_keeps_the_volume() -> None:
    mesh = made(*tetrahedron()).moved(turn("z", 90).then(shift(1.0, 2.0, 3.0)))
    assert mesh.vertices[1].tolist() == [1.0, 5.0, 3.0]
    assert mesh.volume_mm3 == pytest.approx(10.0)


def test_the_key_tells_names_and_geometry_apart() -> None:
    corners, triangles = tetrahedron()
    one = made(corners, triangles)
    assert made(corners.copy(), triangles.copy()).content_key == one.content_key
    other = print_mesh("part", "N", vertices=corners, triangles=triangles)
    assert len({one.content_key, other.content_key, made(corners * 2, triangles).content_key}) == 3
