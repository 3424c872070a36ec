"""What hangs where: every panel of a workshop arranged, or one of them alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from types import MappingProxyType
from typing import get_args

from cleatwright.base.errors import (
    CleatwrightError,
    DesignError,
    InputError,
    MeasureError,
    WallError,
    unknown_name,
)
from cleatwright.base.gathering import refuse
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.carrying import build_units, plan_units
from cleatwright.design.choice import Misfit
from cleatwright.design.equipment import material_recipe, printer_recipe
from cleatwright.design.held import known_misfit, may_change, misfit, plan_that_holds
from cleatwright.design.planned import last_made
from cleatwright.design.planning import FAULTS
from cleatwright.project.revision import Revision, said_of
from cleatwright.siting.as_far import PanelSoFar, as_far
from cleatwright.siting.assessing import ASSESSED, Assessment
from cleatwright.siting.hanging_up import (
    Again,
    WallRequest,
    hang_up,
    hopeless_alone,
    require_places,
    without_place,
)
from cleatwright.siting.hung.earlier import MadeBefore
from cleatwright.siting.hung.in_use import PartsThere, parts_there
from cleatwright.siting.hung.matching import marks_of, remembered
from cleatwright.siting.hung.rails import as_told, hung_rails, without_those_given_up
from cleatwright.siting.hung.renamed import with_names_of_today
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import LOADED, RailLoads
from cleatwright.wall.moving.moves import surface
from cleatwright.wall.score import stays_at
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, panel_path
from cleatwright.workshop.document.sections import HowFar
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import LastMade
from cleatwright.workshop.ledger.made_wall import MadeWall
from cleatwright.workshop.ledger.reading import read_recipe

MOST_FAMILIES = 3
"""How often the next family is tried for what finds no place."""
QUICK = 4
"""Whether one does is first tried in one round of so many."""
NO_PLACE = "it found no place"


@dataclass(frozen=True)
class Request:
    """How a workshop shall be arranged; as ``compute`` takes it.

    ``misfits`` are families that are not taken for some tools, since nothing of them did.
    ``limit`` is how far a change may go when something finds no place otherwise, as the document
    says when None; ``plan`` is how far it goes in any case, which is only tried in a ``trial``.
    """

    afresh: bool = False
    regroup: bool = False
    effort: int | None = None
    again: Again | None = None
    misfits: tuple[Misfit, ...] = ()
    limit: HowFar | None = None
    plan: HowFar | None = None
    trial: bool = False


FAR: tuple[HowFar, ...] = get_args(HowFar)
WOULD_HELP: Mapping[HowFar, str] = MappingProxyType(
    {
        "moves": "Everything finds a place when something that hangs moves",
        "parts": "Everything finds a place when tools share parts that are made anew",
        "afresh": "Everything finds a place when all is planned as if nothing was there",
    }
)
Given = tuple[Revision, Request]
"""A workshop, and how it shall be arranged."""


@dataclass(frozen=True)
class PanelFound:
    """One panel: what hangs where, what is found about it, and what its rails bear."""

    panel: PanelJob
    found: Assessment
    loads: tuple[RailLoads, ...]


def panel_found(
    name: str, revision: Revision, *, request: Request | None = None, run: Run
) -> PanelFound:
    """Return one panel; of the others only those before it are arranged, for the rails' numbers.

    Args:
        name: Its name; ``MAIN`` is the wall.
        revision: The workshop.
        request: How it shall be arranged; as usual when None.
        run: The run that keeps what was computed before.

    Raises:
        UnknownNameError: Nothing hangs on such a panel.
        CleatwrightError: The first thing that stands in the way.
    """
    seen: list[str] = []
    with said_of(revision):
        for panel in hung_panels((revision, request or Request()), run):
            if panel.panel.name == name:
                found = assessed(panel, revision.workshop, run)
                return PanelFound(panel, found, run.need(LOADED, panel))
            seen.append(panel.panel.name)
    raise unknown_name("panel on which something hangs", name, seen)


def hung_panels(given: Given, run: Run) -> Iterator[PanelJob]:
    """Yield each panel as soon as it is arranged: a fault of one stands in no way before it.

    Raises:
        WallError: Something finds no place; what may not happen and would help is said.
    """
    wall = run.need(TO_HANG, given).wall
    try:
        yield from hang_up(wall, run)
    except WallError as error:
        raise with_what_helps(error, given, run) from error


def walls_so_far(
    given: Given, run: Run, *, about: str = "", helped: bool = True
) -> tuple[PanelSoFar, ...]:
    """Return every panel with what finds a place on it, and what finds none.

    Args:
        given: The workshop, and how it shall be arranged.
        run: The run that keeps what was computed before.
        about: The key of the one of which it is told what would help; of all when empty.
        helped: Whether it is told at all.

    Raises:
        CleatwrightError: Something else stands in the way than want of room.
    """
    with said_of(given[0]):
        wall = replace(run.need(TO_HANG, given).wall, helped=helped)
        return tuple(as_far(wall, run, about=about))


def goes(given: Given, run: Run) -> HowFar:
    """Return how far the plan of a workshop goes: the least that gives everything a place."""
    revision, request = given
    if request.plan is not None or _limit(given) == FAR[0] or not (revision.hung or revision.ready):
        return request.plan or FAR[0]
    return run.need(GOES, (revision, replace(request, again=None)))


def _limit(given: Given) -> HowFar:
    """Return how far the plan of a workshop may go: as is asked, else as its document says."""
    revision, request = given
    return request.limit or revision.workshop.defaults.change


def _goes(run: Run, given: Given) -> HowFar:
    limit = _limit(given)
    for far in FAR[: FAR.index(limit)]:
        if works(given, far, run) is not None:
            return far
    return limit


def _pays(given: Given, run: Run) -> bool:
    """Return whether what hangs moves where that pays: when it is asked for, and none has to."""
    request = given[1]
    return request.plan == "moves" and not request.trial and works(given, FAR[0], run) is not None


def works(given: Given, far: HowFar, run: Run) -> tuple[PanelJob, ...] | None:
    """Return the walls of a plan that goes so far; None when something is in the way."""
    revision, request = given
    trial = replace(request, plan=far, trial=True)
    try:
        return tuple(hang_up(run.need(TO_HANG, (revision, trial)).wall, run))
    except (InputError, DesignError):
        return None


def with_what_helps(error: WallError, given: Given, run: Run) -> WallError:
    """Return the error with how far the plan would have to go for everything to find a place."""
    revision, request = given
    if request.again or request.plan or request.afresh or not (revision.hung or revision.ready):
        return error
    for far in FAR[FAR.index(_limit(given)) + 1 :]:
        panels = works(given, far, run)
        if panels is not None:
            moved = moved_names(panels)
            those = f" ({', '.join(moved)})" if moved else ""
            return error.to_do(
                f"{WOULD_HELP[far]}{those}: to allow it, say make --change {far}, or write "
                f'change = "{far}" under [defaults]'
            )
    return error


def moved_names(panels: Iterable[PanelJob]) -> tuple[str, ...]:
    """Return the names of what hangs and hangs elsewhere on arranged panels."""
    return tuple(
        f'"{unit.planned.name}"'
        for panel in panels
        for unit in panel.units
        if (at := panel.problem.known[unit.planned.key].hangs_at) is not None
        and not stays_at(at, panel.spots[unit.planned.key].place)
    )


def assessed(panel: PanelJob, workshop: Workshop, run: Run) -> Assessment:
    """Return what is found about a panel; an error of its screws names what they go through."""
    try:
        return run.need(ASSESSED, panel)
    except MeasureError as error:
        surface = panel_path(workshop, panel.panel.name)
        raise error.at(first_of(surface, (*surface, "lining"), ("rail", "thickness"))) from error


@dataclass(frozen=True)
class ToHang:
    """What shall hang, every part of it built, and what of it hangs already.

    Args:
        wall: What is asked of the walls.
        hung: What hangs already.
        made: What the ledger keeps once all is made.
        there: What there is of its parts already.
    """

    wall: WallRequest
    hung: WhatHangs
    made: LastMade
    there: PartsThere


def _to_hang(run: Run, given: Given) -> ToHang:
    revision, request = given
    workshop, far = revision.workshop, goes(given, run)
    afresh = request.afresh or far == "afresh"
    earlier = revision.earlier(
        regroup=request.regroup or far == "afresh", renew=request.afresh or far == "parts"
    )
    planned = plan_that_holds(
        workshop, folder=revision.folder, earlier=earlier, misfits=request.misfits, run=run
    )
    refuse(planned.faults, FAULTS)
    holders = planned.holders
    units = build_units(plan_units(workshop, holders, run=run), run)
    known = with_names_of_today(revision.hung, revision.made, holders)
    marks = {unit.outer.mark for unit in units}
    stored = partial(read_recipe, revision.folder)
    before = MadeBefore(stored, printer_recipe(workshop), material_recipe(workshop), run)
    recorded = before.known_again(known, marks)
    rails = hung_rails(workshop, recorded.rails, units, afresh=afresh)
    if not afresh:
        rails = without_those_given_up(rails, revision.wall)
    hung = as_told(recorded, rails)
    wall = WallRequest(
        workshop=workshop,
        units=units,
        hangs={} if afresh else remembered(hung.holders, units),
        rails=rails,
        effort=workshop.defaults.effort if request.effort is None else request.effort,
        again=request.again,
        made=MadeWall() if afresh else revision.wall,
        marks=marks_of(hung.holders, units),
        still=far == "little",
        anew=_pays(given, run),
        helped=not request.trial,
    )
    there = parts_there(hung.holders, units, before.holders_on, ready=revision.ready)
    return ToHang(wall, hung, last_made(holders, revision.made), there)


@dataclass(frozen=True)
class TriedFamilies:
    """A request with the families with which everything finds a place, if there are any.

    Args:
        request: The request with them; as it was asked where there are none.
        vain: Families that were tried for what finds no place, and found it none.
    """

    request: Request
    vain: tuple[Misfit, ...] = ()


def _fitting(run: Run, given: Given) -> TriedFamilies:
    """Return the request with the next families for what finds no place, where they find one.

    A holder may be of another family when the owner left it open and it is new. The first plan in
    which everything finds a place is kept; where none does, it stays as it was asked.
    """
    revision, request = given
    earlier, tried, vain = revision.earlier(regroup=request.regroup), request, request.misfits
    for _ in range(MOST_FAMILIES + 1):
        wall = run.need(AS_ASKED, (revision, tried)).wall
        free = {
            one.key
            for unit in wall.units
            for one in unit.planned.holders
            if may_change(one, earlier)
        }
        if tried is request and not free:
            return TriedFamilies(request)
        try:
            homeless = _homeless(wall, run, again=tried is not request)
        except CleatwrightError:
            # it is said where the wall is arranged
            return TriedFamilies(request)
        if not homeless:
            return TriedFamilies(tried)
        found = (
            misfit(one, f"{NO_PLACE} on {surface(unit.planned.panel)}")
            for unit in wall.units
            if unit.planned.key in homeless
            for one in unit.planned.holders
            if one.key in free
        )
        more = tuple(one for one in found if not known_misfit(one, tried.misfits))
        vain = (*tried.misfits, *more)
        if not more:
            break
        tried = replace(tried, misfits=vain)
    return TriedFamilies(request, tuple(one for one in vain if one not in request.misfits))


def _homeless(wall: WallRequest, run: Run, *, again: bool) -> frozenset[str]:
    """Return the keys of what finds no place, however its panel is arranged.

    With other families ``again``, a short search decides whether a long one is worth its time, and
    none is made where something finds no place even alone.
    """
    if again:
        left = hopeless_alone(wall, run) or without_place(wall, run, one_in=QUICK)
        if left:
            return left
    try:
        require_places(wall, run)
    except WallError:
        return without_place(wall, run)
    return frozenset()


def _fitted(run: Run, given: Given) -> ToHang:
    return run.need(AS_ASKED, (given[0], run.need(FITTING, given).request))


def _walls(run: Run, given: Given) -> tuple[PanelJob, ...]:
    return tuple(hung_panels(given, run))


def request_key(given: Given) -> str:
    """Return the content key of a workshop and how it shall be arranged."""
    revision, request = given
    return content_key((revision.key, request))


AS_ASKED = Stage("what was asked to hang", _to_hang, request_key, size=lambda _: 1_000_000)
"""From a revision, and how it shall be arranged, to what that asks for, every part of it built."""
FITTING = Stage("families that find a place", _fitting, request_key)
"""From a revision, and how it shall be arranged, to the same with families that find a place."""
GOES = Stage("how far a plan goes", _goes, request_key)
"""From a revision, and how it shall be arranged, to how far the plan goes beyond what is there."""
TO_HANG = Stage("what shall hang", _fitted, request_key, size=lambda _: 1_000_000)
"""From a revision, and how it shall be arranged, to what shall hang, every part of it built."""
WALLS = Stage("walls", _walls, request_key, size=lambda _: 1_000_000)
"""From a revision, and how it shall be arranged, to every panel on which something hangs."""
