"""Graded fins with blind bores, one per tool, for tools that stand on the end of a shaft.

seen from the front                 section through a bore

   │        │   │                   ║plate  │  │  shaft
   │       ┌┴───┴┐  ← top           ║──────╲    ╱──┐  ← lead-in
 ┌─┴─┐     │     │                  ║      │    │  │
 │   │     │     │                  ║      │    │  │  depth
 │   │     │     │  ← bore bottom   ║      └────┘  │  ← all bores end at one height
 └───┘     └─────┘                  ║╲       ||  ╱
                                    ║  ╲__   ||╱      45-degree underside, hole for dust
     bore = shaft + play             way out: up past the top, then out
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM, up_and_out
from cleatwright.features.crown import crown_bridges
from cleatwright.features.footed import footed_row
from cleatwright.features.mark_room import mark_below
from cleatwright.features.outward import group_leading
from cleatwright.holders.families.bore_block.bores import bore, round_nosed
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import ShaftEnd
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.outline import circle, polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Difference, Intersection, Solid, Union, across, prism

THINNEST_MM, THICKEST_MM = 1.2, 30.0
SHORTEST_MM = 12.0
DEEPEST_MM = 64.0
# a shaft that leans on the front wall must not be past it after a nudge of 6 mm
FRONT_MM = 6.8
# less depth than this share of its diameter lets a shaft topple
SLENDER = 0.8
LEAD_IN_MM = 1.0
MARGIN_MM = 3.0


class Params(FamilyParams):
    """What can be chosen about a bore block."""

    share: float = Field(
        default=0.4, ge=0.25, le=0.6, description="part of the shaft inside the bore"
    )
    least_mm: float = Field(
        default=8.0, ge=8.0, le=10.0, description="shallower bores let a shaft lean"
    )
    most_mm: float = Field(
        default=28.0, ge=12.0, le=60.0, description="deeper bores mean a long lift"
    )
    rim_mm: float = Field(
        default=2.7, ge=1.8, le=10.0, description="two printed lines on each side"
    )
    floor_mm: float = Field(
        default=3.0, ge=3.0, le=10.0, description="a dropped tool must not punch through"
    )
    drain_mm: float = Field(
        default=3.0, ge=2.0, le=4.0, description="dust falls out, a shaft does not"
    )
    lift_mm: float = Field(
        default=1.0, ge=0.5, le=10.0, description="room above the bore on the way"
    )


@dataclass(frozen=True)
class _Room:
    """What all fins share: the underside is the plane z = y - knee."""

    plate_mm: float
    axis_mm: float
    reach_mm: float
    knee_mm: float
    deep_mm: float

    @property
    def low_mm(self) -> float:
        return self.plate_mm - self.knee_mm


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of tools with shafts."""
    grips = [tool.body.needed_grip(ShaftEnd) for tool in group]
    sizes = [tool.size("bore", g.diameter_mm) for tool, g in zip(group, grips, strict=True)]
    depths = [_depth_mm(grip, p) for grip in grips]
    wide, deep = max(size.made_mm for size in sizes), max(depths)
    line = footed_row(
        [tool.body.width_mm for tool in group],
        [size.made_mm + 2 * p.rim_mm for size in sizes],
        gap_mm=ctx.hand_room_mm,
        apart_mm=2.0,
        margin_mm=MARGIN_MM,
    )
    behind = max(wide / 2, *(-tool.body.extent_mm[0][1] for tool in group))
    axis_y = ctx.plate_mm + CLEAR_MM + behind
    reach = axis_y + max(FRONT_MM, wide / 2 + p.rim_mm)
    # the slope passes the front corner of the widest bore at a distance of floor
    knee = axis_y + wide / 2 + deep + p.floor_mm * math.sqrt(2.0)
    room = _Room(ctx.plate_mm, axis_y, reach, knee, deep)
    pieces: list[Solid] = []
    seats: list[Seat] = []
    for tool, grip, x, size, depth in zip(
        group, grips, line.centres_mm, sizes, depths, strict=True
    ):
        pieces.append(_fin(size.made_mm, depth, p, room, drained=_drained(grip, p)).moved(x))
        moves = up_and_out(tool.body, up_mm=depth + p.lift_mm, axis_mm=axis_y, reach_mm=reach)
        pose = shift(x, axis_y, -deep - grip.z_mm)
        seats.append(Seat(tool.body, pose, moves, (size,), rest_z_mm=-deep))
    low = room.low_mm
    place, plate_low = mark_below(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm)
    return Front(
        solid=Union(tuple(pieces)),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=0.0,
        reach_mm=reach,
        low_mm=low,
        high_mm=0.0,
        seats=tuple(seats),
        genus=sum(_drained(grip, p) for grip in grips),
        min_wall_mm=min(p.rim_mm, p.floor_mm),
        mark_place=place,
        leading=group_leading([grip.diameter_mm for grip in grips]),
        also=("on-its-back",) if crown_bridges(wide) else (),
    )


def _depth_mm(grip: ShaftEnd, p: Params) -> float:
    usual = min(p.share * grip.length_mm, p.most_mm)
    return max(p.least_mm, SLENDER * grip.diameter_mm, usual, grip.covered_mm)


def _drained(grip: ShaftEnd, p: Params) -> bool:
    # a point would come out of a drain
    return grip.diameter_mm >= 2 * p.drain_mm and not grip.covered_mm


def _fin(made_mm: float, depth_mm: float, p: Params, room: _Room, *, drained: bool) -> Solid:
    """Return the fin about x = 0."""
    top, low, reach = depth_mm - room.deep_mm, room.low_mm, room.reach_mm
    half = made_mm / 2 + p.rim_mm
    tip = (reach, reach - room.knee_mm)
    side = polygon([(0.0, low), (room.plate_mm, low), tip, (reach, top), (0.0, top)])
    plan = prism(round_nosed(half, reach), top - low).moved(0.0, 0.0, low)
    cuts = [
        bore(made_mm, depth_mm, lead_mm=min(LEAD_IN_MM, p.rim_mm / 2)).moved(
            0.0, room.axis_mm, -room.deep_mm
        )
    ]
    if drained:
        drain = prism(circle(p.drain_mm), -low)
        cuts.append(drain.moved(0.0, room.axis_mm, low - room.deep_mm + 0.5))
    return Difference(Intersection((plan, across(side, -half, half))), tuple(cuts))


def refuses(tool: ToolBody) -> str | None:
    """Return why a tool with a shaft cannot stand here, or None."""
    grip = tool.needed_grip(ShaftEnd)
    if not THINNEST_MM <= grip.diameter_mm <= THICKEST_MM:
        return (
            f"its shaft of {said.mm(grip.diameter_mm)} is outside the {said.number(THINNEST_MM)} "
            f"to {said.mm(THICKEST_MM)} for which a bore can be printed"
        )
    least = max(SHORTEST_MM, SLENDER * grip.diameter_mm + 2.0)
    if grip.covered_mm > DEEPEST_MM:
        return (
            f"{said.mm(grip.covered_mm)} of it must be covered, and a bore deeper than "
            f"{said.mm(DEEPEST_MM)} stands too far out"
        )
    if grip.length_mm < least:
        return (
            f"only {said.mm(grip.length_mm)} of its shaft are straight, and it would topple with "
            f"less than {said.mm(least)}"
        )
    return None


FAMILY = Family(
    name="bore-block",
    title="Graded fins with blind bores, for tools that stand on a shaft",
    grip=ShaftEnd,
    params=Params,
    build=build,
    refuses=refuses,
)
