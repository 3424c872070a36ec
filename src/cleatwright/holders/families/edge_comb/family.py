"""Two cheeks with slanted slots, in which flat tools lie on their long edge, one above the other.

seen from the front                  section beside a cheek

 ◯════╫════════════╫═══◯  small      ║    ╱╱ │   tilt: slots rise to the front
 ◯════╫════════════╫═══◯             ║   ╱╱ ╱╱
 ◯════╫════════════╫═══◯  big        ║  ╱╱ ╱╱ │  slot = thickness + play
      │ ↔  span  ↔ │                 ║ ╱   ╱╱ ╱
      └────────────┘ plate           ║╲   ╱  ╱   depth = share of the width
                                     ║  ╲  ╱     way out: along the slot, up and to the front
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.outward import LEAST_PLATE_MM, MARK_BAND_MM, group_leading, low_mark
from cleatwright.holders.families.edge_comb.comb import TOOTH_MM, Slot, cheek, cheeks
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import FlatEdge
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.rigid import Rigid

LEAST_CHEEK_MM = 5.0
LEAST_BETWEEN_MM = 15.0
LEAST_DEPTH_MM = 8.0
# a tool may lie askew by this much along its length
END_MM = 1.0
BEHIND_MM = 4.0
# the centre of mass lies at least this far from the ends of the straight part
LEAST_BALANCE_MM = END_MM + LEAST_CHEEK_MM + 2.0
LEAST_STRAIGHT_MM = 2 * LEAST_CHEEK_MM + LEAST_BETWEEN_MM + 2 * END_MM


class Params(FamilyParams):
    """What can be chosen about an edge comb."""

    tilt_deg: float = Field(
        default=30.0, ge=25.0, le=35.0, description="flatter slots let tools slide out"
    )
    span_mm: float = Field(
        default=60.0, ge=25.0, le=160.0, description="a wide comb is steady, a narrow one light"
    )
    cheek_mm: float = Field(
        default=5.0, ge=LEAST_CHEEK_MM, le=10.0, description="thin cheeks bend sideways"
    )
    hold_share: float = Field(
        default=0.65, ge=0.55, le=0.85, description="share of the width that lies in the slot"
    )


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a stack of flat tools, the biggest at the bottom."""
    tools = sorted(group, key=lambda tool: -tool.body.order_mm)
    slots = _slots(tools, p, ctx)
    span = min(p.span_mm, *(_straight_mm(t.body.needed_grip(FlatEdge)) - 2 * END_MM for t in tools))
    thick = min(p.cheek_mm, (span - LEAST_BETWEEN_MM) / 2)
    width = max(span, LEAST_PLATE_MM)
    middle, reach = width / 2, slots[0].mouth[0]
    outline = cheek(slots, plate_mm=ctx.plate_mm)
    pair = cheeks(
        slots, middle - span / 2, x1=middle + span / 2, thick_mm=thick, plate_mm=ctx.plate_mm
    )
    _, low, _, high = outline.bounds
    root = outline.corners[-1][1]
    seats = [
        _seat(tool, slot, middle + _aside_mm(tool.body, span), reach_mm=reach)
        for tool, slot in zip(tools, slots, strict=True)
    ]
    return Front(
        solid=pair,
        width_mm=width,
        plate_low_mm=low - MARK_BAND_MM,
        plate_high_mm=root,
        reach_mm=reach,
        low_mm=low,
        high_mm=high,
        seats=tuple(reversed(seats)),
        genus=0,
        min_wall_mm=min(thick, TOOTH_MM - 2.0),
        mark_place=low_mark(width, low_mm=low - MARK_BAND_MM, plate_mm=ctx.plate_mm),
        leading=group_leading(
            [tool.body.needed_grip(FlatEdge).width_mm for tool in reversed(tools)]
        ),
        print_pose="on-its-back",
    )


def _straight_mm(grip: FlatEdge) -> float:
    return grip.high_mm - grip.low_mm


