"""Why something hangs where it hangs on walls that cannot be finished, or why it finds no place."""

from __future__ import annotations

from collections.abc import Iterator

from cleatwright.base.errors import CleatwrightError, RoomError
from cleatwright.base.lengths import Wording
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit, part_names
from cleatwright.design.held import why_it_fails
from cleatwright.jobs.tables import spot_of
from cleatwright.jobs.why_answer import WhyAnswer, families_of, named_unit
from cleatwright.jobs.why_hanging import HangingThere, remarks_about
from cleatwright.project.revision import Revision, with_text
from cleatwright.project.walls import (
    FITTING,
    Request,
    assessed,
    walls_so_far,
    with_what_helps,
)
from cleatwright.siting.as_far import PanelSoFar
from cleatwright.siting.borne_there import fails_anew
from cleatwright.siting.giving_places import Given
from cleatwright.siting.rails.answers import why_rail
from cleatwright.siting.rails.loading import LOADED, failing_rails
from cleatwright.wall.moving.moves import surface
from cleatwright.wall.score import hung

AS_USUAL = Request()


def why_so_far(revision: Revision, name: str, error: RoomError, run: Run) -> WhyAnswer:
    """Return why something hangs where it hangs, or why it finds no place.

    Args:
        revision: The workshop; not everything of it finds a place.
        name: The name of the holder, the carrier, the tool or the rail.
        error: What says so.
        run: The run that keeps what was computed before.

    Raises:
        UnknownNameError: Nothing that hangs, and nothing left over, has this name.
        CleatwrightError: Something else stands in the way than want of room.
    """
    walls = walls_so_far((revision, AS_USUAL), run, helped=False)
    rails = {rail.name: one for one in walls for rail in one.job.arrangement.rails}
    words = Wording(revision.workshop.units)
    if name in rails:
        where, sentences = why_rail([one.job for one in walls], name)
        told = (*sentences, *_remarks(revision, rails[name], {name}, run), *_how_far(rails[name]))
        return WhyAnswer(name, words(where), words.all(told), revision.workshop.units)
    units = [unit for one in walls for unit in (*one.job.units, *one.waiting)]
    unit = named_unit(units, name, rails=rails)
    found = next(one for one in walls if unit in (*one.job.units, *one.waiting))
    sentences = (
        _left_over(revision, found, unit, error, run)
        if unit in found.waiting
        else _hanging(revision, found, unit, run)
    )
    hangs = unit not in found.waiting
    return WhyAnswer(
        name=unit.planned.name,
        place=spot_of(found.job, unit).words(revision.workshop.units) if hangs else "",
        sentences=words.all(tuple(sentences)),
        unit=revision.workshop.units,
        families=families_of(
            revision.workshop,
            unit,
            words,
            run,
            vain=() if hangs else run.need(FITTING, (revision, AS_USUAL)).vain,
        ),
        hangs=hangs,
    )


def _how_far(found: PanelSoFar) -> Iterator[str]:
    """Yield how far the wall goes, where something is left over."""
    names = [f'"{unit.planned.name}"' for unit in found.waiting]
    if names:
        yield (
            f"All this is told of {surface(found.job.panel.name)} as far as it goes: "
            f"{len(found.job.units)} of {found.count} find a place, and what is left over "
            f"({', '.join(names)}) may change it."
        )


def _left_over(
    revision: Revision, found: PanelSoFar, unit: Unit, error: RoomError, run: Run
) -> Iterator[str]:
    """Yield what keeps a thing that is left over out, height by height, and what helps."""
    given, key = (revision, AS_USUAL), unit.planned.key
    walls = walls_so_far(given, run, about=key)
    left = next(
        one
        for wall in walls
        for waits, one in zip(wall.waiting, wall.left, strict=True)
        if waits.planned.key == key
    )
    yield left.reason
    yield from found.refused(unit)
    yield left.help_sentence
    yield from _weak_parts(revision, unit, run)
    further = with_what_helps(error, given, run)
    if further is not error:
        yield f"{further.todo}."
    others = [f'"{one.planned.name}"' for one in found.waiting if one != unit]
    if others:
        yield f"Left over beside it: {', '.join(others)}."


def _hanging(revision: Revision, found: PanelSoFar, unit: Unit, run: Run) -> Iterator[str]:
    """Yield why a thing hangs where it hangs, as far as the wall goes."""
    job, key = found.job, unit.planned.key
    rail, failing = job.spots[key].rail, failing_rails(run.need(LOADED, job))
    there = HangingThere(
        revision,
        job,
        unit,
        found.names,
        holds=rail is None or rail.name not in failing,
        finished=not found.waiting,
        total=lambda given: _total_with(revision, found, given, key, run),
    )
    yield from there.sentences((assessed(job, revision.workshop, run),))
    yield from _weak_parts(revision, unit, run)
    yield from _remarks(revision, found, {key, rail.name if rail else ""}, run)
    yield from _how_far(found)


def _weak_parts(revision: Revision, unit: Unit, run: Run) -> Iterator[str]:
    """Yield what of its parts does not bear what it should."""
    for name, made in part_names((unit,)).values():
        why_not = why_it_fails(made, revision.workshop.printer(), run)
        if why_not:
            yield f"Does not hold: {name} ({made.mark}): {why_not}."


def _remarks(revision: Revision, found: PanelSoFar, about: set[str], run: Run) -> list[str]:
    here = (found.job, assessed(found.job, revision.workshop, run))
    return remarks_about((here,), about, run)


def _total_with(
    revision: Revision, found: PanelSoFar, given: Given, key: str, run: Run
) -> float | None:
    """Return what the things that hang cost by a changed document.

    None where one of them finds no place then, or does not hold.
    """
    try:
        changed = (with_text(revision, given.text, run), AS_USUAL)
        walls = walls_so_far(changed, run, helped=False)
    except CleatwrightError:
        return None
    job = found.job
    there = next((one for one in walls if one.job.panel.name == job.panel.name), None)
    keys = {unit.planned.key for unit in job.units}
    if there is None or not keys <= {unit.planned.key for unit in there.job.units}:
        return None
    before, after = (run.need(LOADED, one) for one in (job, there.job))
    if fails_anew(before, after, key):
        return None
    same = there.job.problem.having(one for one in there.job.problem.items if one.key in keys)
    places = tuple(one for one in there.job.arrangement.places if one.key in keys)
    return hung(same, places).scores.total
