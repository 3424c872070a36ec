"""One round peg per tool, which rises and ends in an upturned tip, through a hole in the tool.

seen from the front           section along the peg

    ┌───────┐                 ║plate            ╱╲  ← tip
    │ ╭───╮ │                 ║   ┌──┐         ╱ ╱
    │ │ ● │ │  ← peg          ║╲  │  │   __--─╱ ╱
    │ ╰───╯ │                 ║ ╲__│──│--   __╱    ← top at the tip, z = 0
    │ tool  │                 ║  __│--│__--
                              ║ ╱ │  │  peg = hole - tip - lift - play
                              ║╱ root         way out: up over the tip, then out
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM, up_and_out
from cleatwright.features.outward import MARK_BAND_MM, arm, group_leading, low_mark, slim_row
from cleatwright.holders.families.peg.peg_arm import EDGE_MM, LIP_MM, ROOT_MM, Peg
from cleatwright.holders.families.peg.peg_strength import peg_share
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import EyeHole
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import GRAVITY_M_S2, FittedTool, Size, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Union

LEAST_HOLE_MM = 7.0
# a thicker peg is seldom asked for; the root of the second one still passes a hole of ROOT_PASSES
MOST_PEG_MM, STRONG_PEG_MM = 14.0, 20.0
# what a small hole leaves is shared: at most so much for the rise, then the tip and the lift
RISE_SHARE, TIP_SHARE, LIFT_SHARE = 0.1, 0.28, 0.1
# a peg that a hand would load too much takes from these, down to so much of them in such steps
LEAST_SHARE, STEPS = 0.45, 11
LONGEST_MM = 60.0
# the root of the thickest peg passes a wider hole, with its rise, tip and lift
ROOT_PASSES_MM = 30.0
MOST_TIP_MM = 3.0
# play and correction of a loose fit by a rough printer
MOST_PLAY_MM = 1.2


class Params(FamilyParams):
    """What can be chosen about pegs."""

    tip_mm: float = Field(default=3.0, ge=2.0, le=6.0, description="kept, yet soon lifted over")
    rise_share: float = Field(
        default=0.08, ge=0.02, le=0.15, description="per mm out; leans the tool back to the wall"
    )
    lift_mm: float = Field(default=0.7, ge=0.4, le=2.0, description="room above the tip")


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of tools with holes."""
    pegs = [_plan(tool, p, plate_mm=ctx.plate_mm) for tool in group]
    line = slim_row(
        [tool.body.width_mm for tool in group],
        [peg.peg_mm + 2 * ROOT_MM for peg in pegs],
        gap_mm=ctx.hand_room_mm,
    )
    reach = max(peg.end_y for peg in pegs)
    seats = tuple(
        Seat(
            tool.body,
            shift(x, peg.axis_y, -tool.body.needed_grip(EyeHole).z_mm),
            up_and_out(
                tool.body, up_mm=peg.tip_mm + peg.lift_mm, axis_mm=peg.axis_y, reach_mm=reach
            ),
            peg.sizes,
            swings=True,
        )
        for tool, peg, x in zip(group, pegs, line.centres_mm, strict=True)
    )
    root_y = ctx.plate_mm + ROOT_MM
    below = min(peg.top_mm(root_y) - peg.peg_mm - ROOT_MM for peg in pegs)
    low = below - MARK_BAND_MM
    return Front(
        solid=Union(
            tuple(
                arm(peg.sections(ctx.plate_mm), x)
                for peg, x in zip(pegs, line.centres_mm, strict=True)
            )
        ),
        width_mm=line.width_mm,
        plate_low_mm=low,
        plate_high_mm=ROOT_MM,
        reach_mm=reach,
        low_mm=below,
        high_mm=max(ROOT_MM, *(peg.tip_mm for peg in pegs)),
        seats=seats,
        genus=0,
        min_wall_mm=min(LIP_MM, *(peg.peg_mm - EDGE_MM for peg in pegs)),
        mark_place=low_mark(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm),
        leading=group_leading([tool.body.needed_grip(EyeHole).diameter_mm for tool in group]),
        print_pose="on-its-back",
    )


def _plan(tool: FittedTool, p: Params, *, plate_mm: float) -> Peg:
    """Return a peg as thick as the hole leaves it while the tool passes the tip."""
    grip = tool.body.needed_grip(EyeHole)
    length = tool.size("peg length", grip.thickness_mm)
    # a peg falls towards the wall over all that lies below it
    fall = length.made_mm
    if _is_deeper(tool.body, grip):
        fall = length.made_mm / 2 - tool.body.extent_mm[0][1]
    rising = min(p.rise_share * fall, RISE_SHARE * grip.diameter_mm)
    play = tool.fit.play_mm + tool.fit.correction_mm
    left = grip.diameter_mm - rising - play
    wanted = _Room(rising, min(p.tip_mm, TIP_SHARE * left), min(p.lift_mm, LIFT_SHARE * left))
    room = _strong(tool.body, wanted, play_mm=play, length_mm=length.made_mm)
    thick = room.peg_mm(grip.diameter_mm, play)
    peg = Size("peg", thick + play, -tool.fit.play_mm, -tool.fit.correction_mm)
    behind = _behind_mm(tool.body, grip, length.made_mm)
    axis = plate_mm + CLEAR_MM + behind
    return Peg((peg, length), axis, room.tip_mm, room.lift_mm, room.rise_mm / fall)


