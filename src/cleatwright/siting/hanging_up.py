"""From built units to arranged walls: every panel of a workshop, one after the other."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import nullcontext, suppress
from dataclasses import dataclass, field, replace
from functools import partial
from types import MappingProxyType

from cleatwright.base.errors import WallError
from cleatwright.base.gathering import refuse
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.design.planning import FAULTS
from cleatwright.siting.arranging import ArrangingRequest, Words, numbered_on
from cleatwright.siting.as_made import NO_START, base_of, rows_of, start_of, with_room_of
from cleatwright.siting.bearing import well_borne
from cleatwright.siting.beside import along_of, near_of, on_another_panel, with_along
from cleatwright.siting.given_places import off_the_wall
from cleatwright.siting.giving_places import tables_of
from cleatwright.siting.hung.rails import HungRails
from cleatwright.siting.no_height import SeatedTool, without_height
from cleatwright.siting.panel_job import PanelJob, folder_of, setting_of
from cleatwright.siting.people import on_panel
from cleatwright.siting.rails.loading import failing_rails, loaded_rails
from cleatwright.siting.rails.overhang import OVERHANG
from cleatwright.siting.rails.spacing import with_enough_screws
from cleatwright.siting.safe_heights import SafeHeights, faulty_heights
from cleatwright.siting.searching import HELPED, SEARCHED, Helping
from cleatwright.siting.seats.kept_free import Numbered, with_kept_free
from cleatwright.siting.seats.remembered import seat_again
from cleatwright.siting.seats.usual import with_usual_seats
from cleatwright.siting.settling import MOST_TRIES, SETTLED, Settled, Settling
from cleatwright.siting.variants import variants_of
from cleatwright.siting.walls import ITEM, rail_rule, wall_space
from cleatwright.siting.ways_out import surroundings
from cleatwright.siting.written_at import written_at
from cleatwright.wall.arrange import default_rounds, require_all
from cleatwright.wall.explaining.constraints import hopeless
from cleatwright.wall.explaining.offers import Means
from cleatwright.wall.explaining.remedies import by_name
from cleatwright.wall.model import Item, Place, ReservedSeat
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail
from cleatwright.wall.rails import last_number
from cleatwright.wall.weights import PREFERENCES, Wanted
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import MAIN, Panel
from cleatwright.workshop.ledger.made_wall import MadePlace, MadeRail, MadeWall

NO_MARKS: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True)
class Again:
    """One further search on one panel.

    Args:
        panel: The panel; the others are arranged as usual.
        seed: Start of the random numbers; 0 is that of the usual search.
        wanted: What is looked for.
        pinned: Units that have to hang where they are said to.
        near: Units that stay where they are said to hang, as long as everything finds a place.
        settled: Whether it is arranged once more where a tool or a hand lacks room.
    """

    panel: str
    seed: int = 0
    wanted: Wanted = "usual"
    pinned: tuple[Place, ...] = ()
    near: tuple[Place, ...] = ()
    settled: bool = True

    def item(self, item: Item) -> Item:
        """Return a unit as this search sees it."""
        pinned, near = (
            next(((one.x_mm, one.z_mm) for one in places if one.key == item.key), None)
            for places in (self.pinned, self.near)
        )
        return replace(item, fixed=pinned or item.fixed, hangs_at=near or item.hangs_at)


@dataclass(frozen=True)
class WallRequest:
    """What shall hang, and what is asked of the walls.

    Args:
        workshop: The document.
        units: Everything that shall hang.
        hangs: Where units hang already, by their keys.
        rails: Which rails hang already.
        effort: How many times as long as usual each wall is searched, >= 1.
        again: What else is looked for on one of them.
        made: The walls as they were last made, from which this plan sets out.
        marks: The marks of the parts that hang, by their keys.
        still: Whether nothing that hangs may move for what finds no place.
        anew: Whether what hangs moves where it pays.
        helped: Whether it is looked for what would help what finds no place.
    """

    workshop: Workshop
    units: tuple[Unit, ...]
    hangs: Mapping[str, Place]
    rails: HungRails
    effort: int = 1
    again: Again | None = None
    made: MadeWall = field(default_factory=MadeWall)
    marks: Mapping[str, str] = field(default_factory=lambda: NO_MARKS)
    still: bool = False
    anew: bool = False
    helped: bool = True

    def made_on(self, panel: Panel) -> Mapping[str, MadePlace]:
        """Return where things were to hang on a panel by the papers, as far as they hold still."""
        return self.made.on(panel.name, base_of(self.workshop, panel))

    def rails_made(self, panel: Panel) -> tuple[MadeRail, ...]:
        """Return the rails that are on the papers, and do not hang; none when nothing counts."""
        if not (self.hangs or self.made_on(panel)):
            return ()
        hung = {rail.number for rail in self.rails.rails} | self.rails.covered.keys()
        return tuple(one for one in self.made.rails if one.number not in hung)

    def seats_made(self, problem: WallProblem, panel: Panel) -> tuple[ReservedSeat, ...]:
        """Return the seats that the papers of a panel keep free."""
        if not self.made_on(panel):
            return ()
        here = (one for one in self.made.seats if one.panel == panel.name)
        return tuple(seat_again(one, problem) for one in here)

    def numbering(self, panel: Panel, *, last: int) -> Numbered:
        """Return what numbers the rails of a panel, new ones on after ``last`` and the papers'."""
        made = self.rails_made(panel)
        after = max([last, *(rail.number for rail in made)])
        return partial(numbered_on, after=after, made=made)

    def rows_made(self, problem: WallProblem, panel: Panel) -> tuple[Rail, ...]:
        """Return the rows that are on the papers of a panel, and do not hang."""
        if not (self.made_on(panel) and problem.rule.rows and panel.name in self.made.in_rows):
            return ()
        return rows_of(self.rails_made(panel), problem)

    def on(self, panel: str) -> Again:
        """Return what is looked for on a panel."""
        return self.again if self.again and self.again.panel == panel else Again(panel)

    @property
    def names(self) -> Mapping[str, str]:
        """Return the names of the units by their keys."""
        return {unit.planned.key: unit.planned.name for unit in self.units}


