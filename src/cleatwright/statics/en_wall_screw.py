"""What one wood screw may carry for ever by EN 1995-1-1, through a rail and a lining into wood.

The standard checks factored loads against design values; here the design value is divided by the
partial factor of variable loads, so that it stands beside the loads themselves. Across a lining,
for which the standard has no formula, the joint yields as one with a gap, without the factors 1.05
and 1.15 and without a rope effect, which is on the safe side.
"""

from __future__ import annotations

from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.standards.fasteners.anchors import GAMMA_F
from cleatwright.standards.fasteners.en_1995_screws import (
    LEAST_DIAMETERS,
    ROOT_FACTOR,
    STEEL_MPA,
    design_n,
    embedment_mpa,
    johansen_n,
    pull_through_n,
    with_rope_n,
    withdrawal_n,
    yield_moment_nmm,
)
from cleatwright.standards.fasteners.nds_screws import (
    ROOT_SHARE,
    ROUNDING_MM,
    DowelJoint,
    yield_loads_n,
)
from cleatwright.standards.fasteners.wood_screws import wood_screw_head_mm
from cleatwright.statics.wall_screw import THREAD_SHARE, WallScrew


def characteristic_out_n(screw: WallScrew, density_kg_m3: float) -> float:
    """Return what holds a screw straight out, in N: its thread, or its head in the rail."""
    head, _ = wood_screw_head_mm(screw.diameter_mm)
    thread = min(screw.deep_mm, THREAD_SHARE * screw.length_mm)
    out = withdrawal_n(density_kg_m3, diameter_mm=screw.diameter_mm, thread_mm=thread)
    return min(out, pull_through_n(density_kg_m3, head_mm=head))


def characteristic_along_n(screw: WallScrew, density_kg_m3: float) -> float:
    """Return what a screw bears along the wall, in N; 0 when it is not six diameters deep."""
    if screw.deep_mm < LEAST_DIAMETERS * screw.diameter_mm - ROUNDING_MM:
        return 0.0
    thick = ROOT_FACTOR * ROOT_SHARE * screw.diameter_mm
    line = embedment_mpa(density_kg_m3, diameter_mm=thick) * thick
    bent = yield_moment_nmm(STEEL_MPA, diameter_mm=thick)
    if screw.lining_mm > 0.0:
        joint = DowelJoint(line, line, screw.side_mm, screw.deep_mm, bent, screw.lining_mm)
        return min(load for _, load in yield_loads_n(joint))
    modes = johansen_n(
        side_n_mm=line,
        main_n_mm=line,
        side_mm=screw.side_mm,
        main_mm=screw.deep_mm,
        bent_nmm=bent,
    )
    return with_rope_n(modes, axial_n=characteristic_out_n(screw, density_kg_m3))


def en_strength(screw: WallScrew, density_kg_m3: float) -> ScrewStrength:
    """Return what a screw may carry for ever, rail and stud of one characteristic density.

    Args:
        screw: The screw; its diameter is at least 6 mm, from which 8.7.2 counts.
        density_kg_m3: Of the strength class of the studs, EN 338.
    """
    out, along = (
        design_n(value(screw, density_kg_m3), "permanent") / GAMMA_F
        for value in (characteristic_out_n, characteristic_along_n)
    )
    return ScrewStrength(out, along, "sum of squares")
