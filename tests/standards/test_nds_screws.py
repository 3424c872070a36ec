"""Oracle: cells of NDS 2018 Tables 12.2B, 12.2F and 12L (seen in secondary sources)."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from cleatwright.base.errors import MeasureError
from cleatwright.standards.nds_screws import (
    MM_PER_INCH,
    MPA_PER_PSI,
    N_PER_LBF,
    Bed,
    Dowel,
    bearing_mpa,
    combined_n,
    lateral_n,
    metric_dowel,
    pull_through_n,
    withdrawal_n,
    yield_loads_n,
)

Floats = npt.NDArray[np.float64]
# Appendix L Table L3: gauge, diameter, root in inches, bending yield strength in psi
GAUGES = {
    "#8": (0.164, 0.131, 90_000),
    "#10": (0.190, 0.152, 80_000),
    "#12": (0.216, 0.171, 80_000),
    "#14": (0.242, 0.196, 70_000),
}


def dowel(gauge: str) -> Dowel:
    diameter, root, psi = GAUGES[gauge]
    return Dowel(diameter * MM_PER_INCH, root * MM_PER_INCH, psi * MPA_PER_PSI)


@pytest.mark.parametrize(
    ("gauge", "gravity", "lbf"),
    [
        ("#8", 0.42, 82),
        ("#10", 0.50, 135),
        ("#14", 0.55, 208),
        ("#14", 0.50, 172),
        ("#14", 0.42, 121),
    ],
)
def test_withdrawal_is_the_printed_cell_of_table_12_2b(
    gauge: str, gravity: float, lbf: int
) -> None:
    """The printed cells are cut, not rounded, to whole pounds an inch."""
    ours = withdrawal_n(gravity, diameter_mm=dowel(gauge).diameter_mm, thread_mm=MM_PER_INCH)
    assert int(ours / N_PER_LBF) == lbf


@pytest.mark.parametrize(
    ("gravity", "head_in", "side_in", "lbf"),
    [(0.50, 0.234, 0.3125, 40), (0.50, 0.312, 1.0, 132), (0.42, 0.500, 1.5, 239)],
)
def test_pull_through_is_the_printed_cell_of_table_12_2f(
    gravity: float, head_in: float, side_in: float, lbf: int
) -> None:
    ours = pull_through_n(gravity, head_mm=head_in * MM_PER_INCH, side_mm=side_in * MM_PER_INCH)
    assert ours / N_PER_LBF == pytest.approx(lbf, abs=0.5)


@pytest.mark.parametrize(
    ("gauge", "side_in", "gravity", "lbf"),
    [
        ("#10", 0.5, 0.50, 90),
        ("#8", 0.5, 0.50, 73),
        ("#14", 0.5, 0.50, 120),
        ("#12", 0.5, 0.42, 91),
        ("#10", 1.5, 0.50, 117),
    ],
)
def test_lateral_is_the_printed_cell_of_table_12l(
    gauge: str, side_in: float, gravity: float, lbf: int
) -> None:
    screw = dowel(gauge)
    bed = Bed(side_in * MM_PER_INCH, 10.0 * screw.diameter_mm, gravity, gravity)
    assert lateral_n(screw, bed) / N_PER_LBF == pytest.approx(lbf, abs=0.6)


def test_penetration_counts_from_six_diameters_and_in_full_from_ten() -> None:
    """NDS 2018, 12.1.5.6 and Table 12L footnote 3; mode IV does not know the depth."""
    screw = dowel("#10")
    full, reduced, shallow = (
        lateral_n(screw, Bed(38.1, n * screw.diameter_mm, 0.5, 0.5)) for n in (10.0, 8.0, 5.9)
    )
    assert reduced == pytest.approx(0.8 * full)
    assert shallow == 0.0


@settings(deadline=None, max_examples=25)
@given(
    side=st.floats(9.0, 40.0),
    depth=st.floats(30.0, 60.0),
    gap=st.floats(0.0, 30.0),
    gravity=st.floats(0.36, 0.55),
)
def test_the_lowest_mode_is_the_least_work_of_all_mechanisms(
    side: float, depth: float, gap: float, gravity: float
) -> None:
    """Limit analysis from above: crushing and two hinges at free depths, least over all of them.

    A dowel that turns by a small angle about a point ``a`` deep in the side piece and ``b`` deep
    in the main one moves the pieces by (a + gap + b) times that angle against each other. It
    stays straight to the end of a piece, or bends at a hinge there.
    """
    screw = metric_dowel(5.0)
    l_m = depth - screw.diameter_mm
    q_s, q_m = bearing_mpa(gravity) * screw.root_mm, bearing_mpa(0.42) * screw.root_mm
    bent = screw.bending_mpa * screw.root_mm**3 / 6.0

    def work(q: float, turn: float, length: float, *, hinge: bool) -> float:
        if hinge:
            return q * turn**2 / 2 + bent
        return q * (turn**2 + (length - turn) ** 2) / 2

    found = [q_s * side, q_m * l_m]
    for hinge_s in (False, True):
        for hinge_m in (False, True):

            def load(p: Floats, s: bool = hinge_s, m: bool = hinge_m) -> float:
                a, b = float(p[0]), float(p[1])
                inside = work(q_s, a, side, hinge=s) + work(q_m, b, l_m, hinge=m)
                return inside / (a + gap + b)

            result = minimize(
                load,
                np.array([side / 2, l_m / 2]),
                bounds=[(1e-3, 500.0), (1e-3, 500.0)],
                tol=1e-12,
            )
            found.append(float(result.fun))
    ours = min(n for _, n in yield_loads_n(screw, Bed(side, depth, gravity, 0.42, gap)))
    assert ours == pytest.approx(min(found), rel=1e-4)


def test_a_gap_never_makes_a_joint_stronger() -> None:
    screw = metric_dowel(5.0)
    loads = [lateral_n(screw, Bed(18.0, 39.5, 0.42, 0.42, gap)) for gap in (0.0, 12.5, 25.0)]
    assert loads == sorted(loads, reverse=True)
    assert loads[2] < 0.6 * loads[0]


@settings(deadline=None, max_examples=40)
@given(out=st.floats(1.0, 1e4), along=st.floats(1.0, 1e4), angle=st.floats(0.0, 90.0))
def test_a_combined_load_lies_between_its_two_ends(out: float, along: float, angle: float) -> None:
    low, high = sorted((out, along))
    assert low * (1 - 1e-9) <= combined_n(out, along, angle_deg=angle) <= high * (1 + 1e-9)


def test_a_screw_that_carries_nothing_one_way_carries_nothing_askew() -> None:
    assert combined_n(0.0, 100.0, angle_deg=45.0) == 0.0


def test_a_thick_screw_is_refused() -> None:
    with pytest.raises(MeasureError, match="up to 6 mm"):
        metric_dowel(8.0)
