"""A covered pocket for each blade that points down; what is wider above rests on its rim.

seen from above                     section through a pocket

══════════════ plate ═════════      ║plate   stop
 ╲ ┌────────┐ ╱    ╲ ┌────┐ ╱       ║──┐  ──┬─┬──    ← rim, z = 0
  ││ relief │ │     │└────┘ │       ║  │ │  │b│  │
  │└────────┘ │     │┌────┐ │       ║  │ │  │l│  │    pocket = blade + play
  │┌────────┐ │     │└────┘ │       ║  ╱ │  └─┘  │    tip: room below the edge
  │└────────┘ │     └───────┘       ║ ╱  ╱└─────╱
  └───────────┘                     ║╱| ╱ | ╱         45-degree floor with two drains
   wall                              way out: up by the blade's length, then out

The edge is covered on all sides; the drains are smaller than a finger tip.
"""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM, up_and_out
from cleatwright.features.footed import footed_row
from cleatwright.features.mark_room import has_room, mark_below
from cleatwright.features.outward import group_leading
from cleatwright.holders.families.blade_sheath.sheath import (
    LEAD_IN_MM,
    ROOT_MM,
    ROUND_MM,
    SheathPlan,
    sheath,
)
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Blade
from cleatwright.parts.holder import Front, MarkPlace, Seat, front_mark
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Union

THINNEST_MM, THICKEST_MM = 0.8, 40.0
WIDEST_MM = 120.0
SHORTEST_MM = 15.0
# a sheath is 20 to 60 mm higher than its blade, and common printers build 210 to 250 mm high
LONGEST_MM = 180.0
# each side of a stop on the rim, so that a loose fit and the lead-in still leave a ledge
LEAST_BEARING_MM = 2.5


class Params(FamilyParams):
    """What can be chosen about blade sheaths."""

    wall_mm: float = Field(
        default=2.7, ge=1.8, le=6.0, description="an edge must not cut through it"
    )
    floor_mm: float = Field(
        default=3.0, ge=2.4, le=8.0, description="a dropped blade must not punch through"
    )
    tip_mm: float = Field(
        default=3.0, ge=1.5, le=15.0, description="room below, so that the edge touches nothing"
    )
    lift_mm: float = Field(
        default=1.0, ge=0.5, le=10.0, description="room above the rim on the way"
    )


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of blades."""
    grips = [tool.body.needed_grip(Blade) for tool in group]
    sizes = [
        (tool.size("pocket width", g.width_mm), tool.size("pocket depth", g.thickness_mm))
        for tool, g in zip(group, grips, strict=True)
    ]
    pockets = [
        _pocket(tool.body, grip, pair, p, ctx)
        for tool, grip, pair in zip(group, grips, sizes, strict=True)
    ]
    line = footed_row(
        [tool.body.width_mm for tool in group],
        [2 * pocket.half_mm for pocket in pockets],
        gap_mm=ctx.hand_room_mm,
        apart_mm=2 * ROOT_MM + 1.0,
        margin_mm=ROOT_MM,
    )
    reach = max(pocket.front_mm for pocket in pockets)
    seats: list[Seat] = []
    for tool, grip, x, pocket, pair in zip(
        group, grips, line.centres_mm, pockets, sizes, strict=True
    ):
        moves = up_and_out(
            tool.body, up_mm=grip.length_mm + p.lift_mm, axis_mm=pocket.axis_mm, reach_mm=reach
        )
        seats.append(Seat(tool.body, shift(x, pocket.axis_mm, -grip.z_mm), moves, pair))
    low = min(pocket.low_mm for pocket in pockets)
    mark, plate_low = _mark(pockets, line.centres_mm, line.width_mm, low_mm=low)
    return Front(
        solid=Union(
            tuple(sheath(one).moved(x) for one, x in zip(pockets, line.centres_mm, strict=True))
        ),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=0.0,
        reach_mm=reach,
        low_mm=low,
        high_mm=0.0,
        seats=tuple(seats),
        genus=sum(1 + pocket.relieved for pocket in pockets),
        min_wall_mm=min(p.wall_mm, p.floor_mm),
        mark_place=mark,
        leading=group_leading([grip.width_mm for grip in grips]),
    )


def _pocket(
    tool: ToolBody, grip: Blade, made: tuple[Size, Size], p: Params, ctx: BuildContext
) -> SheathPlan:
    wide, deep = made[0].made_mm, made[1].made_mm
    behind = max(-tool.extent_mm[0][1], deep / 2 + p.wall_mm)
    return SheathPlan(
        wide_mm=wide,
        deep_mm=deep,
        down_mm=grip.length_mm + p.tip_mm,
        axis_mm=ctx.plate_mm + CLEAR_MM + behind,
        plate_mm=ctx.plate_mm,
        wall_mm=p.wall_mm,
        floor_mm=p.floor_mm,
    )


def _mark(
    pockets: Sequence[SheathPlan], xs: Sequence[float], width_mm: float, *, low_mm: float
) -> tuple[MarkPlace, float]:
    """Return a place on the front of the widest pocket or below, and how low the plate must be."""
    i = max(range(len(pockets)), key=lambda k: pockets[k].half_mm)
    one, half = pockets[i], pockets[i].half_mm - ROUND_MM
    z0, z1 = one.front_mm - one.knee_mm, -LEAD_IN_MM
    if has_room(2 * half, z1 - z0):
        return front_mark(xs[i] - half, xs[i] + half, z0=z0, z1=z1, y_mm=one.front_mm), low_mm
    return mark_below(width_mm, low_mm=low_mm, plate_mm=one.plate_mm)


def refuses(tool: ToolBody) -> str | None:
    """Return why a blade cannot go into a sheath, or None."""
    grip = tool.needed_grip(Blade)
    if not SHORTEST_MM <= grip.length_mm <= LONGEST_MM:
        return (
            f"its blade of {said.mm(grip.length_mm)} is outside the {said.number(SHORTEST_MM)} to "
            f"{said.mm(LONGEST_MM)} for which a sheath can be printed"
        )
    if not THINNEST_MM <= grip.thickness_mm <= THICKEST_MM or grip.width_mm > WIDEST_MM:
        return (
            f"its blade of {said.number(grip.width_mm)} by {said.mm(grip.thickness_mm)} is outside "
            f"what a sheath takes: up to {said.most(WIDEST_MM)} wide, {said.number(THINNEST_MM)} "
            f"to {said.mm(THICKEST_MM)} thick"
        )
    bearing = max(grip.stop_x_mm - grip.width_mm, grip.stop_y_mm - grip.thickness_mm) / 2
    if bearing < LEAST_BEARING_MM:
        return (
            f"what is above its blade stands out by {said.mm(bearing)} on each side only, and less "
            f"than {said.mm(LEAST_BEARING_MM)} does not rest safely on a rim"
        )
    return None


FAMILY = Family(
    name="blade-sheath",
    title="Covered pockets, for blades that point down",
    grip=Blade,
    params=Params,
    build=build,
    refuses=refuses,
    guards=True,
)
