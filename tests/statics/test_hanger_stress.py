"""The forces of a hanger in its groove, and the stress where it and the plate are thinnest.

Sources: equilibrium by hand and by a linear programme over many places of contact; beams, M = F l
and W = b h2 / 6.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import linprog

from cleatwright.mounts.printed.rail_back import Hangers, groove_for
from cleatwright.statics.captured import Section
from cleatwright.statics.cleat import LoadCase
from cleatwright.statics.hanger_stress import HangerForces, hanger_forces
from cleatwright.statics.load_table import LoadTable
from cleatwright.statics.rail_contacts import RailContacts

# hangers of 24 mm at both ends, 5 mm from the edge, before 4 mm of plate
HANGERS = Hangers(24.0, (5.0, 71.0), 100.0)
GROOVE = groove_for(HANGERS, thick_mm=7.05, bedded=True)
RESTING = LoadCase("10 N, 20 mm out", 10.0, 200.0, along_nmm=500.0, hand_x_mm=50.0)


def forces(case: LoadCase, section: Section) -> HangerForces:
    """Return the forces of one case, with a bolt in the middle and a back 20 mm below the bevel."""
    middles = HANGERS.spans_mm[0][0] + 12.0, HANGERS.spans_mm[1][0] + 12.0
    low = min(20.0, section.depth_mm)
    back = RailContacts(section, middles, (0.0, 100.0), low, ((41.0, 59.0),), (50.0,))
    table = LoadTable.of([case])
    found = hanger_forces(table, back.bolts_n(table), back, GROOVE, HANGERS.spans_mm)
    return HangerForces(*(value[0] for value in vars(found).values()))


def at(bevel_deg: float = 45.0) -> Section:
    return Section(0.0, 66.0, bevel_deg, 14.5)


def test_the_neck_and_the_wall_of_a_resting_tool_by_hand() -> None:
    """Q = 10 N 3 mm behind the face: M = 10 (3 * 2 + 5) = 110 Nmm about the middle of the root.

    s 4.5 = 110 + 10 (1.25 + 4.75), so that s = 37.8 and u = (20 + s) / 2 = 28.9 N, f = 18.9 N.
    At the lower end of the floor, 5.05 mm from the back's face and 4.6 below the middle:
    28.9 (9.35 - 3.8) - 37.8 * 9.1 = -183.5 Nmm on a strip of 48 + 2 (5 + 4.6) = 67.2 mm.
    """
    found = forces(RESTING, at())
    assert found.up_n == pytest.approx(10.0)
    assert found.moment_nmm == pytest.approx(110.0)
    assert found.shoulder_n == pytest.approx(170.0 / 4.5)
    assert (found.upper_n, found.lower_n) == (
        pytest.approx(28.889, rel=1e-4),
        pytest.approx(18.889, rel=1e-4),
    )
    assert found.neck_mpa(GROOVE) == pytest.approx(6 * 110 / (48 * 64) + 10 / (48 * 8))
    assert found.lip_mpa(GROOVE) == pytest.approx(18.889 / (48 * 2.0), rel=1e-4)
    bent = 37.778 * 9.1 - 28.889 * (9.35 - 3.8)
    assert found.wall_mpa(GROOVE) == pytest.approx((6 * bent / 4 + 28.889) / (67.2 * 4), rel=1e-4)


@pytest.mark.parametrize("bevel_deg", [30.0, 45.0, 60.0])
@pytest.mark.parametrize("pull_n", [0.0, 10.0])
def test_the_forces_on_the_groove_are_in_equilibrium(bevel_deg: float, pull_n: float) -> None:
    """Up, out, and moments about the middle of the neck, all three by their components."""
    case = replace(RESTING, pull_n=pull_n, pull_z_mm=30.0)
    found = forces(case, at(bevel_deg))
    y, z = 1.25, 4.75
    s, u, f = found.shoulder_n, found.upper_n, found.lower_n
    assert min(s, u, f) >= 0.0
    assert u - f == pytest.approx(found.up_n)
    assert u + f - s == pytest.approx(found.up_n * math.tan(math.radians(bevel_deg)))
    assert s * 4.5 - (u - f) * (y + z) == pytest.approx(found.moment_nmm)


@pytest.mark.parametrize("bevel_deg", [30.0, 45.0, 60.0])
def test_no_better_distribution_would_bend_the_wall_much_less(bevel_deg: float) -> None:
    """A linear programme over places on every face: ours is safe, and by a third at most."""
    found = forces(RESTING, at(bevel_deg))
    ours = (found.wall_mpa(GROOVE) * 67.2 * 4.0 - found.upper_n) * 4.0 / 6.0
    least = least_bent_nmm(found)
    assert least <= ours <= 1.34 * least


def least_bent_nmm(found: HangerForces) -> float:
    """Return the least of the worse moment at the two ends of the wall's strip."""
    shares = np.linspace(0.05, 0.95, 7)
    upper = (
        [(0.0, 4.0 + k, 1.0, 0.0) for k in shares]
        + [(0.5 + 1.5 * k, 4.0 + 1.5 * k, -1.0, 1.0) for k in shares]
        + [(2.0 + 0.9 * k, 5.5 - 0.9 * k, 1.0, 1.0) for k in shares]
        + [(0.5 * k, 4.0, 0.0, 1.0) for k in shares]
    )
    lower = [(y, -z, dy, -dz) for y, z, dy, dz in upper]
    forces = [*upper, *lower]
    turns = [y * dz - z * dy for y, z, dy, dz in forces]
    sums = [[f[2] for f in forces], [f[3] for f in forces], turns]
    middle = 3.05 + 2.0
    ends = [
        [(y - middle) * dz - (z - end) * dy for y, z, dy, dz in upper] + [0.0] * len(lower)
        for end in (4.6, -4.6)
    ]
    result = linprog(
        [0.0] * len(forces) + [1.0],
        A_ub=[[*(sign * m for m in row), -1.0] for row in ends for sign in (1.0, -1.0)],
        b_ub=[0.0] * 4,
        A_eq=[[*row, 0.0] for row in sums],
        b_eq=np.array([-found.out_n, found.up_n, -found.moment_nmm]),
        method="highs",
    )
    assert result.fun is not None
    return float(result.fun)


