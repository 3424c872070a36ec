"""What hangs where: every panel of a workshop arranged, or one of them alone."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from cleatwright.base.errors import MeasureError, unknown_name
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.carrying import build_units, plan_units
from cleatwright.design.equipment import material_recipe, printer_recipe
from cleatwright.design.planned import last_made
from cleatwright.design.planning import plan
from cleatwright.project.revision import Revision, said_of
from cleatwright.siting.assessing import ASSESSED, Assessment
from cleatwright.siting.hanging_up import Again, WallRequest, hang_up
from cleatwright.siting.hung.earlier import MadeBefore
from cleatwright.siting.hung.in_use import PartsThere, parts_there
from cleatwright.siting.hung.matching import remembered
from cleatwright.siting.hung.rails import as_told, hung_rails
from cleatwright.siting.hung.renamed import with_names_of_today
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import LOADED, RailLoads
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, panel_path
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import LastMade
from cleatwright.workshop.ledger.reading import read_recipe


@dataclass(frozen=True)
class Request:
    """How a workshop shall be arranged; as ``compute`` takes it."""

    afresh: bool = False
    regroup: bool = False
    effort: int | None = None
    again: Again | None = None


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
    """Yield each panel as soon as it is arranged: a fault of one stands in no way before it."""
    return hang_up(run.need(TO_HANG, given).wall, run)


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
    workshop = revision.workshop
    earlier = revision.earlier(regroup=request.regroup)
    holders = plan(workshop, folder=revision.folder, earlier=earlier, run=run)
    units = build_units(plan_units(workshop, holders, run=run), run)
    known = with_names_of_today(revision.hung, revision.made, holders)
    marks = {unit.outer.mark for unit in units}
    stored = partial(read_recipe, revision.folder)
    before = MadeBefore(stored, printer_recipe(workshop), material_recipe(workshop), run)
    recorded = before.known_again(known, marks)
    rails = hung_rails(workshop, recorded.rails, units, afresh=request.afresh)
    hung = as_told(recorded, rails)
    wall = WallRequest(
        workshop=workshop,
        units=units,
        hangs={} if request.afresh else remembered(hung.holders, units),
        rails=rails,
        effort=workshop.defaults.effort if request.effort is None else request.effort,
        again=request.again,
    )
    there = parts_there(hung.holders, units, before.holders_on, ready=revision.ready)
    return ToHang(wall, hung, last_made(holders, revision.made), there)


def _walls(run: Run, given: Given) -> tuple[PanelJob, ...]:
    return tuple(hung_panels(given, run))


def request_key(given: Given) -> str:
    """Return the content key of a workshop and how it shall be arranged."""
    revision, request = given
    return content_key((revision.key, request))


TO_HANG = Stage("what shall hang", _to_hang, request_key, size=lambda _: 1_000_000)
"""From a revision, and how it shall be arranged, to what shall hang, every part of it built."""
WALLS = Stage("walls", _walls, request_key, size=lambda _: 1_000_000)
"""From a revision, and how it shall be arranged, to every panel on which something hangs."""
