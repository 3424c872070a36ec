"""A stiff body on springs: the ends of the springs stay in a line (stiffness matrix, by numpy)."""

from __future__ import annotations

import numpy as np
import pytest

from cleatwright.statics.shared_load import shared_load


def by_stiffness(springs: list[tuple[float, float]], at_mm: float) -> list[float]:
    """Return the forces from the sinking and the turning of the body: K u = f."""
    x, k = np.array(springs).T
    whole = np.array([[k.sum(), (k * x).sum()], [(k * x).sum(), (k * x * x).sum()]])
    sinks, turns = np.linalg.solve(whole, [1.0, at_mm])
    return list(k * (sinks + turns * x))


@pytest.mark.parametrize(
    ("springs", "at_mm"),
    [
        ([(0.0, 1.0), (80.0, 1.0), (160.0, 1.0)], 80.0),
        ([(0.0, 90.0), (50.0, 1.0), (100.0, 1.0), (150.0, 90.0)], 60.0),
        ([(-30.0, 5.0), (4.0, 20.0), (30.0, 7.0)], 3.0),
    ],
)
def test_parts_are_those_of_a_body_that_sinks_and_turns(
    springs: list[tuple[float, float]], at_mm: float
) -> None:
    assert shared_load(springs, at_mm=at_mm) == pytest.approx(by_stiffness(springs, at_mm))


@pytest.mark.parametrize("stiff", [0.01, 1.0, 300.0])
def test_of_two_each_bears_what_the_lever_asks(stiff: float) -> None:
    assert shared_load([(10.0, stiff), (50.0, 1.0)], at_mm=20.0) == pytest.approx([0.75, 0.25])


@pytest.mark.parametrize("stiff", [(7.0,), (7.0, 14.0)])
def test_what_stands_in_one_place_turns_nothing(stiff: tuple[float, ...]) -> None:
    found = shared_load([(16.1, k) for k in stiff], at_mm=40.0)
    assert found == pytest.approx([k / sum(stiff) for k in stiff])


def test_a_load_beside_all_springs_bears_on_the_outermost() -> None:
    assert shared_load([(0.0, 1.0), (10.0, 1.0)], at_mm=90.0) == pytest.approx([0.0, 1.0])
