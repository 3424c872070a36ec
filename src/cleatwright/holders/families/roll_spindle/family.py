"""A loose rod in two open hooks for each roll, which turns on the rod and is lifted out with it.

seen from the front                    section through a hook

 ┌─┐ ┌────────────────┐ ┌─┐            ║─────┐   ┌┐  ← hook
 │ │ │      roll      │ │ │            ║     │ o ││  ← rod lies on z = 0
 │▓│▓▓▓▓▓▓▓▓ rod ▓▓▓▓▓▓▓▓│▓│           ║     └───┘│
 │ │ │                │ │ │            ║         ╱
 └─┘ └────────────────┘ └─┘            ║       ╱   45 degrees
  ↑ closed cheek: the rod cannot slide out sideways
  way out: up out of the hooks, then out, rod and all

The rod is a dowel or a round bar, bought and cut to length. Its own weight is little beside
that of a full roll and is not counted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.brackets import LEAD_MM, TIP_MM
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.layout import row
from cleatwright.features.mark_room import has_room, mark_below
from cleatwright.features.outward import LEAST_PLATE_MM, group_leading
from cleatwright.holders.families.roll_spindle.rod import ROD_SIZES, lying_rod, rod_for, undone
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import RollBore
from cleatwright.parts.holder import Front, Hardware, MarkPlace, Seat, front_mark
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.extent import joint_extent
from cleatwright.shapes.outline import Outline, polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, Union, across

# free room on each side of a roll, so that it turns, and of the rod between its cheeks
SIDE_MM = 1.5
ROD_END_MM = 0.5
LEAST_BETWEEN_MM = 3.0
# the hooks hold the rod by at least this share of its diameter
HOOK_SHARE = 0.7
MOST_BEARING_MM = 12.0
MOST_PLAY_MM = 2.0
LARGEST_MM = 320.0


class Params(FamilyParams):
    """What can be chosen about spindles."""

    rod_mm: float = Field(
        default=12.0, ge=6.0, le=30.0, description="stock sizes; heavy rolls get a thicker one"
    )
    bearing_mm: float = Field(
        default=6.0, ge=4.0, le=MOST_BEARING_MM, description="thin hooks wear and bend"
    )
    cheek_mm: float = Field(default=2.4, ge=1.8, le=4.0, description="only stops the rod's end")
    hook_mm: float = Field(
        default=10.0, ge=7.0, le=20.0, description="a pull on the roll must not lift the rod out"
    )
    floor_mm: float = Field(default=6.0, ge=4.0, le=12.0, description="thin tips break off")
    lift_mm: float = Field(default=1.0, ge=0.5, le=4.0, description="room above the hooks")


@dataclass(frozen=True)
class _Roll:
    """One roll with its rod and hooks, in a frame with x = 0 at its middle."""

    tool: FittedTool
    grip: RollBore
    rod_mm: float
    room: Size
    seat: Size
    axis_mm: float
    hook_mm: float

    @property
    def clear_mm(self) -> float:
        """Return half the free width between the hooks."""
        return self.room.made_mm / 2 + SIDE_MM

    @property
    def end_mm(self) -> float:
        """Return the largest y of the hooks."""
        return self.axis_mm + self.seat.made_mm / 2 + TIP_MM


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of rolls, each with its own rod."""
    rolls = [_roll(tool, p, ctx) for tool in group]
    beside = p.bearing_mm + p.cheek_mm
    line = row(
        [2 * (roll.clear_mm + beside) for roll in rolls],
        gap_mm=max(LEAST_BETWEEN_MM, ctx.hand_room_mm - 2 * (SIDE_MM + beside)),
        margin_mm=0.0,
        least_mm=LEAST_PLATE_MM,
    )
    reach = max(roll.end_mm for roll in rolls)
    low = -p.floor_mm - (reach - ctx.plate_mm)
    high = max(roll.hook_mm for roll in rolls)
    place, plate_low = _mark(rolls, line.centres_mm, low, ctx, width_mm=line.width_mm)
    pairs = tuple(zip(rolls, line.centres_mm, strict=True))
    return Front(
        solid=Union(tuple(piece for roll, x in pairs for piece in _arms(roll, x, p, ctx))),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=high,
        reach_mm=reach,
        low_mm=low,
        high_mm=high,
        seats=tuple(_seat(roll, x, p, reach_mm=reach) for roll, x in pairs),
        genus=0,
        min_wall_mm=min(p.cheek_mm, TIP_MM - LEAD_MM),
        mark_place=place,
        leading=group_leading([roll.grip.outer_mm for roll in rolls]),
        hardware=tuple(_hardware(roll, p) for roll in rolls),
    )


def _rod_mm(tool: ToolBody, *, wish_mm: float) -> float | None:
    grip = tool.needed_grip(RollBore)
    span = grip.width_mm + 2 * (MOST_BEARING_MM + SIDE_MM) + MOST_PLAY_MM
    return rod_for(grip.bore_mm, wish_mm=wish_mm, span_mm=span, mass_kg=tool.mass_kg)


