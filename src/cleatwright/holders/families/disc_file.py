"""Slots between fins over a floor with two flanks, for discs that stand on edge one behind another.

section through a slot            seen from above

 ║  ╭───────╮                     ══════════ plate ═════
 ║ │  disc   │                      ║ │ ║   ║ ║ │ ║
 ║╲│         │    ╱ ← fin           ║ │ ║   ║ ║ │ ║   slot = thickness + play
 ║ ╲╲       ╱ ╱╱                    ║ │ ║   ║ ║ │ ║   fins with bevelled edges
 ║   ╲╲___╱╱    ← flanks touch
   the wall side lies on the bed, so that nothing needs support
   way out: up over the end of the front flank, then out between the fins
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.brackets import COS, Trough, shell, vee_trough
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.mark_room import mark_below
from cleatwright.features.outward import LEAST_PLATE_MM, group_leading
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Disc
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.extent import joint_extent
from cleatwright.shapes.outline import Outline, polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, Union, across

SMALLEST_MM = 30.0
LARGEST_MM = 420.0
THINNEST_MM = 0.3
THICKEST_MM = 60.0
# a fin stands higher than the flank's end, so that a disc is led while it is lifted over it
FIN_FRONT_MM = 3.0
# a floor goes on this far into the fins beside it
SUNK_SHARE = 0.6
EDGE_MM = 0.8


class Params(FamilyParams):
    """What can be chosen about a disc file.

    Discs are drawn out by their rims, which stand far above the fins: neighbours may stand
    closer than tools that are taken with the whole hand.
    """

    fin_mm: float = Field(
        default=5.0, ge=3.0, le=16.0, description="fingertips reach between two rims"
    )
    rise_share: float = Field(
        default=0.6, ge=0.4, le=0.9, description="height of the fins at the plate over the radius"
    )
    floor_mm: float = Field(default=4.0, ge=3.0, le=8.0, description="thinner floors bend")
    lip_mm: float = Field(default=5.0, ge=4.0, le=12.0, description="kept, yet soon lifted over")
    lift_mm: float = Field(default=1.0, ge=0.5, le=4.0, description="room above the lip")


@dataclass(frozen=True)
class _Slot:
    """One disc and its slot; ``raised_mm`` is how far its floor lies above z = 0."""

    tool: FittedTool
    grip: Disc
    width: Size
    across: Size
    trough: Trough
    raised_mm: float = 0.0


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a file of discs."""
    slots = _level([_slot(tool, p, ctx) for tool in group])
    needed = sum(slot.width.made_mm for slot in slots) + (len(slots) + 1) * p.fin_mm
    width = max(needed, LEAST_PLATE_MM)
    reach = max(slot.trough.end_mm for slot in slots)
    x = (width - needed) / 2 + p.fin_mm
    pieces: list[Solid] = []
    # neighbours of one size share a fin
    fins: dict[tuple[float, Outline], Solid] = {}
    seats: list[Seat] = []
    for slot in slots:
        fin, end = _fin(slot, p, ctx), x + slot.width.made_mm
        sunk = SUNK_SHARE * p.fin_mm
        floor = shell(slot.trough, thick_mm=p.floor_mm).moved(0.0, slot.raised_mm)
        pieces.append(across(floor, x - sunk, end + sunk))
        for start in (x - p.fin_mm, end):
            key = (round(start, 6), fin)
            fins[key] = across(fin, start, start + p.fin_mm, edge_mm=EDGE_MM)
        seats.append(_seat(slot, (x + end) / 2, p, reach_mm=reach))
        x = end + p.fin_mm
    low = min(slot.trough.lowest_mm + slot.raised_mm for slot in slots) - p.floor_mm
    place, plate_low = mark_below(width, low_mm=low, plate_mm=ctx.plate_mm)
    high = max(fin.bounds[3] for _, fin in fins)
    return Front(
        solid=Union((*pieces, *fins.values())),
        width_mm=width,
        plate_low_mm=plate_low,
        plate_high_mm=high,
        reach_mm=reach,
        low_mm=low,
        high_mm=high,
        seats=tuple(seats),
        genus=0,
        min_wall_mm=min(p.fin_mm - 2 * EDGE_MM, p.floor_mm * COS),
        mark_place=place,
        leading=group_leading([slot.grip.diameter_mm for slot in slots]),
        print_pose="on-its-back",
    )


