"""Making room for one thing where others hang: which of them move, and where to."""

from __future__ import annotations

from dataclasses import replace

from cleatwright.base.errors import DesignError, FaultError, InputError, WallError
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.jobs.arranging_again import PlaceFound, searched
from cleatwright.jobs.placing import (
    PlannedWalls,
    freeing_changes,
    identity_of,
    movable,
    places_now,
    revision_with,
)
from cleatwright.jobs.two_arrangements import TwoArrangements, compare
from cleatwright.project.walls import Request
from cleatwright.siting.hanging_up import Again
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement, Place
from cleatwright.wall.rails import cut_rails


def make_room(now: PlannedWalls, panel: str, at: Place, *, run: Run) -> TwoArrangements:
    """Return a panel as it is, and with one thing at a place and as few others moved as it takes.

    The others stay where they are as long as everything finds a place, whether their places are
    given or not.

    Args:
        now: The document and its walls.
        panel: The panel.
        at: The thing, by its key, and where it shall hang.
        run: The run that keeps what was computed before.

    Raises:
        CleatwrightError: It cannot hang there, or something else finds no place; the message says
            what would help.
        WallError: Something would not come out, or not hold, that does now.
    """
    here = now.panel(panel)
    revision = revision_with(
        now.changed(freeing_changes(now.workshop, here.units)), now.revision.path, run
    )
    places, may = places_now(here), movable(now.workshop, here.units)
    others = [one for key, one in sorted(places.items()) if key != at.key]
    still = tuple(one for one in others if one.key not in may)
    clear = tuple(one for one in others if one.key in may and not _clash(here, at, one))
    near = Again(panel, pinned=(at, *still), near=tuple(one for one in others if one.key in may))
    # only what is in its way moves; if that does not do, what else must; if that does not, more
    ways = (
        replace(near, pinned=(at, *still, *clear), settled=False),
        replace(near, settled=False),
        near,
    )
    best: TwoArrangements | None = None
    wrong: InputError | DesignError | None = None
    for again in ways:
        try:
            there = searched(revision, Request(again=again), run)
            two = compare(now, panel, _found(there, may), run=run)
        except (InputError, DesignError) as error:
            wrong = error
            continue
        if best is None or _worse(two) < _worse(best):
            best = two
        if not any(_worse(best)):
            break
    if best is None:
        raise wrong or FaultError("no way was tried")
    _require_no_worse(best, _named(here, at.key).planned.name)
    return best


def _clash(panel: PanelJob, at: Place, other: Place) -> bool:
    """Return whether two things cannot hang where they are said to, were they alone."""
    known = panel.problem.known
    items = (replace(known[one.key], fixed=None, hangs_at=None) for one in (at, other))
    two, places = panel.problem.having(items), (at, other)
    return bool(conflicts(two, Arrangement(places, cut_rails(two, places))))


def _worse(two: TwoArrangements) -> tuple[int, int]:
    """Return how much more does not hold, or is warned of, than now."""
    now, other = two.now, two.other
    more = max(0, len(other.failing) - len(now.failing))
    return more, max(0, len(other.found.warnings) - len(now.found.warnings))


def _found(there: PanelJob, may: frozenset[str]) -> tuple[PlaceFound, ...]:
    at = places_now(there)
    return tuple(
        PlaceFound(identity_of(unit), at[unit.planned.key].x_mm, at[unit.planned.key].z_mm)
        for unit in there.units
        if unit.planned.key in may
    )


def _named(panel: PanelJob, key: str) -> Unit:
    return next(unit for unit in panel.units if unit.planned.key == key)


def _require_no_worse(two: TwoArrangements, name: str) -> None:
    """Refuse what would leave more in the way, or less that holds, than there is now."""
    new = [line for line in two.other.failing if line not in two.now.failing]
    if _worse(two)[0]:
        raise WallError(
            f'With "{name}" there, and the others moved as far as it takes: {" ".join(new)}',
            todo="Choose another place for it",
        )