def _roll(tool: FittedTool, p: Params, ctx: BuildContext) -> _Roll:
    grip = tool.body.needed_grip(RollBore)
    rod = _rod_mm(tool.body, wish_mm=p.rod_mm)
    assert rod is not None  # noqa: S101 - the registry asks why_not() before it builds
    posed = joint_extent(tuple(piece.placed(grip.pose) for piece in tool.body.envelope))
    seat = tool.size("hook for the rod", rod)
    return _Roll(
        tool=tool,
        grip=grip,
        rod_mm=rod,
        room=tool.size("between the hooks", grip.width_mm),
        seat=seat,
        axis_mm=ctx.plate_mm + CLEAR_MM + max(-posed[0][1], seat.made_mm / 2 + TIP_MM),
        hook_mm=max(p.hook_mm, HOOK_SHARE * rod),
    )


def _profile(roll: _Roll, p: Params, ctx: BuildContext, *, opened: bool) -> Outline:
    """Return a hook in the (y, z) plane, or the cheek that closes it."""
    end, top = roll.end_mm, roll.hook_mm
    heel = -p.floor_mm - (end - ctx.plate_mm)
    back, front = roll.axis_mm - roll.seat.made_mm / 2, roll.axis_mm + roll.seat.made_mm / 2
    slot = [
        (front + LEAD_MM, top),
        (front, top - LEAD_MM),
        (front, 0.0),
        (back, 0.0),
        (back, top - LEAD_MM),
        (back - LEAD_MM, top),
    ]
    return polygon(
        [
            (0.0, heel),
            (ctx.plate_mm, heel),
            (end, -p.floor_mm),
            (end, top),
            *(slot if opened else []),
            (0.0, top),
        ]
    )


def _arms(roll: _Roll, x: float, p: Params, ctx: BuildContext) -> list[Solid]:
    hook, cheek = (_profile(roll, p, ctx, opened=opened) for opened in (True, False))
    inner, outer = roll.clear_mm, roll.clear_mm + p.bearing_mm
    past = outer + p.cheek_mm
    # a hook goes on through its cheek, so that both join
    return [
        across(hook, x - past, x - inner),
        across(cheek, x - past, x - outer),
        across(hook, x + inner, x + past),
        across(cheek, x + outer, x + past),
    ]


def _length_mm(roll: _Roll, p: Params) -> float:
    return 2 * (roll.clear_mm + p.bearing_mm - ROD_END_MM)


def _seat(roll: _Roll, x: float, p: Params, *, reach_mm: float) -> Seat:
    """Return the seat of a roll that hangs on its rod; the rod goes with it."""
    hang = (roll.rod_mm - roll.grip.bore_mm) / 2
    rod = lying_rod(roll.rod_mm, _length_mm(roll, p)).moved(dz=-hang)
    tool = replace(
        roll.tool.body,
        envelope=(*roll.tool.body.envelope, rod.placed(undone(roll.grip.pose))),
    )
    posed = joint_extent(tuple(piece.placed(roll.grip.pose) for piece in tool.envelope))
    out = reach_mm + CLEAR_MM - roll.axis_mm - posed[0][1]
    return Seat(
        tool,
        roll.grip.pose.then(shift(x, roll.axis_mm, roll.rod_mm / 2 + hang)),
        ((0.0, 0.0, roll.hook_mm + p.lift_mm), (0.0, out, 0.0)),
        (roll.room, roll.seat),
    )


def _hardware(roll: _Roll, p: Params) -> Hardware:
    length = _length_mm(roll, p)
    return Hardware(
        name=f"round rod {said.mm(roll.rod_mm)}, {said.mm(length, '.0f')} long",
        count=1,
        note="hardwood dowel or metal, ends deburred; it is lifted out together with the roll",
        source=ROD_SIZES,
    )


def _mark(
    rolls: Sequence[_Roll],
    centres_mm: Sequence[float],
    low_mm: float,
    ctx: BuildContext,
    *,
    width_mm: float,
) -> tuple[MarkPlace, float]:
    """Return the plate between the widest pair of hooks as the place for a mark, else a band."""
    widest = max(range(len(rolls)), key=lambda i: rolls[i].clear_mm)
    x, half = centres_mm[widest], rolls[widest].clear_mm
    if not has_room(2 * half, -low_mm):
        return mark_below(width_mm, low_mm=low_mm, plate_mm=ctx.plate_mm)
    return front_mark(x - half, x + half, z0=low_mm, z1=0.0, y_mm=ctx.plate_mm), low_mm


def refuses(tool: ToolBody) -> str | None:
    """Return why a roll cannot hang here, or None."""
    grip = tool.needed_grip(RollBore)
    if grip.outer_mm > LARGEST_MM:
        return f"its diameter of {said.mm(grip.outer_mm)} is more than {said.mm(LARGEST_MM)}"
    if _rod_mm(tool, wish_mm=0.0) is None:
        return (
            f"no rod that passes its bore of {said.mm(grip.bore_mm, '.1f')} carries "
            f"{said.mass(tool.mass_kg)} over {said.mm(grip.width_mm)}"
        )
    return None


FAMILY = Family(
    name="roll-spindle",
    title="Loose rods in open hooks, for rolls that turn",
    grip=RollBore,
    params=Params,
    build=build,
    refuses=refuses,
)
