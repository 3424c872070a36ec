"""What a rail itself weighs, which its screws bear before anything hangs on it.

x0   s1            s2            x1
══════╪═════════════╪══════════════    a piece to each span, and to each end beyond a stud
  ↓          ↓             ↓
"""

from __future__ import annotations

from itertools import pairwise

from cleatwright.base.factors import MM3_PER_M3
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.standards.materials.boards import board_kg_m3
from cleatwright.statics.rail import HungLoad
from cleatwright.wall.rail import Rail
from cleatwright.wall.tolerances import SLACK_MM
from cleatwright.workshop.document.sections import RailRules


def rail_kg_m3(rules: RailRules) -> float:
    """Return the density of the wood of the rails: what the owner says, or that of its name."""
    return rules.density_kg_m3 or board_kg_m3(rules.timber)


def rail_weight_n(rail: Rail, density_kg_m3: float) -> float:
    """Return the weight of a rail."""
    volume_mm3 = rail.profile.area_mm2 * rail.length_mm
    return volume_mm3 / MM3_PER_M3 * density_kg_m3 * GRAVITY_M_S2


def own_loads(rail: Rail, density_kg_m3: float) -> tuple[HungLoad, ...]:
    """Return the weight of a rail as loads, one in the middle of each piece between its studs.

    Its middle lies behind its face; it counts at the face, which is on the safe side.

    Args:
        rail: The rail on the wall.
        density_kg_m3: Of its wood.
    """
    per_mm = rail_weight_n(rail, density_kg_m3) / rail.length_mm
    ends = sorted({rail.x0_mm, rail.x1_mm, *rail.studs_mm})
    return tuple(
        HungLoad(f"{rail.name} itself", (a + b) / 2, per_mm * (b - a), 0.0, rail.height_mm)
        for a, b in pairwise(ends)
        if b - a > SLACK_MM
    )
