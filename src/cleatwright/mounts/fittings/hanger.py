"""Hanger: a hook over the rail, with a dovetail that slides into the back of a holder.

profile along x, seen from the left      the groove that takes it

 wall       rail face                     back of the holder
  │ ┌────────┬──╮                         │  cap
  │ │  hook  │   ╲___ dovetail            ├──╮
  │ │        │       │  HEIGHT            │   ╲___
  │ └╮       │   ╱‾‾‾                     │       │ as high as the dovetail, and PLAY
  │   ╲╲     │──╯                         │   ╱‾‾‾
  │     ╲╲   │                            ├──╯
  │   rail ╲╲│ ← bevel contact: z = 0     │  bevel contact: z = 0

One profile prints on its side, with its layers along all forces. The weight, and a pull upwards,
lie on the flanks of the dovetail; it comes out sideways alone, where a pin of filament stops it.
"""

from __future__ import annotations

import math

from pydantic import Field

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.mounts.fittings.fitting_kind import FittingKind, FittingParams, fitting_part
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.outline import Outline, Point, polygon
from cleatwright.shapes.solid import across

ROOT_MM = 10.0
LAND_MM = 2.0
WALL_GAP_MM = 1.5
# the dovetail about its middle: a land, flanks of 45 degrees out, and back to a floor that bridges;
# a deeper one leaves too little of the plate before it to bear its hook
NECK_MM = 8.0
WIDE_MM = 11.0
LAND_DEEP_MM = 0.5
FLANK_MM = (WIDE_MM - NECK_MM) / 2
# a bridge in the groove
FLOOR_MM = 9.2
DEEP_MM = LAND_DEEP_MM + FLANK_MM + (WIDE_MM - FLOOR_MM) / 2
PLAY_MM = 0.15
MIDDLE_MM = ROOT_MM / 2
PAST_MM = 1.0


class HangerParams(FittingParams):
    """The rail that a hanger hooks onto, and how long it is along that rail."""

    thickness_mm: float = Field(ge=5.5, le=60.0, description="of the rail: thinner leaves no hook")
    bevel_deg: float = Field(ge=20.0, le=60.0, description="of the rail, from the wall's normal")
    width_mm: float = Field(ge=10.0, le=40.0, description="along the rail")


def groove(z_mm: float) -> Outline:
    """Return the (y, z) section of the groove for a dovetail whose middle lies at a height.

    It is open behind y = 0.
    """
    return polygon(dovetail(z_mm, play_mm=PLAY_MM, behind_mm=PAST_MM))


def dovetail(z_mm: float, *, play_mm: float, behind_mm: float) -> list[Point]:
    """Return the (y, z) corners of a dovetail, from the lower one behind to the upper one.

    Args:
        z_mm: Height of its middle.
        play_mm: How much larger it is all round.
        behind_mm: How far it reaches behind y = 0.
    """
    upper = [
        (-behind_mm, NECK_MM / 2 + play_mm),
        (LAND_DEEP_MM, NECK_MM / 2 + play_mm),
        (LAND_DEEP_MM + FLANK_MM, WIDE_MM / 2 + play_mm),
        (DEEP_MM + play_mm, FLOOR_MM / 2),
    ]
    lower = [(y, z_mm - z) for y, z in upper]
    return [*lower, *((y, z_mm + z) for y, z in reversed(upper))]


def reach_mm(thickness_mm: float) -> float:
    """Return how far a hook reaches behind the face of a rail.

    Raises:
        DesignError: The rail is too thin.
    """
    reach = thickness_mm - WALL_GAP_MM
    if reach < 2 * LAND_MM:
        raise DesignError(
            f"a rail {said.mm(thickness_mm)} thick leaves no room for a hook",
            allowed=f"at least {said.least(2 * LAND_MM + WALL_GAP_MM)}",
            todo="Use thicker rails or screw the holder to the wall",
        )
    return reach


def shape(p: HangerParams) -> HolderPart:
    """Return a hanger; its frame is that of its holder, with the bevel contact at z = 0."""
    reach = reach_mm(p.thickness_mm)
    fall = (reach - LAND_MM) * math.tan(math.radians(p.bevel_deg))
    tail = dovetail(MIDDLE_MM, play_mm=0.0, behind_mm=0.0)
    # the hook's front lies in the face of the rail, above and below the neck of the dovetail
    hook = [(0.0, ROOT_MM), (-reach, ROOT_MM), (-reach, -fall), (-reach + LAND_MM, -fall)]
    profile = polygon([(0.0, 0.0), *tail, *hook])
    return fitting_part(
        KIND.name,
        f"{p.thickness_mm:g}x{p.width_mm:g}",
        across(profile, 0.0, p.width_mm),
        bounds_mm=(
            (0.0, -reach, min(-fall, MIDDLE_MM - WIDE_MM / 2)),
            (p.width_mm, DEEP_MM, MIDDLE_MM + WIDE_MM / 2),
        ),
        min_wall_mm=LAND_MM,
    )


KIND = FittingKind(
    name="hanger",
    title="Hanger that hooks a holder onto a rail",
    params=HangerParams,
    shape=shape,
)
