"""Two slanted ledges for each round thing that stands on its rim, flat to the wall.

seen from the front                 section along a ledge

      ╭───────────╮                 ║plate          ╱─┐  ← lip
    ╱               ╲               ║──────────────╱  │  ← the rim stands here, z = 0
   │                 │              ║─────────────────┘
    ╲               ╱               ║╲________
   ╲  ╲___________╱  ╱  ← ledge     ║ web
     ↔ span from the middle         way out: up until the rim passes the lips, then out

Each ledge is a tangent of the rim. The farther apart they are, the better they keep it sideways.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM, up_and_out
from cleatwright.features.mark_room import has_room, mark_below
from cleatwright.features.outward import group_leading, slim_row
from cleatwright.features.root import COVE_MM
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import RoundRim
from cleatwright.parts.holder import Front, MarkPlace, Seat, front_mark
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, Union, across
from cleatwright.statics.arm_strength import LASTING_MPA, flat_root_mpa

SMALLEST_MM, LARGEST_MM = 60.0, 650.0
SHALLOWEST_MM, DEEPEST_MM = 12.0, 160.0
# a rim that is shallower for its size topples over its lips
DEPTH_SHARE = 1.0 / 6.0
# sine of the angle of a ledge to the level at most
MOST_SLANT = 0.6
WEB_MM, LIP_MM = 4.0, 3.0
# a web is so deep at the plate, over how far it reaches
WEB_SHARE = 0.45
LEAST_THICK_MM = 6.0
SUNK_MM = 1.0
# half the gap that both lips leave at least
MIDDLE_MM = 2.0


class Params(FamilyParams):
    """What can be chosen about rim rests."""

    span_mm: float = Field(
        default=45.0, ge=30.0, le=90.0, description="wide keeps it sideways; the bed ends it"
    )
    ledge_mm: float = Field(default=16.0, ge=10.0, le=30.0, description="a thin ledge marks a rim")
    thick_mm: float = Field(default=7.0, ge=LEAST_THICK_MM, le=12.0, description="thin tips break")
    lip_mm: float = Field(default=6.0, ge=4.0, le=12.0, description="kept, yet soon lifted over")
    lift_mm: float = Field(default=1.0, ge=0.5, le=4.0, description="room above the lip")


@dataclass(frozen=True)
class _RimStand:
    """One rim and its two ledges, about x = 0; the rim touches them at z = 0."""

    tool: FittedTool
    radius_mm: float
    depth: Size
    axis_mm: float
    plate_mm: float
    p: Params

    @property
    def slant(self) -> float:
        """Return the sine of the angle of a ledge to the level."""
        return min(MOST_SLANT, self.p.span_mm / self.radius_mm)

    @property
    def level(self) -> float:
        """Return its cosine."""
        return math.sqrt(1.0 - self.slant**2)

    @property
    def ledge_mm(self) -> float:
        """Return the width of a ledge, whose lip ends before the middle."""
        room = (self.radius_mm - self.p.lip_mm) * self.slant - MIDDLE_MM
        return min(self.p.ledge_mm, 2.0 * room / self.level)

    @property
    def lip_y(self) -> float:
        """Return where the lips begin to rise."""
        return self.axis_mm + self.depth.made_mm / 2

    @property
    def end_mm(self) -> float:
        """Return the ends of the ledges."""
        return self.lip_y + self.p.lip_mm + LIP_MM

    @property
    def deep_mm(self) -> float:
        """Return how far a ledge and its web go down at the plate, square to the ledge."""
        return self.p.thick_mm + max(COVE_MM, WEB_SHARE * (self.lip_y - self.plate_mm))

    @property
    def half_mm(self) -> float:
        """Return half the width over both ledges."""
        beside = self.ledge_mm / 2 * self.level + self.deep_mm * self.slant
        return self.radius_mm * self.slant + beside

    @property
    def inside_mm(self) -> float:
        """Return half the free width between both ledges."""
        return self.radius_mm * self.slant - self.ledge_mm / 2 * self.level

    @property
    def low_mm(self) -> float:
        """Return the lowest z of the ledges and webs."""
        return -self.deep_mm * self.level - self.ledge_mm / 2 * self.slant

    @property
    def high_mm(self) -> float:
        """Return the highest z of the lips."""
        return self.p.lip_mm * self.level + self.ledge_mm / 2 * self.slant

    @property
    def up_mm(self) -> float:
        """Return how far the rim is lifted until it passes the lips."""
        return (self.p.lip_mm + self.p.lift_mm) / self.level

    def solids(self) -> list[Solid]:
        """Return both ledges with their webs."""
        thick, lip, end, plate = self.p.thick_mm, self.p.lip_mm, self.end_mm, self.plate_mm
        ledge = polygon(
            [
                (0.0, -thick - COVE_MM),
                (plate, -thick - COVE_MM),
                (plate + COVE_MM, -thick),
                (end, -thick),
                (end, lip),
                (self.lip_y + lip, lip),
                (self.lip_y, 0.0),
                (0.0, 0.0),
            ]
        )
        root, under = -self.deep_mm, SUNK_MM - thick
        web = polygon([(0.0, root), (plate, root), (self.lip_y, under), (0.0, under)])
        half = self.ledge_mm / 2
        upright = (across(ledge, -half, half), across(web, -WEB_MM / 2, WEB_MM / 2))
        degrees = math.degrees(math.asin(self.slant))
        return [
            one.turned("y", -side * degrees).moved(side * self.radius_mm * self.slant, 0.0, 0.0)
            for side in (-1, 1)
            for one in upright
        ]


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of round things."""
    rests = [_rest(tool, p, ctx) for tool in group]
    line = slim_row(
        [tool.body.width_mm for tool in group],
        [2 * rest.half_mm for rest in rests],
        gap_mm=ctx.hand_room_mm,
    )
    reach = max(rest.end_mm for rest in rests)
    low, high = min(rest.low_mm for rest in rests), max(rest.high_mm for rest in rests)
    seats: list[Seat] = []
    for tool, rest, x in zip(group, rests, line.centres_mm, strict=True):
        middle = rest.radius_mm * rest.level - tool.body.needed_grip(RoundRim).z_mm
        moves = up_and_out(tool.body, up_mm=rest.up_mm, axis_mm=rest.axis_mm, reach_mm=reach)
        pose = shift(x, rest.axis_mm, middle)
        seats.append(Seat(tool.body, pose, moves, (rest.depth,), rest_z_mm=0.0))
    mark, plate_low = _mark(rests, line.centres_mm, line.width_mm, low_mm=low)
    return Front(
        solid=Union(
            tuple(
                piece.moved(x)
                for rest, x in zip(rests, line.centres_mm, strict=True)
                for piece in rest.solids()
            )
        ),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=max(rest.ledge_mm / 2 * rest.slant for rest in rests) + CLEAR_MM,
        reach_mm=reach,
        low_mm=low,
        high_mm=high,
        seats=tuple(seats),
        genus=0,
        min_wall_mm=min(WEB_MM, LIP_MM),
        mark_place=mark,
        leading=group_leading([2 * rest.radius_mm for rest in rests]),
        print_pose="on-its-back",
    )


