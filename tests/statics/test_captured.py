"""What a bolt must bear, against linear programmes over forces at many places.

Source: equilibrium of a rigid body; the least of a linear programme is its optimum
(scipy.optimize.linprog, HiGHS).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from cleatwright.statics.captured import (
    BLUNT_MM,
    Section,
    bolt_n,
    foot_n,
    knock_n,
    most_pull_n,
)
from cleatwright.statics.cleat import LoadCase

# how much a sharp edge is worn and rounded (a choice, on the safe side)
BLUNTED_MM = 3.0
INFEASIBLE = 2  # status of scipy.optimize.linprog
SECTIONS = st.builds(
    Section,
    contact_z_mm=st.floats(-60.0, 60.0),
    depth_mm=st.floats(40.0, 120.0),
    bevel_deg=st.floats(25.0, 60.0),
    tip_mm=st.floats(7.0, 40.0),
)
CASES = st.builds(
    LoadCase,
    name=st.just("drawn"),
    weight_n=st.floats(0.0, 60.0),
    moment_nmm=st.floats(0.0, 6000.0),
    pull_n=st.just(0.0) | st.floats(0.1, 40.0),
    pull_z_mm=st.floats(-300.0, 300.0),
    lift_n=st.just(0.0) | st.floats(0.1, 30.0),
    lift_y_mm=st.floats(0.0, 150.0),
)


def contact_forces(section: Section, bolt_y_mm: float) -> np.ndarray:
    """Return a row for each unit force on the holder: to the front, up, and turning it out.

    Moments about the bevel's edge: a force (fy, fz) at (y, z) turns out by fy z - fz y.
    """
    t = math.tan(math.radians(section.bevel_deg))
    bevel = [
        (-t, 1.0, -t * (-r * t) - 1.0 * -r) for r in np.linspace(BLUNTED_MM, section.tip_mm, 7)
    ]
    face = [(1.0, 0.0, -d) for d in np.linspace(BLUNTED_MM, section.depth_mm, 7)]
    return np.array([*bevel, *face, (0.0, -1.0, bolt_y_mm)]).T


def loads(case: LoadCase, section: Section) -> np.ndarray:
    f = case.pull_z_mm - section.contact_z_mm
    return np.array(
        [
            case.pull_n,
            case.lift_n - case.weight_n,
            case.moment_nmm + case.pull_n * f - case.lift_n * case.lift_y_mm,
        ]
    )


def least_bolt_n(case: LoadCase, section: Section) -> float:
    """Return the optimum, with the bolt pushed down at the worse end of the blunted edge."""
    worst = 0.0
    for place in (0.0, -BLUNTED_MM):
        forces = contact_forces(section, place)
        cost = np.zeros(forces.shape[1])
        cost[-1] = 1.0
        scale = np.array([1.0, 1.0, 0.01])
        found = linprog(
            cost, A_eq=forces * scale[:, None], b_eq=-loads(case, section) * scale, method="highs"
        )
        worst = max(worst, math.inf if found.fun is None else float(found.fun))
    return worst


@given(CASES, SECTIONS)
def test_the_least_force_on_a_bolt_is_the_optimum_of_a_linear_programme(
    case: LoadCase, section: Section
) -> None:
    assert bolt_n(case, section) == pytest.approx(least_bolt_n(case, section), rel=1e-6, abs=1e-5)


@given(CASES, SECTIONS, st.floats(0.0, 500.0))
def test_the_most_pull_is_the_optimum_of_a_linear_programme(
    case: LoadCase, section: Section, bolts: float
) -> None:
    """The largest F in equilibrium with no more on the bolts than they bear."""
    level = LoadCase("level", case.weight_n, case.moment_nmm, 1.0, case.pull_z_mm)
    least = math.inf
    for place in (0.0, -BLUNTED_MM):
        forces = contact_forces(section, place)
        pull = np.array([[1.0], [0.0], [level.pull_z_mm - section.contact_z_mm]])
        columns = np.hstack([forces, pull])
        resting = np.array([0.0, -case.weight_n, case.moment_nmm])
        scale = np.array([1.0, 1.0, 0.01])
        count = columns.shape[1]
        found = linprog(
            [0.0] * (count - 1) + [-1.0],
            A_eq=columns * scale[:, None],
            b_eq=-resting * scale,
            bounds=[(0.0, None)] * (count - 2) + [(0.0, bolts), (0.0, None)],
            method="highs",
        )
        if found.status == INFEASIBLE:
            # not even without a pull
            assert bolt_n(LoadCase("", case.weight_n, case.moment_nmm), section) > bolts - 1e-6
            return
        assert found.fun is not None
        least = min(least, -float(found.fun))
    assert most_pull_n(level, section, bolts_n=bolts) == pytest.approx(least, rel=1e-6, abs=1e-5)


@given(SECTIONS, st.floats(0.0, 60.0), st.floats(0.0, 6000.0), st.floats(-300.0, 300.0))
def test_the_most_pull_loads_the_bolts_with_just_what_they_bear(
    section: Section, weight: float, moment: float, height: float
) -> None:
    bolts = 100.0
    resting = LoadCase("", weight, moment)
    if bolt_n(resting, section) >= bolts:
        return
    at = LoadCase("", weight, moment, 0.0, height)
    pull = most_pull_n(at, section, bolts_n=bolts)
    drawn = LoadCase("", weight, moment, pull, height)
    assert bolt_n(drawn, section) == pytest.approx(bolts, rel=1e-6)


def test_a_lift_at_the_bevel_asks_for_what_exceeds_the_weight_and_for_its_own_turn() -> None:
    """By hand: 10 N up on 4 N; S pushes 3 mm behind the face, q = N = S - 6 hold it upright.

    3 S = q (2 * 14.5) - 3 N.
    """
    section = Section(0.0, 60.0, 45.0, 14.5)
    assert bolt_n(LoadCase("", 4.0, 0.0, lift_n=10.0), section) == pytest.approx(156.0 / 23.0)


def test_a_bevel_and_a_lower_edge_count_as_blunted_by_three_millimetres() -> None:
    assert BLUNT_MM == BLUNTED_MM


def test_the_foot_bears_what_turns_the_holder_out_over_its_depth() -> None:
    """Moments by hand about the bevel: 20 N at 50 mm, 5 N to the front 30 mm above it, 4 N up."""
    section = Section(-10.0, 80.0, 45.0, 14.5)
    case = LoadCase("", 20.0, 1000.0, 5.0, 20.0, 4.0, 60.0)
    assert foot_n(case, section) == pytest.approx((1000.0 + 150.0 - 240.0) / 80.0)
    assert foot_n(LoadCase("", 20.0, 0.0, 5.0, -200.0), section) == 0.0


def least_most_bolt_n(
    moment: float, weight: float, at: float, hooks: tuple[float, float], bolts: list[float]
) -> float:
    """Return the least of the largest bolt force: hooks push up at their ends, bolts down.

    Bolts alike share a turn as their distances from the end about which it goes: rigid bodies on
    equal springs. Both ways of the knock.
    """
    worst = 0.0
    for sign in (1.0, -1.0):
        pivot = hooks[1] if sign > 0.0 else hooks[0]
        arms = [abs(pivot - x) for x in bolts]
        # unknown: both hooks, and the force of the farthest bolt
        share = np.array(arms) / max(arms)
        up = [1.0, 1.0, -float(share.sum())]
        turn = [hooks[0], hooks[1], -float(share @ np.array(bolts))]
        found = linprog(
            [0.0, 0.0, 1.0],
            A_eq=[up, [v * 0.01 for v in turn]],
            b_eq=[weight, (weight * at + sign * moment) * 0.01],
            method="highs",
        )
        worst = max(worst, math.inf if found.fun is None else float(found.fun))
    return worst


@given(
    st.floats(0.0, 5000.0),
    st.floats(0.0, 40.0),
    st.floats(0.1, 0.9),
    st.lists(st.floats(0.1, 0.9), min_size=1, max_size=2),
    st.floats(20.0, 300.0),
)
def test_a_knock_along_the_wall_against_a_linear_programme(
    moment: float, weight: float, share: float, places: list[float], width: float
) -> None:
    hooks = (5.0, 5.0 + width)
    bolts = [5.0 + width * one for one in places]
    at = 5.0 + width * share
    found = knock_n(moment, weight, weight_x_mm=at, hooks_mm=hooks, bolts_mm=tuple(bolts))
    expected = least_most_bolt_n(moment, weight, at, hooks, bolts)
    assert found == pytest.approx(expected, rel=1e-6, abs=1e-5)


def test_a_knock_without_a_bolt_turns_off_what_its_weight_does_not_keep() -> None:
    hooks = {"hooks_mm": (0.0, 100.0), "bolts_mm": ()}
    assert knock_n(400.0, 10.0, weight_x_mm=50.0, **hooks) == 0.0  # type: ignore[arg-type]
    assert knock_n(600.0, 10.0, weight_x_mm=50.0, **hooks) == math.inf  # type: ignore[arg-type]
