"""The facets of a cone that rays span: the bounds on all that the rays together can reach.

The double description: begin with the facets of rays that are a basis, and take in the others one
by one. Each takes away the facets beyond which it lies, and closes the gap by one facet between
each that goes and each that stays beside it.
Source: Motzkin, Raiffa, Thompson and Thrall 1953, The double description method; the rule for
neighbours, that no third facet has all their common rays, is proposition 7 of Fukuda and Prodon
1996, Double description method revisited (both from memory). Tests compare with Qhull, which is
not used here as its library takes 40 MB and a quarter of a second to load.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Rows = npt.NDArray[np.float64]
# of a ray of length one: how far from a facet it still lies on it
FLAT = 1e-9
# of a ray of length one: how much of it is new, for a basis
NEW = 1e-6


def cone_facets(rays: Rows) -> Rows:
    """Return the outward normals of the facets of a cone, of length one: ``normals @ ray <= 0``.

    Args:
        rays: Rays that span it, a row each, none zero, of numbers about as large in each column.

    Returns:
        A normal in each row, each facet once; no row where the rays reach everything.

    Raises:
        ValueError: The rays lie in a plane through their origin.

    >>> cone_facets(np.array([[1.0, 0.0], [0.0, 1.0], [1.0, 1.0]])) + 0.0
    array([[-1.,  0.],
           [ 0., -1.]])
    """
    rays = _long_one(rays)
    first = _basis(rays)
    normals = _long_one(np.asarray(-np.linalg.inv(rays[first]).T, dtype=np.float64))
    # which of the rays taken in lie on which of the facets
    on = ~np.eye(len(first), dtype=bool)
    for ray in np.delete(rays, first, axis=0):
        side = normals @ ray
        met = np.abs(side) <= FLAT
        if side.max(initial=0.0) <= FLAT:
            on = np.column_stack([on, met])
            continue
        goes, stays = np.flatnonzero(side > FLAT), np.flatnonzero(side <= FLAT)
        beside, common = _neighbours(on, goes, np.flatnonzero(side < -FLAT), size=len(first))
        gone, kept = beside[:, 0], beside[:, 1]
        between = side[gone, None] * normals[kept] - side[kept, None] * normals[gone]
        normals = np.vstack([normals[stays], _long_one(between)])
        met = np.concatenate([met[stays], np.ones(len(beside), dtype=bool)])
        on = np.column_stack([np.vstack([on[stays], common]), met])
    return normals


def _neighbours(
    on: npt.NDArray[np.bool_],
    goes: npt.NDArray[np.intp],
    stays: npt.NDArray[np.intp],
    *,
    size: int,
) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.bool_]]:
    """Return pairs of a facet that goes and one that stays beside it, and their common rays."""
    shared = on[goes][:, None, :] & on[stays][None, :, :]
    # as many as make a ridge: few pairs have so many
    first, second = np.nonzero(shared.sum(axis=2) >= size - 2)
    common = shared[first, second]
    missing = (~on).astype(np.float64) @ common.T.astype(np.float64)
    beside = (missing == 0).sum(axis=0) == 2
    return np.column_stack([goes[first], stays[second]])[beside], common[beside]


def _basis(rays: Rows) -> list[int]:
    """Return which rays make a basis: each that is new beside those before it."""
    found: list[int] = []
    axes = np.zeros((0, rays.shape[1]))
    for index, ray in enumerate(rays):
        rest = ray - axes.T @ (axes @ ray)
        if np.linalg.norm(rest) > NEW:
            axes = np.vstack([axes, _long_one(rest[None, :])])
            found.append(index)
    if len(found) < rays.shape[1]:
        raise ValueError("the rays lie in a plane")
    return found


def _long_one(rows: Rows) -> Rows:
    return rows / np.linalg.norm(rows, axis=1, keepdims=True)
