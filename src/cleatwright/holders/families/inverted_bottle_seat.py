"""A cup with a slot for each bottle that stands on its head, so that the rest is at the nozzle.

seen from above                        section

══════════ plate ═════════             ║plate  ╲        ╱  ← shoulder
 │    ╭───────╮      │                 ║──┐      ╲    ╱ ┌  ← cup
 │   │   ┌─┐   │     │  cup = body     ║  └──┐   │  │ ┌─┘
 │   │   │ │   │     │  at its height  ║─────┘   │  │ └──  ← z = 0, floor
 ╲    ╲  │ │  ╱     ╱                  ║ ╲web    └──┘ cap, free
   ╲___╲_│ │_╱___╱  slot = neck + play
   way out: up out of the cup, then out; the front needs no support on its back
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.footed import eighths, footed_row
from cleatwright.features.mark_room import mark_below
from cleatwright.features.outward import group_leading
from cleatwright.features.root import cove, gusset
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import InvertedNeck
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.outline import Outline, polygon, rectangle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import CutPrism, Solid, Union

# what of the shoulder lies on the floor on each side of the slot
LEAST_BEARING_MM = 3.0
# a steeper shoulder wedges itself into the slot: half its width over its height
LEAST_SLOPE = 0.3
LEAST_CUP_MM = 6.0
MOST_SLIP_MM = 3.0
WEB_MM = 3.0
FLARE_MM = 2.0
_EIGHTH = math.tan(math.pi / 8)


class Params(FamilyParams):
    """What can be chosen about bottle seats."""

    cup_mm: float = Field(
        default=10.0, ge=LEAST_CUP_MM, le=25.0, description="keeps a bottle upright"
    )
    wall_mm: float = Field(default=4.0, ge=2.4, le=8.0, description="thin walls break off")
    floor_mm: float = Field(default=5.0, ge=4.0, le=12.0, description="thinner floors bend")
    lift_mm: float = Field(default=1.0, ge=0.5, le=10.0, description="room above the cup")


@dataclass(frozen=True)
class _Cup:
    """The sizes of one seat: slot and cup as made, how far the cone sinks in, and the axis."""

    slot: Size
    cup: Size
    sunk_mm: float
    y: float

    @property
    def mouth_mm(self) -> float:
        """Return half the opening in the front of the cup: what is left slants by 45 degrees."""
        return max(self.slot.made_mm / 2, _EIGHTH * self.cup.made_mm / 2)


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of bottles on their heads."""
    grips = [tool.body.needed_grip(InvertedNeck) for tool in group]
    cups = [_cup(tool, g, p, ctx) for tool, g in zip(group, grips, strict=True)]
    feet = [cup.cup.made_mm + 2 * p.wall_mm for cup in cups]
    line = footed_row(
        [tool.body.width_mm for tool in group],
        feet,
        gap_mm=ctx.hand_room_mm,
        apart_mm=1.0,
        margin_mm=0.0,
    )
    reach = max(cup.y + foot / 2 for cup, foot in zip(cups, feet, strict=True))
    seats = tuple(
        Seat(
            tool.body,
            grip.pose.then(shift(x, cup.y, -cup.sunk_mm)),
            (
                (0.0, 0.0, p.cup_mm + p.lift_mm + cup.sunk_mm),
                (0.0, reach - cup.y + grip.body_mm / 2 + CLEAR_MM, 0.0),
            ),
            (cup.slot, cup.cup),
        )
        for tool, grip, cup, x in zip(group, grips, cups, line.centres_mm, strict=True)
    )
    web = max((cup.y + foot / 2 - ctx.plate_mm) / 2 for cup, foot in zip(cups, feet, strict=True))
    low = -p.floor_mm - web
    place, plate_low = mark_below(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm)
    return Front(
        solid=Union(
            tuple(
                _module(cup, foot / 2, p, plate_mm=ctx.plate_mm).moved(x)
                for cup, foot, x in zip(cups, feet, line.centres_mm, strict=True)
            )
        ),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=p.cup_mm,
        reach_mm=reach,
        low_mm=low,
        high_mm=p.cup_mm,
        seats=seats,
        genus=0,
        min_wall_mm=min(p.wall_mm, p.floor_mm, WEB_MM),
        mark_place=place,
        leading=group_leading([grip.neck_mm for grip in grips]),
        print_pose="on-its-back",
    )


