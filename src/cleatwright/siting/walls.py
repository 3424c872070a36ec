"""From built holders to their places on the wall."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean
from types import MappingProxyType

import numpy as np

from cleatwright.base.keys import content_key
from cleatwright.base.lengths import LengthUnit
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.carrying import Unit
from cleatwright.design.equipment import OwnedTool
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.holder import Seat
from cleatwright.parts.mirror import to_reader
from cleatwright.shapes.facts import Bounds
from cleatwright.siting.pitch import half_pitch_mm
from cleatwright.siting.rails.ground import all_over
from cleatwright.siting.remark import Remark
from cleatwright.statics.take_out import grip_z_mm
from cleatwright.wall.frame import origin_mm
from cleatwright.wall.ground import PLACES_A_RAIL
from cleatwright.wall.model import (
    Arrangement,
    Box,
    Item,
    Place,
    RailRule,
    WallSpace,
)
from cleatwright.wall.panel_studs import studs_of
from cleatwright.wall.rail import Profile, Rail
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.sections import RailRules
from cleatwright.workshop.document.surfaces import Panel

# a height that is soon found on a rule: 5 cm, or 2 inches (a choice)
STEP_MM: Mapping[LengthUnit, float] = MappingProxyType({"mm": 50.0, "in": 50.8})
# room at each side of a holder, so that neighbours hook in without rubbing (a choice)
SIDE_MM = 2.0


def wall_space(panel: Panel, rails: Iterable[Rail] = ()) -> WallSpace:
    """Return a panel of the document as the wall sees it, obstacles with their margins.

    Args:
        panel: The panel.
        rails: The rails that hang on it already and stay.
    """
    boxes: list[Box] = []
    for obstacle in panel.obstacles:
        off = obstacle.keep_out_mm
        x0, z0 = max(0.0, obstacle.x_mm - off), max(0.0, obstacle.z_mm - off)
        x1 = min(panel.width_mm, obstacle.x_mm + obstacle.width_mm + off)
        z1 = min(panel.height_mm, obstacle.z_mm + obstacle.height_mm + off)
        # the heat begins at the obstacle and not at its margin
        heat = max(0.0, obstacle.heat_mm - off)
        boxes.append(Box(obstacle.name, x0, z0, x1 - x0, z1 - z0, heat_mm=heat))
    return WallSpace(
        width_mm=panel.width_mm,
        height_mm=panel.height_mm,
        floor_gap_mm=panel.floor_gap_mm,
        obstacles=tuple(boxes),
        studs=studs_of(panel),
        kept_rails=tuple(rails),
        panel=panel.name,
        all_over=all_over(panel),
        bench_mm=(panel.bench_height_mm or 0.0) if panel.bench_depth_mm > 0.0 else 0.0,
    ).with_bench()


def rail_profile(rail: RailRules) -> Profile:
    """Return the cross-section of every rail of the document."""
    return Profile(rail.height_mm, rail.thickness_mm, rail.bevel_deg)


def rail_rule(workshop: Workshop, panel: Panel) -> RailRule:
    """Return how rails may lie on a panel of the document."""
    rail = workshop.rail
    return RailRule(
        rail_profile(workshop.rail),
        min_gap_mm=rail.min_gap_mm,
        step_mm=STEP_MM[workshop.units],
        rows=panel.rail_layout == "rows",
        longest_mm=max((stock.length_mm for stock in rail.stocks), default=math.inf),
    )


def _wall_item(_: Run, unit: Unit) -> Item:
    """Return what hangs with its tools, and the room of their ways out, as the wall sees it."""
    part, kernel, tools = unit.outer.part, MeshKernel(), _tools(unit)
    width = part.bounds_mm[1][0]
    boxes = [_seat_box(seat, kernel) for seat in part.seats]
    # the tab of a bolt hangs below its holder, and the hand that pushes it needs it free
    fittings = (one.facts.bounds_mm for one in unit.fitting_bodies())
    bodies = [part.bounds_mm, *holder_boxes(unit), *fittings]
    hang_z = part.hanging.contact_z_mm
    # a holder is lifted off its bevel by the rail's slant before it comes to the front
    settings = unit.outer.hung_as.settings
    hand = unit.planned.holders[0].recipe.hand_room_mm / 2
    unhook = settings.rail_thickness_mm * math.tan(math.radians(settings.bevel_deg))
    top = max(
        max(high[2] for _, high in bodies) + (unhook if part.hanging.on_rail else 0.0),
        *(high[2] + _lift_mm(seat) for seat, (_, high) in zip(part.seats, boxes, strict=True)),
    )
    bottom = min(*(low[2] for low, _ in bodies), *(low[2] for low, _ in boxes))
    right = max(high[0] for _, high in bodies) - width
    left = min(low[0] for low, _ in bodies)
    # of the room for a hand between two tools, each holder brings one half
    right_hand = max(high[0] for _, high in boxes) - width + hand
    left_hand = hand - min(low[0] for low, _ in boxes)
    hung = unit.holders if unit.carrier is not None else ()
    # what hangs in holes comes to hang up to half a pitch off, any way
    aside, off = half_pitch_mm(unit)
    return Item(
        key=unit.planned.key,
        width_mm=width,
        up_mm=max(0.0, top - hang_z) + off,
        down_mm=max(0.0, hang_z - bottom) + off,
        mass_kg=part.load_kg
        + unit.outer.heavy.mass_kg
        + sum(one.heavy.mass_kg for one in (*hung, *unit.fittings)),
        use=unit.planned.use,
        group=unit.planned.group,
        side_left_mm=max(SIDE_MM, right, right_hand) + aside,
        side_right_mm=max(SIDE_MM, -left, left_hand) + aside,
        on_rail=part.hanging.on_rail,
        fixed=unit.planned.fixed,
        rail_depth_mm=part.hanging.depth_below_mm,
        keep_cool=any(tool.keep_cool for tool in tools),
        hot=any(tool.hot for tool in tools),
        spoilt_by_heat=any(tool.spoilt_by_heat for tool in tools),
        hand_up_mm=fmean(grip_z_mm(seat) for seat in part.seats) - hang_z,
    )


def _tools(unit: Unit) -> tuple[OwnedTool, ...]:
    """Return all tools that a unit was made for: one like those that are gone may come back."""
    return tuple(tool for one in unit.planned.holders for tool in one.tools)


def _item_key(unit: Unit) -> str:
    planned = unit.planned
    parts = (unit.outer.key, tuple(made.key for made in unit.holders))
    heat = [(tool.keep_cool, tool.hot, tool.spoilt_by_heat) for tool in _tools(unit)]
    return content_key((planned.key, planned.use, planned.group, planned.fixed, parts, heat))


ITEM = Stage("unit on its wall", _wall_item, _item_key)
"""From a built unit to its rectangle on the wall, before anything hangs."""


def _depth(_: Run, unit: Unit) -> float:
    """Return how far a unit with its tools stands out of its wall, in mm."""
    part, kernel = unit.outer.part, MeshKernel()
    boxes = [part.bounds_mm, *holder_boxes(unit), *(_seat_box(one, kernel) for one in part.seats)]
    return part.hanging.stand_off_mm + max(high[1] for _, high in boxes)


DEPTH = Stage("how far a unit stands out", _depth, _item_key)
"""From a built unit to how far it stands out of its wall."""


def holder_boxes(unit: Unit) -> list[Bounds]:
    """Return the boxes of the holders in the frame of what hangs."""
    return [
        (
            (low[0] + dx, low[1] + dy, low[2] + dz),
            (high[0] + dx, high[1] + dy, high[2] + dz),
        )
        for made, (dx, dy, dz) in zip(unit.holders, unit.offsets_mm, strict=True)
        for low, high in (made.part.bounds_mm,)
    ]


def weak_rails(rails: Sequence[Rail], panel: Panel) -> tuple[Remark, ...]:
    """Return what is to be said of each rail of a panel that is held at fewer than two places.

    One that hangs already may well be fixed otherwise, above all where no stud is known.
    """
    return tuple(
        _weak(one, panel)
        for one in rails
        if len(one.studs_mm) < PLACES_A_RAIL and (panel.places_known or not one.stays)
    )


def _weak(rail: Rail, panel: Panel) -> Remark:
    name, count = rail.name, len(rail.studs_mm)
    if not panel.places_known:
        return Remark(
            name,
            f"Rail {name} goes on studs of which the document gives none",
            "write the x of each stud, or made_of where the wall is of something else.",
        )
    if panel.made_of == "studs":
        meets = f"meets {('no stud', 'one stud only')[count]}"
        by = "as to a board across two studs behind it"
        mend = "screw a board across two studs behind it"
    else:
        one = "anchor" if panel.takes_anchors else "screw"
        meets = f"has room for {(f'no {one}', f'one {one} only')[count]}"
        by, mend = "whatever holds it", "let it be longer"
    if rail.stays:
        return Remark(
            name, f"Rail {name} {meets} and hangs already", f"see that it is fixed safely, {by}."
        )
    return Remark(
        name,
        f"Rail {name} {meets} and cannot be fixed safely as it is",
        f"move what hangs on it, or {mend}.",
    )


def _seat_box(
    seat: Seat, kernel: MeshKernel
) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    points = np.concatenate(
        [kernel.evaluate(piece).placed(seat.pose).vertices_mm for piece in seat.tool.envelope]
    )
    low, high = points.min(axis=0).tolist(), points.max(axis=0).tolist()
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _lift_mm(seat: Seat) -> float:
    height = highest = 0.0
    for move in seat.way_out:
        height += move[2]
        highest = max(highest, height)
    return highest


@dataclass(frozen=True)
class Spot:
    """Where one printed part is on the wall.

    Args:
        place: Its left edge and the height of its own hanging line.
        rail: The rail on which it hangs, itself or by its carrier; None when it is screwed.
        carrier: The mark of its carrier, or "".
    """

    place: Place
    rail: Rail | None
    carrier: str = ""


def spots_of(units: Sequence[Unit], arrangement: Arrangement) -> Mapping[str, Spot]:
    """Return where each holder and each carrier is, by its key."""
    places = {place.key: place for place in arrangement.places}
    rails = {key: rail for rail in arrangement.rails for key in rail.carries}
    found: dict[str, Spot] = {}
    for unit in units:
        place, outer = places[unit.planned.key], unit.outer.part
        rail = rails.get(unit.planned.key)
        found[unit.planned.key] = Spot(place, rail)
        if unit.carrier is None:
            continue
        for planned, made, (dx, _, dz) in zip(
            unit.planned.holders, unit.holders, unit.offsets_mm, strict=True
        ):
            inner = made.part
            left = to_reader(dx + inner.bounds_mm[1][0], origin_mm=origin_mm(outer, place))
            height = place.z_mm + dz + inner.hanging.contact_z_mm - outer.hanging.contact_z_mm
            own = Place(planned.key, left, height)
            found[planned.key] = Spot(own, rail, unit.carrier.mark)
    return MappingProxyType(found)
