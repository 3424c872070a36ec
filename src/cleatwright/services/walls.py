"""From built holders to their places on the wall."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from cleatwright.base.errors import KernelError, WallError
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.parts.holder import Seat
from cleatwright.services.building import BuiltPart
from cleatwright.services.carrying import Unit
from cleatwright.services.progress import Progress
from cleatwright.shapes.facts import Bounds
from cleatwright.wall.arrange import arrange, require_all
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import (
    Arrangement,
    Box,
    Item,
    Place,
    RailRule,
    RailRun,
    WallSpace,
)
from cleatwright.wall.rails import StudCrossing, stud_crossings
from cleatwright.wall.remedies import find_help
from cleatwright.workshop.model import Workshop

# room at each side of a holder, so that neighbours hook in without rubbing (a choice)
SIDE_MM = 2.0
SEEDS = (0, 1, 2, 3)


@dataclass(frozen=True)
class Outline:
    """Closed polygons in mm, x to the right for a person who faces the wall."""

    polygons: tuple[tuple[tuple[float, float], ...], ...]


def wall_space(workshop: Workshop) -> WallSpace:
    """Return the wall of the document, obstacles with their margins."""
    wall = workshop.wall
    boxes: list[Box] = []
    for obstacle in wall.obstacles:
        margin = obstacle.keep_out_mm
        x0, z0 = max(0.0, obstacle.x_mm - margin), max(0.0, obstacle.z_mm - margin)
        x1 = min(wall.width_mm, obstacle.x_mm + obstacle.width_mm + margin)
        z1 = min(wall.height_mm, obstacle.z_mm + obstacle.height_mm + margin)
        boxes.append(Box(obstacle.name, x0, z0, x1 - x0, z1 - z0))
    return WallSpace(
        width_mm=wall.width_mm,
        height_mm=wall.height_mm,
        floor_gap_mm=wall.floor_gap_mm,
        obstacles=tuple(boxes),
        studs_mm=tuple(stud.x_mm for stud in wall.studs),
    )


def rail_rule(workshop: Workshop) -> RailRule:
    """Return how rails may lie on the wall of the document."""
    rail = workshop.rail
    return RailRule(
        thickness_mm=rail.thickness_mm,
        height_mm=rail.height_mm,
        min_gap_mm=rail.min_gap_mm,
        longest_mm=max((stock.length_mm for stock in rail.stocks), default=math.inf),
    )


def wall_item(unit: Unit, kernel: MeshKernel) -> Item:
    """Return what hangs with its tools, and the room of their ways out, as the wall sees it."""
    part = unit.outer.part
    width = part.bounds_mm[1][0]
    boxes = [_seat_box(seat, kernel) for seat in part.seats]
    bodies = [part.bounds_mm, *_holder_boxes(unit)]
    hang_z = part.hanging.contact_z_mm
    # a holder is lifted off its bevel by the rail's slant before it comes to the front
    settings = unit.outer.recipe.settings
    unhook = settings.rail_thickness_mm * math.tan(math.radians(settings.bevel_deg))
    top = max(
        max(high[2] for _, high in bodies) + (unhook if part.hanging.on_rail else 0.0),
        *(high[2] + _lift_mm(seat) for seat, (_, high) in zip(part.seats, boxes, strict=True)),
    )
    bottom = min(*(low[2] for low, _ in bodies), *(low[2] for low, _ in boxes))
    right = max(high[0] for _, high in (*boxes, *bodies)) - width
    left = min(low[0] for low, _ in (*boxes, *bodies))
    hung = unit.holders if unit.carrier is not None else ()
    return Item(
        key=unit.planned.key,
        width_mm=width,
        up_mm=max(0.0, top - hang_z),
        down_mm=max(0.0, hang_z - bottom),
        mass_kg=part.load_kg + unit.outer.own.mass_kg + sum(one.own.mass_kg for one in hung),
        use=unit.planned.use,
        group=unit.planned.group,
        side_left_mm=max(SIDE_MM, right),
        side_right_mm=max(SIDE_MM, -left),
        on_rail=part.hanging.on_rail,
        fixed=unit.planned.fixed,
        rail_depth_mm=part.hanging.depth_below_mm,
    )


def _holder_boxes(unit: Unit) -> list[Bounds]:
    """Return the boxes of the holders in the frame of what hangs."""
    return [
        (
            (low[0] + dx, low[1] + dy, low[2] + dz),
            (high[0] + dx, high[1] + dy, high[2] + dz),
        )
        for made, (dx, dy, dz) in zip(unit.holders, unit.offsets_mm, strict=True)
        for low, high in (made.part.bounds_mm,)
    ]


def arranged(
    workshop: Workshop,
    items: Sequence[Item],
    *,
    where: str,
    names: Mapping[str, str],
    progress: Progress,
) -> Arrangement:
    """Return where everything hangs; ``names`` are the holders' names by their keys.

    Raises:
        WallError: Something finds no place; the message says what would help.
        KernelError: The arrangement does not stand its own independent check.
    """
    space, rule = wall_space(workshop), rail_rule(workshop)

    def told(done: int, total: int) -> None:
        if done % 50 == 0 or done == total:
            progress.step("arranging the wall", done, total)

    try:
        found = arrange(space, rule, items, seed=SEEDS[0], progress=told)
        for seed in SEEDS[1:]:
            # a rail on one stud can turn; another start of the search may avoid it
            if found.left_over or not weak_rails(crossings_of(workshop, found)):
                break
            other = arrange(space, rule, items, seed=seed, progress=told)
            if not other.left_over:
                found = min(
                    found, other, key=lambda one: len(weak_rails(crossings_of(workshop, one)))
                )
        if found.left_over:
            found = find_help(space, rule, items, found)
        require_all(found)
    except WallError as error:
        raise _in_names(error, names).located(where) from error
    broken = conflicts(space, rule, items, found)
    if broken:
        raise KernelError("the arrangement breaks its own rules: " + "; ".join(broken))
    return found


def crossings_of(workshop: Workshop, arrangement: Arrangement) -> tuple[StudCrossing, ...]:
    """Return where the rails meet studs."""
    return stud_crossings(wall_space(workshop), arrangement.rails)


def weak_rails(crossings: Sequence[StudCrossing]) -> tuple[str, ...]:
    """Return a sentence for each rail that meets fewer than two studs."""
    told = {0: "no stud", 1: "one stud only"}
    return tuple(
        f"Rail {one.rail} meets {told[len(one.studs_mm)]} and cannot be fixed safely as it is: "
        "move what hangs on it, or screw a board across two studs behind it."
        for one in crossings
        if len(one.studs_mm) in told
    )


def _in_names(error: WallError, names: Mapping[str, str]) -> WallError:
    """Return the error with the names of holders in place of their keys."""
    told = re.sub(r'"(\d+c?)"', lambda key: f'"{names.get(key[1], key[1])}"', error.given)
    return WallError(told, where=error.where, allowed=error.allowed, todo=error.todo)


def holder_outline(built: BuiltPart, place: Place) -> Outline:
    """Return the holder's silhouette on the wall."""
    return _on_wall(built.body, built, place)


