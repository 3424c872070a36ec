"""Why something hangs where it hangs: what is told of it on finished walls and on others."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.project.revision import Revision
from cleatwright.siting.assessing import Assessment
from cleatwright.siting.borne_there import BorneThere
from cleatwright.siting.giving_places import Given, exact_place, place_given
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import LOADED, failing_rails
from cleatwright.wall.explaining.elsewhere import Offering
from cleatwright.wall.explaining.remedies import by_name
from cleatwright.wall.explaining.typed import Typing
from cleatwright.wall.explaining.why import why
from cleatwright.wall.model import Place


@dataclass(frozen=True)
class HangingThere:
    """Something that hangs, and what is known of its panel.

    Args:
        revision: The workshop.
        job: The panel.
        unit: What hangs on it.
        names: The names of things by their keys, for sentences.
        holds: Whether the rail under it holds.
        finished: Whether all that is for the panel hangs on it.
        total: What the panel costs by a changed document; None where that cannot be.
    """

    revision: Revision
    job: PanelJob
    unit: Unit
    names: Mapping[str, str]
    holds: bool
    finished: bool
    total: Callable[[Given], float | None]

    def sentences(self, assessments: Iterable[Assessment]) -> Iterator[str]:
        """Yield why it hangs there, whether it comes out, and which of its seats are empty.

        Args:
            assessments: Of the panels, with the ways out of what hangs on them.
        """
        job, key, units = self.job, self.unit.planned.key, self.revision.workshop.units
        answer = why(
            job.problem,
            job.arrangement,
            key=key,
            trial=self._trial,
            offering=Offering(Typing(units), BorneThere(job, key)),
            holds=self.holds,
            finished=self.finished,
        )
        yield from (by_name(line, self.names) for line in answer.sentences)
        given = answer.better and self._given(answer.better)
        if given:
            yield f"For that, {given.words}."
        own = {holder.key for holder in self.unit.planned.holders}
        ways = [way for one in assessments for way in one.ways if way.holder_key in own]
        blocked = [line for way in ways for line in way.sentences]
        free = f"All {len(ways)} ways out are free." if len(ways) > 1 else "Its way out is free."
        yield from blocked or [free]
        yield from (one.emptiness for one in self.unit.planned.holders if one.emptiness)

    def _given(self, place: Place) -> Given | None:
        there = exact_place(place, self.revision.workshop.units)
        return place_given(self.revision.text, self.revision.workshop, self.unit, there)

    def _trial(self, place: Place) -> float | None:
        given = self._given(place)
        return None if given is None else self.total(given)


def remarks_about(
    panels: Iterable[tuple[PanelJob, Assessment]], about: set[str], run: Run
) -> list[str]:
    """Return what is warned of, or does not hold, about some things and rails.

    Args:
        panels: Each with its assessment.
        about: The keys of things, and the names of rails.
        run: The run that keeps what was computed before.
    """
    on = list(panels)
    remarks = [one for _, found in on for one in found.remarks if one.about in about]
    fails = [
        text
        for panel, _ in on
        for name, text in failing_rails(run.need(LOADED, panel)).items()
        if name in about
    ]
    return [
        *(f"Warning: {one.sentence}" for one in remarks),
        *(f"Does not hold: {text}" for text in fails),
    ]
