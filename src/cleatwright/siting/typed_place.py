"""Places on a panel as they are typed: on the step in which they are shown, on the free side."""

from __future__ import annotations

from cleatwright.siting.giving_places import Written, exact_place, written_place
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.explaining.insertion import Standing
from cleatwright.wall.explaining.typed import Typing
from cleatwright.wall.model import Place


def typed_place(job: PanelJob, place: Place) -> Written:
    """Return a place of something on a panel as a document says it.

    It lies on the side that is free while all else stays; the nearest where neither is.

    Args:
        job: The panel, with that thing.
        place: Where it would hang to the last bit.
    """
    unit, found = job.setting.units, job.arrangement
    standing = Standing(job.problem, found.places, found.rails, in_rows=found.in_rows)
    others, item = standing.without(place.key), job.problem.known[place.key]
    there = Typing(unit).free(others, item, place)
    return written_place(place, unit) if there is None else exact_place(there, unit)