def _slots(tools: Sequence[FittedTool], p: Params, ctx: BuildContext) -> list[Slot]:
    """Return the slots from the lowest up, all with their mouths in one upright front."""
    tilt = math.radians(p.tilt_deg)
    cos, sin = math.cos(tilt), math.sin(tilt)
    widths = [
        tool.size("slot", tool.body.needed_grip(FlatEdge).thickness_mm).made_mm for tool in tools
    ]
    depths = [
        max(LEAST_DEPTH_MM, p.hold_share * tool.body.needed_grip(FlatEdge).width_mm)
        for tool in tools
    ]
    outs = [d * cos + w / 2 * sin for d, w in zip(depths, widths, strict=True)]
    backs = [_behind_mm(tool.body, cos, sin) for tool in tools]
    reach = max(
        ctx.plate_mm + BEHIND_MM + back + out for back, out in zip(backs, outs, strict=True)
    )
    ys = [reach - out for out in outs]
    room = max(ctx.hand_room_mm, TOOTH_MM)
    zs = [0.0]
    for (below, above), (y0, y1) in zip(pairwise(tools), pairwise(ys), strict=True):
        apart = below.body.extent_mm[1][1] - above.body.extent_mm[0][1] + room
        zs.append(zs[-1] + (apart + (y1 - y0) * sin) / cos)
    return [Slot(y, z, w, d, p.tilt_deg) for y, z, w, d in zip(ys, zs, widths, depths, strict=True)]


def _behind_mm(tool: ToolBody, cos: float, sin: float) -> float:
    """Return how far the turned tool reaches to the wall from the bottom of its slot."""
    (x0, _, _), (_, y1, _) = tool.extent_mm
    return -(x0 + tool.needed_grip(FlatEdge).width_mm / 2) * cos + y1 * sin


def _aside_mm(tool: ToolBody, span_mm: float) -> float:
    """Return how far the centre of mass lies from the middle: nought where the tool allows it."""
    grip, com, half = tool.needed_grip(FlatEdge), tool.com_mm[2], span_mm / 2 + END_MM
    return min(max(0.0, half - (grip.high_mm - com)), com - grip.low_mm - half)


def _seat(tool: FittedTool, slot: Slot, com_x: float, *, reach_mm: float) -> Seat:
    cos, sin = slot.along
    grip = tool.body.needed_grip(FlatEdge)
    y, z = slot.at(grip.width_mm / 2, 0.0)
    turned = ((0.0, 0.0, 1.0), (cos, -sin, 0.0), (sin, cos, 0.0))
    way = (reach_mm + CLEAR_MM - slot.y + _behind_mm(tool.body, cos, sin)) / cos
    return Seat(
        tool.body,
        Rigid(turned, (com_x - tool.body.com_mm[2], y, z)),
        ((0.0, way * cos, way * sin),),
        (tool.size("slot", grip.thickness_mm),),
        rest_z_mm=slot.z,
    )


def refuses(tool: ToolBody) -> str | None:
    """Return why a flat tool cannot lie here, or None."""
    grip, com = tool.needed_grip(FlatEdge), tool.com_mm[2]
    if _straight_mm(grip) < LEAST_STRAIGHT_MM:
        return (
            f"its straight part of {said.mm(_straight_mm(grip))} is too short for two cheeks, "
            f"which take {said.mm(LEAST_STRAIGHT_MM)}"
        )
    if not grip.low_mm + LEAST_BALANCE_MM <= com <= grip.high_mm - LEAST_BALANCE_MM:
        return (
            f"it balances at {said.mm(com)} from its lower end, which is not between two cheeks on "
            f"its straight part from {said.number(grip.low_mm)} to {said.mm(grip.high_mm)}"
        )
    return None


FAMILY = Family(
    name="edge-comb",
    title="Cheeks with slanted slots, for flat tools on edge",
    grip=FlatEdge,
    params=Params,
    build=build,
    refuses=refuses,
)
