"""Stepped block with hexagonal pockets, for bits that are seen and taken with finger tips.

seen from above                      section through the pockets

═══════════════ plate ═══════        ║plate ┌ ┐  │bit
│ ⬡    ⬡    ⬡    ⬡    ⬡    ⬡ │       ║─────┐│ │┌─┐┌ ┐     ← step
│ ⬡    ⬡    ⬡    ⬡    ⬡    ⬡ │       ║     └┴─┴┘ └┤ ├┐ │  ← depth
└────────────────────────────┘       ║────────────┴─┴┴─┘ ← floor
    ↔ gap between neighbours         ║ ╲ ribs, near enough to bridge
    pocket = across flats + play      way out: up past the bits in front, then out
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.layout import row
from cleatwright.features.mark_room import has_room, mark_below
from cleatwright.features.outward import LEAST_PLATE_MM, group_leading
from cleatwright.features.ribs import RIB_MM, ribs
from cleatwright.holders.families.hex_pocket_block.terraces import (
    FLOOR_MM,
    LEAD_IN_MM,
    StepNeed,
    Terrace,
    highest,
    stairs,
    terrace,
    under_stairs,
)
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import HexShank
from cleatwright.parts.holder import Front, Seat, front_mark
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.outline import hexagon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, Union

# fingers would have to reach over more rows, and the block would stand out far
MOST_ROWS = 4
RIM_MM = 3.0
# more than this share of the shank in the pocket leaves the fingers nothing to take
SHANK_SHARE = 0.6
SHORTEST_MM = 10.0
THICKEST_MM = 20.0
# in a pocket of 8 mm with 0.8 mm of play a bit leans by 6 degrees
HIGHEST_MM = 160.0


class Params(FamilyParams):
    """What can be chosen about a block with hexagonal pockets.

    Bits are taken at their upper ends by two finger tips, which need much less room than a
    hand; the gap is therefore a parameter of its own.
    """

    gap_mm: float = Field(
        default=5.0, ge=4.0, le=20.0, description="two finger tips take one bit among others"
    )
    depth_mm: float = Field(
        default=10.0, ge=8.0, le=16.0, description="deeper pockets hide a short bit"
    )
    step_mm: float = Field(
        default=6.0, ge=3.0, le=10.0, description="each row is seen over the one in front"
    )
    row_mm: float = Field(
        default=120.0, ge=40.0, le=220.0, description="a wider row goes on behind, to four rows"
    )
    lift_mm: float = Field(default=1.0, ge=0.5, le=4.0, description="room above what is passed")


@dataclass(frozen=True)
class _Row:
    """Tools side by side, and what their row needs of a step."""

    tools: tuple[FittedTool, ...]
    sizes: tuple[Size, ...]
    centres_mm: tuple[float, ...]
    width_mm: float
    need: StepNeed


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for bits, the first in front."""
    rows = _rows(group, p)
    width = max(one.width_mm for one in rows)
    places = stairs(
        [one.need for one in rows],
        gap_mm=p.gap_mm,
        rim_mm=RIM_MM,
        step_mm=p.step_mm,
        start_mm=ctx.plate_mm + CLEAR_MM,
    )
    nearest = places[0]
    reach = nearest.front_mm
    solids: list[Solid] = []
    seats: list[Seat] = []
    for one, place in zip(rows, places, strict=True):
        aside = (width - one.width_mm) / 2
        xs = [x + aside for x in one.centres_mm]
        outlines = tuple(
            hexagon(size.made_mm).turned(90.0).moved(x, place.axis_mm)
            for size, x in zip(one.sizes, xs, strict=True)
        )
        solids.append(terrace(place, outlines, width_mm=width))
        seats += [
            _seat(tool, size, x=x, place=place, passed=seats, reach_mm=reach, lift_mm=p.lift_mm)
            for tool, size, x in zip(one.tools, one.sizes, xs, strict=True)
        ]
    solids.append(ribs(width, plate_mm=ctx.plate_mm, tops=under_stairs(places)))
    low, high = nearest.low_mm - (reach - ctx.plate_mm), places[-1].high_mm
    mark, plate_low = mark_below(width, low_mm=low, plate_mm=ctx.plate_mm)
    top = nearest.high_mm - LEAD_IN_MM
    if has_room(width, top - nearest.low_mm):
        mark, plate_low = front_mark(0.0, width, z0=nearest.low_mm, z1=top, y_mm=reach), low
    return Front(
        solid=Union(tuple(solids)),
        width_mm=width,
        plate_low_mm=plate_low,
        plate_high_mm=high,
        reach_mm=reach,
        low_mm=low,
        high_mm=high,
        seats=tuple(seats),
        genus=0,
        min_wall_mm=min(RIB_MM, FLOOR_MM, p.gap_mm / 2),
        mark_place=mark,
        leading=group_leading([tool.body.needed_grip(HexShank).flats_mm for tool in group]),
        also=("on-its-back",),
    )


