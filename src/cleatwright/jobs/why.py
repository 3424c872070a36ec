"""Why a holder or a rail hangs where it hangs, on walls that are finished and on others."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from cleatwright.base.errors import CleatwrightError, RoomError
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit, part_names
from cleatwright.jobs.tables import spot_of
from cleatwright.jobs.why_answer import WhyAnswer, families_of, named_unit
from cleatwright.jobs.why_hanging import HangingThere, remarks_about
from cleatwright.jobs.why_so_far import why_so_far
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute
from cleatwright.project.revision import Revision, read_revision, said_of, with_text
from cleatwright.project.walls import TO_HANG, WALLS, Request
from cleatwright.siting.assessing import ASSESSED, Assessment
from cleatwright.siting.borne_there import fails_anew
from cleatwright.siting.giving_places import Given
from cleatwright.siting.hanging_up import require_places
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.answers import why_rail
from cleatwright.siting.rails.loading import LOADED


def why_there(place: Path, name: str, *, run: Run | None = None) -> WhyAnswer:
    """Return why a holder, a carrier, the holder of a tool, or a rail hangs where it hangs.

    Where not everything finds a place, that is told of the walls as far as they go; and of what
    is left over what keeps it out, and what helps.

    Args:
        place: The workshop folder, or its document.
        name: The name of the holder, the carrier, the tool or the rail.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        UnknownNameError: Nothing on the walls, and nothing left over, has this name.
        CleatwrightError: Whatever else stands in the way of arranging.
    """
    run = run or Run()
    revision = read_revision(place, run)
    with said_of(revision):
        try:
            require_places(run.need(TO_HANG, (revision, Request())).wall, run)
        except RoomError as error:
            return why_so_far(revision, name, error, run)
    return _why_on(compute(place, advise=True, run=run), revision, name, run)


def _why_on(job: Job, revision: Revision, name: str, run: Run) -> WhyAnswer:
    """Return the answer on walls that are finished."""
    if any(rail.name == name for rail in job.rails):
        place_words, sentences = why_rail(job.panels, name)
        told = (
            *sentences,
            *remarks_about(_assessed(job), {name}, run),
            *_helps_for(job, name, run),
        )
        return WhyAnswer(name, job.words(place_words), job.words.all(told))
    unit = named_unit(job.units, name, rails=[rail.name for rail in job.rails])
    panel = next(one for one in job.panels if unit.planned.key in one.spots)
    names = {one.planned.key: one.planned.name for one in job.units}

    under = panel.spots[unit.planned.key].rail
    there = HangingThere(
        revision,
        panel,
        unit,
        names,
        holds=under is None or under.name not in _failing_names(job, run),
        finished=True,
        total=lambda given: _total_with(revision, panel, given, unit, run),
    )
    about = {unit.planned.key, under.name if under else ""}
    return WhyAnswer(
        name=unit.planned.name,
        place=spot_of(panel, unit).words(panel.setting.units),
        sentences=job.words.all(
            (
                *there.sentences(job.found),
                *(f"Does not hold: {text}" for text in job.failing_parts(part_names((unit,)))),
                *remarks_about(_assessed(job), about, run),
                *(_helps_for(job, under.name, run) if under else ()),
            )
        ),
        unit=job.workshop.units,
        families=families_of(job.workshop, unit, job.words, run),
    )


def _assessed(job: Job) -> Iterator[tuple[PanelJob, Assessment]]:
    return zip(job.panels, job.found, strict=True)


def _failing_names(job: Job, run: Run) -> frozenset[str]:
    """Return the names of the rails of which it is known that they do not hold."""
    loaded = (one for panel in job.panels for one in run.need(LOADED, panel))
    return frozenset(one.rail.name for one in loaded if one.fails)


def _helps_for(job: Job, rail: str, run: Run) -> tuple[str, ...]:
    """Return what was tried for a rail, in sentences; none where it holds."""
    if rail not in _failing_names(job, run):
        return ()
    (on,) = (
        found
        for panel, found in _assessed(job)
        if any(one.name == rail for one in panel.arrangement.rails)
    )
    return tuple(one.sentence for one in on.helps if one.is_for(rail))


def _total_with(
    revision: Revision, panel: PanelJob, given: Given, unit: Unit, run: Run
) -> float | None:
    """Return what a panel costs by a changed document, None where that cannot be."""
    try:
        changed = run.need(WALLS, (with_text(revision, given.text, run), Request()))
    except CleatwrightError:
        return None
    found = next((one for one in changed if one.panel.name == panel.panel.name), None)
    if found is None:
        return None
    failing, before = (len(run.need(ASSESSED, one).failing) for one in (found, panel))
    before_it, with_it = (run.need(LOADED, one) for one in (panel, found))
    if failing > before or fails_anew(before_it, with_it, unit.planned.key):
        return None
    return found.arrangement.scores.total
