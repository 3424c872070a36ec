"""A pad with disc magnets for each flat steel tool, and a toe ledge below short blunt ones.

from the front                    from the side

═════════ plate ═════════         ║┌─┐│       ← pocket, open at the top
   ┌──┬──┬──┐                     ║│█││steel
   │  │()│  │  pad                ║└─┘│ face
   └──┴──┴──┘ ← z = 0             ║───┘│
                                  ║    │
   └────────┘  ledge              ║────┴──    ← toe ledge, where the tool's end is near
                                  ║ ╲

A sharp end never stands on a ledge: such a tool, and a long one, is carried by friction,
with as many discs as that takes. The magnets alone keep a tool from coming forward, since
pulling it off straight is the way out; so no seat promises a lip.
"""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.footed import footed_row
from cleatwright.features.mark_room import mark_below
from cleatwright.features.outward import group_leading
from cleatwright.features.tongue import tongue
from cleatwright.holders.families.magnet_bar.magnet_pad import POCKET_PLAY_MM, Discs, pad
from cleatwright.holders.families.magnet_bar.magnet_stack import (
    Stack,
    behind_mm,
    stack_for,
    toe_half_mm,
)
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import SteelFace
from cleatwright.parts.hold import MagnetPull
from cleatwright.parts.holder import Front, Hardware, Seat
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, joined
from cleatwright.statics.disc_magnet import PULL
from cleatwright.statics.magnet_need import FRICTION

LEAST_FACE_MM = 4.0
LEAST_STEEL_MM = 0.5
TOE_PAST_MM = 6.0
# between the sizes that are tried, the pull of a disc changes by less
BETWEEN = 1.05
TRIED_MM = tuple(10.0 + 0.25 * k for k in range(21))
CAUTION = (
    "slide them in from above, each turned so that it clings to the one below, one drop of glue "
    "on top; tilt a tool off sideways, which takes less than a straight pull; keep "
    "magnets and what they hold away from pacemakers and other implants; swallowed magnets "
    "injure, so keep loose ones from children; they snap together and splinter"
)


