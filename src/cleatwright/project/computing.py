"""Everything about a workshop, computed before any file is written."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from types import MappingProxyType

from cleatwright.base.errors import DesignError, InputError, MeasureError
from cleatwright.base.gathering import in_file
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.carrying import (
    Unit,
    build_units,
    plan_units,
    printed_parts,
    wooden_carriers,
)
from cleatwright.design.equipment import material_recipe, printer_recipe
from cleatwright.design.planned import last_made
from cleatwright.design.planning import plan, plan_what_can_be
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.pack.carrier_papers import carrier_wood
from cleatwright.pack.job import Job
from cleatwright.pack.production import produce
from cleatwright.pack.woodwork import woodwork
from cleatwright.project.advising import Plan, advised
from cleatwright.project.revision import Revision, read_revision, with_text
from cleatwright.siting.assessing import Assessment, assess
from cleatwright.siting.hanging_up import WallRequest, hang_up
from cleatwright.siting.hung.earlier import MadeBefore
from cleatwright.siting.hung.in_use import parts_in_use
from cleatwright.siting.hung.matching import remembered
from cleatwright.siting.hung.moves import RailChange, change_plan, without_unsafe_steps
from cleatwright.siting.hung.rails import HungRails, as_told, hung_rails
from cleatwright.siting.hung.renamed import with_names_of_today
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import failing_rails
from cleatwright.workshop.document.paths import first_of, panel_path
from cleatwright.workshop.document.wording import errors_in, wording_of
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import LastMade
from cleatwright.workshop.ledger.reading import read_recipe

# about what a job holds beside the parts, which are kept for themselves
JOB_BYTES = 3_000_000


def compute(
    place: Path,
    *,
    afresh: bool = False,
    regroup: bool = False,
    effort: int | None = None,
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
        advise: Look for places that are better than one that is warned of, by trying them.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        CleatwrightError: The first thing that stands in the way.
    """
    run = run or Run()
    revision = read_revision(place, run)
    request = Request(afresh=afresh, regroup=regroup, effort=effort, advise=advise)
    with in_file(str(revision.path)), errors_in(wording_of(revision.workshop)):
        return run.need(JOB, (revision, request))


@dataclass(frozen=True)
class Request:
    """How a workshop shall be computed; as ``compute`` takes it."""

    afresh: bool = False
    regroup: bool = False
    effort: int | None = None
    advise: bool = False


def _job(run: Run, given: tuple[Revision, Request]) -> Job:
    revision, request = given
    job = _computed(revision, request, run)
    if not request.advise:
        return job

    def arranged(text: str) -> tuple[PanelJob, ...] | None:
        try:
            return arrange_all(with_text(revision, text, run), request, run).panels
        except (InputError, DesignError):
            return None

    return replace(
        job,
        found=advised(Plan(revision.workshop, revision.text, job.panels, job.found), arranged),
        spared=_spared(revision, len(job.planned), run),
    )


def _job_key(given: tuple[Revision, Request]) -> str:
    revision, request = given
    return content_key((revision.key, request))


def _computed(revision: Revision, request: Request, run: Run) -> Job:
    workshop, walls = revision.workshop, arrange_all(revision, request, run)
    units, panels, rails_now, hung = walls.units, walls.panels, walls.rails, walls.hung
    rails = [run for panel in panels for run in panel.arrangement.rails if not run.stays]
    in_use = parts_in_use(hung.holders, units, _before(revision, run).holders_on)
    spots = MappingProxyType({k: spot for panel in panels for k, spot in panel.spots.items()})
    by_number = sorted(
        (pair for unit in units for pair in zip(unit.planned.holders, unit.holders, strict=True)),
        key=lambda pair: pair[0].number,
    )
    return Job(
        workshop=workshop,
        units=units,
        planned=tuple(planned for planned, _ in by_number),
        built=tuple(made for _, made in by_number),
        panels=panels,
        found=tuple(_assessed(panel) for panel in panels),
        spots=spots,
        hung=hung,
        change_plan=without_unsafe_steps(
            change_plan(
                hung,
                units,
                items=[item for panel in panels for item in panel.problem.items],
                places={key: spot.place for key, spot in spots.items()},
                rails=_rail_change(rails_now, panels),
            ),
            rails=[name for panel in panels for name in failing_rails(panel)],
            units=[unit.planned.key for unit in units if not unit.holds],
        ),
        woodwork=woodwork(
            workshop, rails, carriers=carrier_wood(wooden_carriers(units, but=in_use))
        ),
        production=produce(
            workshop,
            {key: part for key, part in printed_parts(units).items() if key not in in_use},
            run,
        ),
        in_use=in_use,
        made=walls.made,
        kernel=walls.kernel,
    )


