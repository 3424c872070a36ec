"""Shelf with slotted bores, for tools that hang by a shoulder.

seen from above                          section through a seat

══════════════ plate ═══════════        ║plate
 │    ╭───╮      ╭─────╮      │         ║───┐     ┌──  ← shelf top, z = 0
 │    │ o │      │  o  │      │         ║   └┐   ┌┘    ← recess, eight-sided
 │     ╲ ╱        ╲   ╱       │         ║────┘   └───  ← z = -shelf
 └─────┘ └────────┘   └───────┘         ║╲ gusset
     slot = neck + play                  way out: up past the recess, out through the slot
 the front of a recess runs at 45 degrees, which prints while the plate lies on the bed
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.footed import eighths_behind, roof
from cleatwright.features.layout import row
from cleatwright.features.outward import group_leading
from cleatwright.features.root import COVE_MM, cove, gusset
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Shoulder
from cleatwright.parts.holder import Front, Seat, front_mark
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.outline import Outline, polygon, rectangle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import CutPrism, PrismRow, Union


class Params(FamilyParams):
    """What can be chosen about a shoulder rack."""

    shelf_mm: float = Field(default=8.0, ge=5.0, le=20.0, description="thinner shelves bend")
    recess_mm: float = Field(
        default=3.0, ge=1.5, le=4.0, description="deep enough to keep a tool in"
    )
    rim_mm: float = Field(
        default=4.0, ge=2.4, le=20.0, description="two printed lines on each side"
    )
    lift_mm: float = Field(
        default=1.0, ge=0.5, le=10.0, description="room above the recess on the way"
    )


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of tools with shoulders."""
    grips = [tool.body.needed_grip(Shoulder) for tool in group]
    sizes = [
        (tool.size("slot", g.neck_mm), tool.size("recess", g.shoulder_mm))
        for tool, g in zip(group, grips, strict=True)
    ]
    widths = [
        max(tool.body.width_mm, recess.made_mm + 2 * p.rim_mm)
        for tool, (_, recess) in zip(group, sizes, strict=True)
    ]
    line = row(widths, gap_mm=ctx.hand_room_mm, margin_mm=p.rim_mm)
    behind = max(
        *(-tool.body.extent_mm[0][1] for tool in group),
        *(recess.made_mm / 2 for _, recess in sizes),
    )
    axis_y = ctx.plate_mm + p.rim_mm + behind
    reach = axis_y + max(_ahead_mm(slot.made_mm, recess.made_mm) for slot, recess in sizes)
    reach += p.rim_mm
    slots: list[Outline] = []
    recesses: list[Outline] = []
    seats: list[Seat] = []
    up = p.recess_mm + p.lift_mm
    for tool, grip, x, (slot, recess) in zip(group, grips, line.centres_mm, sizes, strict=True):
        slots.append(_slot(p, slot.made_mm, front_mm=reach - axis_y).moved(x, axis_y))
        recesses.append(_recess(recess.made_mm / 2).moved(x, axis_y))
        pose = shift(x, axis_y, -p.recess_mm - grip.z_mm)
        out = reach - axis_y - tool.body.extent_mm[0][1] + 1.0
        seats.append(Seat(tool.body, pose, ((0.0, 0.0, up), (0.0, out, 0.0)), (slot, recess)))
    rim = rectangle(0.0, 0.0, line.width_mm, reach)
    board = CutPrism(rim, tuple(slots), p.shelf_mm).moved(dz=-p.shelf_mm)
    shelf = board - PrismRow(tuple(recesses), p.recess_mm + 1.0).moved(dz=-p.recess_mm)
    web = min(reach - ctx.plate_mm, 0.8 * (axis_y - ctx.plate_mm))
    ribs = [
        gusset(x, x + p.rim_mm, plate_mm=ctx.plate_mm, reach_mm=web, z_mm=-p.shelf_mm)
        for x in (0.0, line.width_mm - p.rim_mm)
    ]
    root = cove(0.0, line.width_mm, plate_mm=ctx.plate_mm, z_mm=-p.shelf_mm)
    return Front(
        solid=Union((shelf, root, *ribs)),
        width_mm=line.width_mm,
        plate_low_mm=-p.shelf_mm - web,
        plate_high_mm=0.0,
        reach_mm=reach,
        low_mm=-p.shelf_mm - web,
        high_mm=0.0,
        seats=tuple(seats),
        genus=0,
        min_wall_mm=min(p.rim_mm, p.shelf_mm - p.recess_mm),
        mark_place=front_mark(
            p.rim_mm,
            line.width_mm - p.rim_mm,
            z0=-p.shelf_mm - web,
            z1=-p.shelf_mm - COVE_MM,
            y_mm=ctx.plate_mm,
        ),
        leading=group_leading([grip.neck_mm for grip in grips]),
        print_pose="on-its-back",
    )


def _slot(p: Params, slot_mm: float, *, front_mm: float) -> Outline:
    """Return a bore about the origin with a slot to the front, flared where the tool enters."""
    half, flare = slot_mm / 2, min(p.rim_mm / 2, 2.0)
    past = front_mm + 1.0
    corners = (
        (half, 0.0),
        (half, front_mm - flare),
        (half + flare + 1.0, past),
        (-half - flare - 1.0, past),
        (-half, front_mm - flare),
        (-half, 0.0),
    )
    return Outline(corners, (0.0, 0.0, 0.0, 0.0, 0.0, 1.0))


def _recess(radius_mm: float) -> Outline:
    """Return an eight-sided plan around a circle about the origin, its front a 45-degree roof."""
    right, tip, _, left = roof(radius_mm, 0.0, flat_mm=0.0)
    return polygon([right, tip, left, *eighths_behind(radius_mm, 0.0)])


def _ahead_mm(slot_mm: float, recess_mm: float) -> float:
    """Return how far a recess reaches in front of its axis, beside its slot."""
    return max(recess_mm / 2, recess_mm / math.sqrt(2.0) - slot_mm / 2)


def refuses(tool: ToolBody) -> str | None:
    """Return why a tool with a shoulder cannot hang here, or None."""
    grip = tool.needed_grip(Shoulder)
    if grip.shoulder_mm - grip.neck_mm < 3.0:
        return (
            f"its shoulder of {said.mm(grip.shoulder_mm)} is less than {said.mm(3)} wider than its "
            f"neck of {said.mm(grip.neck_mm)} and would slip through"
        )
    return None


FAMILY = Family(
    name="shoulder-rack",
    title="Shelf with slotted bores, for tools that hang by a shoulder",
    grip=Shoulder,
    params=Params,
    build=build,
    refuses=refuses,
)
