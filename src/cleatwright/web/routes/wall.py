"""Walls: arrange them, see them, and say where something shall hang."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from fastapi import APIRouter
from pydantic import Field

from cleatwright.base.errors import CleatwrightError, InputError, RoomError, unknown_name
from cleatwright.base.gathering import refuse
from cleatwright.base.stages.run import Run
from cleatwright.design.planning import FAULTS
from cleatwright.jobs.placing import (
    PlannedWalls,
    place_changes,
    places_now,
    require_together,
    revision_with,
)
from cleatwright.project.opened.opened import Opened
from cleatwright.project.opened.planned import PlannedDocument
from cleatwright.project.revision import Revision
from cleatwright.project.walls import WALLS
from cleatwright.siting.giving_places import entry_of, on_the_grid
from cleatwright.wall.model import Place
from cleatwright.web.chosen import request_of, walls_key
from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.rows.raw import tables_of
from cleatwright.web.rows.row import Row, Step
from cleatwright.web.rows.state import StateRow, state_row
from cleatwright.web.rows.wall import WallsRow, row_so_far, walls_row
from cleatwright.web.rows.work import WorkRow, work_row
from cleatwright.web.session import Session
from cleatwright.web.work import WALL
from cleatwright.workshop.document.changes import DocumentChange

routes = APIRouter(tags=["wall"])
MOST_EFFORT = 100


class PlacedRow(Row):
    """Where one thing shall hang."""

    key: str
    x_mm: float = Field(allow_inf_nan=False)
    z_mm: float = Field(allow_inf_nan=False)


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
    request = request_of(session.chosen, revision)

    def do(run: Run) -> WallsRow:
        given = (revision, request)
        try:
            return walls_row(given, run, now.number)
        except CleatwrightError as error:
            if isinstance(error, RoomError):
                # what finds a place is shown beside what does not
                session.works.so_far(WALL, run, row_so_far(given, run, now.number))
            raise session.document(now, run).placed(error) from error

    return work_row(session.works.start(WALL, walls_key(now, revision, request), do))


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
    """Return the walls as they were last arranged, or as far as they go; nothing before that."""
    found = session.works.now(WALL)
    if found is None or found.result is None:
        found = session.works.good(WALL)
    same = found is not None and found.key.startswith(f"{session.workshop.now.instance}/")
    return found.result if found is not None and same else None


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
    at = standing_now(session, now)
    units = {unit.planned.key: unit for panel in at.panels for unit in panel.units}
    asked = {
        one.key: on_the_grid(Place(one.key, one.x_mm, one.z_mm), at.workshop.units)
        for one in given.places
    }
    wanted = dict(asked)
    panels = {panel_with(at, key): None for key in asked}
    for panel in panels if given.keep_others else ():
        wanted = {**places_now(at.panel(panel)), **wanted}
    changes = place_changes(
        at.workshop, [(units[key], spot) for key, spot in wanted.items()], asked=asked
    )
    # what cannot be kept is refused before anything is written
    for panel in panels:
        require_together(at.panel(panel), asked, keep_others=given.keep_others)
    revision_with(at.changed(changes), at.revision.path, session.run())
    names = ", ".join(units[one.key].planned.name for one in given.places[:2])
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


def standing_now(session: Session, now: Opened) -> PlannedWalls:
    """Return a revision with its walls, which were arranged before.

    Raises:
        InputError: They are being arranged.
    """
    revision = _revision(session, now)
    found = session.works.now(WALL)
    if found is None or found.state == "running":
        raise InputError("The walls are still being arranged", todo="Wait for the plan")
    given = (revision, request_of(session.chosen, revision))
    return PlannedWalls(now.text, revision, session.run().need(WALLS, given))


def panel_with(at: PlannedWalls, key: str) -> str:
    """Return the name of the panel on which something hangs.

    Raises:
        UnknownNameError: Nothing on the walls has that key.
    """
    panels = {unit.planned.key: panel.panel.name for panel in at.panels for unit in panel.units}
    if key not in panels:
        raise unknown_name("thing on the walls", key, panels)
    return panels[key]