def _spared(revision: Revision, holders: int, run: Run) -> int:
    """Return how many holders fewer there would be if tools were grouped anew; 0 for none."""
    if not revision.made:
        return 0
    earlier = revision.earlier(regroup=True)
    anew = plan_what_can_be(revision.workshop, folder=revision.folder, earlier=earlier, run=run)
    return 0 if anew.faults else max(0, holders - len(anew.holders))


@dataclass(frozen=True)
class Walls:
    """What hangs where: units, panels, what hangs already with its rails, and what is made."""

    units: tuple[Unit, ...]
    panels: tuple[PanelJob, ...]
    rails: HungRails
    hung: WhatHangs
    made: LastMade
    kernel: MeshKernel


def arrange_all(revision: Revision, request: Request, run: Run) -> Walls:
    """Return where everything of a workshop hangs.

    Args:
        revision: The workshop, as it is or as it might be.
        request: How it shall be computed.
        run: The run that keeps what was computed before.

    Raises:
        CleatwrightError: The first thing that stands in the way.
    """
    workshop, kernel = revision.workshop, MeshKernel()
    earlier = revision.earlier(regroup=request.regroup)
    holders = plan(workshop, folder=revision.folder, earlier=earlier, run=run)
    units = build_units(plan_units(workshop, holders, run=run), run)
    known = with_names_of_today(revision.hung, revision.made, holders)
    recorded = _before(revision, run).known_again(known, {unit.outer.mark for unit in units})
    rails = hung_rails(workshop, recorded.rails, units, afresh=request.afresh)
    hung = as_told(recorded, rails)
    wall = WallRequest(
        workshop=workshop,
        units=units,
        hangs={} if request.afresh else remembered(hung.holders, units),
        rails=rails,
        effort=workshop.defaults.effort if request.effort is None else request.effort,
    )
    return Walls(
        units=units,
        panels=hang_up(wall, kernel, run),
        rails=rails,
        hung=hung,
        made=last_made(holders, revision.made),
        kernel=kernel,
    )


def _before(revision: Revision, run: Run) -> MadeBefore:
    workshop, stored = revision.workshop, partial(read_recipe, revision.folder)
    return MadeBefore(stored, printer_recipe(workshop), material_recipe(workshop), run)


def _rail_change(hung: HungRails, panels: tuple[PanelJob, ...]) -> RailChange:
    """Return the rails that shall hang, and why others come down."""
    down = (*hung.down, *(one for panel in panels for one in panel.down))
    after = tuple(rail for panel in panels for rail in panel.arrangement.rails)
    return RailChange(after, down, hung.covered)


def _assessed(panel: PanelJob) -> Assessment:
    """Return what is found about a panel; an error of its screws names what they go through."""
    try:
        return assess(panel)
    except MeasureError as error:
        surface = panel_path(panel.workshop, panel.panel.name)
        raise error.at(first_of(surface, (*surface, "lining"), ("rail", "thickness"))) from error


JOB = Stage("whole project", _job, _job_key, size=lambda _: JOB_BYTES)
"""From a revision, and how it shall be computed, to everything about it."""
