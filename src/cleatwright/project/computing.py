"""Everything about a workshop, computed before any file is written."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from types import MappingProxyType

from cleatwright.base.errors import DesignError, InputError, MeasureError
from cleatwright.base.gathering import in_file
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import (
    Unit,
    build_units,
    plan_units,
    printed_parts,
    wooden_carriers,
)
from cleatwright.design.equipment import material_recipe, printer_recipe
from cleatwright.design.planning import plan
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.pack.carrier_papers import carrier_wood
from cleatwright.pack.job import Job
from cleatwright.pack.production import produce
from cleatwright.pack.woodwork import woodwork
from cleatwright.project.advising import Plan, advised
from cleatwright.siting.assessing import Assessment, assess
from cleatwright.siting.hanging_up import Wishes, hang_up
from cleatwright.siting.hung.earlier import MadeBefore
from cleatwright.siting.hung.in_use import parts_in_use
from cleatwright.siting.hung.matching import remembered
from cleatwright.siting.hung.moves import RailChange, held_back, moving
from cleatwright.siting.hung.rails import HungRails, as_told, hung_rails
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import failing_rails
from cleatwright.wall.moving.rail_moves import Rail
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, panel_path
from cleatwright.workshop.document.store import checked, document_path, load
from cleatwright.workshop.document.wording import errors_in, wording_of
from cleatwright.workshop.ledger.database import read_hung, read_recipe
from cleatwright.workshop.ledger.hung_wall import WhatHangs


def compute(
    place: Path,
    *,
    afresh: bool = False,
    effort: int | None = None,
    advise: bool = False,
    run: Run | None = None,
) -> Job:
    """Return everything about a workshop, from its document to batches, and write nothing.

    Args:
        place: The workshop folder, or its document.
        afresh: Arrange as if nothing hung yet.
        effort: How many times as long as usual the walls are searched, >= 1; as the document
            says when None.
        advise: Look for places that are better than one that is warned of, by trying them.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        CleatwrightError: The first thing that stands in the way.
    """
    workshop, run = load(place), run or Run()
    with in_file(str(document_path(place))), errors_in(wording_of(workshop)):
        job = _computed(workshop, place, afresh=afresh, effort=effort, run=run)
        if not advise:
            return job

        def arranged(text: str) -> tuple[PanelJob, ...] | None:
            file = str(document_path(place))
            try:
                return arrange_all(
                    checked(text, file=file),
                    place,
                    job.kernel,
                    afresh=afresh,
                    effort=effort,
                    run=run,
                ).panels
            except (InputError, DesignError):
                return None

        plan_now = Plan(workshop, place, job.panels, job.found)
        return replace(job, found=advised(plan_now, arranged))


def _computed(
    workshop: Workshop, place: Path, *, afresh: bool, effort: int | None, run: Run
) -> Job:
    kernel = MeshKernel()
    folder = document_path(place).parent
    walls = arrange_all(workshop, place, kernel, afresh=afresh, effort=effort, run=run)
    units, panels, rails_now, hung = walls.units, walls.panels, walls.rails, walls.hung
    rails = [run for panel in panels for run in panel.arrangement.rails if not run.stays]
    in_use = parts_in_use(hung.holders, units, _before(workshop, folder, run).holders_on)
    spots = MappingProxyType({k: spot for panel in panels for k, spot in panel.spots.items()})
    return Job(
        workshop=workshop,
        units=units,
        planned=tuple(holder for unit in units for holder in unit.planned.holders),
        built=tuple(made for unit in units for made in unit.holders),
        panels=panels,
        found=tuple(_assessed(panel) for panel in panels),
        spots=spots,
        hung=hung,
        moving=held_back(
            moving(
                hung,
                units,
                items=[item for panel in panels for item in panel.items],
                places={key: spot.place for key, spot in spots.items()},
                rails=_rail_change(workshop, rails_now, panels),
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
        kernel=kernel,
    )


@dataclass(frozen=True)
class Walls:
    """What hangs where: units, panels, and what hangs already with its rails."""

    units: tuple[Unit, ...]
    panels: tuple[PanelJob, ...]
    rails: HungRails
    hung: WhatHangs


def arrange_all(
    workshop: Workshop,
    place: Path,
    kernel: MeshKernel,
    *,
    afresh: bool = False,
    effort: int | None = None,
    run: Run,
) -> Walls:
    """Return where everything of a document hangs.

    Args:
        workshop: The document, as it is or as it might be.
        place: The workshop folder, or its document.
        kernel: The kernel.
        afresh: As for ``compute``.
        effort: As for ``compute``.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        CleatwrightError: The first thing that stands in the way.
    """
    folder = document_path(place).parent
    wanted = plan_units(workshop, plan(workshop, folder=folder, run=run), run=run)
    units = build_units(wanted, run)
    recorded = _before(workshop, folder, run).known_again(
        read_hung(folder), {unit.outer.mark for unit in units}
    )
    rails = hung_rails(workshop, recorded.rails, units, afresh=afresh)
    hung = as_told(recorded, rails)
    wishes = Wishes(
        workshop=workshop,
        units=units,
        hangs={} if afresh else remembered(hung.holders, units),
        rails=rails,
        effort=workshop.defaults.effort if effort is None else effort,
    )
    return Walls(units, hang_up(wishes, kernel, run), rails, hung)


def _before(workshop: Workshop, folder: Path, run: Run) -> MadeBefore:
    stored = partial(read_recipe, folder)
    return MadeBefore(stored, printer_recipe(workshop), material_recipe(workshop), run)


def _rail_change(workshop: Workshop, hung: HungRails, panels: tuple[PanelJob, ...]) -> RailChange:
    """Return the rails that shall hang, and why others come down."""
    down = (*hung.down, *(one for panel in panels for one in panel.down))
    return RailChange(
        after=tuple(
            Rail(panel.panel.name, run) for panel in panels for run in panel.arrangement.rails
        ),
        reasons={one.name: one.reason for one in down},
        covered=hung.covered,
        height_mm=workshop.rail.height_mm,
    )


def _assessed(panel: PanelJob) -> Assessment:
    """Return what is found about a panel; an error of its screws names what they go through."""
    try:
        return assess(panel)
    except MeasureError as error:
        surface = panel_path(panel.workshop, panel.panel.name)
        raise error.at(first_of(surface, (*surface, "lining"), ("rail", "thickness"))) from error