def _seat(
    tool: FittedTool,
    size: Size,
    *,
    x: float,
    place: Terrace,
    passed: Sequence[Seat],
    reach_mm: float,
    lift_mm: float,
) -> Seat:
    """Return a seat on a step; on its way out the tool goes over those that stand before it."""
    (x0, y0, _), (x1, _, _) = tool.body.extent_mm
    top = max(place.high_mm, highest(passed, x + x0, x + x1))
    moves = (
        (0.0, 0.0, top - place.floor_mm + lift_mm),
        (0.0, reach_mm - place.axis_mm - y0 + CLEAR_MM, 0.0),
    )
    pose = shift(x, place.axis_mm, place.floor_mm - tool.body.needed_grip(HexShank).z_mm)
    return Seat(tool.body, pose, moves, (size,), rest_z_mm=place.floor_mm)


def _rows(group: Sequence[FittedTool], p: Params) -> list[_Row]:
    """Return the tools in order, spread over as few rows as their width allows."""
    whole = _row(group, p).width_mm
    count = min(MOST_ROWS, len(group), math.ceil(whole / p.row_mm))
    ends = [round(k * len(group) / count) for k in range(count + 1)]
    return [_row(group[a:b], p) for a, b in pairwise(ends)]


def _row(tools: Sequence[FittedTool], p: Params) -> _Row:
    sizes = tuple(tool.size("pocket", tool.body.needed_grip(HexShank).flats_mm) for tool in tools)
    rooms = [max(t.body.width_mm, s.made_mm) for t, s in zip(tools, sizes, strict=True)]
    line = row(rooms, gap_mm=p.gap_mm, margin_mm=RIM_MM, least_mm=LEAST_PLATE_MM)
    deep = [max(-t.body.extent_mm[0][1], t.body.extent_mm[1][1]) for t in tools]
    corners = [size.made_mm / math.sqrt(3.0) for size in sizes]
    depth = min(
        min(p.depth_mm, SHANK_SHARE * tool.body.needed_grip(HexShank).length_mm) for tool in tools
    )
    need = StepNeed(max(*deep, *corners), depth)
    return _Row(tuple(tools), sizes, line.centres_mm, line.width_mm, need)


def refuses(tool: ToolBody) -> str | None:
    """Return why a bit cannot stand here, or None."""
    grip = tool.needed_grip(HexShank)
    if grip.flats_mm > THICKEST_MM:
        return (
            f"its shank of {said.mm(grip.flats_mm)} across flats is more than the "
            f"{said.mm(THICKEST_MM)} that two finger tips take"
        )
    if grip.length_mm < SHORTEST_MM:
        return (
            f"only {said.mm(grip.length_mm)} of its shank are hexagonal, and it would topple with "
            f"less than {said.mm(SHORTEST_MM)}"
        )
    high = tool.extent_mm[1][2] - grip.z_mm
    if high > HIGHEST_MM:
        return (
            f"its length of {said.mm(high)} would lean in a pocket that is so shallow that shorter "
            f"bits are seen; {said.mm(HIGHEST_MM)} is the most"
        )
    return None


FAMILY = Family(
    name="hex-pocket-block",
    title="Stepped block with hexagonal pockets, for bits taken with finger tips",
    grip=HexShank,
    params=Params,
    build=build,
    refuses=refuses,
)
