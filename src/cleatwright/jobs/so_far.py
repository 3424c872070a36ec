"""Walls as far as they go: what hangs where, what finds no place, and both drawn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from cleatwright.base.lengths import LengthUnit, Wording
from cleatwright.base.stages.run import Run
from cleatwright.jobs.drawn_beside import draw_beside, require_new
from cleatwright.jobs.rows import SpotRow
from cleatwright.jobs.tables import spot_of
from cleatwright.pack.drawing import elevation_view
from cleatwright.papers.side_by_side.view import BesideView, SideBySideView
from cleatwright.project.revision import read_revision, said_of
from cleatwright.project.walls import Request, walls_so_far
from cleatwright.siting.as_far import PanelSoFar
from cleatwright.siting.assessing import ASSESSED
from cleatwright.standards.cautions import DEFER, before_drilling
from cleatwright.wall.model import LeftOver

SO_FAR = "as far as it goes"


@dataclass(frozen=True)
class AskedWalls:
    """How a workshop is arranged, and where that is drawn.

    Args:
        place: The workshop folder, or its document.
        afresh: Arrange as if nothing hung yet.
        effort: How many times as long as usual the walls are searched, >= 1; as the document
            says when None.
        out: Where they are drawn, a PDF or SVG file that is not there yet; nowhere when None.
    """

    place: Path
    afresh: bool = False
    effort: int | None = None
    out: Path | None = None


@dataclass(frozen=True)
class PlaceSoFar:
    """Where something hangs: the numbers of its holders, its name, and its place."""

    numbers: tuple[int, ...]
    name: str
    spot: SpotRow


@dataclass(frozen=True)
class WallSoFar:
    """One wall or panel as far as it goes.

    Args:
        name: Its name.
        title: The same with the name of the workshop.
        places: What hangs on it, by its numbers.
        left: What finds no place, why, and what would help, in the unit of the document.
        refused: By the name of each of these what is in its way where least is.
        failing: What does not hold of what hangs, in sentences.
        finish: What finishes it, where more than one thing is left over; else nothing.
    """

    name: str
    title: str
    places: tuple[PlaceSoFar, ...]
    left: tuple[LeftOver, ...]
    refused: Mapping[str, tuple[str, ...]]
    failing: tuple[str, ...]
    finish: str = ""

    @property
    def summary(self) -> str:
        """Return how far it goes, in words."""
        count = len(self.places) + len(self.left)
        return f"{len(self.places)} of {count} find a place" if self.left else "all find a place"


@dataclass(frozen=True)
class SoFar:
    """Every wall of a workshop as far as it goes.

    Args:
        workshop: The name of the workshop.
        unit: That in which people read lengths.
        walls: The wall and each panel.
        files: What was drawn of them.
    """

    workshop: str
    unit: LengthUnit
    walls: tuple[WallSoFar, ...]
    files: tuple[Path, ...] = ()

    @property
    def finished(self) -> bool:
        """Return whether everything finds a place."""
        return not any(one.left for one in self.walls)

    def as_dict(self) -> dict[str, object]:
        """Return the answer for programs."""
        return {
            "workshop": self.workshop,
            "holds": False,
            "finished": self.finished,
            "panels": [
                {
                    "name": wall.name,
                    "places": [
                        {
                            "numbers": one.numbers,
                            "name": one.name,
                            "rail": one.spot.rail,
                            "x_mm": one.spot.x_mm,
                            "z_mm": one.spot.z_mm,
                        }
                        for one in wall.places
                    ],
                    "left_over": [
                        {
                            "name": one.key,
                            "why": one.reason,
                            "in_the_way": wall.refused[one.key],
                            "helps": one.helps,
                        }
                        for one in wall.left
                    ],
                    "finish": wall.finish,
                    "failing": list(wall.failing),
                }
                for wall in self.walls
            ],
            "files": [str(path) for path in self.files],
        }


def walls_as_far(asked: AskedWalls, run: Run) -> SoFar:
    """Return what hangs where on each wall, and what finds no place; draw both if it is wished.

    Raises:
        CleatwrightError: Something else stands in the way than want of room.
        OutputError: The file is there already, or it cannot be written.
    """
    if asked.out is not None:
        require_new(asked.out)
    revision = read_revision(asked.place, run)
    found = walls_so_far((revision, Request(afresh=asked.afresh, effort=asked.effort)), run)
    words = Wording(revision.workshop.units)
    with said_of(revision):
        walls = tuple(_wall(one, words, run) for one in found)
    files: tuple[Path, ...] = ()
    if asked.out is not None:
        views = [_view(one, wall, run) for one, wall in zip(found, walls, strict=True)]
        files = draw_beside(views, asked.out, run)
    return SoFar(revision.workshop.name, revision.workshop.units, walls, files)


def _wall(found: PanelSoFar, words: Wording, run: Run) -> WallSoFar:
    job = found.job
    names = {unit.planned.key: unit.planned.name for unit in job.units}
    places = (
        PlaceSoFar(
            tuple(sorted(one.number for one in unit.planned.holders)),
            names[unit.planned.key],
            spot_of(job, unit),
        )
        for unit in job.units
    )
    return WallSoFar(
        name=job.panel.name,
        title=job.title,
        places=tuple(sorted(places, key=lambda one: one.numbers)),
        left=tuple(
            LeftOver(one.key, words(one.reason), words.all(one.helps)) for one in found.left
        ),
        refused={unit.planned.name: words.all(found.refused(unit)) for unit in found.waiting},
        failing=words.all(run.need(ASSESSED, job).failing),
        finish=words(found.finish),
    )


def _view(found: PanelSoFar, wall: WallSoFar, run: Run) -> SideBySideView:
    """Return the sheet of a wall: what hangs, what is left over and what would help."""
    job = found.job
    screwed = any(unit.outer.part.hanging.screws is not None for unit in job.units)
    heeded = before_drilling(rails=bool(job.arrangement.rails), screwed=screwed)
    cautions = job.words.all((*heeded, DEFER))
    return SideBySideView(
        title=f"{wall.title}: {SO_FAR}" if wall.left else wall.title,
        walls=(BesideView(wall.summary, elevation_view(job, run)),),
        heading=("what hangs", "where"),
        rows=tuple(
            (f"{', '.join(map(str, one.numbers))}  {one.name}", one.spot.words(job.setting.units))
            for one in wall.places
        ),
        notes=(
            *(
                line
                for one in wall.left
                for line in (f"Left over: {one.sentence}", *wall.refused[one.key], "")
            ),
            *((wall.finish, "") if wall.finish else ()),
            *(line for one in wall.failing for line in (f"Does not hold: {one}", "")),
            *(f"Caution: {line}" for line in cautions),
        ),
    )
