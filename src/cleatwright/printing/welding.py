"""Collapsing edges that are too short to mean anything.

Where faces of two solids lie in one plane, their union keeps corners that differ by
rounding alone, joined by slivers without area. Whoever reads the file and welds
corners by their place would see such a sliver as a tear.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from cleatwright.printing.connected import connected

# a hundredth of what the finest printer can place, and far above rounding
SHORTEST_MM = 1e-4


def welded(
    vertices: NDArray[np.float64], triangles: NDArray[np.uint32]
) -> tuple[NDArray[np.float64], NDArray[np.uint32]]:
    """Return the mesh with every edge shorter than SHORTEST_MM drawn together to one corner.

    Corners that lie close together without an edge between them stay apart: they belong
    to surfaces that touch.

    Args:
        vertices: Corners in mm, shape (n, 3).
        triangles: Indices of corners, shape (m, 3).
    """
    tails, heads = triangles.ravel(), np.roll(triangles, -1, axis=1).ravel()
    lengths = np.linalg.norm(vertices[tails] - vertices[heads], axis=1)
    short = lengths < SHORTEST_MM
    if not short.any():
        return vertices, triangles
    cluster = connected(len(vertices), tails[short], heads[short])
    # each cluster is named and placed by its first corner
    _, first, of_corner = np.unique(cluster, return_index=True, return_inverse=True)
    moved = first[of_corner][triangles]
    kept = moved[
        (moved[:, 0] != moved[:, 1]) & (moved[:, 1] != moved[:, 2]) & (moved[:, 0] != moved[:, 2])
    ]
    used, renamed = np.unique(kept, return_inverse=True)
    return vertices[used], renamed.reshape(kept.shape).astype(np.uint32)
