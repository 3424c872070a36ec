"""One wide trough on ribs for each tool, for short and heavy things that lie along the wall.

section, box-shaped          section, round            seen from the front
║                   ╱        ║╲       ╱                 ═══════tool════════
║ plate            ╱ lip     ║ ╲     ╱  flanks at         ┌─────────────┐
║─────────────────╱          ║  ╲   ╱   30 degrees        │   trough    │
║───────────────╱            ║   ╲_╱                      └┬┬────┬────┬┬┘
║    ╱  ribs                 ║  ╱  ribs                    ├┤ribs├────├┤
   the wall side lies on the bed, so that floors need no support
   way out: up over the lip, then out
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.brackets import (
    Trough,
    aside_mm,
    bar_trough,
    posed_extent,
    shell,
)
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.footed import footed_row
from cleatwright.features.mark_room import has_room, mark_below
from cleatwright.features.outward import group_leading
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import LyingBar
from cleatwright.parts.holder import Front, MarkPlace, Seat, front_mark
from cleatwright.parts.tool import GRAVITY_M_S2, FittedTool, Size, ToolBody
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, Union, across
from cleatwright.statics.hand import KNOCK_N
from cleatwright.statics.tipping import tipping_n

LEAST_LENGTH_MM = 40.0
LEAST_TROUGH_MM = 36.0
# a trough ends this far within the straight part, so that a thicker end has room beside it
END_MM = 2.0
# the centre of mass lies at least this far within the ends of a trough
BALANCE_MM = 8.0
LEAST_DEPTH_MM = 6.0
MOST_DEPTH_MM = 180.0
APART_MM = 2.0
BAY_MM = 90.0
# as far as a trough is widened against a knock, and by how much at a time
WIDEST_MM = 150.0
WIDER_MM = 2.0


class Params(FamilyParams):
    """What can be chosen about cradles."""

    share: float = Field(
        default=0.6, ge=0.4, le=0.9, description="part of the length that lies in the trough"
    )
    most_mm: float = Field(default=150.0, ge=60.0, le=240.0, description="the bed ends it")
    lip_mm: float = Field(default=7.0, ge=5.0, le=15.0, description="kept, yet soon lifted over")
    floor_mm: float = Field(default=5.0, ge=3.0, le=10.0, description="thinner floors bend")
    rib_mm: float = Field(default=4.0, ge=2.4, le=8.0, description="two printed lines a side")
    lift_mm: float = Field(default=1.0, ge=0.5, le=4.0, description="room above the lip")


@dataclass(frozen=True)
class _Cradle:
    """One tool and its trough."""

    tool: FittedTool
    grip: LyingBar
    size: Size
    trough: Trough
    extent: Bounds
    width_mm: float
    aside_mm: float

    @property
    def room_mm(self) -> float:
        """Return the room that the tool takes along the wall, about the middle of the trough."""
        return 2 * max(self.extent[1][0] + self.aside_mm, -self.extent[0][0] - self.aside_mm)


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of lying tools."""
    cradles = [_cradle(tool, p, ctx) for tool in group]
    line = footed_row(
        [one.room_mm for one in cradles],
        [one.width_mm for one in cradles],
        gap_mm=ctx.hand_room_mm,
        apart_mm=APART_MM,
        margin_mm=0.0,
    )
    reach = max(one.trough.end_mm for one in cradles)
    lows = [_foot_mm(one.trough, p, ctx) for one in cradles]
    low = min(lows)
    pieces: list[Solid] = []
    seats: list[Seat] = []
    for one, x, foot in zip(cradles, line.centres_mm, lows, strict=True):
        pieces += _pieces(one, x, p, ctx, foot_mm=foot)
        axis, rest = one.trough.axis_mm, one.trough.rest_mm
        out = reach + CLEAR_MM - axis - one.extent[0][1]
        seats.append(
            Seat(
                one.tool.body,
                one.grip.pose.then(shift(x + one.aside_mm, axis, rest)),
                ((0.0, 0.0, one.trough.lip_mm - rest + p.lift_mm), (0.0, out, 0.0)),
                (one.size,),
                rest_z_mm=rest,
            )
        )
    place, plate_low = mark_below(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm)
    bays = [_bay(n, x, p, ctx) for n, x in zip(cradles, line.centres_mm, strict=True)]
    roomy = [bay for bay in bays if has_room(bay.width_mm, bay.height_mm)]
    if roomy:
        place, plate_low = max(roomy, key=lambda bay: bay.width_mm), low
    return Front(
        solid=Union(tuple(pieces)),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=max(one.trough.root_mm for one in cradles),
        reach_mm=reach,
        low_mm=low,
        high_mm=max(max(one.trough.lip_mm, one.trough.root_mm) for one in cradles),
        seats=tuple(seats),
        genus=0,
        min_wall_mm=min(p.rib_mm, p.floor_mm * math.sqrt(0.5)),
        mark_place=place,
        leading=group_leading([one.grip.length_mm for one in cradles]),
        print_pose="on-its-back",
    )


