"""How one spring clip is laid out: the arc from its undercut, the leg from the allowed strain."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from cleatwright.holders.families.spring_clip.spring_arms import ROOT_MM
from cleatwright.parts.hold import SpringArms
from cleatwright.standards.materials.spring_plastic import SpringPlastic
from cleatwright.statics.spring_beam import leg_for

# part of what the plastic bears again and again
ALLOWED_SHARE = 0.95
# below this an arm bends less than printing scatters, and nothing is held
LEAST_UNDERCUT_MM = 0.35
MOST_LEG_MM = 200.0


@dataclass(frozen=True)
class ClipPlan:
    """The arms around one body.

    Args:
        spring: The arms, without the solids that move.
        axis_mm: The y of the body's axis.
        tip_mm: The y of the tips' foremost points.
    """

    spring: SpringArms
    axis_mm: float
    tip_mm: float


def clip_plan(
    diameter_mm: float,
    made_mm: float,
    *,
    undercut_share: float,
    arm_mm: float,
    clip_mm: float,
    behind_mm: float,
    plate_mm: float,
    plastic: SpringPlastic,
) -> ClipPlan:
    """Return the clip of one round body.

    Args:
        diameter_mm: Diameter of the body.
        made_mm: Distance between the arms' legs.
        undercut_share: Part of the diameter by which each arm moves aside.
        arm_mm: Thickness of an arm.
        clip_mm: Width of an arm at its tip, along z.
        behind_mm: Room between the body's axis and the plate.
        plate_mm: The plate's front.
        plastic: What the arms are printed of.
    """
    mean = (made_mm + arm_mm) / 2
    aside = max(LEAST_UNDERCUT_MM, undercut_share * diameter_mm)
    # the round tips stand the mouth apart: half of it is half the body less the undercut
    tip = math.asin((diameter_mm / 2 - aside + arm_mm / 2) / mean)
    plain = SpringArms(
        thickness_mm=arm_mm,
        width_mm=clip_mm,
        mean_radius_mm=mean,
        arc_deg=90.0 - math.degrees(tip),
        deflection_mm=aside,
        moving=(),
        tip_deg=math.degrees(tip),
        plastic=plastic,
    )
    allowed = ALLOWED_SHARE * plastic.strain
    leg = leg_for(plain, allowed=allowed, least_mm=behind_mm - ROOT_MM, most_mm=MOST_LEG_MM)
    axis = plate_mm + ROOT_MM + leg
    front = axis + mean * math.cos(tip) + arm_mm / 2
    return ClipPlan(replace(plain, straight_mm=leg), axis, front)