class Params(FamilyParams):
    """What can be chosen about magnet bars."""

    disc_mm: float = Field(
        default=10.0, ge=10.0, le=15.0, description="diameter of the discs; larger ones pinch"
    )
    disc_height_mm: float = Field(
        default=3.0, ge=3.0, le=6.0, description="thickness of the discs; thin ones pull little"
    )
    skin_mm: float = Field(
        default=0.9, ge=0.9, le=1.2, description="two printed lines; each tenth costs pull"
    )
    ledge_mm: float = Field(default=4.0, ge=3.0, le=8.0, description="thinner ledges bend")


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of flat steel tools."""
    pads = [_found(tool.body, stack_for(tool.body, _discs(p))) for tool in group]
    corrections = [tool.fit.correction_mm for tool in group]
    toes = [toe_half_mm(tool.body) for tool in group]
    line = footed_row(
        [tool.body.width_mm for tool in group],
        [
            max(one.discs.width_mm(own), 2 * toe)
            for one, own, toe in zip(pads, corrections, toes, strict=True)
        ],
        gap_mm=ctx.hand_room_mm,
        apart_mm=CLEAR_MM,
        margin_mm=CLEAR_MM,
    )
    pieces: list[Solid] = []
    placed: list[tuple[float, float]] = []
    lows, fronts = [0.0], [ctx.plate_mm]
    for tool, one, own, toe, x in zip(group, pads, corrections, toes, line.centres_mm, strict=True):
        face = ctx.plate_mm + max(one.discs.depth_mm + own, CLEAR_MM + behind_mm(tool.body))
        y = face - tool.body.needed_grip(SteelFace).y_mm
        pieces.append(pad(one.discs, x, plate_mm=ctx.plate_mm, face_mm=face, correction_mm=own))
        placed.append((face, y))
        fronts.append(face)
        lows.append(ctx.plate_mm - face)
        if toe:
            (_, _, low), (_, deep, _) = tool.body.extent_mm
            top, front = low - one.low_mm, y + min(deep, tool.body.com_mm[1] + TOE_PAST_MM)
            ledge = tongue(toe, front, top_mm=top, thick_mm=p.ledge_mm, plate_mm=ctx.plate_mm)
            pieces.append(ledge.moved(x))
            fronts.append(front)
            lows.append(top - p.ledge_mm - (front - ctx.plate_mm))
    reach = max(fronts)
    seats = tuple(
        _seat(tool, one, x=x, face_mm=face, y=y, reach_mm=reach)
        for tool, one, x, (face, y) in zip(group, pads, line.centres_mm, placed, strict=True)
    )
    high = max(one.discs.height_mm(own) for one, own in zip(pads, corrections, strict=True))
    place, plate_low = mark_below(line.width_mm, low_mm=min(lows), plate_mm=ctx.plate_mm)
    return Front(
        solid=joined(*pieces),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=high,
        reach_mm=reach,
        low_mm=min(lows),
        high_mm=high,
        seats=seats,
        genus=0,
        min_wall_mm=p.skin_mm,
        mark_place=place,
        leading=group_leading([tool.body.needed_grip(SteelFace).width_mm for tool in group]),
        hardware=(
            Hardware(
                name=f"neodymium disc magnet {said.number(p.disc_mm)} x "
                f"{said.mm(p.disc_height_mm)}, N35 or more",
                count=sum(one.discs.count for one in pads),
                note=CAUTION,
                source=PULL,
            ),
        ),
    )


def _seat(
    tool: FittedTool, one: Stack, *, x: float, face_mm: float, y: float, reach_mm: float
) -> Seat:
    body, discs = tool.body, one.discs
    out = reach_mm - y - body.extent_mm[0][1] + CLEAR_MM
    opening = ("magnet pocket", discs.diameter_mm), ("magnet pocket depth", discs.thickness_mm)
    return Seat(
        body,
        shift(x, y, -one.low_mm),
        ((0.0, out, 0.0),),
        tuple(Size(label, size, POCKET_PLAY_MM, tool.fit.correction_mm) for label, size in opening),
        kept=False,
        # the magnets resist the hand at the pad, whatever carries the tool
        rest_z_mm=0.0,
        magnet=MagnetPull(
            one.pull_n,
            FRICTION,
            PULL,
            face_y_mm=face_mm,
            lever_mm=discs.middle_mm,
            most_n=one.most_n,
        ),
    )


def _discs(p: Params) -> Discs:
    return Discs(p.disc_mm, p.disc_height_mm, p.skin_mm)


def _found(tool: ToolBody, one: Stack | None) -> Stack:
    """Return the pad, or raise DesignError when there is none."""
    if one is None:
        raise DesignError(
            f"no stack of these discs holds a {tool.kind} {tool.leading}",
            todo="Choose thicker discs, or another family",
        )
    return one


def refuses(tool: ToolBody) -> str | None:
    """Return why a steel face cannot be held by the weakest discs that may be chosen, or None."""
    grip = tool.needed_grip(SteelFace)
    if grip.width_mm < LEAST_FACE_MM or grip.thickness_mm < LEAST_STEEL_MM:
        return (
            f"its steel face of {said.mm(grip.width_mm)}, {said.mm(grip.thickness_mm)} thick, is "
            f"less than the {said.mm(LEAST_FACE_MM)} and {said.mm(LEAST_STEEL_MM)} that magnets "
            "can grasp"
        )
    weakest = [stack_for(tool, Discs(size, 3.0, 1.2), spare=BETWEEN) for size in TRIED_MM]
    if None in weakest:
        return (
            f"its steel face from {said.number(grip.low_mm)} to {said.mm(grip.high_mm)} has no "
            f"room about its balance point at {said.mm(tool.com_mm[2], '.0f')} for the magnets "
            f"that {said.mass(tool.mass_kg)} take"
        )
    return None


FAMILY = Family(
    name="magnet-bar",
    title="Pads with disc magnets, for tools with a flat steel face",
    grip=SteelFace,
    params=Params,
    build=build,
    refuses=refuses,
)
