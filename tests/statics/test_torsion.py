"""Rectangles that are twisted: a table of a handbook, and a membrane of many points.

Source of the table: Timoshenko and Goodier, Theory of Elasticity, torsion of rectangular bars:
J = k1 b a3, worst shear T / (k2 b a2). From memory; the membrane finds the same.
Source of the membrane: Prandtl. Its slope is the shear, twice its volume the torque; over what is
not there it is flat.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import spsolve

from cleatwright.statics.torsion import HollowBar, constant_mm4, twist_modulus_mm3

TABLE = (
    (1.0, 0.1406, 0.208),
    (1.2, 0.166, 0.219),
    (1.5, 0.196, 0.231),
    (2.0, 0.229, 0.246),
    (2.5, 0.249, 0.258),
    (3.0, 0.263, 0.267),
    (4.0, 0.281, 0.282),
    (5.0, 0.291, 0.291),
    (10.0, 0.312, 0.312),
)


def solid(high_mm: float, thick_mm: float) -> HollowBar:
    return HollowBar(high_mm, thick_mm, high_mm, thick_mm)


@pytest.mark.parametrize(("ratio", "k1", "k2"), TABLE)
@pytest.mark.parametrize("upright", [True, False])
def test_a_rectangle_is_as_stiff_and_as_strong_as_the_table_says(
    ratio: float, k1: float, k2: float, *, upright: bool
) -> None:
    sides = (3.0 * ratio, 3.0) if upright else (3.0, 3.0 * ratio)
    long = 3.0 * ratio
    assert constant_mm4(*sides) / (long * 27.0) == pytest.approx(k1, abs=6e-4)
    assert twist_modulus_mm3([solid(*sides)]) / (long * 9.0) == pytest.approx(k2, abs=6e-4)


def membrane(high: float, thick: float, edges: float, faces: float) -> tuple[float, float]:
    """Return J and T over the worst shear at the middles of the sides, from points 0.1 mm apart."""
    step = 0.1
    rows, columns = round(high / step), round(thick / step)
    i, j = np.mgrid[0 : rows + 1, 0 : columns + 1] * step
    inside = ((i > edges - 1e-6) & (i < high - edges + 1e-6) & (j > faces - 1e-6)) & (
        j < thick - faces + 1e-6
    )
    rim = (i < 1e-6) | (j < 1e-6) | (i > high - 1e-6) | (j > thick - 1e-6)
    number = np.cumsum(~(inside | rim).ravel()).reshape(inside.shape)
    number[inside] = 0
    number[rim] = number.max() + 1
    count = int(number.max()) + 1
    pairs = [
        (a.ravel(), b.ravel())
        for a, b in ((number[1:], number[:-1]), (number[:, 1:], number[:, :-1]))
    ]
    a, b = (np.concatenate(one) for one in zip(*pairs, strict=True))
    ones = np.ones(len(a))
    stiff = coo_matrix(
        (
            np.concatenate([ones, ones, -ones, -ones]),
            (np.concatenate([a, b, a, b]), np.concatenate([a, b, b, a])),
        ),
        shape=(count, count),
    ).tocsc()[:-1, :-1]
    load = np.bincount(number.ravel(), minlength=count)[:-1] * 2.0 * step**2
    height = np.append(np.asarray(spsolve(stiff, load)), 0.0)
    found = height[number]
    constant = 2.0 * float(found.sum()) * step**2
    slopes = (
        (4.0 * line[1] - line[2]) / 2.0 / step
        for line in (found[rows // 2], found[:, columns // 2])
    )
    return constant, constant / max(slopes)


@pytest.mark.parametrize(
    ("sides", "edges", "faces"),
    [
        ((20.0, 5.0), 1.4, 0.9),
        ((20.0, 5.0), 0.9, 0.9),
        ((50.0, 5.0), 1.4, 0.9),
        ((30.0, 5.0), 0.9, 1.4),
        ((12.0, 5.0), 0.9, 1.8),
        ((5.0, 30.0), 1.4, 0.9),
        ((5.0, 30.0), 0.9, 1.4),
    ],
)
def test_what_counts_of_walls_and_skins_is_no_more_than_a_membrane_finds(
    sides: tuple[float, float], edges: float, faces: float
) -> None:
    _, modulus = membrane(*sides, edges, faces)
    assert 0.9 * modulus < twist_modulus_mm3([HollowBar(*sides, edges, faces)]) < 1.001 * modulus


def test_pieces_beside_each_other_bear_as_they_are_stiff_alone() -> None:
    """Two alike bear twice as much; a thick one beside a thin one has the worst shear."""
    one, thick = solid(40.0, 4.0), solid(40.0, 8.0)
    assert twist_modulus_mm3([one, one]) == pytest.approx(2.0 * twist_modulus_mm3([one]))
    constant = constant_mm4(40.0, 4.0) + constant_mm4(40.0, 8.0)
    both = constant / constant_mm4(40.0, 8.0) * twist_modulus_mm3([thick])
    assert twist_modulus_mm3([one, thick]) == pytest.approx(both)


def test_nothing_bears_no_torque() -> None:
    assert twist_modulus_mm3([]) == 0.0
    assert constant_mm4(10.0, 0.0) == 0.0