def tool_outline(built: BuiltPart, number: int, place: Place, kernel: MeshKernel) -> Outline:
    """Return the silhouette of the tool in seat ``number`` on the wall."""
    seat = built.part.seats[number]
    pieces = [kernel.evaluate(piece).placed(seat.pose) for piece in seat.tool.envelope]
    return _on_wall(MeshBody.joined(pieces), built, place)


def _on_wall(body: MeshBody, built: BuiltPart, place: Place) -> Outline:
    dx = place.x_mm + built.part.bounds_mm[1][0]
    dz = place.z_mm - built.part.hanging.contact_z_mm
    loops = body.silhouette("front")
    return Outline(tuple(tuple((x + dx, z + dz) for x, z in loop) for loop in loops))


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
    rail: RailRun | None
    carrier: str = ""


def spots_of(units: Sequence[Unit], arrangement: Arrangement) -> Mapping[str, Spot]:
    """Return where each holder and each carrier is, by its key."""
    places = {place.key: place for place in arrangement.places}
    found: dict[str, Spot] = {}
    for unit in units:
        place, outer = places[unit.planned.key], unit.outer.part
        rail = _rail_of(place, unit.outer, arrangement.rails)
        found[unit.planned.key] = Spot(place, rail)
        if unit.carrier is None:
            continue
        for planned, made, (dx, _, dz) in zip(
            unit.planned.holders, unit.holders, unit.offsets_mm, strict=True
        ):
            inner = made.part
            # x of the wall runs to the right, that of a part to the left
            left = place.x_mm + outer.bounds_mm[1][0] - (dx + inner.bounds_mm[1][0])
            height = place.z_mm + dz + inner.hanging.contact_z_mm - outer.hanging.contact_z_mm
            own = Place(planned.key, left, height)
            found[planned.key] = Spot(own, rail, unit.carrier.mark)
    return MappingProxyType(found)


def _rail_of(place: Place, made: BuiltPart, rails: tuple[RailRun, ...]) -> RailRun | None:
    if not made.part.hanging.on_rail:
        return None
    width = made.part.bounds_mm[1][0]
    middle = place.x_mm + width / 2
    return next(
        r for r in rails if abs(r.z_top_mm - place.z_mm) < 0.5 and r.x0_mm <= middle <= r.x1_mm
    )
