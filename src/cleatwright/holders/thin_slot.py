"""Two fins straight out of the wall for each thin plate, a floor and a front stop between them.

seen from the front          seen from the side

    │ ││                     ║──────────┐╲
  ╲ │ ││ ╱  ← lead-in        ║          │ ╲       fins
   ┌┐ ││ ┌┐                  ║   plate  │  ┌┐ ← stop
   ││ ││ ││                  ║  └───────┘  ││
   ││ └┘ ││  ← z = 0         ║ ┌──────────┐││ ← floor; dust falls out behind it
   │└────┘│                  ║      ◇     ╱
   ││    ││                  ║          ╱   45 degrees, with an opening where it is large
  fin                        ║        ╱
   slot = thickness + play    way out: up over the stop, then out

A plate that is high on a short edge could tip over a low stop: then the stop is as high as
the fins.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from pydantic import Field

from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.footed import diamond, footed_row
from cleatwright.parts.grips import ThinPlate
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.mark_room import mark_below
from cleatwright.parts.outward import group_leading, outward
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.extent import joint_extent
from cleatwright.shapes.outline import Outline, polygon
from cleatwright.shapes.rigid import Rigid, shift
from cleatwright.shapes.solid import (
    Difference,
    Intersection,
    PrismRow,
    Solid,
    Union,
    across,
    prism,
)

THINNEST_MM = 0.3
# floor and stop are bridges between the fins
THICKEST_MM = 8.0
SHORTEST_MM, LONGEST_MM = 12.0, 160.0
LOWEST_MM = 20.0
LEAST_FIN_MM = 16.0
# a centre of mass this far past the end of the edge still leans only lightly on a full stop
MOST_OUT_MM = 12.0
# less run before the centre of mass than this share of its height: the stop is full
STEADY = 0.35
ROOT_MM = 3.0
LEAD_IN_MM = 1.0
PAST_MM = 1.0
CLEAR_MM = 1.0
GAP_MM = 4.0
# material around the opening in a fin, and the smallest opening that is worth its corners
FRAME_MM, LEAST_OPENING_MM = 6.0, 6.0
# (x, y, z) -> (z, x, y) lays an outline onto the (y, z) plane, drawn out along x
_UPRIGHT = ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


class Params(FamilyParams):
    """What can be chosen about thin slots."""

    fin_mm: float = Field(default=2.7, ge=1.8, le=6.0, description="thin fins bend sideways")
    share: float = Field(
        default=0.35, ge=0.25, le=0.6, description="part of the plate's height between the fins"
    )
    most_mm: float = Field(default=60.0, ge=30.0, le=90.0, description="high fins cost material")
    stop_mm: float = Field(
        default=8.0, ge=4.0, le=14.0, description="keeps a plate, yet is soon lifted over"
    )
    floor_mm: float = Field(default=3.0, ge=2.0, le=8.0, description="a corner must not punch it")
    lift_mm: float = Field(
        default=1.0, ge=0.5, le=10.0, description="room above the stop on the way"
    )


@dataclass(frozen=True)
class _Slot:
    """One slot about x = 0: its width, where its stop begins, the heights of fins and stop."""

    slot_mm: float
    stop_y_mm: float
    fin_z_mm: float
    stop_z_mm: float
    plate_mm: float
    p: Params

    @property
    def reach_mm(self) -> float:
        return self.stop_y_mm + self.p.fin_mm

    @property
    def half_mm(self) -> float:
        return self.slot_mm / 2 + self.p.fin_mm

    @property
    def low_mm(self) -> float:
        return -self.p.floor_mm - (self.reach_mm - self.plate_mm)

    @property
    def opening_mm(self) -> float:
        """Return half the diagonal of the opening in each fin, or zero.

        It is the largest square on its corner below the floor, with a frame around it.
        """
        leg = self.reach_mm - self.plate_mm - (2.0 + sqrt(2.0)) * FRAME_MM
        half = leg / 3.0
        return half if half >= LEAST_OPENING_MM else 0.0


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of thin plates."""
    grips = [_grip(tool.body) for tool in group]
    boxes = [
        joint_extent([piece.placed(grip.pose) for piece in tool.body.envelope])
        for tool, grip in zip(group, grips, strict=True)
    ]
    sizes = [
        (
            tool.size("slot", grip.thickness_mm),
            tool.size("slot length", grip.edge_y1_mm - grip.edge_y0_mm),
        )
        for tool, grip in zip(group, grips, strict=True)
    ]
    # where y = 0 of each plate lies, and its slot
    axes = [ctx.plate_mm + CLEAR_MM - low[1] for low, _ in boxes]
    slots = [
        _Slot(
            slot_mm=thick.made_mm,
            stop_y_mm=y + grip.edge_y1_mm + (along.made_mm - along.measured_mm) / 2,
            fin_z_mm=_fin_mm(grip, p),
            stop_z_mm=_stop_mm(tool.body, grip, p),
            plate_mm=ctx.plate_mm,
            p=p,
        )
        for tool, grip, y, (thick, along) in zip(group, grips, axes, sizes, strict=True)
    ]
    line = footed_row(
        [2.0 * max(-low[0], high[0]) for low, high in boxes],
        [2 * slot.half_mm for slot in slots],
        gap_mm=ctx.hand_room_mm,
        apart_mm=2 * ROOT_MM + 1.0,
        margin_mm=ROOT_MM,
    )
    reach = max(slot.reach_mm for slot in slots)
    seats: list[Seat] = []
    for tool, grip, x, y, (low, _), slot, pair in zip(
        group, grips, line.centres_mm, axes, boxes, slots, sizes, strict=True
    ):
        moves = (
            (0.0, 0.0, slot.stop_z_mm + p.lift_mm),
            (0.0, reach + CLEAR_MM - y - low[1], 0.0),
        )
        seats.append(Seat(tool.body, grip.pose.then(shift(x, y, 0.0)), moves, pair))
    low_mm, high_mm = min(s.low_mm for s in slots), max(s.fin_z_mm for s in slots)
    mark, plate_low = mark_below(line.width_mm, low_mm=low_mm, plate_mm=ctx.plate_mm)
    return Front(
        solid=Union(
            tuple(_module(s).moved(x) for s, x in zip(slots, line.centres_mm, strict=True))
        ),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=high_mm,
        reach_mm=reach,
        low_mm=low_mm,
        high_mm=high_mm,
        seats=tuple(seats),
        genus=sum(1 + 2 * (slot.opening_mm > 0.0) for slot in slots),
        min_wall_mm=min(p.fin_mm, p.floor_mm),
        mark_place=mark,
        leading=group_leading([grip.thickness_mm for grip in grips]),
    )


