"""Making room for one thing where others hang: which of them move, and where to."""

from __future__ import annotations

from cleatwright.base.errors import WallError
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.jobs.arranging_again import PlaceFound, searched
from cleatwright.jobs.placing import (
    Standing,
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
from cleatwright.wall.model import Place


def make_room(now: Standing, panel: str, at: Place, *, run: Run) -> TwoArrangements:
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
    again = Again(
        panel,
        pinned=(at, *(one for one in others if one.key not in may)),
        near=tuple(one for one in others if one.key in may),
    )
    there = searched(revision, Request(again=again), run)
    two = compare(now, panel, _found(there, may), run=run)
    _require_no_worse(two, _named(here, at.key).planned.name)
    return two


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
    if len(two.other.failing) > len(two.now.failing):
        raise WallError(
            f'With "{name}" there, and the others moved as far as it takes: {" ".join(new)}',
            todo="Choose another place for it",
        )