def hang_up(request: WallRequest, run: Run) -> Iterator[PanelJob]:
    """Yield the wall, and every further panel on which something hangs, arranged.

    What hangs on one panel is no matter of another one, but for the numbers of its rails, which
    go on from panel to panel.

    Raises:
        WallError: Something finds no place; the message says what would help.
    """
    items = items_of(request, run)
    last = request.rails.last
    for panel in used_panels(request, items):
        hung = hung_on(request, panel, items, run, last=last)
        last = max(last, last_number(hung.arrangement.rails))
        yield hung


def require_places(request: WallRequest, run: Run) -> None:
    """Raise unless everything finds a place on its panel; what would help is not looked for.

    Raises:
        WallError: Something finds no place.
    """
    items, bare = items_of(request, run), replace(request, helped=False)
    for panel in used_panels(request, items):
        _settled(bare, panel, settling_on(bare, panel, items[panel.name]), items, run)


def used_panels(request: WallRequest, items: Mapping[str, Sequence[Item]]) -> Iterator[Panel]:
    """Yield the wall, and every further panel on which something hangs or shall hang.

    Args:
        request: What shall hang.
        items: The same as the walls see it, by the names of the panels.
    """
    for panel in request.workshop.surfaces():
        rails = request.rails.on(panel.name, "document", "recorded")
        if panel.name == MAIN or items[panel.name] or rails:
            yield panel


def hung_on(
    request: WallRequest,
    panel: Panel,
    items: Mapping[str, tuple[Item, ...]],
    run: Run,
    *,
    last: int,
) -> PanelJob:
    """Return one panel; a rail that was set aside stays only if it bears what would hang on it.

    It stays too where a new one in its place would bear no more. New rails are numbered on after
    ``last``.

    Raises:
        WallError: Something finds no place; the message says what would help.
    """
    settling = settling_on(request, panel, items[panel.name])
    numbered = request.numbering(panel, last=last)

    def without(gone: Sequence[Rail]) -> tuple[PanelJob, Settled]:
        aside = tuple(rail for rail in settling.asked.aside if rail not in gone)
        asked = replace(settling.asked, aside=aside)
        found = _settled(request, panel, replace(settling, asked=asked), items, run)
        job = job_of(request, panel, settling.units, found, numbered=numbered)
        down = (*job.down, *(rail.down(_overloaded(panel)) for rail in gone))
        return replace(job, down=down), found

    job, found = without(())
    weak = [rail for rail in settling.asked.aside if rail.name in _failing(job)]
    if weak:
        anew, _ = without(weak)
        failing = [one for one in anew.arrangement.rails if one.name in _failing(anew)]
        gone = [rail for rail in weak if not any(rail.meets(one) for one in failing)]
        job, found = without(gone) if gone else (job, found)
    job = well_borne(
        job,
        may_move={
            one.key
            for one in items[panel.name]
            if one.fixed is None and (request.anew or one.hangs_at is None)
        },
        around=settling.around,
        numbered=numbered,
        run=run,
    )
    return with_kept_free(
        job,
        settling.asked.start.seats,
        found.kept.seats,
        around=settling.around,
        numbered=numbered,
        run=run,
    )