def _grip(tool: ToolBody) -> ThinPlate:
    grip = tool.grip(ThinPlate)
    assert grip is not None  # noqa: S101 - the registry asks why_not() before it builds
    return grip


def _fin_mm(grip: ThinPlate, p: Params) -> float:
    return max(LEAST_FIN_MM, min(p.share * grip.height_mm, p.most_mm))


def _stop_mm(tool: ToolBody, grip: ThinPlate, p: Params) -> float:
    """Return the height of the stop: low for what stands steady, else that of the fins."""
    _, y, z = grip.pose.apply(tool.com_mm)
    return p.stop_mm if grip.edge_y1_mm - y >= STEADY * z else _fin_mm(grip, p)


def _fin(one: _Slot) -> Outline:
    """Return a fin's outline in the (y, z) plane; its upper front falls at 45 degrees."""
    run = min(one.fin_z_mm - one.stop_z_mm, (one.reach_mm - one.plate_mm) / 2)
    corners = [
        (0.0, one.low_mm),
        (one.plate_mm, one.low_mm),
        (one.reach_mm, -one.p.floor_mm),
        (one.reach_mm, one.fin_z_mm - run),
        *([(one.reach_mm - run, one.fin_z_mm)] if run > 0.0 else []),
        (0.0, one.fin_z_mm),
    ]
    return polygon(corners)


