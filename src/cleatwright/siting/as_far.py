"""Walls that cannot be finished, as far as they go: what finds a place, and what is left over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from cleatwright.base.errors import WallError
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
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
from cleatwright.siting.searching import HELPED, SEARCHED, Helping
from cleatwright.siting.settling import Settled, Settling, ways_out_of
from cleatwright.wall.explaining.insertion import Standing
from cleatwright.wall.explaining.refused import refused_heights
from cleatwright.wall.explaining.remedies import by_name
from cleatwright.wall.keeping import keep_rails
from cleatwright.wall.model import Item, LeftOver
from cleatwright.wall.problem import WallProblem
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
        waiting: The same, built, in the same order.
        items: All that shall hang on it as the wall sees it, what finds no place too.
        finish: What finishes it, in a sentence, where more than one thing is left over.
    """

    job: PanelJob
    left: tuple[LeftOver, ...] = ()
    waiting: tuple[Unit, ...] = ()
    items: tuple[Item, ...] = ()
    finish: str = ""

    @property
    def whole(self) -> WallProblem:
        """Return the panel as it hangs with all that shall hang on it."""
        return self.job.problem.having(self.items) if self.items else self.job.problem

    @property
    def names(self) -> Mapping[str, str]:
        """Return the names of all of it by their keys."""
        units = (*self.job.units, *self.waiting)
        return {unit.planned.key: unit.planned.name for unit in units}

    def refused(self, unit: Unit) -> tuple[str, ...]:
        """Return what keeps one that waits off the heights at which least does, in sentences."""
        drawn = self.job.arrangement
        standing = Standing(self.whole, drawn.places, drawn.rails, in_rows=drawn.in_rows)
        found = refused_heights(standing, key=unit.planned.key)
        return tuple(by_name(one.sentence, self.names) for one in found)

    @property
    def count(self) -> int:
        """Return how many things shall hang on it."""
        return len(self.job.units) + len(self.waiting)


def as_far(request: WallRequest, run: Run, *, about: str = "") -> Iterator[PanelSoFar]:
    """Yield each panel as far as it goes.

    Args:
        request: What shall hang. What would help is looked for only if it asks for that.
        run: The run that keeps what was computed before.
        about: The key of the one of which it is told what would help; of all when empty.

    Raises:
        WallError: Something else stands in the way than want of room: a given place, say.
    """
    items = items_of(request, run)
    last = request.rails.last
    plain = replace(request, helped=False)
    for panel in used_panels(request, items):
        try:
            found = PanelSoFar(hung_on(plain, panel, items, run, last=last))
        except WallError:
            settling = settling_on(request, panel, items[panel.name])
            if not run.need(SEARCHED, settling.asked.told).left_over:
                raise
            found = _so_far(request, panel, settling, items, last=last, about=about, run=run)
        last = max(last, last_number(found.job.arrangement.rails))
        yield found


def _so_far(
    request: WallRequest,
    panel: Panel,
    settling: Settling,
    items: Mapping[str, Sequence[Item]],
    *,
    last: int,
    about: str,
    run: Run,
) -> PanelSoFar:
    """Return the panel as the search left it, with what would help what is left over."""
    search = settling.asked.told
    found = run.need(SEARCHED, search)
    if request.helped and (not about or about in {one.key for one in found.left_over}):
        means = means_on(request, panel, settling, items)
        found = run.need(HELPED, Helping(search, means, about))
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
    by_key = {unit.planned.key: unit for unit in settling.units}
    return PanelSoFar(
        job,
        tuple(_told(one, request.names) for one in found.left_over),
        tuple(by_key[one.key] for one in found.left_over),
        search.problem.items,
        by_name(found.finish, request.names),
    )


def _told(one: LeftOver, names: Mapping[str, str]) -> LeftOver:
    helps = tuple(by_name(words, names) for words in one.helps)
    return replace(one, key=names[one.key], reason=by_name(one.reason, names), helps=helps)
