"""Answers about the walls of a workshop without making anything: how good, and why there."""

from __future__ import annotations

import re
from dataclasses import asdict, dataclass
from pathlib import Path

from cleatwright.base.errors import CleatwrightError, unknown_name
from cleatwright.base.lengths import LengthUnit
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit, part_names
from cleatwright.design.weighed import State, weighed_families
from cleatwright.jobs.tables import CostRow, place_rows, spot_of
from cleatwright.pack.job import Job
from cleatwright.pack.reporting import tool_cautions
from cleatwright.project.computing import compute
from cleatwright.project.revision import Revision, read_revision, with_text
from cleatwright.project.walls import WALLS, Request
from cleatwright.siting.assessing import ASSESSED, Assessment
from cleatwright.siting.borne_there import BorneThere, fails_anew
from cleatwright.siting.giving_places import Given, exact_place, place_given
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.answers import why_rail
from cleatwright.siting.rails.loading import LOADED, failing_rails
from cleatwright.wall.bound.bound import Bound, lower_bound
from cleatwright.wall.explaining.elsewhere import Offering
from cleatwright.wall.explaining.remedies import by_name
from cleatwright.wall.explaining.typed import Typing
from cleatwright.wall.explaining.why import why
from cleatwright.wall.model import Place, Scores

# a bound that is further away says nothing
TWICE = 2.0


@dataclass(frozen=True)
class PanelAnswer:
    """One panel, arranged.

    ``bound`` are points that no arrangement of it can undercut; ``unit`` is that in which people
    read the places.
    """

    name: str
    title: str
    unit: LengthUnit
    places: tuple[CostRow, ...]
    scores: Scores
    bound: Bound

    @property
    def summary(self) -> tuple[str, ...]:
        """Return how good the arrangement is, in sentences."""
        total = self.scores.total
        parts = ", ".join(
            f"{name.replace('_', ' ')} {value:.0f}"
            for name, value in asdict(self.scores).items()
            if value >= 0.5
        )
        lines = [f"{self.title}: {total:.0f} points ({parts or 'none'}); less is better."]
        if total > 0.0:
            bound = self.bound.value
            lines.append(
                f"No arrangement can have fewer than {bound:.0f} points; this one has at most "
                f"{max(0.0, total / bound - 1.0):.0%} more than the best there can be."
                if total <= TWICE * bound
                else "How near this is to the best there can be is not known."
            )
        return tuple(lines)

    def as_dict(self) -> dict[str, object]:
        """Return the answer for programs."""
        return {
            "name": self.name,
            "points": asdict(self.scores) | {"total": self.scores.total},
            "lower_bound": self.bound.value,
            "places": [
                asdict(row) | {"points": asdict(row.points) | {"total": row.points.total}}
                for row in self.places
            ],
        }


