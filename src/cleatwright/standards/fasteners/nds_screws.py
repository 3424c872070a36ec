"""NDS 2018: what a wood screw may carry, drawn out of its wood, along its face, and both.

Design values for allowable stress design, with the factor for permanent load left to the
caller. The document works in inches and pounds; here they are turned into mm and N.

For a screw that is less than ten diameters deep the document offers two ways: the tabulated value
times p / 10 D, or the yield equations with the length that really bears, p - D. Here it is always
the equations: a lining makes a gap, and no table has values for one. Both at once would count the
short screw twice.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Listed, Table

MM_PER_INCH = 25.4
N_PER_LBF = 4.4482216152605
MPA_PER_PSI = N_PER_LBF / MM_PER_INCH**2

CHECKED = "public check programs that name clause and page"


def _nds(clause: str, copy: str = CHECKED) -> Source:
    return Source("NDS 2018", clause, Evidence.SECONDARY, copy)


WITHDRAWAL = _nds("Eq. 12.2-2, in side grain", "engineeringtoolbox.com; " + CHECKED)
PULL_THROUGH = _nds("Eq. 12.2-6a and b")
LATERAL = _nds("Table 12.3.1A with the length in 12.3.5.3")
LEAST_DEPTH = _nds("12.1.5.6, the tip included")
GAPPED = Source(
    "AWC Technical Report 12",
    "Table 1-1, Example 3.1",
    Evidence.SECONDARY,
    "a public test with all modes of the example",
)
COMBINED = _nds("Eq. 12.4-1")
DURATION = _nds("Table 2.3.2, permanent load")
PERMANENT = 0.9
SEVEN_DAYS, TEN_MINUTES = 1.25, 1.6
DURATIONS = _nds("Table 2.3.2, seven days and ten minutes")
BEARING = _nds("Table 12.3.3 footnote 2, below 1/4 inch")
# in pounds and inches, as printed
WITHDRAWAL_FACTOR, PULL_THROUGH_FACTOR, BEARING_FACTOR = 2850.0, 690.0, 16600.0
LEAST_K_D = 2.2

_GRAVITY = _nds("Table 12.3.3A", "two public transcriptions that agree")
_LIMITS = Source("NDS 2018", "Table I1, limits", Evidence.MEMORY)
_BENDING = _nds("Table I1, by gauge", "a public transcription of NDS 2018 with its pages")

GRAVITIES = Table(
    name="NDS Table 12.3.3A specific gravity, oven-dry",
    key_name="timber",
    columns=(Column("specific_gravity", _GRAVITY),),
    rows=(
        ("spruce-pine-fir", (0.42,)),
        ("spruce-pine-fir, south", (0.36,)),
        ("hem-fir", (0.43,)),
        ("douglas fir-larch", (0.50,)),
        ("southern pine", (0.55,)),
    ),
)
BENDING = Table(
    name="NDS Table I1 bending yield strength of wood screws, from this diameter down",
    key_name="diameter",
    columns=(
        Column("diameter_in", _LIMITS),
        Column("bending_psi", _BENDING),
    ),
    rows=(
        ("0.142", (0.142, 100_000.0)),
        ("0.177", (0.177, 90_000.0)),
        ("0.236", (0.236, 80_000.0)),
        ("0.273", (0.273, 70_000.0)),
    ),
)
# the lower limit of EN 1995-1-1, 8.7.2, for what counts as a screw: thinner is weaker
ROOT_SHARE = 0.6
ROOT = Source(
    "EN 1995-1-1, 8.7.2",
    "root / diameter, lower limit",
    Evidence.SECONDARY,
    "public calculation sheets that name the clause",
)
LEAST_PENETRATION = 6.0
# a depth comes from lengths taken off each other: 45 - 9.2 - 5.8 is a little less than 30
ROUNDING_MM = 1e-9
VALUES = (
    Listed("Screws in wood", "withdrawal lbf per inch, G^2 D x", WITHDRAWAL_FACTOR, WITHDRAWAL),
    Listed("Screws in wood", "pull-through lbf, pi D_H G^2 t x", PULL_THROUGH_FACTOR, PULL_THROUGH),
    Listed("Screws in wood", "bearing psi, G^1.84 x", BEARING_FACTOR, BEARING),
    Listed("Screws in wood", "K_D up to 0.17 in", LEAST_K_D, LATERAL),
    Listed("Screws in wood", "least depth / diameter", LEAST_PENETRATION, LEAST_DEPTH),
    Listed("Screws in wood", "permanent load x", PERMANENT, DURATION),
    Listed("Screws in wood", "load of seven days x", SEVEN_DAYS, DURATIONS),
    Listed("Screws in wood", "load of ten minutes x", TEN_MINUTES, DURATIONS),
    Listed("Screws in wood", "root / diameter", ROOT_SHARE, ROOT),
)


@dataclass(frozen=True)
class Dowel:
    """A screw across a joint.

    Args:
        diameter_mm: Outer diameter, > 0 and below 1/4 inch.
        root_mm: Diameter between the threads.
        bending_mpa: Its bending yield strength.
    """

    diameter_mm: float
    root_mm: float
    bending_mpa: float


@dataclass(frozen=True)
class WoodAround:
    """The wood around a screw on both sides of a joint, and a gap of no strength between them.

    Args:
        side_mm: Thickness of the piece under the head.
        penetration_mm: How deep the screw is in the other piece, its tip included.
        side_gravity: Specific gravity of the piece under the head.
        main_gravity: Specific gravity of the other piece.
        gap_mm: What lies between them and carries nothing, such as plasterboard.
    """

    side_mm: float
    penetration_mm: float
    side_gravity: float
    main_gravity: float
    gap_mm: float = 0.0


@dataclass(frozen=True)
class DowelJoint:
    """Two pieces with a dowel across them, as the yield equations know them.

    Args:
        side_n_mm: What the piece under the head bears for each mm of the dowel in it.
        main_n_mm: What the other piece bears for each mm.
        side_mm: Length of the dowel in the piece under the head.
        main_mm: Length of the dowel that bears in the other piece.
        bent_nmm: Moment at which the dowel bends.
        gap_mm: Distance between the pieces.
    """

    side_n_mm: float
    main_n_mm: float
    side_mm: float
    main_mm: float
    bent_nmm: float
    gap_mm: float = 0.0


def metric_dowel(diameter_mm: float) -> Dowel:
    """Return a metric wood screw as a dowel, its root and its steel on the safe side.

    Args:
        diameter_mm: Nominal diameter, above 0 and up to 6 mm.

    Raises:
        MeasureError: The diameter is out of range.

    >>> round(metric_dowel(5.0).root_mm, 2)
    3.0
    """
    if not 0.0 < diameter_mm <= 6.0:
        raise MeasureError(
            f"a wood screw of {said.mm(diameter_mm)}", allowed=f"above 0 and up to {said.most(6)}"
        )
    inches = diameter_mm / MM_PER_INCH
    psi = next(p for _, (limit, p) in BENDING.rows if inches <= limit)
    return Dowel(diameter_mm, ROOT_SHARE * diameter_mm, psi * MPA_PER_PSI)


def withdrawal_n(specific_gravity: float, *, diameter_mm: float, thread_mm: float) -> float:
    """Return what holds a thread in side grain: W = 2850 G^2 D lbf for each inch of it.

    >>> round(withdrawal_n(0.42, diameter_mm=4.1656, thread_mm=25.4) / 4.4482, 1)
    82.4
    """
    inches = diameter_mm / MM_PER_INCH
    return WITHDRAWAL_FACTOR * specific_gravity**2 * inches * thread_mm / MM_PER_INCH * N_PER_LBF


def pull_through_n(specific_gravity: float, *, head_mm: float, side_mm: float) -> float:
    """Return what keeps a head from coming through the piece under it, 12.2-6a and b.

    >>> round(pull_through_n(0.42, head_mm=12.7, side_mm=38.1) / 4.4482)
    239
    """
    head, side = head_mm / MM_PER_INCH, side_mm / MM_PER_INCH
    return (
        PULL_THROUGH_FACTOR
        * math.pi
        * head
        * specific_gravity**2
        * min(side, 2.5 * head)
        * N_PER_LBF
    )


def bearing_mpa(specific_gravity: float) -> float:
    """Return the strength of wood under a dowel below 1/4 inch: 16600 G^1.84 psi, to 50 psi."""
    return round(BEARING_FACTOR * specific_gravity**1.84 / 50.0) * 50.0 * MPA_PER_PSI


def joint_of(dowel: Dowel, bed: WoodAround) -> DowelJoint:
    """Return a screw in its bed as the yield equations know it.

    The length in the main piece leaves out half of the tapered tip, which is two diameters long
    (NDS 2018, 12.3.5.3).
    """
    return DowelJoint(
        side_n_mm=bearing_mpa(bed.side_gravity) * dowel.root_mm,
        main_n_mm=bearing_mpa(bed.main_gravity) * dowel.root_mm,
        side_mm=bed.side_mm,
        main_mm=bed.penetration_mm - dowel.diameter_mm,
        bent_nmm=dowel.bending_mpa * dowel.root_mm**3 / 6.0,
        gap_mm=bed.gap_mm,
    )


def yield_loads_n(joint: DowelJoint) -> tuple[tuple[str, float], ...]:
    """Return the load of each way in which a joint in single shear gives, by its name.

    Without a gap these are the modes of NDS Table 12.3.1A before division by the term R_d.
    """
    q_s, q_m, bent, gap = joint.side_n_mm, joint.main_n_mm, joint.bent_nmm, joint.gap_mm
    l_s, l_m = joint.side_mm, joint.main_mm
    side, main = q_s * l_s**2 / 4.0, q_m * l_m**2 / 4.0

    def root(a: float, b: float, c: float) -> float:
        return (math.sqrt(b * b + 4.0 * a * c) - b) / (2.0 * a)

    return (
        ("Im", q_m * l_m),
        ("Is", q_s * l_s),
        ("II", root(0.25 / q_s + 0.25 / q_m, l_s / 2 + gap + l_m / 2, side + main)),
        ("IIIm", root(0.5 / q_s + 0.25 / q_m, gap + l_m / 2, bent + main)),
        ("IIIs", root(0.25 / q_s + 0.5 / q_m, l_s / 2 + gap, side + bent)),
        ("IV", root(0.5 / q_s + 0.5 / q_m, gap, 2.0 * bent)),
    )


def lateral_n(dowel: Dowel, bed: WoodAround) -> float:
    """Return what a screw may carry along the face of the joint.

    Nothing counts below six diameters in the main piece.
    """
    if bed.penetration_mm < LEAST_PENETRATION * dowel.diameter_mm - ROUNDING_MM:
        return 0.0
    root_in = dowel.root_mm / MM_PER_INCH
    k_d = LEAST_K_D if root_in <= 0.17 else 10.0 * root_in + 0.5
    lowest = min(load for _, load in yield_loads_n(joint_of(dowel, bed)))
    return lowest / k_d


def combined_n(out_n: float, along_n: float, *, angle_deg: float) -> float:
    """Return what a screw may carry at an angle to the face, W'p Z' / (W'p cos2 + Z' sin2).

    Args:
        out_n: What it may carry straight out, >= 0.
        along_n: What it may carry along the face, >= 0.
        angle_deg: Angle of the load to the face, 0 to 90 degrees.

    >>> combined_n(300.0, 200.0, angle_deg=0.0), round(combined_n(300.0, 200.0, angle_deg=90.0))
    (200.0, 300)
    """
    if out_n <= 0.0 or along_n <= 0.0:
        return 0.0
    lean = math.radians(angle_deg)
    return out_n * along_n / (out_n * math.cos(lean) ** 2 + along_n * math.sin(lean) ** 2)
