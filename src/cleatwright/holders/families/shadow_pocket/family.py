"""A shallow pocket in the outline of each flat tool, with a deep ledge and a lip below it.

seen from the front              seen from the side

  ╭──────────╮  wall             ║plate
  │ ┌──────┐ │                   ║──┐  ← shallow wall
  │ │ tool │ ╵ finger notch      ║  │tool
  │ └─┐  ┌─┘ ╷                   ║  └─╲
  ╰─┐ │  │ ┌─╯  pocket =         ║     ╲  ledge as deep as the tool
    │ └──┘ │    outline + play   ║┐    ┌┤ ← lip, its inner face leans by 45 degrees
    ╰──────╯                     ║└────┘│ ← z = 0
                                 ║──────┘   way out: up over the lip, then out
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.footed import footed_row
from cleatwright.features.mark_room import mark_below
from cleatwright.features.outward import group_leading
from cleatwright.holders.families.shadow_pocket.pocket_plan import PocketPlan, pocket_plan
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import FlatOutline
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.outline import Outline, polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Difference, Loft, Solid, Union, across, prism

# a tool whose top is drawn forward by so much still falls back (common practice, no source)
LEAST_LEAN_DEG = 2.0
LEAST_GAP_MM = 0.05
LAND_MM = 2.4
LEDGE_MM = 8.0
NOTCH_MM = 24.0
NOTCH_SHARE = 0.3
LEAST_NOTCH_MM = 4.0
NOTCH_FLOOR_MM = 2.0
LEAST_SHALLOW_MM = 10.0
_OVER_MM = 0.01


class Params(FamilyParams):
    """What can be chosen about shadow pockets."""

    wall_mm: float = Field(default=2.4, ge=1.8, le=6.0, description="two printed lines a side")
    shallow_mm: float = Field(
        default=6.0, ge=3.0, le=30.0, description="depth above the ledge: deeper hides the tool"
    )
    lip_mm: float = Field(default=4.0, ge=3.0, le=8.0, description="kept, yet soon lifted over")
    lift_mm: float = Field(default=1.0, ge=0.5, le=4.0, description="room above the lip")


@dataclass(frozen=True)
class _Pocket:
    """The plan of one pocket and its depth as made, from the plate out."""

    plan: PocketPlan
    around: Size
    depth: Size

    def half_mm(self) -> float:
        """Return half the width of the pocket with its walls, about the axis of the tool."""
        x0, _, x1, _ = self.plan.outer.bounds
        return max(-x0, x1)


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of flat tools."""
    grips = [tool.body.needed_grip(FlatOutline) for tool in group]
    pockets = [_pocket(tool, g, p) for tool, g in zip(group, grips, strict=True)]
    line = footed_row(
        [tool.body.width_mm for tool in group],
        [2 * pocket.half_mm() for pocket in pockets],
        gap_mm=ctx.hand_room_mm,
        apart_mm=1.0,
        margin_mm=0.0,
    )
    reach = max(ctx.plate_mm + pocket.depth.made_mm for pocket in pockets) + p.lip_mm + LAND_MM
    # their weights hang in one line, so that a small tool is not drawn out far below the rail
    middle = max(tool.body.com_mm[2] for tool in group)
    rises = [middle - tool.body.com_mm[2] for tool in group]
    seats = tuple(
        Seat(
            tool.body,
            shift(
                x,
                ctx.plate_mm + (pocket.depth.made_mm - grip.thickness_mm) / 2 - grip.y_mm,
                rise - pocket.plan.drop_mm,
            ),
            (
                (0.0, 0.0, pocket.plan.drop_mm + p.lip_mm + p.lift_mm),
                (0.0, reach - ctx.plate_mm + CLEAR_MM, 0.0),
            ),
            (pocket.around, pocket.depth),
            # lifted over the lip, it rubs along the walls around it, no longer on the ledge
            rest_z_mm=middle,
        )
        for tool, grip, pocket, x, rise in zip(
            group, grips, pockets, line.centres_mm, rises, strict=True
        )
    )
    bounds = [pocket.plan.outer.bounds for pocket in pockets]
    low = min(z0 + rise for (_, z0, _, _), rise in zip(bounds, rises, strict=True))
    high = max(z1 + rise for (_, _, _, z1), rise in zip(bounds, rises, strict=True))
    place, plate_low = mark_below(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm)
    return Front(
        solid=Union(
            tuple(
                _module(pocket, p, plate_mm=ctx.plate_mm).moved(x, 0.0, rise)
                for pocket, x, rise in zip(pockets, line.centres_mm, rises, strict=True)
            )
        ),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=high,
        reach_mm=reach,
        low_mm=low,
        high_mm=high,
        seats=seats,
        genus=0,
        min_wall_mm=min(p.wall_mm, LAND_MM, NOTCH_FLOOR_MM),
        mark_place=place,
        leading=group_leading([grip.outline.bounds[3] for grip in grips]),
        print_pose="on-its-back",
    )


