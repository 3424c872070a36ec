"""One bar per tool, for tools with two legs that hang left and right of it.

seen from the front                section along a bar

     ┌──────────┐                  ║plate         ╱─┐  ← lip
     │   tool   │                  ║─────────────╱  │  ← bar top, z = 0: the legs' crotch rests here
     │  ╱────╲  │                  ║                │   bar, its edges broken by EDGE
     │ │ bar  │ │                  ║─╲──────────────┘
     │ └──────┘ │                  ║  ╲ web
    bar = gap - play                way out: up over the lip, then out
"""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.lipped_row import ArmShape, Hung, LippedRow, lipped_row
from cleatwright.features.root import gusset
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Straddle
from cleatwright.parts.holder import Front
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.extent import extent
from cleatwright.shapes.solid import Solid, Union, across

LEAST_GAP_MM = 6.0
EDGE_MM = 1.0
# narrower than the narrowest bar, so that the legs clear it
WEB_MM = 4.0


class Params(FamilyParams):
    """What can be chosen about straddle bars."""

    bar_mm: float = Field(default=8.0, ge=6.0, le=20.0, description="thinner bars bend and break")
    lip_mm: float = Field(
        default=4.0, ge=2.5, le=10.0, description="keeps a tool, yet is soon lifted over"
    )
    lift_mm: float = Field(
        default=1.0, ge=0.5, le=10.0, description="room above the lip on the way"
    )


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of tools with two legs."""
    hung: list[Hung] = []
    for tool in group:
        grip = tool.body.needed_grip(Straddle)
        bar, length = _into_gap(tool, grip), tool.size("bar length", _depth_mm(tool.body, grip, p))
        hung.append(Hung(tool, grip.z_mm - grip.gap_below_mm, bar, length, bar.made_mm))
    shape = ArmShape(p.bar_mm, p.lip_mm, p.lift_mm, ctx.plate_mm)
    row = lipped_row(hung, shape, hand_room_mm=ctx.hand_room_mm)
    least = min(h.arms_mm for h in hung) - 2 * EDGE_MM
    return row.front(_bars(row), min_wall_mm=min(WEB_MM, least))


def _into_gap(tool: FittedTool, grip: Straddle) -> Size:
    # a bar goes into what was measured, so play and correction make it smaller
    return Size("bar", grip.gap_mm, -tool.fit.play_mm, -tool.fit.correction_mm)


def _depth_mm(tool: ToolBody, grip: Straddle, p: Params) -> float:
    """Return the depth along y, about the axis, of all that comes down behind the lip."""
    rest = grip.z_mm - grip.gap_below_mm
    boxes = [extent(piece) for piece in tool.envelope]
    behind_lip = [
        max(-low[1], high[1])
        for low, high in boxes
        if high[2] > rest + 1e-6 and low[2] < rest + p.lip_mm
    ]
    return 2.0 * max(grip.thickness_mm / 2, *behind_lip)


def _bars(row: LippedRow) -> Solid:
    """Return all bars with their webs; the edges of each profile are broken at both sides."""
    bars: list[Solid] = []
    webs: list[Solid] = []
    # the webs reach into the bars, whose lower edges are broken too
    plate, under = row.shape.plate_mm, EDGE_MM - row.shape.thick_mm
    for h, x, lip_y in zip(row.hung, row.line.centres_mm, row.lips_mm, strict=True):
        half, web, run = h.arms_mm / 2, WEB_MM / 2, lip_y - plate + EDGE_MM
        bars.append(across(row.coved(lip_y), x - half, x + half, edge_mm=EDGE_MM))
        webs.append(gusset(x - web, x + web, plate_mm=plate, reach_mm=run, z_mm=under))
    return Union((*bars, *webs))


def refuses(tool: ToolBody) -> str | None:
    """Return why a tool with two legs cannot hang here, or None."""
    grip = tool.needed_grip(Straddle)
    if grip.gap_mm < LEAST_GAP_MM:
        return (
            f"its legs are {said.mm(grip.gap_mm)} apart, and a bar for less than "
            f"{said.mm(LEAST_GAP_MM)} breaks"
        )
    return None


FAMILY = Family(
    name="straddle-bar",
    title="Bars on which tools with two legs hang astride",
    grip=Straddle,
    params=Params,
    build=build,
    refuses=refuses,
)