def _module(one: _Slot) -> Solid:
    """Return one slot about x = 0: two fins with their roots, the floor and the stop."""
    p, inner = one.p, one.slot_mm / 2
    half, foot = one.opening_mm, one.half_mm + ROOT_MM
    at = (one.plate_mm + FRAME_MM + half, -p.floor_mm - FRAME_MM - half)
    holes = (diamond(half, at=at),) if half else ()
    side = prism(_fin(one), 2 * foot, holes=holes).placed(Rigid(_UPRIGHT, (-foot, 0.0, 0.0)))
    plans = PrismRow((_plan(one, -1), _plan(one, 1)), one.fin_z_mm - one.low_mm)
    y0, y1, x = one.plate_mm + GAP_MM, one.reach_mm, inner + PAST_MM
    step, low, high = one.stop_y_mm, -p.floor_mm, one.stop_z_mm
    bottom = [(y0, low), (y1, low), (y1, high), (step, high), (step, 0.0), (y0, 0.0)]
    fins = Intersection((plans.moved(dz=one.low_mm), side))
    return Difference(fins | across(polygon(bottom), -x, x), (_lead_in(one),))


def _plan(one: _Slot, side: int) -> Outline:
    """Return the fin on one side (-1 or 1) from above, wider at its root."""
    inner, outer = side * one.slot_mm / 2, side * one.half_mm
    corners = [
        (inner, 0.0),
        (outer + side * ROOT_MM, 0.0),
        (outer + side * ROOT_MM, one.plate_mm),
        (outer, one.plate_mm + ROOT_MM),
        (outer, one.reach_mm),
        (inner, one.reach_mm),
    ]
    return polygon(corners if side > 0 else corners[::-1])


def _lead_in(one: _Slot) -> Solid:
    """Return the bevel along the upper edges of a slot."""
    inner, top = one.slot_mm / 2, one.fin_z_mm
    lead = min(LEAD_IN_MM, one.p.fin_mm / 3)
    wide = inner + lead + PAST_MM
    section = polygon(
        [(-inner, top - lead), (inner, top - lead), (wide, top + PAST_MM), (-wide, top + PAST_MM)]
    )
    return outward(section, 0.0, y0=one.plate_mm, y1=one.reach_mm + PAST_MM)


def refuses(tool: ToolBody) -> str | None:
    """Return why a thin plate cannot stand here, or None."""
    grip = _grip(tool)
    _, y, _ = grip.pose.apply(tool.com_mm)
    edge = grip.edge_y1_mm - grip.edge_y0_mm
    if not THINNEST_MM <= grip.thickness_mm <= THICKEST_MM:
        return (
            f"it is {grip.thickness_mm:g} mm thick, outside the {THINNEST_MM:g} to "
            f"{THICKEST_MM:g} mm of a slot"
        )
    if not SHORTEST_MM <= edge <= LONGEST_MM:
        return (
            f"its lower edge of {edge:g} mm is outside the {SHORTEST_MM:g} to {LONGEST_MM:g} mm "
            "that a floor can carry"
        )
    if grip.height_mm < LOWEST_MM:
        return f"it is {grip.height_mm:g} mm high only, and fins hold no less than {LOWEST_MM:g} mm"
    if y > grip.edge_y1_mm + MOST_OUT_MM:
        return (
            f"its weight lies {y - grip.edge_y1_mm:.0f} mm in front of its lower edge, and more "
            f"than {MOST_OUT_MM:g} mm would bend the stop"
        )
    return None


FAMILY = Family(
    name="thin-slot",
    title="Slots between two fins, for thin plates that stand on edge",
    grip=ThinPlate,
    params=Params,
    build=build,
    refuses=refuses,
)