def job_of(
    request: WallRequest,
    panel: Panel,
    units: tuple[Unit, ...],
    found: Settled,
    *,
    numbered: Numbered,
) -> PanelJob:
    """Return a settled panel with what hangs on it, its new rails numbered and with their screws.

    Args:
        request: What shall hang.
        panel: The panel.
        units: What hangs on it.
        found: Where, and how it comes out.
        numbered: What numbers its rails.
    """
    kept = found.kept
    return with_enough_screws(
        PanelJob(
            setting=setting_of(request.workshop),
            panel=panel,
            folder=folder_of(request.workshop, panel),
            units=units,
            problem=found.problem.on(kept.space),
            arrangement=numbered(kept.arrangement),
            ways=found.ways,
            down=tuple(replace(one, why=by_name(one.why, request.names)) for one in kept.down),
            reaches=on_panel(request.workshop, panel),
        )
    )


def _failing(job: PanelJob) -> Collection[str]:
    return failing_rails(loaded_rails(job)).keys()


def _overloaded(panel: Panel) -> str:
    what = "anchors" if panel.takes_anchors else "screws"
    return f"its {what} do not bear what would hang there"


def hopeless_alone(request: WallRequest, run: Run) -> frozenset[str]:
    """Return the keys of the units that find no place on their panel even alone, which is quick."""
    items = items_of(request, run)
    return frozenset(
        key
        for panel in request.workshop.surfaces()
        if items[panel.name]
        for key in hopeless(settling_on(request, panel, items[panel.name]).asked.told.problem)
    )


