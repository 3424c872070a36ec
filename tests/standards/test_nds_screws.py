"""Oracle: NDS 2018, Tables 12.2B, 12.2F, 12L and 12N, 12.3 and 12.4; Report 12 (secondary)."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from cleatwright.base.errors import MeasureError
from cleatwright.standards.fasteners.nds_screws import (
    MM_PER_INCH,
    MPA_PER_PSI,
    N_PER_LBF,
    Dowel,
    DowelJoint,
    WoodAround,
    bearing_mpa,
    combined_n,
    joint_of,
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
    bed = WoodAround(side_in * MM_PER_INCH, 10.0 * screw.diameter_mm, gravity, gravity)
    assert lateral_n(screw, bed) / N_PER_LBF == pytest.approx(lbf, abs=0.6)


def nail_16d(
    gravity: float, *, side_in: float = 1.5, deep_in: float = 2.0
) -> tuple[Dowel, WoodAround]:
    """Return a 16d common nail, 0.162 in thick, with ``deep_in`` of bearing besides its tip."""
    nail = Dowel(0.162 * MM_PER_INCH, 0.162 * MM_PER_INCH, 90_000 * MPA_PER_PSI)
    side, deep = side_in * MM_PER_INCH, deep_in * MM_PER_INCH + nail.diameter_mm
    return nail, WoodAround(side, deep, gravity, gravity)


@pytest.mark.parametrize(("gravity", "lbf"), [(0.55, 154), (0.50, 141), (0.42, 120)])
def test_lateral_is_the_printed_cell_of_table_12n(gravity: float, lbf: int) -> None:
    """A smooth nail is a dowel whose root is as thick as itself (two transcriptions of 12N)."""
    nail, bed = nail_16d(gravity)
    assert lateral_n(nail, bed) / N_PER_LBF == pytest.approx(lbf, abs=0.5)


def test_the_six_modes_of_a_worked_sheet_are_met() -> None:
    """A worked spreadsheet of a 16d nail, G 0.42: R_d 2.2, F_e 3364.24 psi (not rounded there)."""
    bearing = 3364.24 * MPA_PER_PSI * 0.162 * MM_PER_INCH
    bent = 90_000 * MPA_PER_PSI * (0.162 * MM_PER_INCH) ** 3 / 6.0
    joint = DowelJoint(bearing, bearing, 1.5 * MM_PER_INCH, 2.0 * MM_PER_INCH, bent)
    ours = [n / 2.2 / N_PER_LBF for _, n in yield_loads_n(joint)]
    printed = [495.5, 371.6, 182.7, 179.3, 142.5, 119.84]
    assert ours == pytest.approx(printed, abs=0.05)


# AWC Technical Report 12, Example 3.1 (a transcription with all modes): a bolt of 1/2 inch through
# two pieces of 1-1/2 inch, F_yb 45 000 psi; F_e in psi of main and side, gap in inches, six modes
GAPPED = [
    (4800, 4800, 0.0, [900, 900, 414, 550, 550, 663]),
    (4800, 2550, 0.0, [720, 383, 250, 380, 324, 442]),
    (2550, 2550, 0.0, [383, 383, 176, 289, 289, 387]),
    (4800, 4800, 0.25, [900, 900, 370, 482, 482, 576]),
    (4800, 2550, 0.25, [720, 383, 224, 341, 284, 393]),
    (2550, 2550, 0.25, [383, 383, 157, 258, 258, 349]),
    (4800, 4800, 0.5, [900, 900, 333, 426, 426, 501]),
    (4800, 2550, 0.5, [720, 383, 202, 307, 250, 350]),
    (2550, 2550, 0.5, [383, 383, 142, 231, 231, 315]),
]


@pytest.mark.parametrize(("main_psi", "side_psi", "gap_in", "lbf"), GAPPED)
def test_a_joint_with_a_gap_gives_as_the_published_example_says(
    main_psi: float, side_psi: float, gap_in: float, lbf: list[float]
) -> None:
    """The terms R_d are 4, 3.6 and 3.2, a quarter more where a piece is loaded across its grain."""
    across = 1.0 if main_psi == side_psi == 4800 else 1.25
    diameter, length = 0.5 * MM_PER_INCH, 1.5 * MM_PER_INCH
    joint = DowelJoint(
        side_psi * MPA_PER_PSI * diameter,
        main_psi * MPA_PER_PSI * diameter,
        length,
        length,
        45_000 * MPA_PER_PSI * diameter**3 / 6.0,
        gap_in * MM_PER_INCH,
    )
    terms = (4.0, 4.0, 3.6, 3.2, 3.2, 3.2)
    ours = [
        n / (across * term) / N_PER_LBF
        for (_, n), term in zip(yield_loads_n(joint), terms, strict=True)
    ]
    assert ours == pytest.approx(lbf, abs=0.51)


# NDS 2018, 12.3.5.3 with l_m = p - D: gauge, G, side in inches, p / D, pounds by the equations,
# pounds by the table times p / 10 D (footnote 3 of Table 12L), both computed with other code
SHORT_SCREWS = [
    ("#8", 0.42, 1.5, 6.0, 71.8, 46.9),
    ("#10", 0.42, 1.5, 6.0, 94.2, 59.6),
    ("#8", 0.42, 0.5, 6.0, 57.2, 35.3),
    ("#10", 0.42, 0.75, 7.0, 83.4, 58.4),
    ("#8", 0.42, 0.75, 8.0, 68.6, 54.8),
]


@pytest.mark.parametrize(("gauge", "gravity", "side_in", "depth", "lbf", "by_table"), SHORT_SCREWS)
def test_a_short_screw_is_reduced_once(
    gauge: str, gravity: float, side_in: float, depth: float, lbf: float, by_table: float
) -> None:
    """By the length that bears, so never below the tabulated value times p / 10 D."""
    screw = dowel(gauge)
    short, full = (
        lateral_n(screw, WoodAround(side_in * MM_PER_INCH, n * screw.diameter_mm, gravity, gravity))
        / N_PER_LBF
        for n in (depth, 10.0)
    )
    assert short == pytest.approx(lbf, abs=0.1)
    assert full * depth / 10.0 == pytest.approx(by_table, abs=0.1)
    assert short > by_table


def test_penetration_counts_from_six_diameters() -> None:
    """NDS 2018, 12.1.5.6, the tip included; mode IV does not know the depth."""
    screw = dowel("#14")
    at = [
        lateral_n(screw, WoodAround(38.1, n * screw.diameter_mm, 0.5, 0.5))
        for n in (10.0, 8.0, 5.99)
    ]
    assert at[0] == at[1] > 0.0
    assert at[2] == 0.0


def test_a_screw_at_45_degrees_carries_its_100_pounds_as_70_71_each_way() -> None:
    """NDS 2018, 12.4-1 with W'p = Z' = 100 lbf; the first powers of nails would end at 50 each."""
    reached = combined_n(100.0, 100.0, angle_deg=45.0)
    assert reached * math.cos(math.radians(45.0)) == pytest.approx(70.71, abs=0.005)
    assert 50.0 / (reached * math.cos(math.radians(45.0))) == pytest.approx(0.707, abs=5e-4)


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
    bed = WoodAround(side, depth, gravity, 0.42, gap)
    ours = min(n for _, n in yield_loads_n(joint_of(screw, bed)))
    assert ours == pytest.approx(min(found), rel=1e-4)


def test_a_gap_never_makes_a_joint_stronger() -> None:
    screw = metric_dowel(5.0)
    loads = [lateral_n(screw, WoodAround(18.0, 39.5, 0.42, 0.42, gap)) for gap in (0.0, 12.5, 25.0)]
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