@dataclass(frozen=True)
class _Room:
    """What of a hole is not filled by its peg: for the rise, the tip, and the lift over it."""

    rise_mm: float
    tip_mm: float
    lift_mm: float
    most_mm: float = MOST_PEG_MM

    def times(self, share: float) -> _Room:
        """Return a share of all three."""
        return _Room(share * self.rise_mm, share * self.tip_mm, share * self.lift_mm, self.most_mm)

    def peg_mm(self, hole_mm: float, play_mm: float) -> float:
        """Return how thick a peg the hole leaves."""
        left = hole_mm - play_mm - self.rise_mm - self.tip_mm - self.lift_mm
        return min(left, self.most_mm)


def _strong(tool: ToolBody, wanted: _Room, *, play_mm: float, length_mm: float) -> _Room:
    """Return what is wanted, or as much of it as leaves a peg that bears what a hand may do.

    In a wide hole the peg is thicker instead.
    """
    hole = tool.needed_grip(EyeHole).diameter_mm
    for step in range(STEPS + 1):
        found = wanted.times(1.0 - (1.0 - LEAST_SHARE) * step / STEPS)
        if _share(tool, found.peg_mm(hole, play_mm), length_mm=length_mm) <= 1.0:
            return found
    return replace(wanted.times(LEAST_SHARE), most_mm=STRONG_PEG_MM)


def _share(tool: ToolBody, peg_mm: float, *, length_mm: float) -> float:
    """Return the stress in a peg as a share of what it bears."""
    grip = tool.needed_grip(EyeHole)
    middle = CLEAR_MM + _behind_mm(tool, grip, length_mm) - ROOT_MM
    front = max(tool.extent_mm[1][1], length_mm / 2)
    reach = length_mm / 2 + MOST_TIP_MM + LIP_MM
    return peg_share(
        tool.mass_kg * GRAVITY_M_S2,
        middle_mm=middle + max(tool.com_mm[1], 0.0),
        end_mm=middle + min(front, reach),
        diameter_mm=peg_mm,
    )


def _behind_mm(tool: ToolBody, grip: EyeHole, length_mm: float) -> float:
    """Return how far off the plate the axis lies, so that the tool keeps clear of the root."""
    back = -tool.extent_mm[0][1]
    root = ROOT_MM if _is_deeper(tool, grip) else 0.0
    return max(back + root, length_mm / 2 + ROOT_MM)


def _is_deeper(tool: ToolBody, grip: EyeHole) -> bool:
    """Tell whether more than the rim may lie below a small hole, where the root is."""
    back = -tool.extent_mm[0][1]
    return back > grip.thickness_mm / 2 and grip.diameter_mm < ROOT_PASSES_MM


def refuses(tool: ToolBody) -> str | None:
    """Return why a tool with a hole cannot hang here, or None."""
    grip = tool.needed_grip(EyeHole)
    if grip.diameter_mm < LEAST_HOLE_MM:
        return (
            f"its hole of {said.mm(grip.diameter_mm)} is too small for a printed peg, which needs "
            f"{said.mm(LEAST_HOLE_MM)}. To hang it on a screw of your own, take its [[tool]] out "
            "of the document, and keep the place free with a [[wall.obstacle]]"
        )
    if grip.thickness_mm > LONGEST_MM:
        return (
            f"it is {said.mm(grip.thickness_mm)} thick at its hole, and a peg for more than "
            f"{said.mm(LONGEST_MM)} bends"
        )
    rise = RISE_SHARE * grip.diameter_mm
    left = grip.diameter_mm - rise - MOST_PLAY_MM
    wanted = _Room(rise, TIP_SHARE * left, LIFT_SHARE * left, STRONG_PEG_MM)
    room = wanted.times(LEAST_SHARE)
    peg = room.peg_mm(grip.diameter_mm, MOST_PLAY_MM)
    share = _share(tool, peg, length_mm=grip.thickness_mm + MOST_PLAY_MM)
    if share > 1.0:
        return (
            f"its {said.mass(tool.mass_kg, '.2g')} and a hand are too much for a peg that its "
            f"hole of {said.mm(grip.diameter_mm)} leaves {said.mm(peg, '.1f')} thick: "
            f"{share:.0%} of what it bears"
        )
    return None


FAMILY = Family(
    name="peg",
    title="Round pegs with an upturned tip, for tools with a hole to hang by",
    grip=EyeHole,
    params=Params,
    build=build,
    refuses=refuses,
)
