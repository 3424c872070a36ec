"""One order for the vertices and triangles of a mesh, whatever order they came in.

The mesh library numbers what it makes by a counter of the whole process, and the order of
its triangles follows these numbers. Sums over triangles, and files, must not.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import numpy.typing as npt

Points = npt.NDArray[np.float64]
Faces = npt.NDArray[np.uint32]


def ordered(points_mm: Points, triangles: Faces) -> tuple[Points, Faces]:
    """Return the same mesh with its vertices and triangles sorted.

    Vertices are sorted by x, y and z; those in one place, where surfaces touch, by the
    corners of the triangles around them. Each triangle begins at its first vertex and
    keeps its sense; then the triangles are sorted.

    Args:
        points_mm: Vertices, shape (n, 3).
        triangles: Corner indices, shape (m, 3), counter-clockwise from outside.

    >>> points = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
    >>> ordered(points, np.array([[0, 2, 1]], dtype=np.uint32))[1].tolist()
    [[0, 2, 1]]
    """
    order = np.lexsort(points_mm.T[::-1])
    order = _ties_parted(order, points_mm, triangles)
    name = np.empty(len(order), dtype=np.uint32)
    name[order] = np.arange(len(order), dtype=np.uint32)
    renamed = name[triangles]
    first = renamed.argmin(axis=1)[:, None]
    turned = np.take_along_axis(renamed, (first + np.arange(3)) % 3, axis=1)
    return (
        np.ascontiguousarray(points_mm[order]),
        np.ascontiguousarray(turned[np.lexsort(turned.T[::-1])]),
    )


def _ties_parted(
    order: npt.NDArray[np.intp], points_mm: Points, triangles: Faces
) -> npt.NDArray[np.intp]:
    """Return the order with vertices in one place sorted by what lies around them."""
    placed = points_mm[order]
    new = np.flatnonzero((placed[1:] != placed[:-1]).any(axis=1)) + 1
    bounds = [0, *new.tolist(), len(order)]
    if len(bounds) == len(order) + 1:
        return order
    parted = order.copy()
    for low, high in pairwise(bounds):
        if high - low > 1:
            tied = sorted(order[low:high], key=lambda v: _around(int(v), points_mm, triangles))
            parted[low:high] = tied
    return parted


def _around(vertex: int, points_mm: Points, triangles: Faces) -> list[list[float]]:
    """Return the two other corners of each triangle at a vertex, in one order."""
    rows, columns = np.nonzero(triangles == vertex)
    others = [
        np.concatenate([points_mm[triangles[row, (column + k) % 3]] for k in (1, 2)]).tolist()
        for row, column in zip(rows, columns, strict=True)
    ]
    return sorted(others)
