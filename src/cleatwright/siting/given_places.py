"""Places that the owner gave: whether a holder is on its wall there, and what to write if not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cleatwright.base import said
from cleatwright.base.errors import CleatwrightError, WallError
from cleatwright.base.written import written_length
from cleatwright.design.carrying import Unit
from cleatwright.siting.giving_places import entry_of, exact_place
from cleatwright.siting.written_at import unit_paths
from cleatwright.wall.explaining.insertion import Standing
from cleatwright.wall.explaining.typed import Typing
from cleatwright.wall.model import Item, Place
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.tolerances import TOLERANCE_MM
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, panel_path

Span = tuple[float, float]


@dataclass(frozen=True)
class _Room:
    """From where to where the left edge of a plate and its hang height may be on its wall."""

    x_mm: Span
    z_mm: Span

    @property
    def any(self) -> bool:
        return self.x_mm[0] <= self.x_mm[1] and self.z_mm[0] <= self.z_mm[1]

    def holds(self, x_mm: float, z_mm: float) -> bool:
        return all(
            low - TOLERANCE_MM <= at <= high + TOLERANCE_MM
            for at, (low, high) in ((x_mm, self.x_mm), (z_mm, self.z_mm))
        )


def off_the_wall(
    workshop: Workshop, units: Sequence[Unit], *, problem: WallProblem
) -> tuple[CleatwrightError, ...]:
    """Return a fault for each given place at which a holder reaches beyond the edge of its wall.

    The place that a fault names is on the wall, and free beside all else that has a given place.

    Args:
        workshop: The document.
        units: What hangs on one panel.
        problem: The panel and the same as the wall sees it.
    """
    items, of_key = problem.items, {unit.planned.key: unit for unit in units}
    rooms = {item.key: _room(problem, item) for item in items}
    given = {item.key: Place(item.key, *item.fixed) for item in items if item.fixed is not None}
    off = {key for key, at in given.items() if not rooms[key].holds(at.x_mm, at.z_mm)}
    on_it = tuple(at for key, at in given.items() if key not in off)
    others = Standing(problem, on_it)
    return tuple(
        _fault(workshop, of_key[item.key], (item, given[item.key]), rooms[item.key], others)
        for item in items
        if item.key in off
    )


def _room(problem: WallProblem, item: Item) -> _Room:
    space, rule = problem.space, problem.rule
    low, high = item.down_mm, space.height_mm - item.up_mm
    if item.on_rail:
        edge = rule.edge_above_mm
        low = max(low, item.rail_depth_mm, rule.height_mm - edge)
        high = min(high, space.height_mm - edge)
    right = space.width_mm - item.width_mm - item.side_right_mm
    return _Room((item.side_left_mm, right), (low, high))


def _fault(
    workshop: Workshop, unit: Unit, placed: tuple[Item, Place], room: _Room, others: Standing
) -> WallError:
    item, at = placed
    entry, unit_name = entry_of(workshop, unit.planned), workshop.units
    table = entry.words if entry is not None else "its table"
    surface = panel_path(workshop, unit.planned.panel)
    place = first_of(*unit_paths(workshop, unit.planned), (*surface, "width"), (*surface, "height"))
    beyond = (
        f'"{unit.planned.name}" reaches beyond the edge of its wall with its tools and the room '
        f"to lift them, where its place is x {said.at_number(at.x_mm)} and z {said.at(at.z_mm)}"
    )
    if not room.any:
        return WallError(
            beyond,
            place=place,
            allowed="a wall that is larger than what hangs on it",
            todo=f"Hang fewer tools in {table}, or hang it on a larger wall",
        )
    (x0, x1), (z0, z1) = room.x_mm, room.z_mm
    allowed = f"x {_bounds(x0, x1, unit_name)}, z {_bounds(z0, z1, unit_name)}"
    near = Place(item.key, min(max(at.x_mm, x0), x1), min(max(at.z_mm, z0), z1))
    there = next(
        (
            one
            for one in Typing(unit_name).beside(near)
            if room.holds(one.x_mm, one.z_mm)
            and not others.broken_by(replace(item, fixed=(one.x_mm, one.z_mm)), one)
        ),
        None,
    )
    leave = "leave its place out, and the program looks for one"
    if there is None:
        return WallError(beyond, place=place, allowed=allowed, todo=f"In {table}, {leave}")
    written = exact_place(there, unit_name)
    return WallError(
        beyond,
        place=place,
        allowed=allowed,
        todo=f"Write {written.line} in {table}, or {leave}",
        line=written.line,
    )


def _bounds(low_mm: float, high_mm: float, unit: str) -> str:
    low = written_length(low_mm, unit, side="up")
    return f"from {low} to {written_length(high_mm, unit, side='down')}"
