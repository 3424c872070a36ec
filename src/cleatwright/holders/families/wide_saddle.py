"""Arm with a wide saddle and an upturned tip, for coils and loops that hang by their opening.

seen from the front            section along the arm
      ___________              ║plate          ╱│  ← tip
   ╱               ╲           ║______________╱ │
  │  ╱ saddle    ╲  │          ║───────────────╱   ← saddle's crown, z = 0
  │ │   │web│web  │ │          ║          ╱
  │  ╲_         _╱  │          ║ webs  ╱           ← inside the opening
   ╲_______________╱           ║     ╱
     crown radius = 0.6 width     way out: up over the tip, then out
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM, up_and_out
from cleatwright.features.outward import MARK_BAND_MM, group_leading, low_mark, slim_row
from cleatwright.features.saddle import (
    CROWN,
    DROP,
    EDGE_MM,
    LEAST_ARM_MM,
    LIP_MM,
    SHELL_FALL_MM,
    WEB_MM,
    SaddleArm,
    web_top_mm,
)
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Loop
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Union

LEAST_OPENING_MM = 34.0
# a tip that rises by a larger share of the opening leaves no room to lift the loop over it
MOST_TIP = 0.2


class Params(FamilyParams):
    """What can be chosen about wide saddles."""

    saddle_mm: float = Field(
        default=50.0, ge=LEAST_ARM_MM, le=120.0, description="a narrow saddle kinks hoses"
    )
    tip_mm: float = Field(default=8.0, ge=5.0, le=14.0, description="keeps a loop on the arm")
    lift_mm: float = Field(default=1.0, ge=0.5, le=2.0, description="room above the tip")


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of loops."""
    grips = [tool.body.needed_grip(Loop) for tool in group]
    sizes = [
        tool.size("arm length", grip.bundle_mm) for tool, grip in zip(group, grips, strict=True)
    ]
    arms = [_arm(tool, p, plate_mm=ctx.plate_mm) for tool in group]
    line = slim_row(
        [tool.body.width_mm for tool in group],
        [arm.width_mm for arm in arms],
        gap_mm=ctx.hand_room_mm,
    )
    reach = max(arm.tip_y + arm.tip_mm + LIP_MM for arm in arms)
    seats = tuple(
        Seat(
            tool.body,
            shift(x, arm.axis_y, -grip.z_mm),
            up_and_out(tool.body, up_mm=arm.tip_mm + p.lift_mm, axis_mm=arm.axis_y, reach_mm=reach),
            (size,),
        )
        for tool, grip, x, arm, size in zip(group, grips, line.centres_mm, arms, sizes, strict=True)
    )
    arm_low = min(arm.low_mm for arm in arms)
    low = arm_low - MARK_BAND_MM
    return Front(
        solid=Union(
            tuple(
                piece
                for x, arm in zip(line.centres_mm, arms, strict=True)
                for piece in arm.solids(x, plate_mm=ctx.plate_mm)
            )
        ),
        width_mm=line.width_mm,
        plate_low_mm=low,
        # a plate that ended at the crown would touch it in a single point
        plate_high_mm=CLEAR_MM,
        reach_mm=reach,
        low_mm=arm_low,
        high_mm=max(CLEAR_MM, *(arm.tip_mm for arm in arms)),
        seats=seats,
        genus=0,
        min_wall_mm=LIP_MM - EDGE_MM,
        mark_place=low_mark(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm),
        leading=group_leading([grip.width_mm for grip in grips]),
        print_pose="on-its-back",
    )


def _arm(tool: FittedTool, p: Params, *, plate_mm: float) -> SaddleArm:
    """Return an arm that passes the opening, also when the loop is lifted over the tip.

    The opening is taken as the slot with round ends within its width and height.
    """
    grip = tool.body.needed_grip(Loop)
    length = tool.size("arm length", grip.bundle_mm).made_mm
    play = length - grip.bundle_mm
    small = min(grip.width_mm, grip.height_mm)
    tip = min(p.tip_mm, MOST_TIP * small)
    up = tip + p.lift_mm
    above_middle = (small / 2 - SHELL_FALL_MM - up) / DROP
    width = min(p.saddle_mm, (small - play) / (2 * CROWN), above_middle)
    axis_y = plate_mm + CLEAR_MM + max(-tool.body.extent_mm[0][1], length / 2)
    tip_y = axis_y + length / 2
    outer = width / 4 + WEB_MM / 2
    top = web_top_mm(width)
    beyond = max(0.0, outer + CLEAR_MM - (grip.width_mm - small) / 2)
    deepest = grip.height_mm - small / 2 + math.sqrt((small / 2) ** 2 - beyond**2)
    web = min(tip_y - plate_mm, deepest - up - CLEAR_MM + top)
    return SaddleArm(width, axis_y, tip_y, tip, web, top)


def refuses(tool: ToolBody) -> str | None:
    """Return why a loop cannot hang here, or None."""
    grip = tool.needed_grip(Loop)
    small = min(grip.width_mm, grip.height_mm)
    if small < LEAST_OPENING_MM:
        return (
            f"its opening of {said.number(grip.width_mm)} by {said.mm(grip.height_mm)} is smaller "
            f"than the arm, which needs {said.mm(LEAST_OPENING_MM)} both ways"
        )
    if grip.bundle_mm > grip.height_mm:
        return (
            f"it is {said.mm(grip.bundle_mm)} thick, and an opening {said.mm(grip.height_mm)} high "
            "leaves no room for an arm that is stiff enough"
        )
    return None


FAMILY = Family(
    name="wide-saddle",
    title="Arm with a wide saddle, for coils and loops",
    grip=Loop,
    params=Params,
    build=build,
    refuses=refuses,
)