def test_the_wall_that_is_needed_bears_just_what_it_may() -> None:
    found = forces(RESTING, at())
    wall = found.wall_needed_mm(GROOVE, stress_mpa=6.0)
    assert found.wall_mpa(replace(GROOVE, wall_mm=wall)) <= 6.0
    assert found.wall_mpa(replace(GROOVE, wall_mm=wall - 0.1)) > 6.0
    assert found.wall_needed_mm(GROOVE, stress_mpa=0.01) == math.inf


def test_what_no_bolt_holds_has_no_bound() -> None:
    """A bevel that is blunted by more than the foot is deep gives nothing to hold by."""
    found = forces(replace(RESTING, pull_n=50.0), replace(at(), depth_mm=5.0))
    assert found.neck_mpa(GROOVE) == math.inf


@pytest.mark.parametrize(("x_mm", "share"), [(50.0, 1.0), (17.0, 2.0), (83.0, 2.0), (30.0, 1.606)])
def test_a_tool_at_one_end_hangs_on_one_hanger(x_mm: float, share: float) -> None:
    """By hand: middles at 17 and 83 mm; at 30 mm the lever gives (83 - 30) / 66 of 10 N, twice."""
    middle = forces(RESTING, at())
    aside = forces(replace(RESTING, along_nmm=10.0 * x_mm), at())
    assert aside.up_n == pytest.approx(share * middle.up_n, rel=1e-3)
    assert aside.moment_nmm == pytest.approx(share * middle.moment_nmm, rel=1e-3)
    assert aside.neck_mpa(GROOVE) == pytest.approx(share * middle.neck_mpa(GROOVE), rel=1e-3)


def test_a_bolt_that_holds_one_end_loads_the_hanger_beside_it() -> None:
    """A lift of 10 N at 17 mm, a bolt at 70 mm: S 13 = 10 * 66 about the far middle at 83 mm.

    All of S - 10 goes to that hanger, which is one of two.
    """
    back = RailContacts(at(), (17.0, 83.0), (0.0, 100.0), 20.0, ((61.0, 79.0),), (70.0,))
    lift = LoadCase("", 0.0, 0.0, lift_n=10.0, lift_y_mm=-6.0, hand_x_mm=17.0)
    table = LoadTable.of([lift])
    bolts = back.bolts_n(table)
    assert bolts[0] == pytest.approx(10.0 * 66.0 / 13.0, rel=0.05)
    found = hanger_forces(table, bolts, back, GROOVE, HANGERS.spans_mm)
    assert found.up_n[0] == pytest.approx(2.0 * (bolts[0] - 10.0), rel=1e-2)