def _behind_mm(tool: ToolBody, grip: Disc) -> float:
    """Return how far the tool reaches to the wall from its middle."""
    return -joint_extent(tuple(piece.placed(grip.pose) for piece in tool.envelope))[0][1]


def _slot(tool: FittedTool, p: Params, ctx: BuildContext) -> _Slot:
    grip = tool.body.needed_grip(Disc)
    size = tool.size("floor for the diameter", grip.diameter_mm)
    trough = vee_trough(
        size.made_mm,
        held_mm=grip.diameter_mm,
        axis_mm=ctx.plate_mm + CLEAR_MM + max(size.made_mm / 2, _behind_mm(tool.body, grip)),
        plate_mm=ctx.plate_mm,
        lip_mm=p.lip_mm,
    )
    return _Slot(tool, grip, tool.size("slot", grip.thickness_mm), size, trough)


def _level(slots: list[_Slot]) -> list[_Slot]:
    """Return the slots with all back flanks in one plane: smaller discs stand higher."""
    root = max(slot.trough.root_mm for slot in slots)
    return [replace(slot, raised_mm=root - slot.trough.root_mm) for slot in slots]


def _fin(slot: _Slot, p: Params, ctx: BuildContext) -> Outline:
    """Return a fin whose lower edge runs inside the floor."""
    over = ((0.0, slot.trough.root_mm), *slot.trough.points)
    under = [(y, z - p.floor_mm / 2) for y, z in over]
    rise = max(p.rise_share * slot.grip.diameter_mm / 2, slot.trough.root_mm + FIN_FRONT_MM)
    end, lip = slot.trough.points[-1]
    high = max(rise, lip + FIN_FRONT_MM)
    fin = [*under, (end, lip + FIN_FRONT_MM), (ctx.plate_mm + CLEAR_MM, high), (0.0, high)]
    return polygon(fin).moved(0.0, slot.raised_mm)


def _seat(slot: _Slot, x: float, p: Params, *, reach_mm: float) -> Seat:
    rest, axis = slot.trough.rest_mm + slot.raised_mm, slot.trough.axis_mm
    up = slot.trough.lip_mm - slot.trough.rest_mm + p.lift_mm
    out = reach_mm + CLEAR_MM - axis + _behind_mm(slot.tool.body, slot.grip)
    return Seat(
        slot.tool.body,
        slot.grip.pose.then(shift(x, axis, rest + slot.grip.diameter_mm / 2)),
        ((0.0, 0.0, up), (0.0, out, 0.0)),
        (slot.width, slot.across),
        rest_z_mm=rest,
    )


def refuses(tool: ToolBody) -> str | None:
    """Return why a disc cannot stand here, or None."""
    grip = tool.needed_grip(Disc)
    if not SMALLEST_MM <= grip.diameter_mm <= LARGEST_MM:
        return (
            f"its diameter of {said.mm(grip.diameter_mm)} is outside {said.number(SMALLEST_MM)} to "
            f"{said.mm(LARGEST_MM)}"
        )
    if not THINNEST_MM <= grip.thickness_mm <= THICKEST_MM:
        return (
            f"its thickness of {said.mm(grip.thickness_mm)} is outside {said.number(THINNEST_MM)} "
            f"to {said.mm(THICKEST_MM)}"
        )
    return None


FAMILY = Family(
    name="disc-file",
    title="Slots between fins, for discs that stand on edge",
    grip=Disc,
    params=Params,
    build=build,
    refuses=refuses,
)
