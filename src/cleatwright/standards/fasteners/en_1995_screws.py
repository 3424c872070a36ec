"""EN 1995-1-1:2004 with A2: what a wood screw may carry, clause by clause, characteristic.

Screws up to 6 mm count as nails along the face (8.7.1(3)), with 1.1 times the root as their
effective diameter; drawn out they count from 6 mm up (8.7.2). Millimetres, newtons, kg/m3.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

Duration = Literal["permanent", "long", "medium", "short", "instantaneous"]

COPY = "public calculation sheets that name the clause, with cases worked by hand"


def _ec5(clause: str, evidence: Evidence = Evidence.SECONDARY) -> Source:
    return Source(
        "EN 1995-1-1:2004", clause, evidence, COPY if evidence is Evidence.SECONDARY else ""
    )


EMBEDMENT = _ec5("8.15 and 8.16")
BENDING = _ec5("8.14")
WITHDRAWAL = _ec5("8.38 and 8.39")
PULL_THROUGH = _ec5("8.40b")
EFFECTIVE = _ec5("8.7.1(3)")
LEAST_LENGTH = _ec5("8.7.2(3)")
FACTORS = _ec5("Table 3.1 and Table 2.3, solid timber, service classes 1 and 2")
TOGETHER = _ec5("8.28")
DISTANCES = _ec5("Table 8.6")
# nobody declares the steel of a screw from a shop: soft steel is on the safe side of hard screws
STEEL = Source("EN 14592", "tensile strength and head of a screw, low values", Evidence.MEMORY)
STEEL_MPA, HEAD_MPA, HEAD_DENSITY_KG_M3 = 400.0, 10.0, 350.0
ROOT_FACTOR, LEAST_DIAMETERS = 1.1, 6.0
GAMMA_M = 1.3
K_MOD: Mapping[Duration, float] = MappingProxyType(
    {"permanent": 0.6, "long": 0.7, "medium": 0.8, "short": 0.9, "instantaneous": 1.1}
)
# diameters between screws along the grain and across, and to the end and the edge of a member
ALONG, ACROSS, END, EDGE = 7.0, 5.0, 10.0, 4.0

VALUES = (
    Listed("Screws in wood", "EN 1995 effective diameter / root", ROOT_FACTOR, EFFECTIVE),
    Listed("Screws in wood", "EN 1995 least length of thread / d", LEAST_DIAMETERS, LEAST_LENGTH),
    Listed("Screws in wood", "EN 1995 gamma_M", GAMMA_M, FACTORS),
    *(Listed("Screws in wood", f"EN 1995 k_mod {k}", v, FACTORS) for k, v in K_MOD.items()),
    Listed("Screws in wood", "EN 1995 embedment, rho d^-0.3 x", 0.082, EMBEDMENT),
    Listed("Screws in wood", "EN 1995 bending, f_u d^2.6 x", 0.3, BENDING),
    Listed("Screws in wood", "EN 1995 withdrawal, d^-0.5 l^-0.1 rho^0.8 x", 0.52, WITHDRAWAL),
    Listed("Screws in wood", "EN 1995 head, (rho / 350)^0.8 x N/mm2", HEAD_MPA, PULL_THROUGH),
    Listed("Screws in wood", "steel of a screw N/mm2", STEEL_MPA, STEEL),
    Listed("Screws in wood", "EN 1995 screws apart along the grain / d", ALONG, DISTANCES),
    Listed("Screws in wood", "EN 1995 sum of squares at the most", 1.0, TOGETHER),
)


def embedment_mpa(density_kg_m3: float, *, diameter_mm: float, bored: bool = False) -> float:
    """Return the strength of wood under a dowel, 8.15, or 8.16 in a bored hole.

    >>> round(embedment_mpa(350.0, diameter_mm=3.4), 2)
    19.88
    """
    if bored:
        return 0.082 * (1.0 - 0.01 * diameter_mm) * density_kg_m3
    return 0.082 * density_kg_m3 * diameter_mm**-0.3


def yield_moment_nmm(steel_mpa: float, *, diameter_mm: float) -> float:
    """Return the moment at which a round dowel bends, 8.14.

    >>> round(yield_moment_nmm(600.0, diameter_mm=3.4))
    4336
    """
    return 0.3 * steel_mpa * diameter_mm**2.6


def withdrawal_mpa(density_kg_m3: float, *, diameter_mm: float, thread_mm: float) -> float:
    """Return the strength of wood round a thread, 8.39.

    >>> round(withdrawal_mpa(350.0, diameter_mm=6.0, thread_mm=55.0), 2)
    15.42
    """
    return 0.52 * diameter_mm**-0.5 * thread_mm**-0.1 * density_kg_m3**0.8


def withdrawal_n(density_kg_m3: float, *, diameter_mm: float, thread_mm: float) -> float:
    """Return what holds a thread in side grain, 8.38; 0 below six diameters of it (8.7.2(3)).

    >>> round(withdrawal_n(350.0, diameter_mm=6.0, thread_mm=55.0))
    3817
    >>> withdrawal_n(350.0, diameter_mm=6.0, thread_mm=20.0)
    0.0
    """
    if thread_mm < LEAST_DIAMETERS * diameter_mm - 1e-9:
        return 0.0
    strength = withdrawal_mpa(density_kg_m3, diameter_mm=diameter_mm, thread_mm=thread_mm)
    return strength * diameter_mm * thread_mm * min(diameter_mm / 8.0, 1.0)


def pull_through_n(density_kg_m3: float, *, head_mm: float, head_mpa: float = HEAD_MPA) -> float:
    """Return what keeps a head from coming through the piece under it, 8.40b.

    >>> round(pull_through_n(350.0, head_mm=12.0, head_mpa=10.5))
    1512
    """
    return head_mpa * head_mm**2 * (density_kg_m3 / HEAD_DENSITY_KG_M3) ** 0.8


def group_count(screws: int) -> float:
    """Return as how many screws so many count that are drawn out together, 8.41.

    >>> round(group_count(10), 3)
    7.943
    """
    return screws**0.9


def johansen_n(
    *, side_n_mm: float, main_n_mm: float, side_mm: float, main_mm: float, bent_nmm: float
) -> tuple[float, ...]:
    """Return the loads of the modes a to f of timber on timber in single shear, 8.6, without rope.

    Args:
        side_n_mm: What the piece under the head bears for each mm of the dowel in it.
        main_n_mm: The same of the other piece.
        side_mm: Length of the dowel in the piece under the head.
        main_mm: Length of it in the other piece.
        bent_nmm: Moment at which the dowel bends.
    """
    ratio, apart = main_n_mm / side_n_mm, main_mm / side_mm
    force = side_n_mm * side_mm
    turned = math.sqrt(ratio + 2 * ratio**2 * (1 + apart + apart**2) + ratio**3 * apart**2)
    bent = 4 * ratio * bent_nmm / (side_n_mm * side_mm**2)
    bent_main = 4 * ratio * (1 + 2 * ratio) * bent_nmm / (side_n_mm * main_mm**2)
    return (
        force,
        main_n_mm * main_mm,
        force / (1 + ratio) * (turned - ratio * (1 + apart)),
        1.05
        * force
        / (2 + ratio)
        * (math.sqrt(2 * ratio * (1 + ratio) + bent * (2 + ratio)) - ratio),
        1.05
        * side_n_mm
        * main_mm
        / (1 + 2 * ratio)
        * (math.sqrt(2 * ratio**2 * (1 + ratio) + bent_main) - ratio),
        1.15 * math.sqrt(2 * ratio / (1 + ratio)) * math.sqrt(2 * bent_nmm * side_n_mm),
    )


def with_rope_n(modes_n: tuple[float, ...], *, axial_n: float, share: float = 1.0) -> float:
    """Return the least mode with its rope effect, F_ax / 4 but no more than a share of it.

    Only the modes in which the dowel bends, or turns, have one; 8.2.2(2): 1.0 for screws, 0.15
    for smooth nails.

    Args:
        modes_n: The six loads of ``johansen_n``.
        axial_n: What the dowel bears straight out.
        share: The most that the rope effect may add, as a share of the mode.
    """
    rope = [0.0, 0.0, *(min(axial_n / 4.0, share * mode) for mode in modes_n[2:])]
    return min(mode + more for mode, more in zip(modes_n, rope, strict=True))


def design_n(characteristic_n: float, duration: Duration) -> float:
    """Return a design value: k_mod R_k / gamma_M.

    >>> round(design_n(988.8, "medium"), 1)
    608.5
    """
    return K_MOD[duration] * characteristic_n / GAMMA_M