def _pocket(tool: FittedTool, grip: FlatOutline, p: Params) -> _Pocket:
    x0, _, x1, _ = grip.outline.bounds
    around = tool.size("pocket width", x1 - x0)
    plan = pocket_plan(
        grip.outline,
        gap_mm=max((around.made_mm - around.measured_mm) / 2, LEAST_GAP_MM),
        wall_mm=p.wall_mm,
        up_mm=p.lip_mm + p.lift_mm,
        lip_mm=p.lip_mm,
    )
    return _Pocket(plan, around, tool.size("ledge depth", grip.thickness_mm))


def _drawn(outline: Outline, y0: float, y1: float) -> Solid:
    """Return an (x, z) outline drawn out of the wall from y0 to y1."""
    return prism(outline, y1 - y0).turned("x", 90.0).moved(0.0, y1, 0.0)


def _module(pocket: _Pocket, p: Params, *, plate_mm: float) -> Solid:
    """Return one pocket in the frame of its tool."""
    hole, outer = pocket.plan.hole, pocket.plan.outer
    lip_y = plate_mm + pocket.depth.made_mm
    end = lip_y + p.lip_mm + LAND_MM
    raised = hole.moved(0.0, p.lip_mm)
    cuts = [
        _drawn(hole, plate_mm, lip_y + _OVER_MM),
        Loft(raised, hole, p.lip_mm).turned("x", 90.0).moved(0.0, lip_y + p.lip_mm, 0.0),
        _drawn(raised, lip_y + p.lip_mm - _OVER_MM, end + CLEAR_MM),
    ]
    x0, z0, x1, z1 = outer.bounds
    shallow = plate_mm + min(p.shallow_mm, pocket.depth.made_mm)
    full = z0 + p.wall_mm + p.lip_mm + LEDGE_MM
    begin = full + end - shallow
    if z1 - begin >= LEAST_SHALLOW_MM:
        top = z1 + CLEAR_MM
        profile = polygon(
            [(end + 1.0, full - 1.0), (end + 1.0, top), (shallow, top), (shallow, begin)]
        )
        cuts.append(across(profile, x0 - CLEAR_MM, x1 + CLEAR_MM))
        cuts += _notch(shallow, begin, pocket, plate_mm=plate_mm, end=end)
    return Difference(_drawn(outer, 0.0, end), tuple(cuts))


def _notch(
    shallow: float, begin: float, pocket: _Pocket, *, plate_mm: float, end: float
) -> tuple[Solid, ...]:
    """Return the cut for fingers on both sides, if there is room; its flanks lean outwards."""
    x0, _, x1, z1 = pocket.plan.outer.bounds
    low_y = plate_mm + NOTCH_FLOOR_MM
    half = min(NOTCH_MM / 2, NOTCH_SHARE * (z1 - begin - 2 * (shallow - low_y)))
    if half < LEAST_NOTCH_MM:
        return ()
    middle, flank = (begin + z1) / 2, end + CLEAR_MM - low_y
    profile = polygon(
        [
            (low_y, middle - half),
            (low_y + flank, middle - half - flank),
            (low_y + flank, middle + half + flank),
            (low_y, middle + half),
        ]
    )
    return (across(profile, x0 - CLEAR_MM, x1 + CLEAR_MM),)


def refuses(tool: ToolBody) -> str | None:
    """Return why a flat tool cannot stand here, or None."""
    grip = tool.needed_grip(FlatOutline)
    lean = math.degrees(math.atan2(grip.thickness_mm / 2, tool.com_mm[2]))
    if lean < LEAST_LEAN_DEG:
        return (
            f"it is {said.mm(grip.thickness_mm)} thick with its weight "
            f"{said.mm(tool.com_mm[2], '.0f')} up, and would tip out of a pocket that leans by "
            f"{lean:.1f} degrees"
        )
    return None


FAMILY = Family(
    name="shadow-pocket",
    title="Shallow pockets in the outline of flat tools",
    grip=FlatOutline,
    params=Params,
    build=build,
    refuses=refuses,
)
