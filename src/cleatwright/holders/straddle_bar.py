"""One bar per tool, for tools with two legs that hang left and right of it.

seen from the front                section along a bar

     ┌──────────┐                  ║plate      ┌╲  ← lip
     │   tool   │                  ║───────────┘ │ ← bar top, z = 0: the legs' crotch rests here
     │  ╱────╲  │                  ║             │   bar
     │ │ bar  │ │                  ║──╲──────────┘
     │ └──────┘ │                  ║   ╲ web
    bar = gap - play                way out: up over the lip, then out
"""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Straddle
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.outward import (
    MARK_BAND_MM,
    group_leading,
    low_mark,
    outward,
    slim_row,
    tapered,
)
from cleatwright.parts.root import cove, gusset
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.extent import extent
from cleatwright.shapes.outline import Outline, polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, Union

LEAST_GAP_MM = 6.0
EDGE_MM = 1.5
MARGIN_MM = 3.0
LIP_MM = 4.0
# narrower than the narrowest bar, so that the legs clear it
WEB_MM = 4.0
CLEAR_MM = 1.0


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
    grips = [_grip(tool.body) for tool in group]
    bars = [_into_gap(tool, grip) for tool, grip in zip(group, grips, strict=True)]
    lengths = [
        tool.size("bar length", _depth_mm(tool.body, grip, p))
        for tool, grip in zip(group, grips, strict=True)
    ]
    line = slim_row(
        [tool.body.width_mm for tool in group],
        [bar.made_mm for bar in bars],
        gap_mm=ctx.hand_room_mm,
        margin_mm=MARGIN_MM,
    )
    axes = [
        ctx.plate_mm + CLEAR_MM + max(-tool.body.extent_mm[0][1], length.made_mm / 2)
        for tool, length in zip(group, lengths, strict=True)
    ]
    lips = [axis_y + length.made_mm / 2 for axis_y, length in zip(axes, lengths, strict=True)]
    reach = max(lips) + LIP_MM
    pieces: list[Solid] = []
    for x, bar, lip_y in zip(line.centres_mm, bars, lips, strict=True):
        pieces += _bar(x, bar.made_mm, lip_y, p=p, plate_mm=ctx.plate_mm)
    seats = tuple(
        Seat(
            tool.body,
            shift(x, axis_y, grip.gap_below_mm - grip.z_mm),
            (
                (0.0, 0.0, p.lip_mm + p.lift_mm),
                (0.0, reach + CLEAR_MM - axis_y - tool.body.extent_mm[0][1], 0.0),
            ),
            sizes,
        )
        for tool, grip, x, axis_y, sizes in zip(
            group, grips, line.centres_mm, axes, zip(bars, lengths, strict=True), strict=True
        )
    )
    web_low = -p.bar_mm - (max(lips) - ctx.plate_mm)
    low = web_low - MARK_BAND_MM
    return Front(
        solid=Union(tuple(pieces)),
        width_mm=line.width_mm,
        plate_low_mm=low,
        plate_high_mm=0.0,
        reach_mm=reach,
        low_mm=web_low,
        high_mm=p.lip_mm,
        seats=seats,
        genus=0,
        min_wall_mm=min(LIP_MM - EDGE_MM, *(bar.made_mm - 2 * EDGE_MM for bar in bars)),
        mark_place=low_mark(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm),
        leading=group_leading([grip.gap_mm for grip in grips]),
    )


def _grip(tool: ToolBody) -> Straddle:
    grip = tool.grip(Straddle)
    assert grip is not None  # noqa: S101 - the registry asks why_not() before it builds
    return grip


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


def _section(half_mm: float, *, z0: float, z1: float) -> Outline:
    """Return a bar's section whose upper edges are broken at 45 degrees."""
    shoulder = z1 - EDGE_MM
    crown = half_mm - EDGE_MM
    return polygon(
        [
            (-half_mm, z0),
            (half_mm, z0),
            (half_mm, shoulder),
            (crown, z1),
            (-crown, z1),
            (-half_mm, shoulder),
        ]
    )


def _bar(x: float, bar_mm: float, lip_y: float, *, p: Params, plate_mm: float) -> list[Solid]:
    half, web = bar_mm / 2, WEB_MM / 2
    face = lip_y + LIP_MM - EDGE_MM
    raised = _section(half, z0=-p.bar_mm, z1=p.lip_mm)
    tip = _section(half - EDGE_MM / 2, z0=-p.bar_mm + EDGE_MM, z1=p.lip_mm - EDGE_MM)
    run = lip_y - plate_mm
    return [
        outward(_section(half, z0=-p.bar_mm, z1=0.0), x, y0=0.0, y1=lip_y + EDGE_MM),
        outward(raised, x, y0=lip_y, y1=face),
        tapered(raised, tip, x, y0=face, y1=lip_y + LIP_MM),
        gusset(x - web, x + web, plate_mm=plate_mm, reach_mm=run, z_mm=-p.bar_mm),
        cove(x - half, x + half, plate_mm=plate_mm, z_mm=-p.bar_mm),
    ]


def refuses(tool: ToolBody) -> str | None:
    """Return why a tool with two legs cannot hang here, or None."""
    grip = _grip(tool)
    if grip.gap_mm < LEAST_GAP_MM:
        return (
            f"its legs are {grip.gap_mm:g} mm apart, and a bar for less than "
            f"{LEAST_GAP_MM:g} mm breaks"
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
