"""From built units to arranged walls: every panel of a workshop, one after the other."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from cleatwright.base.errors import WallError
from cleatwright.base.gathering import refuse
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.design.planning import FAULTS
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.siting.arranging import ARRANGED, ArrangingRequest, Words, numbered_on
from cleatwright.siting.given_places import off_the_wall
from cleatwright.siting.giving_places import tables_of
from cleatwright.siting.hung.rails import HungRails
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.walls import (
    ITEM,
    rail_rule,
    reach_on,
    spots_of,
    wall_space,
)
from cleatwright.siting.ways_out import prove_ways, surroundings
from cleatwright.siting.written_at import written_at
from cleatwright.wall.arrange import default_rounds
from cleatwright.wall.explaining.offers import Means
from cleatwright.wall.explaining.remedies import by_name
from cleatwright.wall.keeping import KeptArrangement
from cleatwright.wall.model import Item, Place
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import last_number
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.way_out import WayProof
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import MAIN, Panel

# how often the walls are arranged once more with the room that the proof found missing
MOST_TRIES = 6


@dataclass(frozen=True)
class WallRequest:
    """What shall hang, and what is asked of the walls.

    Args:
        workshop: The document.
        units: Everything that shall hang.
        hangs: Where units hang already, by their keys.
        rails: Which rails hang already.
        effort: How many times as long as usual each wall is searched, >= 1.
    """

    workshop: Workshop
    units: tuple[Unit, ...]
    hangs: Mapping[str, Place]
    rails: HungRails
    effort: int = 1


def hang_up(request: WallRequest, kernel: MeshKernel, run: Run) -> tuple[PanelJob, ...]:
    """Return the wall, and every further panel on which something hangs, arranged.

    Raises:
        WallError: Something finds no place; the message says what would help.
    """
    items = _items(request, run)
    panels: list[PanelJob] = []
    last = request.rails.last
    for panel in request.workshop.surfaces():
        on = partial(request.rails.on, panel.name)
        if panel.name != MAIN and not items[panel.name] and not on("document", "recorded"):
            continue
        units = tuple(unit for unit in request.units if unit.planned.panel == panel.name)
        planned = [unit.planned for unit in units]
        problem = WallProblem(
            wall_space(panel, on("document")),
            rail_rule(request.workshop),
            items[panel.name],
            _reach(request.workshop, panel),
        )
        arranging = ArrangingRequest(
            problem=problem,
            rails=on("recorded"),
            words=Words({unit.planned.key: unit.planned.name for unit in request.units}),
            means=Means(
                _others(request, panel, items),
                request.workshop.units,
                tables_of(request.workshop, units),
            ),
            rounds=request.effort * default_rounds(len(units)),
        )
        refuse(
            off_the_wall(request.workshop, units, problem=problem),
            FAULTS,
        )
        with written_at(request.workshop, panel, planned):
            found = _settled(request, arranging, panel, run)
        arrangement = numbered_on(found.kept.arrangement, after=last, before=on("set aside"))
        last = max(last, last_number(arrangement.rails))
        panels.append(
            PanelJob(
                workshop=request.workshop,
                panel=panel,
                units=units,
                problem=found.problem.on(found.kept.space),
                arrangement=arrangement,
                spots=spots_of(units, arrangement),
                ways=found.ways,
                down=tuple(
                    replace(one, why=by_name(one.why, arranging.words.names))
                    for one in found.kept.down
                ),
                kernel=kernel,
            )
        )
    return tuple(panels)


def _reach(workshop: Workshop, panel: Panel) -> ReachBand:
    with written_at(workshop, panel):
        return reach_on(workshop, panel)


@dataclass(frozen=True)
class _Settled:
    problem: WallProblem
    kept: KeptArrangement
    ways: tuple[WayProof, ...]

    @property
    def comes_out(self) -> bool:
        """Return whether every tool comes out, with or without room for the hand."""
        return all(way.hit is None for way in self.ways)

    @property
    def missing_mm(self) -> float:
        """Return by how much the ways out and the hands lack room, all together."""
        return sum(hit.short_mm for way in self.ways for hit in (way.hit, way.hand) if hit)


def _settled(request: WallRequest, arranging: ArrangingRequest, panel: Panel, run: Run) -> _Settled:
    """Arrange, prove the ways out, and arrange once more with the room that was missing.

    The rectangles of the search know no depth; what really stands in the way of a tool or of the
    hand shows only in the proof. No rail comes down for want of room for a hand alone.
    """
    units = tuple(unit for unit in request.units if unit.planned.panel == panel.name)
    best: _Settled | None = None
    for _ in range(MOST_TRIES):
        try:
            firm = best is not None and best.comes_out and not best.kept.down
            kept = run.need(ARRANGED, replace(arranging, firm=firm))
        except WallError:
            if best is None:
                raise
            return best
        ways = prove_ways(
            units,
            spots_of(units, kept.arrangement),
            around=surroundings(request.workshop, kept.arrangement.rails, panel=panel.name),
            run=run,
        )
        found = _Settled(arranging.problem, kept, ways)
        if best is None or found.missing_mm < best.missing_mm:
            best = found
        wider = with_room(arranging.problem.items, units, ways)
        if wider == arranging.problem.items:
            return found if found.missing_mm <= best.missing_mm else best
        arranging = replace(arranging, problem=arranging.problem.having(wider))
    assert best is not None  # noqa: S101 - there is at least one try
    return best


def with_room(
    items: tuple[Item, ...], units: Sequence[Unit], ways: Sequence[WayProof]
) -> tuple[Item, ...]:
    """Return the items with more room where a way out or a hand lacks it.

    A tool that has to shift one way needs more room at its other side.
    """
    of_unit = {one.key: unit.planned.key for unit in units for one in unit.planned.holders}
    more: dict[str, dict[str, float]] = {}
    for way in ways:
        for hit in (way.hit, way.hand):
            if hit is not None:
                rooms = more.setdefault(of_unit[way.holder_key], {})
                missing_mm = math.ceil(hit.short_mm * 10) / 10
                rooms[hit.direction] = max(rooms.get(hit.direction, 0.0), missing_mm)
    return tuple(
        item if item.fixed is not None else _wider(item, more.get(item.key, {})) for item in items
    )


def _wider(item: Item, more_mm: Mapping[str, float]) -> Item:
    return replace(
        item,
        side_left_mm=item.side_left_mm + more_mm.get("right", 0.0),
        side_right_mm=item.side_right_mm + more_mm.get("left", 0.0),
        up_mm=item.up_mm + more_mm.get("down", 0.0),
        down_mm=item.down_mm + more_mm.get("up", 0.0),
    )


def _items(request: WallRequest, run: Run) -> Mapping[str, tuple[Item, ...]]:
    """Return the units as the walls see them, by the names of the panels."""
    ordered = {group.name for group in request.workshop.groups if group.in_order}
    found: dict[str, list[Item]] = {panel.name: [] for panel in request.workshop.surfaces()}
    for rank, unit in enumerate(request.units):
        hangs = request.hangs.get(unit.planned.key)
        found[unit.planned.panel].append(
            replace(
                run.need(ITEM, unit),
                rank=rank if unit.planned.group in ordered else None,
                hangs_at=None if hangs is None else (hangs.x_mm, hangs.z_mm),
            )
        )
    return {name: tuple(items) for name, items in found.items()}


def _others(
    request: WallRequest, panel: Panel, items: Mapping[str, Sequence[Item]]
) -> Mapping[str, WallProblem]:
    """Return the other panels on which a holder made for this one could hang as it is."""
    workshop, rails = request.workshop, request.rails

    def mount(one: Panel) -> str:
        return one.mount or workshop.defaults.mount

    return {
        one.name: WallProblem(
            wall_space(one, rails.on(one.name, "document", "recorded")),
            rail_rule(workshop),
            tuple(items[one.name]),
        )
        for one in workshop.surfaces()
        if one.name != panel.name and mount(one) == mount(panel)
    }
