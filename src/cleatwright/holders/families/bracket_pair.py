"""Two brackets far apart on one plate, for long things that lie across them, one above the other.

seen from the front                  section beside a bracket

   ═════╤══════════╤═════   small    ║      │╱ ← lip
        │          │                 ║──────┘│ ← z = 0: the tool lies here
 ═══════╤══════════╤═══════ big      ║      ╱
        │ ↔ span ↔ │                 ║    ╱  45 degrees
        └──────────┘ plate           ║──╱
                                     way out: up over the lip, then out

Lower brackets reach farther out, so that a tool which is drawn out there does not lever the
foot of the holder off the wall.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.brackets import (
    TIP_MM,
    Trough,
    aside_mm,
    bar_trough,
    bracket,
    posed_extent,
)
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.mark_room import has_room, mark_below
from cleatwright.features.outward import LEAST_PLATE_MM, group_leading
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import LyingBar
from cleatwright.parts.holder import Front, MarkPlace, Seat, front_mark
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.outline import Outline
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, Union, across

LEAST_LENGTH_MM = 120.0
SPAN_SHARE = 0.5
MOST_BRACKET_MM = 12.0
# a tool may be laid down askew by this much along its length
END_MM = 2.0
# the centre of mass lies at least this far within the middles of both brackets
BALANCE_MM = 10.0
# a tenth of the height is enough against a drag of a tenth of the weight
OUT_SHARE = 0.12
RAIL_MM = 40.0
MARGIN_MM = 3.0
BETWEEN_MM = 2.0
LEAST_DEPTH_MM = 2.0
MOST_DEPTH_MM = 140.0


class Params(FamilyParams):
    """What can be chosen about a pair of brackets."""

    span_mm: float = Field(
        default=160.0, ge=60.0, le=300.0, description="wide is steady; the bed ends it"
    )
    bracket_mm: float = Field(
        default=8.0, ge=5.0, le=MOST_BRACKET_MM, description="thin brackets bend sideways"
    )
    lip_mm: float = Field(default=6.0, ge=4.0, le=12.0, description="kept, yet soon lifted over")
    floor_mm: float = Field(default=6.0, ge=4.0, le=12.0, description="thin tips break off")
    lift_mm: float = Field(default=1.0, ge=0.5, le=4.0, description="room above the lip")


@dataclass(frozen=True)
class _Shelf:
    """One tool and its two brackets, in a frame with z = 0 at the seat."""

    tool: FittedTool
    grip: LyingBar
    size: Size
    trough: Trough
    outline: Outline
    extent: Bounds
    span_mm: float
    up_mm: float

    @property
    def low_mm(self) -> float:
        """Return the lowest z of the brackets."""
        return self.outline.bounds[1]


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a stack of long things, the biggest at the bottom."""
    shelves, heights = _stack(sorted(group, key=lambda tool: tool.body.order_mm), p, ctx)
    width = max(LEAST_PLATE_MM, *(s.span_mm + p.bracket_mm + 2 * MARGIN_MM for s in shelves))
    reach = max(s.outline.bounds[2] for s in shelves)
    pieces: list[Solid] = []
    for one, z in zip(shelves, heights, strict=True):
        for side in (-1, 1):
            x = (width + side * one.span_mm - p.bracket_mm) / 2
            pieces.append(across(one.outline.moved(0.0, z), x, x + p.bracket_mm))
    low = min(s.low_mm + z for s, z in zip(shelves, heights, strict=True))
    place, plate_low = _mark(shelves[-1], p, ctx, width_mm=width)
    return Front(
        solid=Union(tuple(pieces)),
        width_mm=width,
        plate_low_mm=min(low, plate_low),
        plate_high_mm=max(s.trough.root_mm + z for s, z in zip(shelves, heights, strict=True)),
        reach_mm=reach,
        low_mm=low,
        high_mm=max(s.outline.bounds[3] + z for s, z in zip(shelves, heights, strict=True)),
        seats=tuple(
            _seat(one, width / 2, z, p, reach_mm=reach)
            for one, z in zip(shelves, heights, strict=True)
        ),
        genus=0,
        min_wall_mm=min(p.bracket_mm, TIP_MM),
        mark_place=place,
        leading=group_leading([s.grip.length_mm for s in shelves]),
        # the upright lip of a box-shaped bar would hang over its seat
        also=("on-its-back",) if all(s.grip.round_section for s in shelves) else (),
    )


