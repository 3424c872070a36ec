"""Facets of cones over polytopes, against those that Qhull finds (scipy.spatial.ConvexHull)."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from cleatwright.statics.cone_facets import cone_facets

DIGITS = 7


def as_set(normals: np.ndarray) -> set[tuple[float, ...]]:
    """Return rows of length one as a set."""
    long_one = normals / np.linalg.norm(normals, axis=1, keepdims=True)
    return set(map(tuple, np.round(long_one, DIGITS) + 0.0))


def over(points: np.ndarray) -> np.ndarray:
    """Return the rays from the origin to points of a plane beside it."""
    return np.column_stack([points, np.ones(len(points))])


@given(st.integers(2, 5).flatmap(lambda size: st.lists(
    st.lists(st.integers(-2, 2), min_size=size, max_size=size), min_size=size + 1, max_size=24
)))  # fmt: skip
def test_of_points_on_a_grid_many_in_one_facet(points: list[list[int]]) -> None:
    places = np.array(points, dtype=float)
    assume(np.linalg.matrix_rank(places - places[0]) == places.shape[1])
    assert as_set(cone_facets(over(places))) == as_set(ConvexHull(places).equations)


@given(st.integers(0, 2**32 - 1))
def test_of_points_anywhere(seed: int) -> None:
    places = np.random.default_rng(seed).normal(size=(20, 5))
    assert as_set(cone_facets(over(places))) == as_set(ConvexHull(places).equations)


def test_of_a_cube_one_for_each_of_its_sides() -> None:
    corners = np.array(list(product((-1.0, 1.0), repeat=5)))
    normals = cone_facets(over(corners))
    assert len(normals) == 2 * 5
    assert (normals @ over(corners).T).max() == pytest.approx(0.0, abs=1e-12)


def test_rays_that_reach_everything_have_none() -> None:
    assert len(cone_facets(np.vstack([np.eye(3), -np.eye(3)]))) == 0


def test_rays_in_a_plane_are_refused() -> None:
    with pytest.raises(ValueError, match="plane"):
        cone_facets(np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [1.0, 1.0, 0.0]]))
