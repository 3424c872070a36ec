"""Answers about the walls of a workshop without making anything: how good, and why there."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from pathlib import Path

from cleatwright.base.lengths import LengthUnit
from cleatwright.base.stages.run import Run
from cleatwright.jobs.tables import CostRow, place_rows
from cleatwright.pack.reporting import tool_cautions
from cleatwright.project.computing import compute
from cleatwright.siting.assessing import Assessment
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.bound.bound import Bound, lower_bound
from cleatwright.wall.model import Scores

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


def _panel(job: PanelJob, found: Assessment) -> PanelAnswer:
    return PanelAnswer(
        name=job.panel.name,
        title=job.title,
        unit=job.setting.units,
        places=place_rows(job, {one.key: one.costs for one in found.explained}),
        scores=job.arrangement.scores,
        bound=lower_bound(job.problem),
    )
