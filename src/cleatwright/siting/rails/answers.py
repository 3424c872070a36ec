"""Why a rail lies where it lies: what it carries, what it costs, and what sets its ends."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from cleatwright.base import said
from cleatwright.base.lengths import length_words
from cleatwright.siting.borne_there import BorneThere
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.explaining.remedies import by_name
from cleatwright.wall.ground import PLACES_A_RAIL
from cleatwright.wall.model import Place
from cleatwright.wall.problem import between_bounds
from cleatwright.wall.rail import Rail
from cleatwright.wall.rails import as_drawn
from cleatwright.wall.score import MM_PER_CM, hung
from cleatwright.wall.studs import END_MM
from cleatwright.wall.tolerances import LEAST_POINTS, TOLERANCE_MM
from cleatwright.workshop.document.surfaces import MAIN


def why_rail(panels: Iterable[PanelJob], name: str) -> tuple[str, tuple[str, ...]]:
    """Return where a rail lies, and why, in sentences.

    Args:
        panels: All panels; one of them has the rail.
        name: The name of the rail.
    """
    job, rail = next(
        (panel, one) for panel in panels for one in panel.arrangement.rails if one.name == name
    )
    side = "" if job.panel.name == MAIN else f" of {job.panel.name}"
    unit = job.setting.units
    z, x0, x1 = (length_words(at, unit) for at in (rail.z_top_mm, rail.x0_mm, rail.x1_mm))
    where = f"z {z}, from x {x0} to {x1} {unit}{side}"
    return where, (
        _carries(job, rail),
        _costs(job, rail),
        *_ends(job, rail),
        _screws(job, rail),
        *_off_the_steps(job, rail),
        *_heights(job, rail),
    )


def _on(job: PanelJob, rail: Rail) -> list[Place]:
    """Return the places of what hangs on a rail, from left to right."""
    return [job.spots[key].place for key in rail.carries]


def _names(job: PanelJob) -> dict[str, str]:
    return {unit.planned.key: unit.planned.name for unit in job.units}


def _carries(job: PanelJob, rail: Rail) -> str:
    names = _names(job)
    hung = [f'"{names[place.key]}"' for place in _on(job, rail)]
    return f"It carries {', '.join(hung)}." if hung else "Nothing hangs on it."


def _costs(job: PanelJob, rail: Rail) -> str:
    if rail.stays:
        return "It hangs already, so it costs nothing."
    weights = job.problem.weights
    length = weights.rail_length * rail.length_mm / MM_PER_CM
    beside = [
        one.name
        for one in job.arrangement.rails
        if one != rail and not one.stays and one.z_top_mm == rail.z_top_mm
    ]
    shared = f", shared with {', '.join(beside)}" if beside else ""
    return (
        f"It costs {weights.rail:.0f} points for its height{shared}, and {length:.1f} for its "
        f"length of {said.at(rail.length_mm)}."
    )


def _ends(job: PanelJob, rail: Rail) -> Iterator[str]:
    """Yield what sets the two ends of a new rail."""
    if rail.stays:
        return
    yield f"Its left end {_end(job, rail, right=False)}."
    yield f"Its right end {_end(job, rail, right=True)}."


def _end(job: PanelJob, rail: Rail, *, right: bool) -> str:
    end_mm = rail.x1_mm if right else rail.x0_mm
    if abs(end_mm - (job.problem.space.width_mm if right else 0.0)) <= TOLERANCE_MM:
        return "is that of the wall"
    all_over = job.problem.space.all_over is not None
    for x in () if all_over else rail.studs_mm:
        if abs(abs(x - end_mm) - END_MM) <= TOLERANCE_MM:
            return f"lies {said.at(END_MM)} beyond its screws at x {said.at(x)}"
    places = _on(job, rail)
    if places:
        place = places[-1] if right else places[0]
        edge = place.x_mm + job.problem.known[place.key].width_mm if right else place.x_mm
        room_mm = job.problem.rule.end_room_mm
        if abs(abs(edge - end_mm) - room_mm) <= TOLERANCE_MM:
            name = _names(job)[place.key]
            return f'lies {said.at(room_mm)} beyond the plate of "{name}"'
    if all_over and len(rail.studs_mm) == PLACES_A_RAIL:
        return "lies so far out that there is room for two screws"
    return "lies where there is no room for a longer one"


def _screws(job: PanelJob, rail: Rail) -> str:
    if job.panel.made_of != "studs":
        many = "anchors" if job.panel.takes_anchors else "screws"
        at = f"Its {many} are at x {said.row(rail.studs_mm)}." if rail.studs_mm else ""
        return at or f"There is no room for {many} in it."
    if rail.studs_mm:
        return f"Its screws stand in studs at x {said.row(rail.studs_mm)}."
    return "It meets no stud." if job.panel.studs else "The document names no stud behind it."


def _off_the_steps(job: PanelJob, rail: Rail) -> Iterator[str]:
    """Yield why a new rail hangs things at no step of the heights."""
    steps = job.problem.rule.steps_mm(job.problem.space)
    on, known = _on(job, rail), job.problem.known
    if rail.stays or not on or any(abs(on[0].z_mm - z) <= TOLERANCE_MM for z in steps):
        return
    z_mm, step, names = on[0].z_mm, said.mm(job.problem.rule.step_mm), _names(job)
    why = f"What hangs on it hangs at z {said.at(z_mm)} and at no multiple of {step}"
    for place in on:
        item, name = known[place.key], names[place.key]
        if item.fixed is not None:
            yield f'{why}, since the place of "{name}" was given.'
            return
        if item.hangs_at is not None and abs(item.hangs_at[1] - z_mm) <= TOLERANCE_MM:
            yield f'{why}, since "{name}" hangs there already.'
            return
        if any(abs(z - z_mm) <= TOLERANCE_MM for z in between_bounds(job.problem, item, steps)):
            yield f'{why}, since none of these lies within the heights that are safe for "{name}".'
            return


def _heights(job: PanelJob, rail: Rail) -> Iterator[str]:
    """Yield what it would be one step lower and one step higher, with all that hangs on it."""
    on = _on(job, rail)
    keys = {place.key for place in on}
    if rail.stays or not on or any(item.fixed for item in job.problem.items if item.key in keys):
        return
    step = job.problem.rule.step_mm
    for way, words in ((-step, f"{said.at(step)} lower"), (step, f"{said.at(step)} higher")):
        yield _shifted(job, on, way_mm=way, words=words)


def _shifted(job: PanelJob, on: Sequence[Place], *, way_mm: float, words: str) -> str:
    keys = {place.key for place in on}
    places = tuple(
        replace(place, z_mm=place.z_mm + way_mm) if place.key in keys else place
        for place in job.arrangement.places
    )
    z_mm = on[0].z_mm
    seats = [
        replace(seat, place=replace(seat.place, z_mm=seat.place.z_mm + way_mm))
        if abs(seat.place.z_mm - z_mm) <= TOLERANCE_MM
        else seat
        for seat in job.arrangement.seats
    ]
    found = hung(job.problem, places, seats)
    tried = replace(found, rails=as_drawn(found.rails, job.arrangement.rails))
    broken = conflicts(job.problem, tried)
    if broken:
        return f"{words[0].upper()}{words[1:]} something is in the way: " + by_name(
            broken[0], _names(job)
        )
    more = tried.scores.total - job.arrangement.scores.total
    if more >= LEAST_POINTS:
        return f"{words[0].upper()}{words[1:]} the wall would cost {more:.1f} points more."
    if not BorneThere(job, on[0].key)(job.problem, places):
        return f"{words[0].upper()}{words[1:]} nothing is in the way, but it would not bear it."
    return (
        f"{words[0].upper()}{words[1:]} nothing is in the way: a longer search may find better, "
        "as with arrange --effort 10."
    )
