"""Walls: arrange them, see them, and say where something shall hang."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from fastapi import APIRouter
from pydantic import Field

from cleatwright.base.errors import CleatwrightError, InputError, unknown_name
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit, build_units
from cleatwright.project.opened.document import READ
from cleatwright.project.opened.opened import Opened
from cleatwright.project.opened.planned import PlannedDocument, planned_document
from cleatwright.project.revision import Revision
from cleatwright.project.walls import WALLS, Request
from cleatwright.siting.giving_places import entry_of, written_place
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.model import Place
from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.rows.raw import tables_of
from cleatwright.web.rows.row import Row, Step
from cleatwright.web.rows.state import StateRow, state_row
from cleatwright.web.rows.wall import WallsRow, walls_row
from cleatwright.web.rows.work import WorkRow, work_row
from cleatwright.web.session import Session
from cleatwright.workshop.document.changes import DocumentChange, Plain, apply_changes
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import parse

routes = APIRouter(tags=["wall"])
WALL = "wall"


class ArrangeRow(Row):
    """How the walls shall be arranged."""

    effort: int | None = Field(None, ge=1, le=100)


class PlacedRow(Row):
    """Where one thing shall hang."""

    key: str
    x_mm: float = Field(ge=0, le=30_000)
    z_mm: float = Field(ge=0, le=6_000)


class PlacesRow(Row):
    """Where things shall hang; what else hangs on the same panel may be kept where it is."""

    places: Annotated[tuple[PlacedRow, ...], Field(min_length=1, max_length=300)]
    keep_others: bool = True
    key: str = ""


class FreeRow(Row):
    """What shall be placed by the plan again; all when empty."""

    keys: tuple[str, ...] = ()


@routes.post("/walls")
def arrange(given: ArrangeRow, session: TheSession) -> WorkRow:
    """Begin to arrange the walls, unless that goes on already or is done."""
    now = session.workshop.now
    revision = _revision(session, now)
    request = Request(effort=given.effort)
    key = f"{now.instance}/{now.number}/{given.effort or ''}"

    def do(run: Run) -> WallsRow:
        try:
            panels = run.need(WALLS, (revision, request))
            return walls_row(panels, revision.workshop, run, now.number)
        except CleatwrightError as error:
            raise session.document(now, run).placed(error) from error

    return work_row(session.works.start(WALL, key, do))


@routes.get("/walls")
def walls(session: TheSession) -> WallsRow | None:
    """Return the walls as they were last arranged, or nothing before that."""
    good = session.works.good(WALL)
    return None if good is None else good.result


@routes.get("/work/{name}")
def work(name: str, session: TheSession) -> WorkRow | None:
    """Return how far some work is, or nothing when there was none."""
    found = session.works.now(name)
    return None if found is None else work_row(found)


@routes.post("/work/{name}/stop")
def stop(name: str, session: TheSession) -> WorkRow | None:
    """Stop some work; what was computed is kept."""
    session.works.stop(name)
    return work(name, session)


@routes.post("/places")
def place(given: PlacesRow, session: TheSession) -> StateRow:
    """Give places to things on the walls: one step of undo."""
    now = session.workshop.now
    workshop, found = _arranged(session, now)
    units = {unit.planned.key: (panel, unit) for panel in found for unit in panel.units}
    wanted = {one.key: Place(one.key, one.x_mm, one.z_mm) for one in given.places}
    for key in wanted:
        if key not in units:
            raise unknown_name("thing on the walls", key, units)
    if given.keep_others:
        moved = {units[key][0].panel.name for key in wanted}
        for panel in found:
            if panel.panel.name in moved:
                kept = {
                    unit.planned.key: panel.spots[unit.planned.key].place for unit in panel.units
                }
                wanted = {**kept, **wanted}
    changes = [
        change
        for key, at in wanted.items()
        for change in _placing(
            workshop, units[key][1], at, asked=key in {p.key for p in given.places}
        )
    ]
    # tables are added behind all others, so that numbers of those before them stay
    changes.sort(key=lambda one: one.operation == "insert")
    _require_kept(session, now, changes)
    names = ", ".join(units[one.key][1].planned.name for one in given.places[:2])
    label = f"{names} moved" if len(given.places) < 3 else f"{len(given.places)} places"
    after = session.workshop.change(changes, label=label, key=given.key)
    session.tell_revision()
    return state_row(after, session.document(after))


@routes.post("/places/free")
def free(given: FreeRow, session: TheSession) -> StateRow:
    """Let the plan choose places again, where the document gives some."""
    now = session.workshop.now
    run = session.run()
    planned = session.planned(now, run)
    changes = [
        DocumentChange("unset", (*path, "place"), guarded=False)
        for path in _given_places(planned, given.keys, run)
    ]
    if not changes:
        raise InputError("No place of these is given", todo="Nothing needs to be done")
    after = session.workshop.change(changes, label="places left to the plan")
    session.tell_revision()
    return state_row(after, session.document(after))


def _given_places(
    planned: PlannedDocument, keys: tuple[str, ...], run: Run
) -> Iterator[tuple[Step, ...]]:
    """Yield the tables with a given place; it needs no plan, which may fail for them."""
    if not keys:
        for name in ("holder", "carrier"):
            for number, row in enumerate(tables_of(planned.document.raw.get(name))):
                if "place" in row:
                    yield name, number
        return
    workshop = planned.document.workshop
    for unit in planned.units:
        if workshop is not None and unit.key in keys and unit.fixed is not None:
            table = entry_of(workshop, build_units([unit], run)[0])
            if table is not None and table.path is not None:
                yield table.path


def _require_kept(session: Session, now: Opened, changes: list[DocumentChange]) -> None:
    """Refuse places that cannot be kept, before anything is written.

    Raises:
        CleatwrightError: What stands in the way.
    """
    opened = session.workshop
    document = parse(now.text, file=str(opened.path))
    apply_changes(document, changes)
    run = session.run()
    tried = planned_document(run.need(READ, (document.as_string(), opened.path)), run)
    if tried.faults:
        raise tried.faults[0]


def _placing(workshop: Workshop, unit: Unit, at: Place, *, asked: bool) -> list[DocumentChange]:
    table = entry_of(workshop, unit)
    if table is None:
        if asked:
            raise InputError(
                f'"{unit.planned.name}" shares its [[holder]] with others, and has no place alone',
                todo="Give its tools a [[holder]] of their own",
            )
        return []
    if not asked and unit.planned.fixed is not None:
        return []
    written = written_place(at, workshop.units)
    value: Plain = {"x": written.x, "z": written.z}
    if table.path is None:
        return [DocumentChange("insert", ("holder",), {**_new_table(unit), "place": value})]
    return [DocumentChange("set", (*table.path, "place"), value, guarded=False)]


def _new_table(unit: Unit) -> dict[str, Plain]:
    tools: list[Plain] = [name for one in unit.planned.holders for name in one.listed]
    return {"tools": tools, "family": unit.planned.holders[0].recipe.family}


def _revision(session: Session, now: Opened) -> Revision:
    """Return the workshop of a revision.

    Raises:
        CleatwrightError: Something in the document cannot be read, or stands in the way.
    """
    run = session.run()
    planned = session.planned(now, run)
    if planned.revision is None or planned.faults:
        faults = planned.faults
        raise InputError(
            f"{len(faults)} things stand in the way"
            if len(faults) > 1
            else "Something stands in the way",
            faults=faults,
            listed=len(faults),
        )
    return planned.revision


def _arranged(session: Session, now: Opened) -> tuple[Workshop, tuple[PanelJob, ...]]:
    """Return the walls of a revision that was arranged."""
    revision = _revision(session, now)
    found = session.works.now(WALL)
    if found is None or found.state == "running":
        raise InputError("The walls are still being arranged", todo="Wait for the plan")
    return revision.workshop, session.run().need(WALLS, (revision, Request()))