def _cradle(tool: FittedTool, p: Params, ctx: BuildContext) -> _Cradle:
    grip = tool.body.needed_grip(LyingBar)
    trough, size = bar_trough(tool, grip, plate_mm=ctx.plate_mm, lip_mm=p.lip_mm, sloped=True)
    straight = grip.length_mm - 2 * END_MM
    width = _width_mm(tool.body, p)
    com = grip.pose.apply(tool.body.com_mm)[0]
    aside = aside_mm(com, free_mm=(straight - width) / 2)
    return _Cradle(tool, grip, size, trough, posed_extent(tool, grip), width, aside)


def _width_mm(tool: ToolBody, p: Params) -> float:
    """Return how wide a trough is: wider than asked where a knock would tip a thing off it."""
    grip = tool.needed_grip(LyingBar)
    straight = grip.length_mm - 2 * END_MM
    width = min(max(LEAST_TROUGH_MM, p.share * grip.length_mm), p.most_mm, straight)
    most = max(width, min(WIDEST_MM, straight))
    while width < most and _tipping_n(tool, width) < KNOCK_N:
        width = min(width + WIDER_MM, most)
    return width


def _tipping_n(tool: ToolBody, width_mm: float) -> float:
    """Return the knock down on an end of the straight part that tips a thing off its trough."""
    grip = tool.needed_grip(LyingBar)
    half, com = grip.length_mm / 2, grip.pose.apply(tool.com_mm)[0]
    aside = aside_mm(com, free_mm=half - END_MM - width_mm / 2)
    return tipping_n(
        tool.mass_kg * GRAVITY_M_S2,
        off_mm=com + aside,
        half_mm=width_mm / 2,
        ends_mm=(aside - half, aside + half),
    )


def _foot_mm(trough: Trough, p: Params, ctx: BuildContext) -> float:
    """Return the lowest z of the ribs: as deep at the plate as half the trough reaches out."""
    return trough.lowest_mm - p.floor_mm - (trough.end_mm - ctx.plate_mm) / 2


def _ribs(one: _Cradle, p: Params) -> list[float]:
    """Return where the ribs begin along x, both ends first and last."""
    bays = max(1, math.ceil(one.width_mm / BAY_MM))
    step = (one.width_mm - p.rib_mm) / bays
    return [k * step - one.width_mm / 2 for k in range(bays + 1)]


def _pieces(one: _Cradle, x: float, p: Params, ctx: BuildContext, *, foot_mm: float) -> list[Solid]:
    """Return a trough and its ribs about ``x``."""
    half, sunk = one.width_mm / 2, p.floor_mm / 2
    (root_y, root_z), *inner, (end_y, lip_z) = one.trough.points
    under = [(y, z - sunk) for y, z in ((0.0, root_z), (root_y, root_z), *inner)]
    # on a flat floor a rib ends before the lip, in a trough with flanks at its end
    tip = [(end_y, lip_z - sunk)] if one.grip.round_section else []
    rib = polygon([(0.0, foot_mm), (ctx.plate_mm, foot_mm), *tip, *reversed(under)])
    return [
        across(shell(one.trough, thick_mm=p.floor_mm), x - half, x + half),
        *(across(rib, x + start, x + start + p.rib_mm) for start in _ribs(one, p)),
    ]


def _bay(one: _Cradle, x: float, p: Params, ctx: BuildContext) -> MarkPlace:
    """Return the plate between the first two ribs below the trough."""
    first, second, *_ = _ribs(one, p)
    return front_mark(
        x + first + p.rib_mm,
        x + second,
        z0=_foot_mm(one.trough, p, ctx),
        z1=one.trough.lowest_mm - p.floor_mm,
        y_mm=ctx.plate_mm,
    )


def refuses(tool: ToolBody) -> str | None:
    """Return why a tool cannot lie here, or None."""
    grip = tool.needed_grip(LyingBar)
    if grip.length_mm < LEAST_LENGTH_MM:
        return (
            f"its straight part of {said.mm(grip.length_mm)} is shorter than the "
            f"{said.mm(LEAST_LENGTH_MM)} that a trough needs"
        )
    if not LEAST_DEPTH_MM <= grip.depth_mm <= MOST_DEPTH_MM:
        return (
            f"its depth of {said.mm(grip.depth_mm)} out of the wall is outside "
            f"{said.number(LEAST_DEPTH_MM)} to {said.mm(MOST_DEPTH_MM)}"
        )
    com = abs(grip.pose.apply(tool.com_mm)[0])
    if com > grip.length_mm / 2 - END_MM - BALANCE_MM:
        return (
            f"it balances {said.mm(com, '.0f')} from the middle of its straight part, beyond the "
            "end of a trough"
        )
    width = _width_mm(tool, Params())
    knock = _tipping_n(tool, width)
    if knock < KNOCK_N:
        free = (grip.length_mm - width) / 2
        return (
            f"a knock of {knock:.1f} N down on an end tips it off a trough {said.mm(width, '.0f')} "
            f"wide, beside which {said.mm(free, '.0f')} of it are free; it should stand "
            f"{KNOCK_N:g} N"
        )
    return None


FAMILY = Family(
    name="cradle",
    title="Wide troughs, for short and heavy things that lie along the wall",
    grip=LyingBar,
    params=Params,
    build=build,
    refuses=refuses,
)
