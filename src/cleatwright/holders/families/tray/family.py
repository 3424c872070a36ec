"""One tray per box: a floor on webs, low side walls and a lower lip in front.

seen from the left                   seen from above

   ║──────╲                          ══════ plate ══════
   ║ side  ╲_____                    │ │            │ │
   ║          ╱  │ ← lip             │ │  ◇ ◇ ◇ ◇   │ │  tray = footprint + play
   ║─────────╱   │ ← z = 0           │ └────────────┘ │  floor with openings
   ║─────────────┘ ← floor           ╲────────────────╱  outside edges broken: a box's
   ║──── webs                                           own corners are sharp
   way out: up over the lip, then out
"""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM, up_and_out
from cleatwright.features.footed import footed_row
from cleatwright.features.mark_room import has_room, mark_below
from cleatwright.features.outward import group_leading
from cleatwright.holders.families.tray.trays import TrayPlan, trays
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Footprint
from cleatwright.parts.holder import Front, Seat, front_mark
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.rigid import shift

SMALLEST_MM = 20.0
SIDE_SHARE = 0.6


class Params(FamilyParams):
    """What can be chosen about trays."""

    lip_mm: float = Field(
        default=6.0, ge=4.0, le=12.0, description="keeps a box, yet is soon lifted over"
    )
    side_mm: float = Field(
        default=14.0, ge=4.0, le=60.0, description="higher sides only cost material"
    )
    wall_mm: float = Field(
        default=2.7, ge=1.8, le=8.0, description="two printed lines on each side"
    )
    floor_mm: float = Field(default=4.0, ge=3.0, le=12.0, description="thinner floors bend")
    web_mm: float = Field(default=3.0, ge=1.8, le=5.0, description="must fit between two openings")
    lift_mm: float = Field(
        default=1.0, ge=0.5, le=10.0, description="room above the lip on the way"
    )


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of boxes."""
    grips = [tool.body.needed_grip(Footprint) for tool in group]
    sizes = [
        (tool.size("tray width", g.width_mm), tool.size("tray depth", g.depth_mm))
        for tool, g in zip(group, grips, strict=True)
    ]
    line = footed_row(
        [tool.body.width_mm for tool in group],
        [wide.made_mm + 2 * p.wall_mm for wide, _ in sizes],
        gap_mm=ctx.hand_room_mm,
        apart_mm=1.0,
        margin_mm=0.0,
    )
    plans: list[TrayPlan] = []
    axes: list[float] = []
    for tool, grip, (wide, deep) in zip(group, grips, sizes, strict=True):
        back = max(deep.made_mm / 2, tool.fit.play_mm / 2 - tool.body.extent_mm[0][1])
        axes.append(ctx.plate_mm + back)
        plans.append(
            TrayPlan(
                width_mm=wide.made_mm,
                front_mm=axes[-1] + deep.made_mm / 2,
                back_mm=axes[-1] - deep.made_mm / 2,
                plate_mm=ctx.plate_mm,
                floor_mm=p.floor_mm,
                wall_mm=p.wall_mm,
                lip_mm=p.lip_mm,
                side_mm=_side_mm(grip, p),
            )
        )
    reach = max(plan.reach_mm for plan in plans)
    up = p.lip_mm + p.lift_mm
    seats: list[Seat] = []
    for tool, grip, size, x, y in zip(group, grips, sizes, line.centres_mm, axes, strict=True):
        moves = up_and_out(tool.body, up_mm=up, axis_mm=y, reach_mm=reach)
        seats.append(Seat(tool.body, shift(x, y, -grip.z_mm), moves, size))
    low = -p.floor_mm - max(plan.web_mm for plan in plans)
    high = max(plan.side_mm for plan in plans)
    widest = max(range(len(plans)), key=lambda i: plans[i].width_mm)
    x, face = line.centres_mm[widest], plans[widest]
    place, plate_low = mark_below(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm)
    if has_room(face.width_mm, p.lip_mm + p.floor_mm):
        half, plate_low = face.width_mm / 2, low
        place = front_mark(x - half, x + half, z0=-p.floor_mm, z1=p.lip_mm, y_mm=face.reach_mm)
    return Front(
        solid=trays(plans, line.centres_mm, web_mm=p.web_mm),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=high,
        reach_mm=reach,
        low_mm=low,
        high_mm=high,
        seats=tuple(seats),
        genus=sum(len(plan.openings) for plan in plans),
        min_wall_mm=min(p.wall_mm, p.floor_mm, p.web_mm),
        mark_place=place,
        leading=group_leading([grip.width_mm for grip in grips]),
        print_pose="on-its-back",
    )


def _side_mm(grip: Footprint, p: Params) -> float:
    side = min(p.side_mm, SIDE_SHARE * grip.height_mm)
    return side if side > p.lip_mm + CLEAR_MM else p.lip_mm


def refuses(tool: ToolBody) -> str | None:
    """Return why a box cannot stand here, or None."""
    grip = tool.needed_grip(Footprint)
    least = min(grip.width_mm, grip.depth_mm, grip.height_mm)
    if least < SMALLEST_MM:
        return (
            f"its smallest side of {said.mm(least)} is less than the {said.mm(SMALLEST_MM)} of a "
            "tray"
        )
    return None


FAMILY = Family(
    name="tray",
    title="Trays with a low lip, for boxes that stand upright",
    grip=Footprint,
    params=Params,
    build=build,
    refuses=refuses,
)
