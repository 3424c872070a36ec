"""Two prongs under the body of a drill, its handle between them; they lean up to the front.

seen from above                   seen from the side

═════════ plate ═════════         ║plate  ┌─────────────┬──┐ chuck
  │  │             │  │           ║ ┌─────┤    body  ___├──┘
  │  │  ┌───────┐  │  │           ║ │   __└──┬──┬────╱      ← prong tops lean by tilt
  │  │  │handle │  │  │           ║─────╱    │  │   ╱       ← 45-degree underside
  │  │  └───────┘  │  │           ║ ╲ ◇       │  │ ╱
  └──┘╲           ╱└──┘           ║   ╲       │  │╱
     slot = handle + play         ║     ╲   ┌─┴──┴──┐ foot
                                   way out: up until its rear end passes the prongs, then out

Whatever lies in front of the body is no part of the grip, so nothing can stand up before it.
The lean keeps the tool: to the front it would have to climb, and it slides back to the wall.
"""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.mark_room import has_room, mark_below
from cleatwright.features.outward import group_leading, slim_row
from cleatwright.holders.families.pistol_grip_fork.prongs import (
    EDGE_MM,
    WEB_MM,
    ProngPlan,
    plan_prongs,
    prongs,
    room_below_mm,
    seated,
)
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import PistolGrip
from cleatwright.parts.holder import Front, Seat, front_mark
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Union

# play and correction that a slot may get at most
MOST_PLAY_MM = 2.0
LEAST_OVERHANG_MM = 6.0
# longer prongs bend their plate and stand in the way
FARTHEST_MM = 190.0
HEAVIEST_KG = 6.0
ROOM_MM = 2.0
STEEPEST_DEG, FLATTEST_DEG = 10.0, 4.0


class Params(FamilyParams):
    """What can be chosen about prongs for a body over a handle."""

    tilt_deg: float = Field(
        default=6.0,
        ge=FLATTEST_DEG,
        le=STEEPEST_DEG,
        description="the lean keeps the tool; more of it means a longer lift",
    )
    lift_mm: float = Field(
        default=2.0, ge=1.0, le=6.0, description="room above the prongs on the way"
    )


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of tools with a body over a handle."""
    grips = [tool.body.needed_grip(PistolGrip) for tool in group]
    sizes = [tool.size("slot", g.handle_x_mm) for tool, g in zip(group, grips, strict=True)]
    plans = [
        plan_prongs(tool.body, g, slot_mm=size.made_mm, tilt_deg=p.tilt_deg, plate_mm=ctx.plate_mm)
        for tool, g, size in zip(group, grips, sizes, strict=True)
    ]
    line = slim_row(
        [tool.body.width_mm for tool in group],
        [2 * plan.outer_mm for plan in plans],
        gap_mm=ctx.hand_room_mm,
    )
    reach = max(plan.reach_mm for plan in plans)
    seats: list[Seat] = []
    for tool, grip, plan, size, x in zip(group, grips, plans, sizes, line.centres_mm, strict=True):
        pose = seated(grip, tilt_deg=p.tilt_deg, axis_mm=plan.axis_mm).then(shift(x))
        # the tool's rear end begins CLEAR in front of the plate
        moves = ((0.0, 0.0, plan.lift_mm + p.lift_mm), (0.0, reach - ctx.plate_mm, 0.0))
        seats.append(Seat(tool.body, pose, moves, (size,)))
    low = min(plan.low_mm for plan in plans)
    widest = max(range(len(plans)), key=lambda i: plans[i].web_mm)
    x, bay = line.centres_mm[widest], plans[widest]
    mark, plate_low = mark_below(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm)
    if has_room(2 * bay.web_mm, bay.roof_mm - bay.low_mm):
        plate_low = low
        mark = front_mark(
            x - bay.web_mm, x + bay.web_mm, z0=bay.low_mm, z1=bay.roof_mm, y_mm=ctx.plate_mm
        )
    high = max(plan.top_mm(plan.reach_mm) for plan in plans)
    return Front(
        solid=Union(
            tuple(prongs(plan).moved(x) for plan, x in zip(plans, line.centres_mm, strict=True))
        ),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=0.0,
        reach_mm=reach,
        low_mm=low,
        high_mm=high,
        seats=tuple(seats),
        genus=sum(2 for plan in plans if plan.window_mm),
        min_wall_mm=min(WEB_MM, EDGE_MM),
        mark_place=mark,
        leading=group_leading([grip.handle_x_mm for grip in grips]),
        also=("on-its-back",),
    )


def _worst(tool: ToolBody, grip: PistolGrip) -> ProngPlan:
    """Return the prongs with the most lift and the widest slot."""
    wide = grip.handle_x_mm + MOST_PLAY_MM
    return plan_prongs(tool, grip, slot_mm=wide, tilt_deg=STEEPEST_DEG, plate_mm=0.0)


def refuses(tool: ToolBody) -> str | None:
    """Return why a tool with a body over a handle cannot lie here, or None."""
    grip = tool.needed_grip(PistolGrip)
    overhang = (grip.body_x_mm - grip.handle_x_mm) / 2
    if overhang < LEAST_OVERHANG_MM:
        return (
            f"its body reaches only {said.mm(overhang)} over its handle on each side, and less "
            f"than {said.mm(LEAST_OVERHANG_MM)} does not rest safely on a prong"
        )
    if tool.mass_kg > HEAVIEST_KG:
        most = said.mass(HEAVIEST_KG, ".2g")
        return f"its mass of {said.mass(tool.mass_kg, '.1f')} is more than {most}"
    plan = _worst(tool, grip)
    if plan.reach_mm > FARTHEST_MM:
        return (
            f"its body reaches so far behind its handle that the prongs would be "
            f"{said.mm(plan.reach_mm, '.0f')} long, and {said.mm(FARTHEST_MM)} is the most"
        )
    weight = seated(grip, tilt_deg=STEEPEST_DEG, axis_mm=plan.axis_mm).apply(tool.com_mm)[1]
    if not plan.rear_mm < weight < plan.reach_mm - CLEAR_MM:
        return "its weight does not lie over the prongs, and it would tip off them"
    if room_below_mm(plan, tool, grip) < ROOM_MM:
        return (
            f"its handle is only {said.mm(grip.handle_length_mm)} long, and what is wider below it "
            "would meet the prongs when it is lifted out"
        )
    return None


FAMILY = Family(
    name="pistol-grip-fork",
    title="Two prongs under the body of a drill, its handle between them",
    grip=PistolGrip,
    params=Params,
    build=build,
    refuses=refuses,
)
