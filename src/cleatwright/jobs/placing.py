"""Giving places to what hangs: the changes of the document, and the walls that come of them."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import cast

from cleatwright.base.errors import InputError, WallError
from cleatwright.base.gathering import refuse
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.design.planning import FAULTS
from cleatwright.project.opened.document import READ
from cleatwright.project.opened.planned import planned_document
from cleatwright.project.revision import Revision
from cleatwright.project.walls import WALLS, Request
from cleatwright.siting.arranging import Words
from cleatwright.siting.giving_places import entry_of, exact_place, new_table
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.inputs import first_of
from cleatwright.wall.model import Arrangement, Place
from cleatwright.wall.rails import as_drawn, cut_rails
from cleatwright.workshop.document.changes import DocumentChange, Plain, apply_changes
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import parse


@dataclass(frozen=True)
class PlannedWalls:
    """A document and its walls as they are planned.

    Args:
        text: What stands in the document.
        revision: The workshop that it describes.
        panels: Its walls.
    """

    text: str
    revision: Revision
    panels: tuple[PanelJob, ...]

    @property
    def workshop(self) -> Workshop:
        """Return the document, checked."""
        return self.revision.workshop

    def panel(self, name: str) -> PanelJob:
        """Return one panel.

        Raises:
            InputError: Nothing hangs on it.
        """
        for panel in self.panels:
            if panel.panel.name == name and panel.units:
                return panel
        raise InputError(f'Nothing hangs on "{name}"', todo="Choose another wall")

    def changed(self, changes: Iterable[DocumentChange]) -> str:
        """Return the document with changes, as a trial."""
        document = parse(self.text, file=str(self.revision.path))
        apply_changes(document, tuple(changes))
        return document.as_string()


def revision_with(text: str, path: Path, run: Run) -> Revision:
    """Return the workshop of a text.

    Raises:
        CleatwrightError: Something in it cannot be read, or a given place cannot be kept.
    """
    planned = planned_document(run.need(READ, (text, path)), run)
    refuse([one.again() for one in planned.faults], FAULTS)
    if planned.revision is None:
        raise InputError("Nothing of the document can be read", todo="Mend it first")
    return planned.revision


def standing(text: str, path: Path, run: Run) -> PlannedWalls:
    """Return a document with its walls.

    Raises:
        CleatwrightError: What stands in the way.
    """
    revision = revision_with(text, path, run)
    return PlannedWalls(text, revision, run.need(WALLS, (revision, Request())))


def identity_of(unit: Unit) -> tuple[str, ...]:
    """Return what a unit is known by whatever its number is: the identities of its tools."""
    holders = unit.planned.holders
    return tuple(sorted(tool.identity for holder in holders for tool in holder.tools))


def place_changes(
    workshop: Workshop, units: Sequence[tuple[Unit, Place]], *, asked: Iterable[str]
) -> tuple[DocumentChange, ...]:
    """Return the changes of a document that give places to units.

    What already has a given place keeps it unless it is asked for, and so does what has no table
    of its own.

    Args:
        workshop: The document.
        units: The units, each with where it shall hang.
        asked: The keys of those that shall hang there; the others only stay where they are.

    Raises:
        InputError: One of those that are asked for shares its table with others.
    """
    wanted = frozenset(asked)
    changes = [
        change
        for unit, at in units
        for change in _placing(workshop, unit, at, asked=unit.planned.key in wanted)
    ]
    # tables are added behind all others, so that numbers of those before them stay
    return tuple(sorted(changes, key=lambda one: one.operation == "insert"))


def freeing_changes(workshop: Workshop, units: Iterable[Unit]) -> tuple[DocumentChange, ...]:
    """Return the changes of a document that take the given places of units away."""
    return tuple(
        DocumentChange("unset", (*table.path, "place"), guarded=False)
        for unit in units
        if unit.planned.fixed is not None
        and (table := entry_of(workshop, unit.planned)) is not None
        and table.path is not None
    )


def movable(workshop: Workshop, units: Iterable[Unit]) -> frozenset[str]:
    """Return the keys of the units to which a place of their own can be given."""
    return frozenset(
        one.planned.key for one in units if entry_of(workshop, one.planned) is not None
    )


def places_now(panel: PanelJob) -> Mapping[str, Place]:
    """Return where the units of a panel hang, by their keys."""
    return {one.planned.key: panel.spots[one.planned.key].place for one in panel.units}


def require_together(panel: PanelJob, asked: Mapping[str, Place], *, keep_others: bool) -> None:
    """Refuse places at which things cannot hang beside each other and the rails that stay.

    What is at odds as all hangs now already is left to the plan.

    Args:
        panel: The panel as it is planned.
        asked: Where things shall hang, by their keys; those of other panels are passed over.
        keep_others: True when all others stay; else only those whose place is given.

    Raises:
        WallError: They cannot; the sentences name what is in the way.
    """
    known = panel.problem.known
    now = {
        key: place
        for key, place in places_now(panel).items()
        if keep_others or key in asked or known[key].fixed is not None
    }
    before = frozenset(_at_odds(panel, now, asked))
    wanted = {key: asked.get(key, place) for key, place in now.items()}
    wrong = [one for one in _at_odds(panel, wanted, asked) if one not in before]
    if wrong:
        words = Words({one.planned.key: one.planned.name for one in panel.units})
        raise words.told(
            WallError(" ".join(first_of(wrong)).removesuffix("."), todo="Choose another place")
        )


def _at_odds(
    panel: PanelJob, places: Mapping[str, Place], asked: Container[str]
) -> tuple[str, ...]:
    """Return what is at odds when things hang there; a place that is asked for is a given one."""
    known = panel.problem.known
    items = (
        replace(known[key], fixed=(at.x_mm, at.z_mm)) if key in asked else known[key]
        for key, at in places.items()
    )
    problem, there = panel.problem.having(items), tuple(places.values())
    rails = as_drawn(cut_rails(problem, there), panel.arrangement.rails)
    return conflicts(problem, Arrangement(there, rails))


def _placing(workshop: Workshop, unit: Unit, at: Place, *, asked: bool) -> Iterator[DocumentChange]:
    table = entry_of(workshop, unit.planned)
    if table is None:
        if asked:
            raise InputError(
                f'"{unit.planned.name}" shares its [[holder]] with others, and has no place alone',
                todo="Give its tools a [[holder]] of their own",
            )
        return
    if not asked and unit.planned.fixed is not None:
        return
    written = exact_place(at, workshop.units)
    value: Plain = {"x": written.x, "z": written.z}
    if table.path is None:
        new = cast("dict[str, Plain]", new_table(unit.planned.holders[0]))
        yield DocumentChange("insert", ("holder",), {**new, "place": value})
    else:
        yield DocumentChange("set", (*table.path, "place"), value, guarded=False)
