"""What each of several columns bears, against a stiff body on springs solved as equations.

Source: equilibrium and Hooke's law; numpy.linalg.solve for the two motions of the body.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cleatwright.statics.cleat import LoadCase, Weight, weighing
from cleatwright.statics.columns import column_cases

PLACES = st.lists(
    st.floats(0.0, 400.0), min_size=2, max_size=5, unique_by=lambda x: round(x / 10.0)
).map(lambda some: tuple(sorted(some)))
WEIGHTS = st.lists(
    st.builds(Weight, st.floats(0.1, 40.0), st.floats(0.0, 150.0), st.floats(-20.0, 420.0)),
    min_size=1,
    max_size=4,
)


def on_springs(columns: tuple[float, ...], force: float, at: float) -> np.ndarray:
    """Return the force of each spring of 1 N/mm under a stiff body that a force moves and turns."""
    x = np.array(columns)
    stiff = np.array([[len(x), x.sum()], [x.sum(), (x**2).sum()]])
    down, turn = np.linalg.solve(stiff, np.array([force, force * at]))
    return down + turn * x


@given(PLACES, WEIGHTS, st.floats(1.0, 30.0), st.floats(0.0, 400.0))
def test_columns_bear_what_springs_under_a_stiff_body_do(
    columns: tuple[float, ...], weights: list[Weight], pull: float, at: float
) -> None:
    case = weighing("", weights)
    case = LoadCase(
        "",
        case.weight_n,
        case.moment_nmm,
        pull,
        30.0,
        along_nmm=case.along_nmm,
        skew_nmm2=case.skew_nmm2,
        hand_x_mm=at,
    )
    found = column_cases(case, columns, ends_mm=(columns[0], columns[-1]))
    count = len(columns)
    none = np.zeros(count)
    down = sum((on_springs(columns, w.force_n, w.along_mm) for w in weights), start=none)
    turn = sum((on_springs(columns, w.force_n * w.out_mm, w.along_mm) for w in weights), start=none)
    out = np.maximum(on_springs(columns, pull, at), 0.0)
    assert [one.weight_n / count for one in found] == pytest.approx(list(down), abs=1e-6)
    assert [one.moment_nmm / count for one in found] == pytest.approx(list(turn), abs=1e-4)
    assert [one.pull_n / count for one in found] == pytest.approx(list(out), abs=1e-9)


def test_two_columns_bear_what_the_lever_asks_of_them() -> None:
    """By hand: 8 N at a quarter of the way, 60 mm out."""
    case = weighing("", [Weight(8.0, 60.0, 30.0)])
    near, far = column_cases(case, (10.0, 90.0), ends_mm=(0.0, 100.0))
    assert (near.weight_n, far.weight_n) == (pytest.approx(2 * 6.0), pytest.approx(2 * 2.0))
    assert (near.moment_nmm, far.moment_nmm) == (pytest.approx(720.0), pytest.approx(240.0))


def test_a_lift_beyond_one_column_presses_the_other_down() -> None:
    """10 N up 20 mm outside of one, 80 mm apart: 12.5 N up there, 2.5 N down on the other."""
    case = LoadCase("", 0.0, 0.0, lift_n=10.0, lift_y_mm=40.0, hand_x_mm=-10.0)
    near, far = column_cases(case, (10.0, 90.0), ends_mm=(0.0, 100.0))
    assert (near.lift_n, near.weight_n) == (pytest.approx(25.0), pytest.approx(0.0))
    assert (far.lift_n, far.weight_n) == (0.0, pytest.approx(5.0))
    assert far.moment_nmm == pytest.approx(200.0)


@pytest.mark.parametrize(("at", "share"), [(20.0, 1.0), (30.0, 1.5), (5.0, 1.75)])
def test_a_pull_beside_a_single_column_presses_the_far_end_on(at: float, share: float) -> None:
    """Moments about the pressed end by hand: (30 - 0) / 20, and (40 - 5) / 20."""
    case = LoadCase("", 5.0, 100.0, pull_n=8.0, hand_x_mm=at, along_nmm=100.0)
    (found,) = column_cases(case, (20.0,), ends_mm=(0.0, 40.0))
    assert found.pull_n == pytest.approx(8.0 * share)
    assert (found.weight_n, found.moment_nmm) == (5.0, 100.0)