def _rest(tool: FittedTool, p: Params, ctx: BuildContext) -> _RimStand:
    grip = tool.body.needed_grip(RoundRim)
    depth = tool.size("ledge length", grip.depth_mm)
    behind = max(-tool.body.extent_mm[0][1], depth.made_mm / 2)
    axis = ctx.plate_mm + CLEAR_MM + behind
    return _RimStand(tool, grip.diameter_mm / 2, depth, axis, ctx.plate_mm, p)


def _mark(
    rests: Sequence[_RimStand], xs: Sequence[float], width_mm: float, *, low_mm: float
) -> tuple[MarkPlace, float]:
    """Return a place between the ledges that are farthest apart, or below; and the plate's foot."""
    widest = max(range(len(rests)), key=lambda k: rests[k].inside_mm)
    one, x = rests[widest], xs[widest]
    if has_room(2 * one.inside_mm, -one.low_mm):
        half, y = one.inside_mm, one.plate_mm
        return front_mark(x - half, x + half, z0=one.low_mm, z1=0.0, y_mm=y), low_mm
    return mark_below(width_mm, low_mm=low_mm, plate_mm=one.plate_mm)


def refuses(tool: ToolBody) -> str | None:
    """Return why a round thing cannot stand here, or None."""
    grip = tool.needed_grip(RoundRim)
    if not SMALLEST_MM <= grip.diameter_mm <= LARGEST_MM:
        return (
            f"its rim of {said.mm(grip.diameter_mm)} is outside the {said.number(SMALLEST_MM)} to "
            f"{said.mm(LARGEST_MM)} that two ledges take"
        )
    if not SHALLOWEST_MM <= grip.depth_mm <= DEEPEST_MM:
        return (
            f"its rim is {said.mm(grip.depth_mm)} deep, outside the {said.number(SHALLOWEST_MM)} "
            f"to {said.mm(DEEPEST_MM)} of a ledge"
        )
    if grip.depth_mm < DEPTH_SHARE * grip.diameter_mm:
        return (
            f"its rim is {said.mm(grip.depth_mm)} deep only, and with less than a sixth of its "
            f"{said.mm(grip.diameter_mm)} it topples over the lips"
        )
    back = max(-tool.extent_mm[0][1], grip.depth_mm / 2)
    stress = flat_root_mpa(
        tool.mass_kg,
        lever_mm=CLEAR_MM + back,
        width_mm=2.0 * WEB_MM,
        height_mm=LEAST_THICK_MM + WEB_SHARE * (CLEAR_MM + back + grip.depth_mm / 2),
    )
    if stress > LASTING_MPA:
        return (
            f"its {said.mass(tool.mass_kg, '.2g')} are too much for two webs of {said.mm(WEB_MM)} "
            f"({stress:.1f} MPa at the root, {LASTING_MPA:g} MPa for years)"
        )
    return None


FAMILY = Family(
    name="rim-rest",
    title="Two slanted ledges with lips, for round things that stand on their rim",
    grip=RoundRim,
    params=Params,
    build=build,
    refuses=refuses,
)
