"""How strongly a disc magnet pulls a flat piece of steel across a gap."""

from __future__ import annotations

import math

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

REMANENCE_T = 1.17
REMANENCE = Source("Neodymium N35, data sheets", "least remanence", Evidence.MEMORY)
SATURATION_T = 1.6
SATURATION = Source("Mild steel, magnetisation curves", "at the knee", Evidence.MEMORY)
# the field falls from the axis to the rim: at no gap does the exact pull of charged discs come
# below this share of the pull that the field on the axis would give
RIM_SHARE = 0.6
DERATED = 0.7
# discs of the strongest grade on sale, with nothing lost: what a hand may have to overcome
STRONGEST_T = 1.48
STRONGEST = Source("Neodymium N52, data sheets", "largest remanence", Evidence.MEMORY)
# behind a skin of 0.9 mm and more the exact pull of charged discs does not come above this share
MOST_SHARE = 1.3
PULL = Source(
    "a disc magnet before its image in steel",
    "0.6 B² A / (2 mu0) with the field on the axis doubled, times 0.7 for coating and dirt",
    Evidence.DERIVED,
)
MU0 = 4e-7 * math.pi
VALUES = (
    Listed("Magnets", "remanence T", REMANENCE_T, REMANENCE),
    Listed("Magnets", "largest remanence T", STRONGEST_T, STRONGEST),
    Listed("Magnets", "saturation T", SATURATION_T, SATURATION),
    Listed("Magnets", "rim share", RIM_SHARE, PULL),
    Listed("Magnets", "share left by coating and dirt", DERATED, PULL),
)


def axial_field_t(
    diameter_mm: float, thickness_mm: float, *, gap_mm: float, remanence_t: float = REMANENCE_T
) -> float:
    """Return the field on the axis of a disc magnet in air, ``gap_mm`` before its face, in tesla.

    Source: closed form of the uniformly magnetised cylinder.
    """
    radius, far = diameter_mm / 2, gap_mm + thickness_mm
    return remanence_t / 2 * (far / math.hypot(radius, far) - gap_mm / math.hypot(radius, gap_mm))


def full_pull_n(
    diameter_mm: float, thickness_mm: float, *, gap_mm: float, remanence_t: float = REMANENCE_T
) -> float:
    """Return the pull of a disc magnet on thick, flat steel across a gap, before any derating.

    The steel mirrors the magnet, which doubles the field on its surface. The pull is that
    of the field on the axis over the disc's own area, times a share that lies below the
    exact one at every gap.
    """
    field = 2 * axial_field_t(diameter_mm, thickness_mm, gap_mm=gap_mm, remanence_t=remanence_t)
    area_m2 = math.pi * (diameter_mm / 2000) ** 2
    return RIM_SHARE * field**2 * area_m2 / (2 * MU0)


def steel_share(
    diameter_mm: float, thickness_mm: float, *, gap_mm: float, steel_mm: float
) -> float:
    """Return which share (0 to 1) of the field steel of a given thickness can carry.

    The flux of the disc leaves its shadow through the rim, where thin steel saturates.
    """
    field = 2 * axial_field_t(diameter_mm, thickness_mm, gap_mm=gap_mm)
    return min(1.0, SATURATION_T * 4 * steel_mm / (field * diameter_mm))


def derated_pull_n(
    diameter_mm: float,
    thickness_mm: float,
    *,
    gap_mm: float,
    steel_mm: float,
    width_mm: float,
) -> float:
    """Return the pull of one disc that may be relied on, in N.

    Args:
        diameter_mm: Diameter of the disc.
        thickness_mm: Thickness of the disc.
        gap_mm: Plastic and air between the disc and the steel.
        steel_mm: Thickness of the steel.
        width_mm: Width of the steel across the disc; what lies beside it is lost.
    """
    covered = min(1.0, width_mm / diameter_mm)
    carried = steel_share(diameter_mm, thickness_mm, gap_mm=gap_mm, steel_mm=steel_mm)
    full = full_pull_n(diameter_mm, thickness_mm, gap_mm=gap_mm)
    return DERATED * full * covered * carried**2


def strongest_pull_n(
    diameter_mm: float, thickness_mm: float, *, gap_mm: float, width_mm: float
) -> float:
    """Return the pull of one disc of the strongest grade that nothing weakens, in N.

    Args:
        diameter_mm: Diameter of the disc.
        thickness_mm: Thickness of the disc.
        gap_mm: The least plastic between the disc and the steel.
        width_mm: Width of the steel across the disc.
    """
    full = full_pull_n(diameter_mm, thickness_mm, gap_mm=gap_mm, remanence_t=STRONGEST_T)
    return full / RIM_SHARE * MOST_SHARE * min(1.0, width_mm / diameter_mm)