def without_place(request: WallRequest, run: Run, *, one_in: int = 1) -> frozenset[str]:
    """Return the keys of the units that find no place on their panel, all rails taken down.

    Args:
        request: What shall hang.
        run: The run that keeps what was computed before.
        one_in: Of how many rounds of the search one is done, >= 1.
    """
    items = items_of(request, run)
    found: set[str] = set()
    for panel in request.workshop.surfaces():
        if items[panel.name]:
            search = settling_on(request, panel, items[panel.name]).asked.told
            quick = replace(search, rounds=search.rounds // one_in)
            found.update(left.key for left in run.need(SEARCHED, quick).left_over)
    return frozenset(found)


def settling_on(request: WallRequest, panel: Panel, items: tuple[Item, ...]) -> Settling:
    """Return what shall hang on a panel, and how; ``items`` are the same as the wall sees it."""
    workshop, on = request.workshop, partial(request.rails.on, panel.name)
    units = tuple(unit for unit in request.units if unit.planned.panel == panel.name)
    again = request.on(panel.name)
    rule, wanted = rail_rule(workshop, panel), PREFERENCES[again.wanted]
    problem = WallProblem(
        wall_space(panel, on("document")),
        replace(rule, rows=wanted.layout == "rows") if wanted.layout else rule,
        items,
        on_panel(workshop, panel).usual.band,
        wanted.weights,
    )
    problem = with_usual_seats(problem, panel.reserved_seats)
    refuse(off_the_wall(workshop, units, problem=problem), FAULTS)
    rounds = request.effort * default_rounds(len(units))
    return Settling(
        ArrangingRequest(
            problem,
            on("recorded"),
            rounds,
            seed=again.seed,
            start=NO_START
            if request.again == again
            else start_of(
                units,
                request.made_on(panel),
                hangs=request.hangs,
                marks=request.marks,
                rows=request.rows_made(problem, panel),
                seats=request.seats_made(problem, panel),
            ),
            still=request.still,
            anew=request.anew,
            aside=on("set aside"),
        ),
        units,
        surroundings(workshop, (), panel=panel.name),
        MOST_TRIES if again.settled else 1,
    )


def _settled(
    request: WallRequest,
    panel: Panel,
    settling: Settling,
    items: Mapping[str, Sequence[Item]],
    run: Run,
) -> Settled:
    """Return the settled panel, or raise what would help where something finds no place."""
    workshop, search = request.workshop, settling.asked.told
    with written_at(workshop, panel, [unit.planned for unit in settling.units]):
        try:
            with suppress(WallError) if request.helped else nullcontext():
                return run.need(SETTLED, settling)
            means = means_on(request, panel, settling, items)
            require_all(run.need(HELPED, Helping(search, means)))
            return run.need(SETTLED, settling)
        except WallError as error:
            raise Words(request.names).told(error) from error


def means_on(
    request: WallRequest,
    panel: Panel,
    settling: Settling,
    items: Mapping[str, Sequence[Item]],
) -> Means:
    """Return what a change of a panel may use to give something a place."""
    others = _others(request, panel, items)
    known = {item.key: item for item in settling.asked.problem.items}
    return Means(
        others,
        request.workshop.units,
        tables_of(request.workshop, settling.units),
        variants_of(
            request.workshop, panel, [(one, known[one.planned.key]) for one in settling.units]
        ),
    )


def items_of(request: WallRequest, run: Run) -> Mapping[str, tuple[Item, ...]]:
    """Return the units as the walls see them, by the names of the panels."""
    ordered = {group.name for group in request.workshop.groups if group.in_order}
    found: dict[str, list[Item]] = {panel.name: [] for panel in request.workshop.surfaces()}
    heights = {one.name: SafeHeights(request.workshop, one) for one in request.workshop.surfaces()}
    made = {one.name: request.made_on(one) for one in request.workshop.surfaces()}
    _refuse_heights(request, heights)
    refuse(tuple(on_another_panel(request.workshop, request.units)), FAULTS)
    panels = {one.name: one for one in request.workshop.surfaces()}
    bare = {name: one.model_copy(update={"obstacles": ()}) for name, one in panels.items()}
    for unit in request.units:
        hangs, on_panel = request.hangs.get(unit.planned.key), found[unit.planned.panel]
        before = made[unit.planned.panel].get(unit.planned.key)
        item = replace(
            with_room_of(run.need(ITEM, unit), before, unit.outer.mark),
            # only what hangs on one panel has an order
            rank=len(on_panel) if unit.planned.group in ordered else None,
            hangs_at=None if hangs is None else (hangs.x_mm, hangs.z_mm),
            bounds=heights[unit.planned.panel].bounds(unit),
            taken=heights[unit.planned.panel].reaches.taken(unit.planned.tools),
            near=near_of(unit, panels[unit.planned.panel]),
            over_mm=math.inf
            if hangs is not None
            else run.need(OVERHANG, (unit, request.workshop.rail, bare[unit.planned.panel])),
        )
        item = request.on(unit.planned.panel).item(item)
        on_panel.append(with_along(item, along_of(unit, panels[unit.planned.panel])))
    return {name: tuple(items) for name, items in found.items()}


def _refuse_heights(request: WallRequest, heights: Mapping[str, SafeHeights]) -> None:
    """Refuse tools whose wished heights cannot be, or for which people leave no height."""
    units = request.units
    tools = (tool for unit in units for tool in unit.planned.tools)
    faulty = faulty_heights(request.workshop, tools)
    free = (
        one for one in units if one.planned.fixed is None and one.planned.key not in request.hangs
    )
    seated = (
        SeatedTool(tool, seat, unit.planned.panel)
        for unit in free
        for planned, made in zip(unit.planned.holders, unit.holders, strict=True)
        for tool, seat in zip(planned.tools, made.part.seats, strict=True)
        if not tool.gone and tool.name not in faulty
    )
    refuse((*faulty.values(), *without_height(request.workshop, heights, seated)), FAULTS)


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
            rail_rule(workshop, one),
            tuple(items[one.name]),
        )
        for one in workshop.surfaces()
        if one.name != panel.name and mount(one) == mount(panel)
    }