@dataclass(frozen=True)
class WallAnswer:
    """All panels of a workshop, arranged; what would move, and what is wrong."""

    name: str
    panels: tuple[PanelAnswer, ...]
    moves: tuple[str, ...]
    warnings: tuple[str, ...]
    failing: tuple[str, ...]
    helps: tuple[str, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def holds(self) -> bool:
        """Return True when every tool comes out and every rail holds."""
        return not self.failing

    def as_dict(self) -> dict[str, object]:
        """Return the answer for programs."""
        return {
            "workshop": self.name,
            "holds": self.holds,
            "panels": [panel.as_dict() for panel in self.panels],
            "moves": list(self.moves),
            "warnings": list(self.warnings),
            "failing": list(self.failing),
            "helps": list(self.helps),
            "cautions": list(self.cautions),
            "notes": list(self.notes),
        }


@dataclass(frozen=True)
class WhyAnswer:
    """Why one holder hangs where it hangs."""

    name: str
    place: str
    sentences: tuple[str, ...]
    unit: LengthUnit = "mm"
    families: tuple[FamilyAnswer, ...] = ()

    def as_dict(self) -> dict[str, object]:
        """Return the answer for programs."""
        return asdict(self)


@dataclass(frozen=True)
class FamilyAnswer:
    """A family for the tools of a holder: what it would take and need, and why it is used or not.

    ``grams`` is an estimate of the plastic of the whole holder; figures are None where there are
    none.
    """

    holder: str
    family: str
    state: State
    grams: float | None
    support: bool | None
    width_mm: float | None
    reach_mm: float | None
    cost_g: float | None
    why: str


def _families(job: Job, unit: Unit, run: Run) -> tuple[FamilyAnswer, ...]:
    """Return the families that could hold the tools of a unit, holder by holder."""
    return tuple(
        FamilyAnswer(
            holder=one.name,
            family=row.name,
            state=row.state,
            grams=row.figures and row.figures.grams,
            support=row.figures and row.figures.support,
            width_mm=row.figures and row.figures.width_mm,
            reach_mm=row.figures and row.figures.reach_mm,
            cost_g=row.cost_g,
            why=job.words(row.words),
        )
        for one in unit.planned.holders
        for row in weighed_families(job.workshop, one, run)
        if row.state != "cannot"
    )


def arrange_walls(
    place: Path,
    *,
    afresh: bool = False,
    effort: int | None = None,
    run: Run | None = None,
) -> WallAnswer:
    """Arrange every panel of a workshop and write nothing.

    Args:
        place: The workshop folder, or its document.
        afresh: Arrange as if nothing hung yet.
        effort: How many times as long as usual is searched, >= 1; as the document says when None.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        CleatwrightError: The first thing that stands in the way.
    """
    job = compute(place, afresh=afresh, effort=effort, advise=True, run=run)
    words = job.words
    return WallAnswer(
        name=job.workshop.name,
        panels=tuple(
            _panel(panel, found) for panel, found in zip(job.panels, job.found, strict=True)
        ),
        moves=words.all(job.change_plan.summary if job.hung else ()),
        warnings=job.warnings,
        failing=words.all(tuple(text for found in job.found for text in found.failing)),
        helps=job.helps,
        cautions=words.all(tool_cautions(job)),
        notes=words.all((*job.pitch_notes, *job.empty_notes, *job.seat_notes)),
    )


def why_there(place: Path, name: str, *, run: Run | None = None) -> WhyAnswer:
    """Return why a holder, a carrier, the holder of a tool, or a rail hangs where it hangs.

    Args:
        place: The workshop folder, or its document.
        name: The name of the holder, the carrier, the tool or the rail.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        UnknownNameError: Nothing on the walls has this name.
        CleatwrightError: Whatever stands in the way of arranging.
    """
    run = run or Run()
    job = compute(place, advise=True, run=run)
    if any(rail.name == name for rail in job.rails):
        place_words, sentences = why_rail(job.panels, name)
        told = (*sentences, *_remarks_of(job, {name}, run), *_helps_for(job, name, run))
        return WhyAnswer(name, job.words(place_words), job.words.all(told))
    panel, unit = _named(job, name)
    names = {one.planned.key: one.planned.name for one in job.units}
    revision = read_revision(place, run)

    def trial(there: Place) -> float | None:
        there_now = exact_place(there, job.workshop.units)
        given = place_given(revision.text, job.workshop, unit, there_now)
        return None if given is None else _total_with(revision, panel, given, unit, run)

    key = unit.planned.key
    under = panel.spots[key].rail
    answer = why(
        panel.problem,
        panel.arrangement,
        key=key,
        trial=trial,
        offering=Offering(Typing(job.workshop.units), BorneThere(panel, key)),
        holds=under is None or under.name not in _failing_names(job, run),
    )
    better = answer.better and exact_place(answer.better, job.workshop.units)
    given = better and place_given(revision.text, job.workshop, unit, better)
    own = {holder.key for holder in unit.planned.holders}
    ways = [proof for found in job.found for proof in found.ways if proof.holder_key in own]
    blocked = [line for proof in ways for line in proof.sentences]
    free = f"All {len(ways)} ways out are free." if len(ways) > 1 else "Its way out is free."
    return WhyAnswer(
        name=unit.planned.name,
        place=_at(panel, unit),
        sentences=job.words.all(
            (
                *(by_name(line, names) for line in answer.sentences),
                *([f"For that, {given.words}."] if given else []),
                *(blocked or [free]),
                *(one.emptiness for one in unit.planned.holders if one.emptiness),
                *(f"Does not hold: {text}" for text in job.failing_parts(part_names((unit,)))),
                *_seen_to(panel, unit, job, run),
                *(_helps_for(job, under.name, run) if under else ()),
            )
        ),
        unit=job.workshop.units,
        families=_families(job, unit, run),
    )


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
        for panel, found in zip(job.panels, job.found, strict=True)
        if any(one.name == rail for one in panel.arrangement.rails)
    )
    return tuple(one.sentence for one in on.helps if one.is_for(rail))


def _seen_to(panel: PanelJob, unit: Unit, job: Job, run: Run) -> list[str]:
    """Return what is warned of, or does not hold, about a unit and its rail."""
    rail = panel.spots[unit.planned.key].rail
    return _remarks_of(job, {unit.planned.key, rail.name if rail else ""}, run)


def _remarks_of(job: Job, about: set[str], run: Run) -> list[str]:
    remarks = [one for found in job.found for one in found.remarks if one.about in about]
    fails = [
        text
        for panel in job.panels
        for name, text in failing_rails(run.need(LOADED, panel)).items()
        if name in about
    ]
    return [
        *(f"Warning: {one.sentence}" for one in remarks),
        *(f"Does not hold: {text}" for text in fails),
    ]


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


def _named(job: Job, name: str) -> tuple[PanelJob, Unit]:
    known: dict[str, tuple[PanelJob, Unit]] = {}
    for panel in job.panels:
        for unit in panel.units:
            tools = [tool.name for one in unit.planned.holders for tool in one.tools]
            holders = [one.name for one in unit.planned.holders]
            for word in (unit.planned.name, *holders, *tools):
                known.setdefault(word, (panel, unit))
    for panel in job.panels:
        for unit in panel.units:
            known.setdefault(unit.planned.group, (panel, unit))
    # the entry of a set or of equal tools stands for the first of them
    entry = (key for key in known if re.fullmatch(rf"{re.escape(name)} (#\d+|\S+)", key))
    found = name if name in known else next(entry, None)
    if not name or found is None:
        rails = [run.name for run in job.rails]
        raise unknown_name("holder, tool or rail", name, [*filter(None, known), *rails])
    return known[found]


def _at(panel: PanelJob, unit: Unit) -> str:
    return spot_of(panel, unit).words(panel.setting.units)


def _panel(job: PanelJob, found: Assessment) -> PanelAnswer:
    return PanelAnswer(
        name=job.panel.name,
        title=job.title,
        unit=job.setting.units,
        places=place_rows(job, {one.key: one.costs for one in found.explained}),
        scores=job.arrangement.scores,
        bound=lower_bound(job.problem),
    )
