"""Places for a plate on the wall itself at which each column of its screws meets a stud."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import failing_rails, loaded_rails
from cleatwright.siting.screws_behind import PlateScrews
from cleatwright.wall.conflicts import conflicts, overlap, whole
from cleatwright.wall.model import Arrangement, Item, Place
from cleatwright.wall.rails import as_drawn, cut_rails
from cleatwright.wall.score import score
from cleatwright.wall.tolerances import RULE_DIGITS


def lefts_over_studs(job: PanelJob, screws: PlateScrews) -> tuple[float, ...]:
    """Return where the left edge of a plate may be, the nearest to where it is first.

    There is one for each stud, or pair of studs; none where no place of the panel does.
    """
    item = _item(job, screws)
    low, high = item.side_left_mm, job.problem.space.width_mm - item.width_mm - item.side_right_mm
    spans = screws.begins_mm(low, high)
    found = [round(min(max(screws.x_mm, a), b), RULE_DIGITS) for a, b in spans]
    return tuple(sorted(found, key=lambda x: (abs(x - screws.x_mm), x)))


def places_over_studs(job: PanelJob, screws: PlateScrews) -> tuple[Place, ...]:
    """Return places at which a plate would be over studs, the most promising first.

    First come those where nothing else has to move and every rail holds as before: of them the
    nearest to where it is, then the cheapest for the wall. Then come those which what hangs there
    by chance would have to leave. No place lies on an obstacle or on what has a given place.
    """
    free: list[tuple[float, float, Place]] = []
    taken: list[tuple[float, Place]] = []
    for place in _candidates(job, screws):
        away = abs(place.x_mm - screws.x_mm)
        cost = _cost_alone(job, place)
        if cost is not None:
            free.append((cost, away, place))
        elif not _blocked(job, place):
            taken.append((away, place))
    free.sort(key=lambda one: one[:2])
    here_mm = job.spots[screws.unit.planned.key].place.z_mm
    near = sorted(free, key=lambda one: math.hypot(one[1], one[2].z_mm - here_mm))[:1]
    free = [*near, *(one for one in free if one not in near)]
    taken.sort(key=lambda one: one[0])
    return (*(place for *_, place in free), *(place for _, place in taken))


def _item(job: PanelJob, screws: PlateScrews) -> Item:
    return job.problem.known[screws.unit.planned.key]


def _candidates(job: PanelJob, screws: PlateScrews) -> Iterator[Place]:
    """Yield places over studs, at the height where the plate is and at the steps of rails."""
    item, space = _item(job, screws), job.problem.space
    here = job.spots[item.key].place.z_mm
    heights = [here, *sorted(job.problem.tried_mm, key=lambda z: (abs(z - here), z))]
    for x in lefts_over_studs(job, screws):
        for z in dict.fromkeys(round(height, RULE_DIGITS) for height in heights):
            within = item.down_mm <= z <= space.height_mm - item.up_mm
            if within and item.may_hang_at(z):
                yield Place(item.key, x, z)


def _given(job: PanelJob, place: Place) -> Item:
    return replace(job.problem.known[place.key], fixed=(place.x_mm, place.z_mm))


def _blocked(job: PanelJob, place: Place) -> bool:
    """Return whether an obstacle, the edge of the panel or what has a given place is in the way."""
    item = _given(job, place)
    alone = Arrangement((place,), job.problem.space.kept_rails)
    return bool(conflicts(job.problem.having((item,)), alone)) or any(
        overlap(whole(item, place), whole(one, Place(one.key, *one.fixed)))
        for one in job.problem.items
        if one.fixed is not None and one.key != place.key
    )


def _cost_alone(job: PanelJob, place: Place) -> float | None:
    """Return what the wall costs when this alone moves; None where that does not do."""
    places = tuple(place if one.key == place.key else one for one in job.arrangement.places)
    problem = job.problem.changed(_given(job, place))
    rails = as_drawn(cut_rails(problem, places), job.arrangement.rails)
    found = Arrangement(places, rails)
    if conflicts(problem, found):
        return None
    moved = replace(job, problem=problem, arrangement=found)
    if len(failing_rails(loaded_rails(moved))) > len(failing_rails(loaded_rails(job))):
        return None
    return score(problem, found).total
