"""One bar along the wall, over which clamps hang by their fixed jaw, their own bar before it.

seen from the front              section through a clamp

┌─┬───────┬─────────┬─┐          ║plate ┌───────┐
│ │ ┌───┐ │ ┌─────┐ │ │          ║      │ arm ┌─┤
│ │ │   │ │ │     │ │ │          ║      └┬─╱┐ │ │  ← the arm rests on the bar, whose front edge
│ │ │   │ │ │     │ │ │          ║   nose └─╲│ │     is z = 0; its top falls to the wall
│ web   bay         web          ║       bar ╲ │
                                 ║  webs     ╱│ │  ← the clamp's own bar
    way out: up until the nose is over the front edge, then out

The way to the front is free only when the clamp's own bar hangs before the bar of the
holder. It leans to the front by some degrees; so it slides back to the wall by its weight.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.outward import MARK_BAND_MM, group_leading, low_mark
from cleatwright.holders.families.clamp_bar.clamp_rest import (
    BRIDGE_MM,
    WEB_MM,
    ClampRest,
    bays,
    leaning,
    rear_mm,
    straight_mm,
)
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import HookedArm
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.statics.arm_strength import LASTING_MPA, flat_root_mpa

LEAST_BAR_MM = 8.0
LONGEST_MM = 150.0
# play and correction of a loose fit by a rough printer, and the widest hand room
MOST_PLAY_MM, MOST_APART_MM = 1.2, 30.0
LEAST_HEIGHT_MM, MOST_HEIGHT_MM = 10.0, 16.0
MOST_LEAN_DEG = 4.0
MOST_LIFT_MM = 3.0


class Params(FamilyParams):
    """What can be chosen about a clamp bar."""

    bar_mm: float = Field(default=14.0, ge=LEAST_BAR_MM, le=24.0, description="depth that carries")
    height_mm: float = Field(
        default=12.0, ge=LEAST_HEIGHT_MM, le=MOST_HEIGHT_MM, description="a low bar bends"
    )
    lean_deg: float = Field(
        default=3.0, ge=2.0, le=MOST_LEAN_DEG, description="slides back, yet is soon lifted off"
    )
    lift_mm: float = Field(
        default=1.0, ge=0.5, le=MOST_LIFT_MM, description="room above the front edge"
    )


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of clamps."""
    grips = [tool.body.needed_grip(HookedArm) for tool in group]
    sizes = [_sizes(tool, grip) for tool, grip in zip(group, grips, strict=True)]
    apart = max(ctx.hand_room_mm, WEB_MM + 2 * CLEAR_MM)
    places = bays([tool.body.width_mm for tool in group], apart_mm=apart)
    behind = [
        max(room[0].made_mm, -rear_mm(tool.body, leaning(grip, p.lean_deg)))
        for tool, grip, room in zip(group, grips, sizes, strict=True)
    ]
    last_x, last_clear = places[-1]
    rest = ClampRest(
        bays=places,
        width_mm=last_x + last_clear / 2 + WEB_MM,
        plate_mm=ctx.plate_mm,
        front_y=ctx.plate_mm + CLEAR_MM + max(behind),
        bar_mm=min(
            p.bar_mm,
            *(
                straight_mm(bar.made_mm, grip, lean_deg=p.lean_deg)
                for (_, bar), grip in zip(sizes, grips, strict=True)
            ),
        ),
        height_mm=p.height_mm,
        lean_deg=p.lean_deg,
    )
    seats = tuple(
        _seat(tool.body, pair, rest, x=x, lift_mm=p.lift_mm)
        for tool, pair, (x, _) in zip(group, sizes, places, strict=True)
    )
    low = rest.low_mm - MARK_BAND_MM
    return Front(
        solid=rest.solid,
        width_mm=rest.width_mm,
        plate_low_mm=low,
        plate_high_mm=0.0,
        reach_mm=rest.reach_mm,
        low_mm=rest.low_mm,
        high_mm=0.0,
        seats=seats,
        genus=len(places),
        min_wall_mm=min(WEB_MM, rest.bar_mm - rest.height_mm * rest.slope),
        mark_place=low_mark(rest.width_mm, low_mm=low, plate_mm=ctx.plate_mm),
        leading=group_leading([grip.reach_mm for grip in grips]),
    )


def _sizes(tool: FittedTool, grip: HookedArm) -> tuple[Size, Size]:
    """Return the room between the plate and the front edge, and the bar before the nose."""
    play, correction = tool.fit.play_mm, tool.fit.correction_mm
    bar = Size("bar", grip.reach_mm - grip.nose_y_mm, -play, -correction)
    return tool.size("room for the arm", grip.reach_mm), bar


def _seat(
    tool: ToolBody, sizes: tuple[Size, Size], rest: ClampRest, *, x: float, lift_mm: float
) -> Seat:
    grip = tool.needed_grip(HookedArm)
    pose = leaning(grip, rest.lean_deg).then(shift(x, rest.front_y, 0.0))
    up = grip.reach_mm * math.sin(math.radians(rest.lean_deg)) + grip.nose_mm + lift_mm
    moves = ((0.0, 0.0, up), (0.0, rest.reach_mm + CLEAR_MM - rear_mm(tool, pose), 0.0))
    return Seat(tool, pose, moves, sizes)


def refuses(tool: ToolBody) -> str | None:
    """Return why a clamp cannot hang here, or None."""
    grip = tool.needed_grip(HookedArm)
    lean = math.radians(MOST_LEAN_DEG)
    bar = grip.reach_mm - grip.nose_y_mm - MOST_PLAY_MM - grip.nose_mm * math.tan(lean)
    if bar < LEAST_BAR_MM:
        return (
            f"its arm leaves {said.mm(bar, '.1f')} between its bar and its nose, and the bar that "
            f"carries it needs {said.mm(LEAST_BAR_MM)}"
        )
    if grip.reach_mm > LONGEST_MM:
        return (
            f"its arm reaches {said.mm(grip.reach_mm)}, and webs for more than "
            f"{said.mm(LONGEST_MM)} are too large for their load"
        )
    up = grip.reach_mm * math.sin(lean) + grip.nose_mm + MOST_LIFT_MM
    arch = max(0.0, tool.width_mm - BRIDGE_MM) / 2
    needed = (MOST_HEIGHT_MM + arch + up + CLEAR_MM) / math.cos(lean)
    if grip.free_mm < needed:
        return (
            f"it has {said.mm(grip.free_mm)} free below its arm, and it takes "
            f"{said.mm(needed, '.0f')} to lift it off: open its jaws as wide as that when it is "
            "put away"
        )
    # a bar that is built in at both webs, the load in its middle: F l / 8
    lever = (tool.width_mm + MOST_APART_MM - WEB_MM) / 8
    stress = flat_root_mpa(
        tool.mass_kg, lever_mm=lever, width_mm=LEAST_BAR_MM, height_mm=LEAST_HEIGHT_MM
    )
    if stress > LASTING_MPA:
        return (
            f"its {said.mass(tool.mass_kg, '.2g')} bend the bar too much ({stress:.1f} MPa, "
            f"{LASTING_MPA:g} MPa for years)"
        )
    return None


FAMILY = Family(
    name="clamp-bar",
    title="Bar along the wall, over which clamps hang by their fixed jaw",
    grip=HookedArm,
    params=Params,
    build=build,
    refuses=refuses,
)
