"""Walls: arrange them, see them, and say where something shall hang."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, cast

from fastapi import APIRouter
from pydantic import Field

from cleatwright.base.errors import CleatwrightError, InputError, unknown_name
from cleatwright.base.gathering import refuse
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.design.planning import FAULTS
from cleatwright.project.opened.document import READ
from cleatwright.project.opened.opened import Opened
from cleatwright.project.opened.planned import PlannedDocument, planned_document
from cleatwright.project.revision import Revision
from cleatwright.project.walls import WALLS, Request
from cleatwright.siting.giving_places import entry_of, new_table, written_place
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
MOST_EFFORT = 100


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
def arrange(session: TheSession) -> WorkRow:
    """Begin to arrange the walls, unless that goes on already or is done."""
    now = session.workshop.now
    revision = _revision(session, now)
    key = f"{now.instance}/{now.number}"

    def do(run: Run) -> WallsRow:
        try:
            panels = run.need(WALLS, (revision, Request()))
            return walls_row(panels, revision.workshop, run, now.number)
        except CleatwrightError as error:
            raise session.document(now, run).placed(error) from error

    return work_row(session.works.start(WALL, key, do))


@routes.post("/walls/longer")
def search_longer(session: TheSession) -> StateRow:
    """Let walls be searched twice as long from now on, as far as is allowed.

    It is written in the document, so that the plan is the same wherever it is made.
    """
    revision = _revision(session, session.workshop.now)
    effort = min(MOST_EFFORT, 2 * revision.workshop.defaults.effort)
    change = DocumentChange("set", ("defaults", "effort"), effort, guarded=False)
    after = session.workshop.change([change], label=f"searched {effort} times as long")
    session.tell_revision()
    return state_row(after, session.document(after))


@routes.get("/walls")
def walls(session: TheSession) -> WallsRow | None:
    """Return the walls as they were last arranged, or nothing before that."""
    good = session.works.good(WALL)
    same = good is not None and good.key.startswith(f"{session.workshop.now.instance}/")
    return good.result if good is not None and same else None


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
    planned = session.planned(now, session.run())
    changes = [
        DocumentChange("unset", (*path, "place"), guarded=False)
        for path in _given_places(planned, given.keys)
    ]
    if not changes:
        raise InputError("No place of these is given", todo="Nothing needs to be done")
    after = session.workshop.change(changes, label="places left to the plan")
    session.tell_revision()
    return state_row(after, session.document(after))


def _given_places(planned: PlannedDocument, keys: tuple[str, ...]) -> Iterator[tuple[Step, ...]]:
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
            table = entry_of(workshop, unit)
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
        raise tried.faults[0].again()


def _placing(workshop: Workshop, unit: Unit, at: Place, *, asked: bool) -> list[DocumentChange]:
    table = entry_of(workshop, unit.planned)
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
        new = cast("dict[str, Plain]", new_table(unit.planned.holders[0]))
        return [DocumentChange("insert", ("holder",), {**new, "place": value})]
    return [DocumentChange("set", (*table.path, "place"), value, guarded=False)]


def _revision(session: Session, now: Opened) -> Revision:
    """Return the workshop of a revision.

    Raises:
        CleatwrightError: Something in the document cannot be read, or stands in the way.
    """
    planned = session.planned(now, session.run())
    refuse([one.again() for one in planned.faults], FAULTS)
    if planned.revision is None:
        raise InputError("Nothing of the document can be read", todo="Mend it first")
    return planned.revision


def _arranged(session: Session, now: Opened) -> tuple[Workshop, tuple[PanelJob, ...]]:
    """Return the walls of a revision that was arranged."""
    revision = _revision(session, now)
    found = session.works.now(WALL)
    if found is None or found.state == "running":
        raise InputError("The walls are still being arranged", todo="Wait for the plan")
    return revision.workshop, session.run().need(WALLS, (revision, Request()))