def _cup(tool: FittedTool, grip: InvertedNeck, p: Params, ctx: BuildContext) -> _Cup:
    slot = tool.size("slot", grip.neck_mm)
    spread = (grip.body_mm - grip.neck_mm) / 2
    slope = grip.shoulder_mm / spread
    # a cone sinks until it is as wide as the slot
    sunk = (slot.made_mm - grip.neck_mm) / 2 * slope
    high = p.cup_mm + sunk
    within = grip.body_mm if high >= grip.shoulder_mm else grip.neck_mm + 2 * high / slope
    cup = tool.size("cup", within)
    half = max(cup.made_mm / 2, grip.body_mm / 2)
    return _Cup(slot, cup, sunk, ctx.plate_mm + CLEAR_MM + half)


def _module(cup: _Cup, half: float, p: Params, *, plate_mm: float) -> Solid:
    """Return one seat about x = 0."""
    plan = polygon([(-half, 0.0), (half, 0.0), *eighths(half, cup.y)])
    end, slot = cup.y + half + FLARE_MM, cup.slot.made_mm / 2
    flare = min(FLARE_MM, half / 4)
    neck = Outline(
        (
            (-slot, cup.y),
            (slot, cup.y),
            (slot, cup.y + half - flare),
            (slot + 2 * flare, end),
            (-slot - 2 * flare, end),
            (-slot, cup.y + half - flare),
        ),
        (1.0, 0.0, 0.0, 0.0, 0.0, 0.0),
    )
    inner, mouth = cup.cup.made_mm / 2, cup.mouth_mm
    pocket = Outline(((inner, cup.y), *eighths(inner, cup.y), (-inner, cup.y)), (0.0,) * 5 + (1.0,))
    gate = rectangle(-mouth, cup.y, mouth, end)
    reach = (cup.y + half - plate_mm) / 2
    return Union(
        (
            CutPrism(plan, (neck,), p.floor_mm).moved(dz=-p.floor_mm),
            CutPrism(plan, (pocket, gate, neck), p.cup_mm),
            cove(-half, half, plate_mm=plate_mm, z_mm=-p.floor_mm),
            *(
                gusset(x, x + WEB_MM, plate_mm=plate_mm, reach_mm=reach, z_mm=-p.floor_mm)
                for x in (-half, half - WEB_MM)
            ),
        )
    )


def _slip_mm(grip: InvertedNeck) -> float:
    """Return how far a bottle in the lowest cup moves forward before it meets the front."""
    slope = (grip.body_mm - grip.neck_mm) / max(grip.shoulder_mm, LEAST_CUP_MM)
    radius = min(grip.body_mm, grip.neck_mm + slope * LEAST_CUP_MM) / 2
    mouth = max(grip.neck_mm / 2, radius / math.sqrt(2.0))
    return radius * math.sqrt(2.0) - mouth - math.sqrt(radius**2 - mouth**2)


def refuses(tool: ToolBody) -> str | None:
    """Return why a bottle cannot stand on its head here, or None."""
    grip = tool.needed_grip(InvertedNeck)
    bearing = (grip.body_mm - grip.neck_mm) / 2
    if bearing < LEAST_BEARING_MM:
        return (
            f"its shoulder is {said.mm(bearing)} wide, and less than {said.mm(LEAST_BEARING_MM)} "
            "slips through the slot"
        )
    if bearing < LEAST_SLOPE * grip.shoulder_mm:
        return (
            f"its shoulder narrows by {said.mm(bearing)} over {said.mm(grip.shoulder_mm)} only, "
            "which wedges itself into the slot"
        )
    slip = _slip_mm(grip)
    if slip > MOST_SLIP_MM:
        return (
            f"its neck of {said.mm(grip.neck_mm)} needs a mouth so wide that a body of "
            f"{said.mm(grip.body_mm)} slips forward by {said.mm(slip, '.1f')}"
        )
    return None


FAMILY = Family(
    name="inverted-bottle-seat",
    title="Cups with a slot, for bottles that stand on their heads",
    grip=InvertedNeck,
    params=Params,
    build=build,
    refuses=refuses,
    # a bottle that nobody closed for it would leak
    by_wish=True,
    caution="A bottle on its head leaks when its cap is not tight.",
)
