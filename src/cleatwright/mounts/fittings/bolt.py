"""Push bolt: a wedge through a holder that goes under its rail and keeps the hook down.

profile along x, seen from the left

  wall side         │ guide, GUIDE deep
         ___________│________ HIGH
    __---           │        │     slope 1:4 from LEAD to LEAD + RUN behind the tip
   ╱────┐  ┌────────│────────┘ 0, where it slides
        │  │        y = 0
        │  │ tab: as wide as TAB, from the side on which it is printed
        └──┘ -TAB_LONG

The tab hangs below the holder: pushed to the wall the bolt is tight under the lower edge of the
rail, drawn to the front it is free. It takes up rails that are higher or lower, and stays by
friction: a wedge of 1 in 4 holds itself where the friction is more than tan(14 / 2 degrees).
Nothing of it stands before the holder where tools hang.
"""

from __future__ import annotations

import math

from pydantic import Field

from cleatwright.base.source import Evidence, Source
from cleatwright.mounts.fittings.fitting_kind import FittingKind, FittingParams, fitting_part
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.outline import polygon, rectangle
from cleatwright.shapes.solid import across, joined
from cleatwright.standards.table import Listed

LOW_MM = 6.6
SLOPE = 0.25
RISE_MM = 1.2
RUN_MM = RISE_MM / SLOPE
HIGH_MM = LOW_MM + RISE_MM
MOST_LEAD_MM = 7.0
LEAST_LEAD_MM = 4.0
# behind the back of a holder there is a plate of 5 mm in place of a rail
PLATE_LEAD_MM = 2.0
WIDTH_MM = 10.0
TAB_MM = 4.0
TAB_LONG_MM = 24.0
# from the tip to the tab, and along it
TAB_FROM_MM = 1.0
TAB_TO_MM = 3.5
GUIDE_MM = 5.0
# how much of it the guide still holds under the lowest rail
HELD_MM = 2.1
# the middle of its slope lies at the edge of a rail of the height that was measured
MIDDLE_RISE_MM = RISE_MM / 2
RAIL_OFF_MM = 0.5
# a bolt that is not quite pushed home leaves so much play
LOOSE_MM = 0.5
END_MM = 1.0
SELF_HOLDING = Source("wedge: 2 arctan(friction) > arctan(slope)", "", Evidence.DERIVED)
VALUES = (
    Listed("Mounts", "bolt: slope", SLOPE, SELF_HOLDING),
    Listed("Mounts", "bolt: takes up rails off by mm", RAIL_OFF_MM, SELF_HOLDING),
)


class BoltParams(FittingParams):
    """How deep the rail lets a bolt go under it."""

    lead_mm: float = Field(
        ge=PLATE_LEAD_MM, le=MOST_LEAD_MM, description="before its slope; a thin rail leaves less"
    )


def lead_mm(rail_thickness_mm: float) -> float | None:
    """Return how long a bolt is before its slope, or None where the rail is too thin for it."""
    lead = min(MOST_LEAD_MM, rail_thickness_mm - 1.0 - RUN_MM)
    return None if lead < LEAST_LEAD_MM else lead


def shut_mm(lead: float) -> float:
    """Return how far the tip lies behind the face of a rail of just the height that was asked."""
    return lead + MIDDLE_RISE_MM / SLOPE


def under_mm(lead: float) -> float:
    """Return how far the tip lies under the lowest rail that it takes up, not quite pushed home.

    Its bevelled end does not count.
    """
    return shut_mm(lead) + (RAIL_OFF_MM - LOOSE_MM) / SLOPE - END_MM


def loose_mm(lead: float, *, guide_play_mm: float) -> float:
    """Return by how much a holder may rise in all until that rail lies before the tip of the bolt.

    The slope gives way as the bolt comes out from under the rail, and the bolt tilts in its guide.
    """
    tilt = guide_play_mm / (HELD_MM + LOOSE_MM / SLOPE)
    return MIDDLE_RISE_MM + RAIL_OFF_MM + tilt * under_mm(lead)


def self_holding_friction() -> float:
    """Return the friction above which a bolt stays where it was pushed.

    >>> round(self_holding_friction(), 3)
    0.123
    """
    return math.tan(math.atan(SLOPE) / 2)


def length_mm(lead: float) -> float:
    """Return how long a bolt is: its guide holds it under the lowest rail that it takes up."""
    return shut_mm(lead) + RAIL_OFF_MM / SLOPE + HELD_MM


def before_mm() -> float:
    """Return how far it stands out before y = 0 at the most, under the highest rail."""
    return HELD_MM + 2 * RAIL_OFF_MM / SLOPE


def shape(p: BoltParams) -> HolderPart:
    """Return a bolt; the origin of its frame is its tip, at the height of its guide's floor."""
    long = length_mm(p.lead_mm)
    wedge = polygon(
        [
            (0.0, 0.0),
            (long, 0.0),
            (long, HIGH_MM),
            (p.lead_mm + RUN_MM, HIGH_MM),
            (p.lead_mm, LOW_MM),
            (END_MM, LOW_MM),
            (0.0, LOW_MM - END_MM),
        ]
    )
    tab = rectangle(TAB_FROM_MM, -TAB_LONG_MM, TAB_TO_MM, LOW_MM / 2)
    return fitting_part(
        KIND.name,
        f"{p.lead_mm:g}x{WIDTH_MM:g}",
        joined(across(wedge, 0.0, WIDTH_MM), across(tab, 0.0, TAB_MM)),
        bounds_mm=((0.0, 0.0, -TAB_LONG_MM), (WIDTH_MM, long, HIGH_MM)),
        min_wall_mm=TAB_TO_MM - TAB_FROM_MM,
    )


KIND = FittingKind(
    name="bolt",
    title="Bolt that keeps a holder on its rail",
    params=BoltParams,
    shape=shape,
)