def _stack(
    tools: Sequence[FittedTool], p: Params, ctx: BuildContext
) -> tuple[list[_Shelf], list[float]]:
    """Return the shelves from the top down and their heights; the lowest lies at z = 0."""
    shelves = [_shelf(tools[0], p, ctx)]
    depths = [0.0]
    for tool in tools[1:]:
        near = depths[-1] + _apart_mm(_shelf(tool, p, ctx), shelves[-1], ctx)
        shelf = _shelf(tool, p, ctx, least_axis_mm=OUT_SHARE * (near + RAIL_MM))
        depths.append(depths[-1] + _apart_mm(shelf, shelves[-1], ctx))
        shelves.append(shelf)
    return shelves, [depths[-1] - depth for depth in depths]


def _shelf(tool: FittedTool, p: Params, ctx: BuildContext, *, least_axis_mm: float = 0.0) -> _Shelf:
    grip = tool.body.needed_grip(LyingBar)
    trough, size = bar_trough(
        tool,
        grip,
        plate_mm=ctx.plate_mm,
        lip_mm=p.lip_mm,
        sloped=False,
        least_axis_mm=least_axis_mm,
    )
    return _Shelf(
        tool=tool,
        grip=grip,
        size=size,
        trough=trough,
        outline=bracket(trough, plate_mm=ctx.plate_mm, floor_mm=p.floor_mm),
        extent=posed_extent(tool, grip),
        span_mm=min(p.span_mm, SPAN_SHARE * grip.length_mm),
        up_mm=trough.lip_mm - trough.rest_mm + p.lift_mm,
    )


def _apart_mm(below: _Shelf, above: _Shelf, ctx: BuildContext) -> float:
    """Return how far above a seat the next one lies, so that the lower tool can be lifted out."""
    top = max(below.extent[1][2], below.trough.lip_mm)
    hand = max(below.up_mm + BETWEEN_MM, ctx.hand_room_mm)
    # the underside of the upper brackets rises from the plate; the lower tool lies before it
    rise = below.trough.axis_mm + below.extent[0][1] - ctx.plate_mm
    return max(
        top + hand - above.extent[0][2],
        top + below.up_mm + BETWEEN_MM - above.low_mm - rise,
        below.trough.root_mm + BETWEEN_MM - above.low_mm,
    )


def _seat(one: _Shelf, middle: float, z: float, p: Params, *, reach_mm: float) -> Seat:
    free = (one.grip.length_mm - one.span_mm - p.bracket_mm) / 2 - END_MM
    com = one.grip.pose.apply(one.tool.body.com_mm)[0]
    axis, rest = one.trough.axis_mm, z + one.trough.rest_mm
    x = middle + aside_mm(com, free_mm=free)
    out = reach_mm + CLEAR_MM - axis - one.extent[0][1]
    return Seat(
        one.tool.body,
        one.grip.pose.then(shift(x, axis, rest)),
        ((0.0, 0.0, one.up_mm), (0.0, out, 0.0)),
        (one.size,),
        rest_z_mm=rest,
    )


def _mark(
    lowest: _Shelf, p: Params, ctx: BuildContext, *, width_mm: float
) -> tuple[MarkPlace, float]:
    """Return the plate between the lowest brackets as the place for a mark, else a band below."""
    half = (lowest.span_mm - p.bracket_mm) / 2
    low, high = lowest.low_mm, lowest.trough.lowest_mm
    if not has_room(2 * half, high - low):
        return mark_below(width_mm, low_mm=low, plate_mm=ctx.plate_mm)
    middle = width_mm / 2
    return front_mark(middle - half, middle + half, z0=low, z1=high, y_mm=ctx.plate_mm), low


def refuses(tool: ToolBody) -> str | None:
    """Return why a long thing cannot lie here, or None."""
    grip = tool.needed_grip(LyingBar)
    if grip.length_mm < LEAST_LENGTH_MM:
        return (
            f"its straight part of {said.mm(grip.length_mm)} is shorter than the "
            f"{said.mm(LEAST_LENGTH_MM)} that two brackets need"
        )
    if not LEAST_DEPTH_MM <= grip.depth_mm <= MOST_DEPTH_MM:
        return (
            f"its depth of {said.mm(grip.depth_mm)} out of the wall is outside "
            f"{said.number(LEAST_DEPTH_MM)} to {said.mm(MOST_DEPTH_MM)}"
        )
    most = grip.length_mm / 2 - MOST_BRACKET_MM / 2 - END_MM - BALANCE_MM
    com = abs(grip.pose.apply(tool.com_mm)[0])
    if com > most:
        return (
            f"it balances {said.mm(com, '.0f')} from the middle of its straight part, and more "
            f"than {said.mm(most, '.0f')} cannot lie between two brackets"
        )
    return None


FAMILY = Family(
    name="bracket-pair",
    title="Two brackets far apart, for long things that lie along the wall",
    grip=LyingBar,
    params=Params,
    build=build,
    refuses=refuses,
)
