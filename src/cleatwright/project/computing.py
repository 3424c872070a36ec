"""Everything about a workshop, computed before any file is written."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

from cleatwright.base.errors import DesignError, InputError, WallError
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.carrying import printed_parts, wooden_carriers
from cleatwright.design.held import plan_that_holds
from cleatwright.pack.carrier_papers import carrier_wood
from cleatwright.pack.job import Better, Job
from cleatwright.pack.production import Production, produce
from cleatwright.pack.woodwork import Woodwork, woodwork
from cleatwright.project.advising import Plan, advised
from cleatwright.project.going import AS_LITTLE_AS_CAN_BE, Going
from cleatwright.project.rail_remedies import RailRemedies
from cleatwright.project.revision import Revision, read_revision, said_of, with_text
from cleatwright.project.walls import (
    TO_HANG,
    WALLS,
    Given,
    Request,
    assessed,
    moved_names,
    request_key,
)
from cleatwright.siting.hung.moves import ChangePlan, RailChange, change_plan, without_unsafe_steps
from cleatwright.siting.hung.rails import HungRails
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import LOADED, failing_rails

# about what a job holds beside the parts, which are kept for themselves
JOB_BYTES = 3_000_000


def compute(
    place: Path,
    *,
    afresh: bool = False,
    regroup: bool = False,
    effort: int | None = None,
    going: Going = AS_LITTLE_AS_CAN_BE,
    advise: bool = False,
    run: Run | None = None,
) -> Job:
    """Return everything about a workshop, from its document to batches, and write nothing.

    Args:
        place: The workshop folder, or its document.
        afresh: Arrange as if nothing hung yet.
        regroup: Group the tools as if nothing was made yet.
        effort: How many times as long as usual the walls are searched, >= 1; as the document
            says when None.
        going: How far the plan goes beyond what is there.
        advise: Look for places that are better than one that is warned of, by trying them.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        CleatwrightError: The first thing that stands in the way.
    """
    run = run or Run()
    revision = read_revision(place, run)
    request = Request(
        afresh=afresh, regroup=regroup, effort=effort, limit=going.limit, plan=going.plan
    )
    with said_of(revision):
        return run.need(ADVISED if advise else JOB, (revision, request))


def _advised(run: Run, given: Given) -> Job:
    revision, request = given
    job = run.need(JOB, given)

    def arranged(text: str) -> Plan | None:
        try:
            trial = with_text(revision, text, run)
            panels = run.need(WALLS, (trial, request))
        except (InputError, DesignError):
            return None
        found = [assessed(panel, trial.workshop, run) for panel in panels]
        return Plan(trial.workshop, text, panels, found)

    plan = Plan(revision.workshop, revision.text, job.panels, job.found)
    helps = (RailRemedies(revision, request, panel, run).helps() for panel in job.panels)
    return replace(
        job,
        key=content_key(("advised", job.key)),
        found=tuple(
            replace(found, helps=tried)
            for found, tried in zip(advised(plan, arranged), helps, strict=True)
        ),
        spared=_spared(revision, len(job.planned), run),
        better=_better(given, job, run),
    )


def _job(run: Run, given: Given) -> Job:
    workshop, found = given[0].workshop, run.need(TO_HANG, given)
    units, hung, panels = found.wall.units, found.hung, run.need(WALLS, given)
    spots = MappingProxyType({k: spot for panel in panels for k, spot in panel.spots.items()})
    by_number = sorted(
        (pair for unit in units for pair in zip(unit.planned.holders, unit.holders, strict=True)),
        key=lambda pair: pair[0].number,
    )
    return Job(
        key=request_key(given),
        workshop=workshop,
        units=units,
        planned=tuple(planned for planned, _ in by_number),
        built=tuple(made for _, made in by_number),
        panels=panels,
        found=tuple(assessed(panel, workshop, run) for panel in panels),
        spots=spots,
        hung=hung,
        change_plan=to_change(given, run),
        woodwork=to_saw(given, run),
        production=to_print(given, run),
        there=found.there,
        made=found.made,
    )


def to_change(given: Given, run: Run) -> ChangePlan:
    """Return what the plan changes for what hangs, and in which order to change it."""
    found, panels = run.need(TO_HANG, given), run.need(WALLS, given)
    units = found.wall.units
    return without_unsafe_steps(
        change_plan(
            found.hung,
            units,
            items=[item for panel in panels for item in panel.problem.items],
            places={key: spot.place for panel in panels for key, spot in panel.spots.items()},
            rails=_rail_change(found.wall.rails, panels),
        ),
        rails=[name for panel in panels for name in failing_rails(run.need(LOADED, panel))],
        units=[unit.planned.key for unit in units if not unit.holds],
    )


def to_saw(given: Given, run: Run) -> Woodwork:
    """Return the lists for the saw: of new rails, and of carriers of wood that do not hang yet."""
    found, panels = run.need(TO_HANG, given), run.need(WALLS, given)
    rails = [one for panel in panels for one in panel.arrangement.rails if not one.stays]
    carriers = carrier_wood(wooden_carriers(found.wall.units, but=found.there.in_use))
    return woodwork(given[0].workshop, rails, carriers=carriers, run=run)


def to_print(given: Given, run: Run) -> Production:
    """Return the beds of what is not there yet; where things hang does not matter."""
    found = run.need(TO_HANG, given)
    parts = printed_parts(found.wall.units).items()
    wanted = {key: part for key, part in parts if key not in found.there.keys}
    return produce(given[0].workshop, wanted, run)


def _spared(revision: Revision, holders: int, run: Run) -> int:
    """Return how many holders fewer there would be if tools were grouped anew; 0 for none."""
    if not revision.made:
        return 0
    earlier = revision.earlier(regroup=True)
    anew = plan_that_holds(revision.workshop, folder=revision.folder, earlier=earlier, run=run)
    return 0 if anew.faults else max(0, holders - len(anew.holders))


def _better(given: Given, job: Job, run: Run) -> Better | None:
    """Return what is saved when things that are there move for what is new; None for little."""
    revision, request = given
    known = {one.key for one in revision.wall.places}
    if not known or request != Request() or known >= {unit.planned.key for unit in job.units}:
        return None
    try:
        anew = run.need(WALLS, (revision, Request(plan="moves")))
    except WallError:
        return None
    found = Better(
        rails=_new_rails(job.panels) - _new_rails(anew),
        points=_points(job.panels) - _points(anew),
        moved=len(moved_names(anew)),
    )
    return found if found.is_clear(_points(job.panels)) else None


def _new_rails(panels: Iterable[PanelJob]) -> int:
    return sum(not rail.stays for panel in panels for rail in panel.arrangement.rails)


def _points(panels: Iterable[PanelJob]) -> float:
    return sum(panel.arrangement.scores.total for panel in panels)


def _rail_change(hung: HungRails, panels: tuple[PanelJob, ...]) -> RailChange:
    """Return the rails that shall hang, and why others come down."""
    down = (*hung.down, *(one for panel in panels for one in panel.down))
    after = tuple(rail for panel in panels for rail in panel.arrangement.rails)
    return RailChange(after, down, hung.covered)


JOB = Stage("whole project", _job, request_key, size=lambda _: JOB_BYTES)
"""From a revision, and how it shall be arranged, to everything about it."""
ADVISED = Stage("advice", _advised, request_key, size=lambda _: JOB_BYTES)
"""The same, with the better places that were tried where something is warned of."""
