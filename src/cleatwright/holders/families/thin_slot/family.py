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

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.crown import BRIDGE_MM
from cleatwright.features.footed import footed_row
from cleatwright.features.mark_room import mark_below
from cleatwright.features.outward import group_leading
from cleatwright.holders.families.thin_slot.thin_slots import ROOT_MM, SlotPlan, slot
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import ThinPlate
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import GRAVITY_M_S2, FittedTool, Size, ToolBody
from cleatwright.shapes.extent import joint_extent
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Union
from cleatwright.standards.materials.polymers import LEAST_ACROSS_MPA

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
# a knock asks as much sideways as the plate weighs, and a fin breaks across its layers
ACROSS_SHARE = 2.5


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


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of thin plates."""
    grips = [tool.body.needed_grip(ThinPlate) for tool in group]
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
    plans = [
        _plan(tool.body, y, pair, p, ctx) for tool, y, pair in zip(group, axes, sizes, strict=True)
    ]
    line = footed_row(
        [2.0 * max(-low[0], high[0]) for low, high in boxes],
        [2 * plan.half_mm for plan in plans],
        gap_mm=ctx.hand_room_mm,
        apart_mm=2 * ROOT_MM + 1.0,
        margin_mm=ROOT_MM,
    )
    reach = max(plan.reach_mm for plan in plans)
    seats: list[Seat] = []
    for tool, grip, x, y, (low, _), plan, pair in zip(
        group, grips, line.centres_mm, axes, boxes, plans, sizes, strict=True
    ):
        moves = (
            (0.0, 0.0, plan.stop_z_mm + p.lift_mm),
            (0.0, reach + CLEAR_MM - y - low[1], 0.0),
        )
        seats.append(Seat(tool.body, grip.pose.then(shift(x, y, 0.0)), moves, pair))
    low_mm, high_mm = min(plan.low_mm for plan in plans), max(plan.fin_z_mm for plan in plans)
    mark, plate_low = mark_below(line.width_mm, low_mm=low_mm, plate_mm=ctx.plate_mm)
    return Front(
        solid=Union(
            tuple(slot(plan).moved(x) for plan, x in zip(plans, line.centres_mm, strict=True))
        ),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=high_mm,
        reach_mm=reach,
        low_mm=low_mm,
        high_mm=high_mm,
        seats=tuple(seats),
        genus=sum(1 + 2 * (plan.opening_mm > 0.0) for plan in plans),
        min_wall_mm=min(p.fin_mm, p.floor_mm),
        mark_place=mark,
        leading=group_leading([grip.thickness_mm for grip in grips]),
        also=("on-its-back",) if all(thick.made_mm <= BRIDGE_MM for thick, _ in sizes) else (),
    )


def _plan(
    tool: ToolBody, y_mm: float, made: tuple[Size, Size], p: Params, ctx: BuildContext
) -> SlotPlan:
    """Return the slot of a plate whose own y = 0 lies at ``y_mm``."""
    grip, (thick, along) = tool.needed_grip(ThinPlate), made
    return SlotPlan(
        slot_mm=thick.made_mm,
        stop_y_mm=y_mm + grip.edge_y1_mm + (along.made_mm - along.measured_mm) / 2,
        fin_z_mm=_fin_mm(grip, p),
        stop_z_mm=_stop_mm(tool, grip, p),
        plate_mm=ctx.plate_mm,
        fin_mm=p.fin_mm,
        floor_mm=p.floor_mm,
    )


def _fin_mm(grip: ThinPlate, p: Params) -> float:
    return max(LEAST_FIN_MM, min(p.share * grip.height_mm, p.most_mm))


def _stop_mm(tool: ToolBody, grip: ThinPlate, p: Params) -> float:
    """Return the height of the stop: low for what stands steady, else that of the fins."""
    _, y, z = grip.pose.apply(tool.com_mm)
    return p.stop_mm if grip.edge_y1_mm - y >= STEADY * z else _fin_mm(grip, p)


def _knock_nmm(tool: ToolBody, grip: ThinPlate) -> float:
    """Return the moment about the foot of a fin when the plate's own weight acts sideways."""
    return tool.mass_kg * GRAVITY_M_S2 * grip.pose.apply(tool.com_mm)[2]


def _fin_bears_nmm(edge_mm: float) -> float:
    """Return the moment that one fin as long as the plate's edge may bear about its foot."""
    fin = Params().fin_mm
    return LEAST_ACROSS_MPA / ACROSS_SHARE * edge_mm * fin**2 / 6.0


def refuses(tool: ToolBody) -> str | None:
    """Return why a thin plate cannot stand here, or None."""
    grip = tool.needed_grip(ThinPlate)
    _, y, _ = grip.pose.apply(tool.com_mm)
    edge = grip.edge_y1_mm - grip.edge_y0_mm
    if not THINNEST_MM <= grip.thickness_mm <= THICKEST_MM:
        return (
            f"it is {said.mm(grip.thickness_mm)} thick, outside the {said.number(THINNEST_MM)} to "
            f"{said.mm(THICKEST_MM)} of a slot"
        )
    if not SHORTEST_MM <= edge <= LONGEST_MM:
        return (
            f"its lower edge of {said.mm(edge)} is outside the {said.number(SHORTEST_MM)} to "
            f"{said.mm(LONGEST_MM)} that a floor can carry"
        )
    if grip.height_mm < LOWEST_MM:
        return (
            f"it is {said.mm(grip.height_mm)} high only, and fins hold no less than "
            f"{said.mm(LOWEST_MM)}"
        )
    knock, bears = _knock_nmm(tool, grip), _fin_bears_nmm(edge)
    if knock > bears:
        z = grip.pose.apply(tool.com_mm)[2]
        return (
            f"its weight lies {said.mm(z, '.0f')} above its edge, and fins "
            f"{said.mm(_fin_mm(grip, Params()), '.0f')} high would bear {knock / 1000:.2f} N m "
            f"when it is knocked, where they may bear {bears / 1000:.2f}"
        )
    if y > grip.edge_y1_mm + MOST_OUT_MM:
        return (
            f"its weight lies {said.mm(y - grip.edge_y1_mm, '.0f')} in front of its lower edge, "
            f"and more than {said.mm(MOST_OUT_MM)} would bend the stop"
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
