"""A tray with low ribs on the owner's pitch, for bins that take a whole number of fields.

seen from above                        seen from the left

══════════════ plate ══════════        ║┌────────────── ← rib, z = rib
│        │        ╷            │       ║│   ╱┐      ╱┐ ← lip, leans by 45 degrees
│   ◇    │   ◇    ╷   ◇        │       ║└──┴┴──────┘│ ← floor, z = 0
│────────┼────────┤            │       ║────────────┘
│   ◇    │   ◇    │   bin of   │       ║  ╲ webs
│        │        │  4 fields  │
└──────────────────────────────┘       way out: up over the lip, and over the bins in
  ↔ pitch                              front, then out
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.mark_room import has_room, mark_below
from cleatwright.features.outward import group_leading
from cleatwright.features.webs import WebDepth, web_depth
from cleatwright.holders.families.ribbed_tray.ribbed_floor import RIB_MM, RibbedFloor
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Footprint
from cleatwright.parts.holder import Front, Seat, front_mark
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.statics.needed_section import Borne, bar_depth_mm, web_modulus_mm3
from cleatwright.statics.seat_load import seat_load

SMALLEST_MM = 18.0
DEEPEST_MM = 250.0
# bins on a pitch are drawn out by their fronts, so that no hand has to go between them


class Params(FamilyParams):
    """What can be chosen about ribbed trays."""

    pitch_mm: float = Field(
        default=50.0, ge=20.0, le=150.0, description="yours: a bin, its play and one rib"
    )
    rows_count: float = Field(default=1.0, ge=1.0, le=4.0, description="bins behind each other")
    rib_mm: float = Field(default=2.5, ge=1.5, le=4.0, description="height; higher ribs take room")
    lip_mm: float = Field(default=6.0, ge=4.0, le=12.0, description="kept, yet soon lifted over")
    floor_mm: float = Field(default=4.0, ge=3.0, le=12.0, description="thinner floors bend")
    web_mm: float = Field(default=3.0, ge=1.8, le=5.0, description="must fit between openings")
    lift_mm: float = Field(default=1.0, ge=0.5, le=10.0, description="room above the lip")


@dataclass(frozen=True)
class _Bin:
    """A bin with its fields: columns and rows that it takes, and the first of each."""

    tool: FittedTool
    grip: Footprint
    sizes: tuple[Size, Size]
    wide: int
    deep: int
    column: int
    row: int
    over_mm: float


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for bins in columns, each column filled from the front."""
    bins = _placed(group, p)
    floor = RibbedFloor(
        columns=max(one.column + one.wide for one in bins),
        rows=max(one.row + one.deep for one in bins),
        pitch_mm=p.pitch_mm,
        rib_mm=p.rib_mm,
        lip_mm=p.lip_mm,
        floor_mm=p.floor_mm,
        web_mm=p.web_mm,
        plate_mm=ctx.plate_mm,
    )
    seats = tuple(_seat(one, p, floor) for one in bins)
    floor = replace(floor, webs=_webs(seats, floor))
    width, reach = floor.width_mm, floor.reach_mm
    low = -p.floor_mm - floor.depth.root_mm
    place, plate_low = mark_below(width, low_mm=low, plate_mm=ctx.plate_mm)
    if has_room(width, p.floor_mm + p.lip_mm):
        place, plate_low = front_mark(0.0, width, z0=-p.floor_mm, z1=p.lip_mm, y_mm=reach), low
    return Front(
        solid=floor.solid(
            along=sorted({one.column for one in bins} - {0}),
            across_at=[(one.column, one.wide, one.row) for one in bins if one.row],
        ),
        width_mm=width,
        plate_low_mm=plate_low,
        plate_high_mm=p.lip_mm,
        reach_mm=reach,
        low_mm=low,
        high_mm=p.lip_mm,
        seats=seats,
        genus=len(floor.openings),
        min_wall_mm=min(RIB_MM, p.web_mm, p.floor_mm),
        mark_place=place,
        leading=group_leading([one.grip.width_mm for one in bins]),
        print_pose="on-its-back",
    )


