"""Two prongs per tool, for heads that are wider than the neck below them.

seen from above                  section beside the neck

══════════ plate ═════════       ║plate
  │  │   ┌────┐   │  │           ║             ┌╲  ← lip
  │  │   │neck│   │  │           ║─────────────┘ │ ← prong top, z = 0: the head rests here
  │  │   └────┘   │  │           ║───────────────┘
  └──╲            ╱──┘           ║ ╲ gusset
      slot = neck + play           way out: up over the lips, then out
"""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Overhang
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.outward import MARK_BAND_MM, group_leading, low_mark, slim_row
from cleatwright.parts.root import cove, gusset
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, Union, prism

LEAST_OVERHANG_MM = 6.0
MOST_BEARING_MM = 12.0
# the thickest prong, the highest lip and the most lift must pass the neck before it swells
LEAST_NECK_MM = 24.0
# a loose fit and a large correction widen the slot by less
MOST_PLAY_MM = 2.0
MARGIN_MM = 3.0
CLEAR_MM = 1.0
LIP_MM = 4.0
EDGE_MM = 1.5
FLARE_MM = 2.0
WEB_MM = 4.0


class Params(FamilyParams):
    """What can be chosen about a fork."""

    prong_mm: float = Field(default=8.0, ge=6.0, le=12.0, description="thin prongs bend")
    lip_mm: float = Field(default=4.0, ge=2.5, le=7.0, description="kept, yet soon lifted over")
    lift_mm: float = Field(default=1.0, ge=0.5, le=4.0, description="room above the lip")


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of tools with heads."""
    grips = [_grip(tool.body) for tool in group]
    sizes = [
        (tool.size("slot", g.neck_x_mm), tool.size("prong length", g.head_y_mm))
        for tool, g in zip(group, grips, strict=True)
    ]
    bearings = [_bearing_mm(g, slot.made_mm) for g, (slot, _) in zip(grips, sizes, strict=True)]
    line = slim_row(
        [tool.body.width_mm for tool in group],
        [slot.made_mm + 2 * b for b, (slot, _) in zip(bearings, sizes, strict=True)],
        gap_mm=ctx.hand_room_mm,
        margin_mm=MARGIN_MM,
    )
    axes = [
        ctx.plate_mm + CLEAR_MM + max(-tool.body.extent_mm[0][1], length.made_mm / 2)
        for tool, (_, length) in zip(group, sizes, strict=True)
    ]
    lips = [y + length.made_mm / 2 for y, (_, length) in zip(axes, sizes, strict=True)]
    reach = max(lips) + LIP_MM
    pieces: list[Solid] = []
    for x, lip_y, bearing, (slot, _) in zip(line.centres_mm, lips, bearings, sizes, strict=True):
        for side in (-1, 1):
            root = x + side * slot.made_mm / 2
            pieces += _prong(root, side * bearing, lip_y, p=p, plate_mm=ctx.plate_mm)
    seats = tuple(
        Seat(
            tool.body,
            shift(x, axis_y, -grip.z_mm),
            (
                (0.0, 0.0, p.lip_mm + p.lift_mm),
                (0.0, reach + CLEAR_MM - axis_y - tool.body.extent_mm[0][1], 0.0),
            ),
            pair,
        )
        for tool, grip, x, axis_y, pair in zip(
            group, grips, line.centres_mm, axes, sizes, strict=True
        )
    )
    web_low = -p.prong_mm - (max(lips) - ctx.plate_mm)
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
        min_wall_mm=min(LIP_MM - EDGE_MM, *(bearing - FLARE_MM for bearing in bearings)),
        mark_place=low_mark(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm),
        leading=group_leading([grip.neck_x_mm for grip in grips]),
    )


def _grip(tool: ToolBody) -> Overhang:
    grip = tool.grip(Overhang)
    assert grip is not None  # noqa: S101 - the registry asks why_not() before it builds
    return grip


def _bearing_mm(grip: Overhang, slot_mm: float) -> float:
    """Return how wide a prong is: enough to carry, and its web beside a swollen handle."""
    beside = (grip.handle_x_mm - slot_mm) / 2 + CLEAR_MM + WEB_MM
    return min(max(MOST_BEARING_MM, beside), (grip.head_x_mm - slot_mm) / 2)


def _prong(x: float, bearing: float, lip_y: float, *, p: Params, plate_mm: float) -> list[Solid]:
    """Return the prong from the slot's edge at ``x`` out by the signed ``bearing``."""
    left, right = sorted((x, x + bearing))
    outer = x + bearing
    # the web keeps to the outside, so that a neck which swells lower down has room
    web = sorted((outer, outer - (WEB_MM if bearing > 0.0 else -WEB_MM)))
    return [
        _plan(x, bearing, y0=0.0, lip_y=lip_y, z0=-p.prong_mm, z1=0.0),
        _plan(x, bearing, y0=lip_y, lip_y=lip_y, z0=-p.prong_mm, z1=p.lip_mm),
        gusset(web[0], web[1], plate_mm=plate_mm, reach_mm=lip_y - plate_mm, z_mm=-p.prong_mm),
        cove(left, right, plate_mm=plate_mm, z_mm=-p.prong_mm),
    ]


def _plan(x: float, bearing: float, *, y0: float, lip_y: float, z0: float, z1: float) -> Solid:
    """Return a prong from y0 to its end, with the mouth of the slot flared."""
    flare = FLARE_MM if bearing > 0.0 else -FLARE_MM
    end = lip_y + LIP_MM
    corners = [
        (x, y0),
        (x + bearing, y0),
        (x + bearing, end),
        (x + flare, end),
        (x, end - FLARE_MM),
    ]
    return prism(polygon(corners if bearing > 0.0 else corners[::-1]), z1 - z0).moved(0.0, 0.0, z0)


def refuses(tool: ToolBody) -> str | None:
    """Return why a tool with a head cannot hang here, or None."""
    grip = _grip(tool)
    overhang = (grip.head_x_mm - grip.neck_x_mm) / 2
    if overhang < LEAST_OVERHANG_MM:
        return (
            f"its head reaches only {overhang:g} mm over its neck on each side, and less than "
            f"{LEAST_OVERHANG_MM:g} mm does not rest safely on a prong"
        )
    if grip.head_x_mm < grip.handle_x_mm + 2 * (CLEAR_MM + WEB_MM) + MOST_PLAY_MM:
        return (
            f"its handle swells to {grip.handle_x_mm:g} mm, which leaves no room for webs beside "
            f"it under a head of {grip.head_x_mm:g} mm"
        )
    if grip.neck_length_mm < LEAST_NECK_MM:
        return (
            f"its neck keeps its size for {grip.neck_length_mm:g} mm only, and the slot must pass "
            f"{LEAST_NECK_MM:g} mm of it while the head is lifted over the lip"
        )
    return None


FAMILY = Family(
    name="fork",
    title="Two prongs on which a head rests, its neck between them",
    grip=Overhang,
    params=Params,
    build=build,
    refuses=refuses,
)
