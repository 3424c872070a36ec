"""Two ledges per bin, between fins, for bins that hang by the rim on their sides.

seen from the front (section)            seen from the side

 ╔═══════════════════╗  rim             ║plate           ┌╲  ← stop
 ╟┐                 ┌╢                  ║────────────────┘ │ ← ledge, z = 0
 ┃├─╲             ╱─┤┃  ← ledge         ║                  │
 ┃│  │    body   │  │┃                  ║                ╱
 ┃    slot = body + play                ║   fin        ╱ 45 degrees
 ┃ fin, shared with the neighbour       ║     ◇     ╱
   way out: up over the stops, then out
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.mark_room import mark_below
from cleatwright.features.outward import group_leading
from cleatwright.holders.families.rim_ledge.rim_bays import (
    LEAD_IN_MM,
    STOP_MM,
    TIP_MM,
    Bay,
    fins_between,
    ledges,
)
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Rim
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Union

LEAST_RIM_MM = 3.0
# a wider rim lies on a ledge that is no wider than this
MOST_LEDGE_MM = 12.0
MOST_DEPTH_MM = 260.0
# a bin is pulled by its front, so that between two bins no hand has to go: a fin is enough


class Params(FamilyParams):
    """What can be chosen about rim ledges."""

    fin_mm: float = Field(default=3.0, ge=2.4, le=6.0, description="thin fins sway")
    stop_mm: float = Field(default=5.0, ge=3.0, le=10.0, description="kept, yet soon lifted over")
    lift_mm: float = Field(default=1.0, ge=0.5, le=4.0, description="room above the stop")


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of bins."""
    grips = [tool.body.needed_grip(Rim) for tool in group]
    sizes = [
        (
            tool.size("slot between the ledges", g.body_x_mm),
            tool.size("room for the rim", g.rim_x_mm),
            tool.size("ledge length", g.rim_y_mm),
        )
        for tool, g in zip(group, grips, strict=True)
    ]
    starts = list(accumulate((wide.made_mm + p.fin_mm for _, wide, _ in sizes), initial=p.fin_mm))
    back = ctx.plate_mm + CLEAR_MM
    bays = [
        Bay(
            x0=x,
            x1=x + wide.made_mm,
            ledge_mm=min((wide.made_mm - slot.made_mm) / 2, MOST_LEDGE_MM),
            front_mm=back + long.made_mm,
        )
        for x, (slot, wide, long) in zip(starts, sizes, strict=False)
    ]
    reach = max(bay.front_mm for bay in bays) + STOP_MM
    fins = fins_between(bays, fin_mm=p.fin_mm)
    seats = tuple(
        Seat(
            tool.body,
            shift((bay.x0 + bay.x1) / 2, back + three[2].made_mm / 2, -grip.z_mm),
            (
                (0.0, 0.0, p.stop_mm + p.lift_mm),
                (0.0, reach - back + CLEAR_MM, 0.0),
            ),
            three,
        )
        for tool, grip, bay, three in zip(group, grips, bays, sizes, strict=True)
    )
    low = min(fin.low_mm(ctx.plate_mm) for fin in fins)
    width = starts[-1]
    place, plate_low = mark_below(width, low_mm=low, plate_mm=ctx.plate_mm)
    return Front(
        solid=Union(
            (
                *(fin.solid(p.fin_mm, stop_mm=p.stop_mm, plate_mm=ctx.plate_mm) for fin in fins),
                *(part for bay in bays for part in ledges(bay, stop_mm=p.stop_mm)),
            )
        ),
        width_mm=width,
        plate_low_mm=plate_low,
        plate_high_mm=p.stop_mm,
        reach_mm=reach,
        low_mm=low,
        high_mm=p.stop_mm,
        seats=seats,
        genus=sum(fin.window_mm(ctx.plate_mm) > 0.0 for fin in fins),
        min_wall_mm=min(p.fin_mm, TIP_MM, STOP_MM - LEAD_IN_MM),
        mark_place=place,
        leading=group_leading([grip.rim_x_mm for grip in grips]),
    )


def refuses(tool: ToolBody) -> str | None:
    """Return why a bin cannot hang here, or None."""
    grip = tool.needed_grip(Rim)
    rim = (grip.rim_x_mm - grip.body_x_mm) / 2
    if rim < LEAST_RIM_MM:
        return (
            f"its rim stands out by {said.mm(rim)} on each side, and less than "
            f"{said.mm(LEAST_RIM_MM)} does not rest safely on a ledge"
        )
    if grip.rim_y_mm > MOST_DEPTH_MM:
        return (
            f"its rim is {said.mm(grip.rim_y_mm)} deep, and ledges over {said.mm(MOST_DEPTH_MM)} "
            "sag"
        )
    return None


FAMILY = Family(
    name="rim-ledge",
    title="Ledges between fins, for bins that hang by their rim",
    grip=Rim,
    params=Params,
    build=build,
    refuses=refuses,
)
