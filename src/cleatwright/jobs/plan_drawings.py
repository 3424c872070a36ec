"""Plans to choose from, each drawn on the walls as they would be, beside each other."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from cleatwright.base.errors import InputError
from cleatwright.base.stages.run import Run
from cleatwright.jobs.drawn_beside import draw_beside, require_new
from cleatwright.jobs.plans import PlansToChoose, plans_of
from cleatwright.pack.changed_wall import ChangedWall, changed_walls
from cleatwright.papers.side_by_side.view import SideBySideView
from cleatwright.project.computing import JOB
from cleatwright.project.revision import Revision, read_revision, said_of
from cleatwright.project.walls import Request
from cleatwright.workshop.document.sections import HowFar
from cleatwright.workshop.ledger.reading import read_recipe

LEGEND = (
    "Blue: moves, from where it is dashed. Black with a plus: is new. Dashed with a cross: comes "
    "off. All else stays."
)


def walls_of_plan(revision: Revision, far: HowFar, run: Run) -> tuple[ChangedWall, ...]:
    """Return the walls of a plan, and what it changes on each.

    Raises:
        CleatwrightError: What stands in the way of it.
    """
    job = run.need(JOB, (revision, Request(plan=far)))
    return changed_walls(job, partial(read_recipe, revision.folder), run)


def draw_plans(place: Path, out: Path, *, run: Run) -> tuple[PlansToChoose, tuple[Path, ...]]:
    """Return the plans of a workshop, and the new files in which their walls are drawn.

    Args:
        place: The workshop folder, or its document.
        out: A PDF or SVG file that is not there yet.
        run: The run that keeps what was computed before.

    Raises:
        CleatwrightError: What stands in the way of every plan.
        OutputError: A file is there already, or it cannot be written.
    """
    require_new(out)
    revision = read_revision(place, run)
    with said_of(revision):
        found = plans_of(revision, run)
        views = plan_views(found, revision, run)
        if not views:
            raise InputError("Nothing hangs on any wall", todo="Add a tool first")
    return found, draw_beside(views, out, run)


def plan_views(found: PlansToChoose, revision: Revision, run: Run) -> tuple[SideBySideView, ...]:
    """Return what is drawn of plans: a view for each wall, the first with their numbers.

    Walls on which no plan changes anything are left out, unless that is so of all.
    """
    by_plan: list[tuple[HowFar, tuple[ChangedWall, ...]]] = [
        (one.far, walls_of_plan(revision, one.far, run)) for one in found.plans
    ]
    on: dict[str, list[tuple[HowFar, ChangedWall]]] = {}
    for far, walls in by_plan:
        for wall in walls:
            on.setdefault(wall.panel.panel.name, []).append((far, wall))
    changed = {name: some for name, some in on.items() if any(one.changes for _, one in some)}
    return tuple(
        SideBySideView(
            title=f"{some[0][1].panel.title}: plans to choose from",
            walls=tuple(wall.beside(_words(far, found), run) for far, wall in some),
            heading=found.columns,
            rows=() if at else tuple(found.cells),
            notes=() if at else (LEGEND, "", *found.notes("make")),
        )
        for at, some in enumerate((changed or on).values())
    )


def _words(far: HowFar, found: PlansToChoose) -> str:
    return f"{far}, which make takes by itself" if far == found.taken else far
