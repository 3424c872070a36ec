"""Collapsing slivers, with trimesh as the reader that welds corners by their place."""

import numpy as np
import pytest
import trimesh

from cleatwright.printing.meshfile import print_mesh
from cleatwright.printing.welding import SHORTEST_MM, welded


def box_with_sliver(width_mm: float) -> tuple[np.ndarray, np.ndarray]:
    """Return a 20 x 30 x 10 box with one edge split by a sliver of that width."""
    box = trimesh.creation.box((20.0, 30.0, 10.0))
    faces = np.array(box.faces)
    a, b = faces[0][:2]
    across = next(k for k in range(1, len(faces)) if {a, b} <= set(faces[k].tolist()))
    c = faces[0][2]
    (d,) = set(faces[across].tolist()) - {a, b}
    middle = (box.vertices[a] + box.vertices[b]) / 2
    inward = (box.vertices[c] - middle) * width_mm / np.linalg.norm(box.vertices[c] - middle)
    m, n = len(box.vertices), len(box.vertices) + 1
    rest = [face for k, face in enumerate(faces.tolist()) if k not in {0, across}]
    triangles = [*rest, [a, n, c], [n, b, c], [a, m, n], [m, b, n], [b, m, d], [m, a, d]]
    vertices = np.vstack([box.vertices, middle, middle + inward])
    return vertices, np.array(triangles, dtype=np.uint32)


def test_slivers_are_drawn_together_and_the_volume_stays() -> None:
    vertices, triangles = box_with_sliver(1e-9)
    assert not trimesh.Trimesh(vertices, triangles).is_watertight
    corners, faces = welded(vertices, triangles)
    print_mesh("box", "", vertices=corners, triangles=faces)
    again = trimesh.Trimesh(corners, faces)
    assert again.is_watertight
    assert again.volume == pytest.approx(6000.0, abs=1e-6)
    assert (len(corners), len(faces)) == (len(vertices) - 1, len(triangles) - 2)


def test_a_mesh_without_short_edges_stays_as_it_is() -> None:
    vertices, triangles = box_with_sliver(2 * SHORTEST_MM)
    corners, faces = welded(vertices, triangles)
    assert np.array_equal(corners, vertices)
    assert np.array_equal(faces, triangles)


def test_corners_that_touch_without_an_edge_stay_apart() -> None:
    one = trimesh.creation.box((10.0, 10.0, 10.0))
    vertices = np.vstack([one.vertices, np.add(one.vertices, [10.0, 0.0, 0.0])])
    triangles = np.vstack([one.faces, np.array(one.faces) + 8]).astype(np.uint32)
    corners, faces = welded(vertices, triangles)
    assert (len(corners), len(faces)) == (16, 24)