def _webs(seats: Sequence[Seat], floor: RibbedFloor) -> WebDepth:
    """Return webs that bear the bins."""
    plate, reach = floor.plate_mm, floor.reach_mm
    tools = [
        Borne(seat_load(seat, plate_mm=plate, reach_mm=reach), seat.com_mm[0]) for seat in seats
    ]
    middles = [x + floor.web_mm / 2 for x in floor.webs_mm]
    depths = (
        bar_depth_mm(
            web_modulus_mm3(tools, middles, cut_mm=cut, reach_mm=reach), width_mm=floor.web_mm
        )
        for cut in (plate, floor.front_mm)
    )
    return web_depth(*depths, floor_mm=floor.floor_mm, least=floor.depth)


def _placed(group: Sequence[FittedTool], p: Params) -> list[_Bin]:
    """Return each bin in its fields: behind the one before it where that is as wide."""
    found: list[_Bin] = []
    rows = [_fields(tool, p) for tool in group]
    most = max(math.floor(p.rows_count + 0.5), *(deep for _, _, deep in rows), 1)
    for tool, (sizes, wide, deep) in zip(group, rows, strict=True):
        column = row = 0
        over = 0.0
        if found:
            last = found[-1]
            column, row = last.column + last.wide, 0
            plain = _behind_mm(last.tool.body) + _before_mm(tool.body) <= 0.0
            if plain and last.wide == wide and last.row + last.deep + deep <= most:
                column, row = last.column, last.row + last.deep
                over = max(last.over_mm, last.tool.body.extent_mm[1][2] - last.grip.z_mm)
        found.append(
            _Bin(tool, tool.body.needed_grip(Footprint), sizes, wide, deep, column, row, over)
        )
    return found


def _fields(tool: FittedTool, p: Params) -> tuple[tuple[Size, Size], int, int]:
    grip = tool.body.needed_grip(Footprint)
    wide = tool.size("field width", max(grip.width_mm, tool.body.width_mm))
    deep = tool.size("field depth", grip.depth_mm)
    room_mm = deep.made_mm + _behind_mm(tool.body) + RIB_MM + p.rib_mm
    return (
        (wide, deep),
        math.ceil((wide.made_mm + RIB_MM) / p.pitch_mm - 1e-9),
        math.ceil(room_mm / p.pitch_mm - 1e-9),
    )


def _behind_mm(body: ToolBody) -> float:
    """Return how far a bin reaches over its base towards the wall."""
    return max(0.0, -body.extent_mm[0][1] - body.needed_grip(Footprint).depth_mm / 2)


def _before_mm(body: ToolBody) -> float:
    """Return how far a bin reaches over its base towards the person."""
    return max(0.0, body.extent_mm[1][1] - body.needed_grip(Footprint).depth_mm / 2)


def _seat(one: _Bin, p: Params, floor: RibbedFloor) -> Seat:
    """Return the seat at the front of the fields, half the play behind the lip or rib."""
    x = floor.edge_mm(one.column) + (one.wide * p.pitch_mm + RIB_MM) / 2
    gap = (one.sizes[1].made_mm - one.sizes[1].measured_mm) / 2
    y = floor.stop_mm(one.row) - gap - one.sizes[1].measured_mm / 2
    up = max(p.lip_mm, one.over_mm) + p.lift_mm
    out = floor.reach_mm - y - one.tool.body.extent_mm[0][1] + CLEAR_MM
    return Seat(
        one.tool.body,
        shift(x, y, -one.grip.z_mm),
        ((0.0, 0.0, up), (0.0, out, 0.0)),
        one.sizes,
    )


def refuses(tool: ToolBody) -> str | None:
    """Return why a bin cannot stand here, or None."""
    grip = tool.needed_grip(Footprint)
    least = min(grip.width_mm, grip.depth_mm, grip.height_mm)
    if least < SMALLEST_MM:
        return (
            f"its smallest side of {said.mm(least)} is less than the {said.mm(SMALLEST_MM)} of a "
            "field"
        )
    if grip.depth_mm > DEEPEST_MM:
        return f"it is {said.mm(grip.depth_mm)} deep, and trays over {said.mm(DEEPEST_MM)} sag"
    return None


FAMILY = Family(
    name="ribbed-tray",
    title="A tray with low ribs at your pitch, for bins that stand between them",
    grip=Footprint,
    params=Params,
    build=build,
    refuses=refuses,
    # only the owner knows the pitch of his bins
    by_wish=True,
)
