"""A floor and a ring above it for each can, for round bodies that stand on their base.

seen from the side                  seen from above

   ║    ┌┐          ┌┐ ← ring top   ══════ plate ══════
   ║════╡│   body   ││              │  ╭────────╮   │
   ║────┴┘          └┘              │ │          │  │  ring = body + play
   ║   open                         │ │    ◇     │  │  floor with an opening
   ║──────────────────  ← z = 0     ╲  ╲        ╱  ╱   the ring's front runs at 45 degrees
   ║────────────╱─────  ← floor       ╲  ╲____╱  ╱     to a short bridge, for the plate
   ║──── two webs                       ╲______╱       lies on the bed when it prints
   way out: up past the ring, then out
"""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM, up_and_out
from cleatwright.features.footed import footed_row
from cleatwright.features.mark_room import has_room, mark_below
from cleatwright.features.outward import group_leading
from cleatwright.features.root import COVE_MM
from cleatwright.features.webs import WebDepth
from cleatwright.holders.families.ring_floor.ring_floors import (
    FLARE_MM,
    RingShape,
    ring,
    webbed_floor,
)
from cleatwright.holders.families.ring_floor.strength import strong_floor, wall_mm
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import RoundBody
from cleatwright.parts.holder import Front, Seat, front_mark
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, Union

LOWEST_MM = 40.0
LEAST_TOP_MM = 24.0


class Params(FamilyParams):
    """What can be chosen about floors with rings."""

    share: float = Field(
        default=0.37, ge=0.3, le=0.6, description="part of the body below the ring's top"
    )
    most_mm: float = Field(
        default=60.0, ge=30.0, le=120.0, description="a high ring means a long lift"
    )
    ring_mm: float = Field(
        default=12.0, ge=8.0, le=16.0, description="the label stays in sight below it"
    )
    wall_mm: float = Field(
        default=3.0, ge=1.8, le=8.0, description="two printed lines on each side"
    )
    floor_mm: float = Field(default=5.0, ge=3.0, le=12.0, description="thinner floors bend")
    lift_mm: float = Field(
        default=1.0, ge=0.5, le=10.0, description="room above the ring on the way"
    )


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of round bodies."""
    grips = [tool.body.needed_grip(RoundBody) for tool in group]
    sizes = [tool.size("ring", g.diameter_mm) for tool, g in zip(group, grips, strict=True)]
    # a thickness that the owner sets stays his
    own = "wall_mm" in p.model_fields_set
    wall = p.wall_mm if own else wall_mm(p.wall_mm, [s.made_mm for s in sizes], p.ring_mm)
    feet = [size.made_mm + 2 * wall for size in sizes]
    line = footed_row(
        [tool.body.width_mm for tool in group],
        feet,
        gap_mm=ctx.hand_room_mm,
        apart_mm=2 * FLARE_MM + 1.0,
        margin_mm=FLARE_MM,
    )
    axes = [
        ctx.plate_mm + CLEAR_MM + max(size.made_mm / 2, -tool.body.extent_mm[0][1])
        for tool, size in zip(group, sizes, strict=True)
    ]
    tops = [_top_mm(grip, p) for grip in grips]
    shape = RingShape(p.ring_mm, wall, p.floor_mm, ctx.plate_mm)
    rings = [ring(size.made_mm / 2, y, shape=shape) for size, y in zip(sizes, axes, strict=True)]
    reach = max(ring.region.outer.bounds[3] for ring in rings)
    pieces: list[Solid] = []
    seats: list[Seat] = []
    openings: list[float] = []
    webs: list[WebDepth] = []
    for i, (tool, x, size) in enumerate(zip(group, line.centres_mm, sizes, strict=True)):
        half, y = feet[i] / 2, axes[i]
        moves = up_and_out(tool.body, up_mm=tops[i] + p.lift_mm, axis_mm=y, reach_mm=reach)
        seat = Seat(tool.body, shift(x, y, -grips[i].z_mm), moves, (size,))
        opening, depth = strong_floor(seat, half, y, x_mm=x, shape=shape)
        floor = webbed_floor(half, y, opening_mm=opening, shape=shape, webs=depth)
        pieces += [piece.moved(x) for piece in floor]
        pieces.append(rings[i].moved(x, 0.0, tops[i] - p.ring_mm))
        seats.append(seat)
        openings.append(opening)
        webs.append(depth)
    web = max(one.root_mm for one in webs)
    low = -p.floor_mm - web
    widest = max(range(len(feet)), key=lambda i: feet[i])
    x, bay = line.centres_mm[widest], feet[widest] / 2 - wall
    place, plate_low = mark_below(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm)
    if has_room(2 * bay, web - COVE_MM):
        top = -p.floor_mm - COVE_MM
        place, plate_low = front_mark(x - bay, x + bay, z0=low, z1=top, y_mm=ctx.plate_mm), low
    return Front(
        solid=Union(tuple(pieces)),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=max(tops),
        reach_mm=reach,
        low_mm=low,
        high_mm=max(tops),
        seats=tuple(seats),
        genus=len(group) + sum(one > 0.0 for one in openings),
        min_wall_mm=min(wall, p.floor_mm),
        mark_place=place,
        leading=group_leading([grip.diameter_mm for grip in grips]),
        print_pose="on-its-back",
    )


def _top_mm(grip: RoundBody, p: Params) -> float:
    return max(LEAST_TOP_MM, min(p.share * grip.height_mm, p.most_mm))


def refuses(tool: ToolBody) -> str | None:
    """Return why a round body cannot stand here, or None."""
    height = tool.needed_grip(RoundBody).height_mm
    if height < LOWEST_MM:
        return (
            f"its body of {said.mm(height)} is lower than the {said.mm(LOWEST_MM)} that a ring "
            "needs"
        )
    return None


FAMILY = Family(
    name="ring-floor",
    title="A floor and a ring above it, for cans and bottles that stand upright",
    grip=RoundBody,
    params=Params,
    build=build,
    refuses=refuses,
)
