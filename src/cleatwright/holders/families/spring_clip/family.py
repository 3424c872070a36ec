"""Two arms that spring aside for a round body which stands on a small floor between them.

seen from above                      seen from the side

══════╤═ plate ═╤══════              ║───────────────┐
      │  │stop│ │    ↕ leg           ║    arm        │ ← clip
      │  └────┘ │                    ║             ╱─┘
      │ ╭────╮  │  body + play       ║          ╱     arms grow out of the plate at
      ││ body │ │                    ║       ╱        45 degrees and need no support
      ╰╮╰────╯ ╭╯ ← undercut         ║    ╱
         mouth                       ║──────────      ← z = 0: floor
  way out: straight out through      ║─╲───────
  the mouth; the arms bend aside     ║  ╲ web

The leg is as long as the arm's strain asks for: slender bodies, and all in a brittle plastic,
stand further out.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.footed import footed_row
from cleatwright.features.mark_room import mark_below
from cleatwright.features.outward import group_leading
from cleatwright.features.tongue import tongue
from cleatwright.holders.families.spring_clip.clip_plan import ClipPlan, clip_plan
from cleatwright.holders.families.spring_clip.spring_arms import LEAST_STOP_MM, ROOT_MM, arms, stop
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import RoundBody
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, joined
from cleatwright.standards.materials.spring_plastic import spring_plastic

LEAST_MM, MOST_MM = 6.0, 60.0
LOWEST_MM = 30.0
# low arms reach down beside the floor; neither their feet nor their tips may touch it
BESIDE_FLOOR_MM = 0.8
FLOOR_SHARE = 0.25
# a wide body stands on a tongue; the clip keeps it upright
MOST_FLOOR_MM = 26.0


class Params(FamilyParams):
    """What can be chosen about spring clips."""

    arm_mm: float = Field(
        default=1.8, ge=1.35, le=2.7, description="three to six lines; thick arms need long legs"
    )
    clip_mm: float = Field(
        default=12.0, ge=8.0, le=20.0, description="a low clip lets the body lean"
    )
    undercut_share: float = Field(
        default=0.05, ge=0.03, le=0.08, description="part of the diameter that an arm moves aside"
    )
    height_share: float = Field(
        default=0.5, ge=0.4, le=0.6, description="part of the body below the clip's middle"
    )
    most_mm: float = Field(
        default=60.0, ge=30.0, le=100.0, description="a high clip costs plate below it"
    )
    floor_mm: float = Field(default=4.0, ge=3.0, le=8.0, description="thinner floors bend")


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of round bodies."""
    grips = [tool.body.needed_grip(RoundBody) for tool in group]
    sizes = [tool.size("clip", g.diameter_mm) for tool, g in zip(group, grips, strict=True)]
    plastic = spring_plastic(ctx.material)
    clips = [
        clip_plan(
            grip.diameter_mm,
            size.made_mm,
            undercut_share=p.undercut_share,
            arm_mm=p.arm_mm,
            clip_mm=p.clip_mm,
            behind_mm=max(size.made_mm / 2, -tool.body.extent_mm[0][1]) + CLEAR_MM,
            plate_mm=ctx.plate_mm,
            plastic=plastic,
        )
        for tool, grip, size in zip(group, grips, sizes, strict=True)
    ]
    line = footed_row(
        [tool.body.width_mm for tool in group],
        [size.made_mm + 2 * (p.arm_mm + ROOT_MM) for size in sizes],
        gap_mm=ctx.hand_room_mm,
        # two neighbouring arms may move aside at once
        apart_mm=CLEAR_MM + 2 * max(clip.spring.deflection_mm for clip in clips),
        margin_mm=CLEAR_MM,
    )
    floors = [c.axis_mm + FLOOR_SHARE * g.diameter_mm for c, g in zip(clips, grips, strict=True)]
    reach = max(*floors, *(clip.tip_mm for clip in clips))
    lows = [_low_mm(grip, p) for grip in grips]
    pieces: list[Solid] = []
    seats: list[Seat] = []
    for i, (tool, size, clip, x) in enumerate(
        zip(group, sizes, clips, line.centres_mm, strict=True)
    ):
        fixed, pair = _module(
            clip, size.made_mm / 2, p, floor_mm=floors[i], low_mm=lows[i], plate_mm=ctx.plate_mm
        )
        pieces += [fixed.moved(x), pair.moved(x)]
        out = reach - clip.axis_mm - tool.body.extent_mm[0][1] + CLEAR_MM
        spring = replace(clip.spring, moving=(pair.moved(x),))
        pose = shift(x, clip.axis_mm, -grips[i].z_mm)
        seats.append(Seat(tool.body, pose, ((0.0, out, 0.0),), (size,), spring=spring))
    low = min(
        *(ctx.plate_mm - floor - p.floor_mm for floor in floors),
        *(at - (clip.tip_mm - ctx.plate_mm) for at, clip in zip(lows, clips, strict=True)),
    )
    high = max(lows) + p.clip_mm
    place, plate_low = mark_below(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm)
    return Front(
        solid=joined(*pieces),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=high,
        reach_mm=reach,
        low_mm=low,
        high_mm=high,
        seats=tuple(seats),
        genus=0,
        min_wall_mm=min(p.arm_mm, p.floor_mm, LEAST_STOP_MM),
        mark_place=place,
        leading=group_leading([grip.diameter_mm for grip in grips]),
        also=("on-its-back",),
    )


def _low_mm(grip: RoundBody, p: Params) -> float:
    return min(p.height_share * grip.height_mm, p.most_mm) - p.clip_mm / 2


def _module(
    clip: ClipPlan, inner_mm: float, p: Params, *, floor_mm: float, low_mm: float, plate_mm: float
) -> tuple[Solid, Solid]:
    """Return what stands still and what bends about x = 0; the floor reaches to ``floor_mm``."""
    lean = math.radians(clip.spring.tip_deg)
    mouth = clip.spring.mean_radius_mm * math.sin(lean) - p.arm_mm / 2
    half = min(min(inner_mm - ROOT_MM, mouth) - BESIDE_FLOOR_MM, MOST_FLOOR_MM / 2)
    floor = tongue(half, floor_mm, top_mm=0.0, thick_mm=p.floor_mm, plate_mm=plate_mm)
    span = {"low_mm": low_mm, "high_mm": low_mm + p.clip_mm}
    back = stop(inner_mm=inner_mm, axis_mm=clip.axis_mm, plate_mm=plate_mm, **span)
    pair = arms(clip.spring, axis_mm=clip.axis_mm, plate_mm=plate_mm, **span)
    return joined(floor, back), pair


def refuses(tool: ToolBody) -> str | None:
    """Return why a round body cannot stand here, or None."""
    grip = tool.needed_grip(RoundBody)
    if not LEAST_MM <= grip.diameter_mm <= MOST_MM:
        return (
            f"its body of {said.mm(grip.diameter_mm)} is not between the {said.number(LEAST_MM)} "
            f"and {said.mm(MOST_MM)} that arms can spring around"
        )
    if grip.height_mm < LOWEST_MM:
        return (
            f"its body of {said.mm(grip.height_mm)} is lower than the {said.mm(LOWEST_MM)} of a "
            "clip"
        )
    return None


FAMILY = Family(
    name="spring-clip",
    title="Springing arms over a floor, for markers, torches and other slim round bodies",
    grip=RoundBody,
    params=Params,
    build=build,
    refuses=refuses,
)
