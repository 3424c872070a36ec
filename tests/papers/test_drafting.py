"""Oracles: areas in closed form, and least squares by a general optimiser."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, minimize

from cleatwright.papers.kit.drafting import clipped, hatching
from cleatwright.papers.load_map.drawing import apart

SQUARE = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0))
HOLE = ((10.0, 10.0), (10.0, 20.0), (25.0, 20.0), (25.0, 10.0))


@pytest.mark.parametrize("lean", [45.0, -45.0, 0.0, 30.0])
def test_the_length_of_a_fine_hatch_times_its_step_is_the_area_it_covers(lean: float) -> None:
    """40 x 30 less a hole of 15 x 10 mm."""
    lines = hatching([SQUARE, HOLE], step=0.1, lean_deg=lean)
    length = sum(math.dist(a, b) for a, b in lines)
    assert length * 0.1 == pytest.approx(1200.0 - 150.0, rel=0.01)


def test_a_hatch_keeps_out_of_holes_and_leans_as_told() -> None:
    for (x0, y0), (x1, y1) in hatching([SQUARE, HOLE], step=1.7):
        assert abs(x1 - x0) == pytest.approx(abs(y1 - y0))
        x, y = (x0 + x1) / 2, (y0 + y1) / 2
        assert not (10.0 < x < 25.0 and 10.0 < y < 20.0)


def test_nothing_is_hatched_where_nothing_is_cut() -> None:
    assert hatching([], step=1.0) == []
    assert hatching([SQUARE, SQUARE], step=1.0) == []


def test_a_clipped_triangle_has_the_area_of_its_trapezium() -> None:
    """Base and height 20 mm, cut at half height: three quarters of 200 mm2 are below."""
    (part,) = clipped(((0.0, 0.0), (20.0, 0.0), (10.0, 20.0)), low=-5.0, high=10.0)
    pairs = zip(part, (*part[1:], part[0]), strict=True)
    area = abs(sum(a * d - b * c for (a, b), (c, d) in pairs)) / 2
    assert area == pytest.approx(150.0)


@settings(deadline=None, max_examples=25)
@given(wanted=st.lists(st.floats(0.0, 60.0), min_size=2, max_size=7))
def test_labels_move_aside_by_the_least_sum_of_squares(wanted: list[float]) -> None:
    """Quadratic programme: places in order, at least 4 apart, nearest to the wanted ones."""
    places = np.array(sorted(wanted))
    steps = np.diff(np.eye(len(places)), axis=0)

    def cost(x: npt.NDArray[np.float64]) -> float:
        return float(((x - places) ** 2).sum())

    best = minimize(
        cost,
        np.arange(len(places)) * 5.0,
        constraints=[LinearConstraint(steps, 4.0, np.inf)],
        method="SLSQP",
        options={"maxiter": 300, "ftol": 1e-12},
    )
    ours = np.array(apart(tuple(places.tolist()), step=4.0))
    assert (np.diff(ours) >= 4.0 - 1e-9).all()
    assert cost(ours) == pytest.approx(float(best.fun), abs=1e-4)
