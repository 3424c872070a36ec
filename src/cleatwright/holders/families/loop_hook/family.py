"""One narrow hook per tool with an upturned tip, for small loops, rings and straps.

seen from the front           section along the hook

     ╭───────╮                ║plate             ╱│ ← tip
    ╱  ╭───╮  ╲ ← loop        ║   ┌────┐        ╱ │
    │ ╭╯   ╰╮ │               ║╲__│loop│_______╱ ╱  ← crown, z = 0
    │ │ ╭─╮ │ │               ║             __╱ ╱
    │ │ │ │ │ │ ← hook        ║ __──''‾‾‾‾‾‾
    │ ╰╮╰─╯╭╯ │               ║╱ root
    ╰──╰───╯──╯                way out: up over the tip, then out
    width <= half the opening
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM, up_and_out
from cleatwright.features.outward import MARK_BAND_MM, arm, group_leading, low_mark, slim_row
from cleatwright.holders.families.loop_hook.hook_arm import BROKEN, EDGE_MM, LIP_MM, HookArm
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Loop
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Union
from cleatwright.statics.arm_strength import LASTING_MPA, flat_root_mpa

LEAST_OPENING_MM = 10.0
LONGEST_MM = 90.0
# a heavier hose, cable or strap kinks over so narrow a hook (common practice, no source)
MOST_KG = 0.4
# of the opening; what is left is room for the depth of the hook
WIDTH_SHARE, TIP_SHARE, LIFT_SHARE = 0.5, 0.25, 0.06
# the root widens on each side by as much, and stays within the opening
FLARE_SHARE, MOST_FLARE_MM = 0.14, 2.5
# depth where the tip begins, of the width, and how much deeper the root is for each mm out
DEPTH_SHARE, DEEPER = 0.9, 0.3


class Params(FamilyParams):
    """What can be chosen about loop hooks."""

    hook_mm: float = Field(default=12.0, ge=8.0, le=20.0, description="a narrow hook cuts straps")
    tip_mm: float = Field(default=7.0, ge=4.0, le=12.0, description="keeps a loop that swings")
    lift_mm: float = Field(default=1.0, ge=0.5, le=2.0, description="room above the tip")


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of small loops."""
    arms = [_plan(tool, p, plate_mm=ctx.plate_mm) for tool in group]
    line = slim_row(
        [tool.body.width_mm for tool in group],
        [one.width_mm + 2 * one.flare_mm for one in arms],
        gap_mm=ctx.hand_room_mm,
    )
    reach = max(one.end_y for one in arms)
    seats = tuple(
        Seat(
            tool.body,
            shift(x, one.axis_y, -tool.body.needed_grip(Loop).z_mm),
            up_and_out(
                tool.body, up_mm=one.tip_mm + one.lift_mm, axis_mm=one.axis_y, reach_mm=reach
            ),
            (tool.size("hook length", tool.body.needed_grip(Loop).bundle_mm),),
            swings=True,
        )
        for tool, one, x in zip(group, arms, line.centres_mm, strict=True)
    )
    below = min(one.low_mm for one in arms)
    low = below - MARK_BAND_MM
    return Front(
        solid=Union(
            tuple(
                arm(one.sections(ctx.plate_mm), x)
                for one, x in zip(arms, line.centres_mm, strict=True)
            )
        ),
        width_mm=line.width_mm,
        plate_low_mm=low,
        # a plate that ended at the crown would touch it in a single point
        plate_high_mm=CLEAR_MM,
        reach_mm=reach,
        low_mm=below,
        high_mm=max(CLEAR_MM, *(one.tip_mm for one in arms)),
        seats=seats,
        genus=0,
        min_wall_mm=LIP_MM - EDGE_MM,
        mark_place=low_mark(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm),
        leading=group_leading([_opening_mm(tool.body.needed_grip(Loop)) for tool in group]),
        print_pose="on-its-back",
    )


def _opening_mm(grip: Loop) -> float:
    """Return the circle that counts as the opening, which hangs from its inner top."""
    return min(grip.width_mm, grip.height_mm)


def _plan(tool: FittedTool, p: Params, *, plate_mm: float) -> HookArm:
    """Return a hook that passes the opening, also when the loop is lifted over its tip."""
    grip = tool.body.needed_grip(Loop)
    opening = _opening_mm(grip)
    length = tool.size("hook length", grip.bundle_mm).made_mm
    width = min(p.hook_mm, WIDTH_SHARE * opening)
    tip, lift = min(p.tip_mm, TIP_SHARE * opening), min(p.lift_mm, LIFT_SHARE * opening)
    up, flare = tip + lift, min(MOST_FLARE_MM, FLARE_SHARE * opening)
    radius = (opening - (length - grip.bundle_mm)) / 2
    room, foot = (opening / 2 + _deepest_mm(radius, one) - up for one in (width, width + 2 * flare))
    end = min(room, DEPTH_SHARE * width)
    behind = max(-tool.body.extent_mm[0][1], length / 2 + flare)
    axis_y = plate_mm + CLEAR_MM + behind
    tip_y = axis_y + length / 2
    root = min(room, end + DEEPER * (tip_y - plate_mm))
    return HookArm(width, flare, min(foot, root + flare), root, end, axis_y, tip_y, tip, lift)


def _deepest_mm(radius_mm: float, width_mm: float) -> float:
    """Return how far below the middle of a circle the underside of a hook may lie."""
    half, broken = width_mm / 2, BROKEN * width_mm
    return min(
        math.sqrt(radius_mm**2 - half**2) + broken,
        math.sqrt(radius_mm**2 - (half - broken) ** 2),
    )


def refuses(tool: ToolBody) -> str | None:
    """Return why a loop cannot hang here, or None."""
    grip = tool.needed_grip(Loop)
    if _opening_mm(grip) < LEAST_OPENING_MM:
        return (
            f"its opening of {said.number(grip.width_mm)} by {said.mm(grip.height_mm)} is smaller "
            f"than a hook needs, which is {said.mm(LEAST_OPENING_MM)} both ways"
        )
    if grip.bundle_mm > LONGEST_MM:
        return (
            f"it is {said.mm(grip.bundle_mm)} thick, and a hook for more than "
            f"{said.mm(LONGEST_MM)} bends"
        )
    if tool.mass_kg > MOST_KG:
        return (
            f"its {said.mass(tool.mass_kg, '.2g')} are more than the {said.mass(MOST_KG, '.2g')} "
            "that a narrow hook takes without a kink in what hangs over it: choose a wide saddle"
        )
    slim = Params(hook_mm=8.0, tip_mm=12.0, lift_mm=2.0)
    one = _plan(FittedTool(tool, Fit(0.8, 0.3)), slim, plate_mm=0.0)
    stress = flat_root_mpa(
        tool.mass_kg, lever_mm=one.axis_y, width_mm=one.width_mm, height_mm=one.root_mm
    )
    if stress > LASTING_MPA:
        return (
            f"its {said.mass(tool.mass_kg, '.2g')} are too much for a hook "
            f"{said.mm(one.width_mm, '.1f')} wide ({stress:.1f} MPa at the root, "
            f"{LASTING_MPA:g} MPa for years)"
        )
    return None


FAMILY = Family(
    name="loop-hook",
    title="Narrow hooks with an upturned tip, for small loops, rings and straps",
    grip=Loop,
    params=Params,
    build=build,
    refuses=refuses,
)
