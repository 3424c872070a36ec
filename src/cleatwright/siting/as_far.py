"""Walls that cannot be finished, as far as they go: what finds a place, and what is left over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from cleatwright.base.errors import WallError
from cleatwright.base.stages.run import Run
from cleatwright.siting.hanging_up import (
    WallRequest,
    hung_on,
    items_of,
    job_of,
    means_on,
    settling_on,
    used_panels,
)
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.searching import HELPED, SEARCHED
from cleatwright.siting.settling import Settled, Settling, ways_out_of
from cleatwright.wall.explaining.remedies import by_name
from cleatwright.wall.keeping import keep_rails
from cleatwright.wall.model import Item, LeftOver
from cleatwright.wall.rails import last_number
from cleatwright.wall.rows.choosing import on_rows
from cleatwright.wall.score import hung
from cleatwright.workshop.document.surfaces import Panel


@dataclass(frozen=True)
class PanelSoFar:
    """A panel with what finds a place on it, and what does not.

    Args:
        job: The panel with what hangs.
        left: What finds no place, why, and what would help, with names in place of keys.
    """

    job: PanelJob
    left: tuple[LeftOver, ...]


def as_far(request: WallRequest, run: Run) -> Iterator[PanelSoFar]:
    """Yield each panel as far as it goes.

    Raises:
        WallError: Something else stands in the way than want of room: a given place, say.
    """
    items = items_of(request, run)
    last = request.rails.last
    plain = replace(request, helped=False)
    for panel in used_panels(request, items):
        try:
            found = PanelSoFar(hung_on(plain, panel, items, run, last=last), ())
        except WallError:
            settling = settling_on(request, panel, items[panel.name])
            if not run.need(SEARCHED, settling.asked.told).left_over:
                raise
            found = _so_far(request, panel, settling, items, last=last, run=run)
        last = max(last, last_number(found.job.arrangement.rails))
        yield found


def _so_far(
    request: WallRequest,
    panel: Panel,
    settling: Settling,
    items: Mapping[str, Sequence[Item]],
    *,
    last: int,
    run: Run,
) -> PanelSoFar:
    """Return the panel as the search left it, with what would help what is left over."""
    search = settling.asked.told
    found = run.need(HELPED, (search, means_on(request, panel, settling, items)))
    here = {place.key for place in found.places}
    units = tuple(unit for unit in settling.units if unit.planned.key in here)
    problem = search.problem.having(one for one in search.problem.items if one.key in here)
    placed = replace(hung(problem, found.places), in_rows=found.in_rows)
    # where what hangs stays, its rails are on the panel already
    there = search.problem.space.kept_rails
    rails = [rail for rail in settling.asked.rails if rail not in there]
    kept = keep_rails(on_rows(problem, placed), placed, rails=rails)
    settled = Settled(problem, kept, ways_out_of(units, kept.arrangement, settling.around, run))
    numbered = request.numbering(panel, last=last)
    job = job_of(request, panel, units, settled, numbered=numbered)
    return PanelSoFar(job, tuple(_told(one, request.names) for one in found.left_over))


def _told(one: LeftOver, names: Mapping[str, str]) -> LeftOver:
    helps = tuple(by_name(words, names) for words in one.helps)
    return replace(one, key=names[one.key], reason=by_name(one.reason, names), helps=helps)
