"""Another arrangement beside the one that there is: look for one, see both, take one."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter

from cleatwright.base.errors import DesignError, InputError
from cleatwright.base.stages.run import Run
from cleatwright.jobs.arranging_again import Asked, FoundArrangement, arrange_again
from cleatwright.jobs.making_room import make_room
from cleatwright.jobs.two_arrangements import TwoArrangements, compare
from cleatwright.wall.model import Place
from cleatwright.wall.weights import PREFERENCES
from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.routes.wall import PlacedRow, panel_with, standing_now
from cleatwright.web.rows.plans import (
    AgainRow,
    AskedRow,
    PreferenceRow,
    RoomRow,
    asked_row,
    bound_of,
    preference_rows,
    two_row,
)
from cleatwright.web.rows.row import fault_row
from cleatwright.web.rows.state import StateRow, state_row
from cleatwright.web.rows.work import WorkRow, work_row
from cleatwright.web.session import Session
from cleatwright.web.work import Working

routes = APIRouter(tags=["plans"])
AGAIN, ROOM = "again", "room"


@dataclass(frozen=True)
class _Again:
    asked: Asked
    found: FoundArrangement | None


@dataclass(frozen=True)
class _Room:
    number: int
    at: Place
    two: TwoArrangements | None


@routes.get("/again/wanted")
def wanted() -> tuple[PreferenceRow, ...]:
    """Return what a search can be asked for."""
    return preference_rows()


@routes.post("/again")
def begin(given: AskedRow, session: TheSession) -> WorkRow:
    """Look for another arrangement of a wall; one that was looked for before is dropped."""
    now = session.workshop.now
    at = standing_now(session, now)
    at.panel(given.panel)
    asked = given.asked()

    def do(run: Run) -> _Again:
        def tell(found: FoundArrangement) -> None:
            session.works.so_far(AGAIN, run, _Again(asked, found))

        session.works.so_far(AGAIN, run, _Again(asked, None))
        return _Again(asked, arrange_again(at, asked, run=run, tell=tell))

    session.works.drop(AGAIN)
    return work_row(session.works.start(AGAIN, now.instance, do))


@routes.get("/again")
def again(session: TheSession) -> AgainRow | None:
    """Return how far the search is, with the best so far beside the arrangement that there is.

    Both are those of the document as it is now; there is nothing beside while that is planned.
    """
    work, so_far = _work(session, AGAIN)
    if work is None or not isinstance(so_far, _Again):
        return None
    row = work_row(work)
    faults, two = row.faults, None
    if so_far.found is not None:
        found = so_far.found
        now = session.workshop.now
        run = session.run()
        try:
            at = standing_now(session, now)
            both = compare(at, found.asked.panel, found.places, run=run, layout=found.asked.layout)
            two = two_row(both, run, now.number)
        except (InputError, DesignError) as error:
            faults = (*faults, fault_row(error))
    return AgainRow(
        state=work.state,
        asked=asked_row(so_far.asked),
        done=work.done,
        total=work.total,
        tried=so_far.found.tried if so_far.found else 0,
        found_at=so_far.found.found_at if so_far.found else 0,
        bound=bound_of(so_far.found),
        faults=faults,
        two=two,
    )


@routes.post("/again/take")
def take(session: TheSession) -> StateRow:
    """Take the best that was found: one step of undo."""
    _, so_far = _work(session, AGAIN)
    if not isinstance(so_far, _Again) or so_far.found is None:
        raise InputError("No other arrangement is found yet", todo="Look for one first")
    now, run = session.workshop.now, session.run()
    found = so_far.found
    both = compare(
        standing_now(session, now),
        found.asked.panel,
        found.places,
        run=run,
        layout=found.asked.layout,
    )
    name = PREFERENCES[found.asked.wanted].name
    label = f"another arrangement ({name[0].lower()}{name[1:]})"
    return _taken(session, AGAIN, both, label)


@routes.post("/again/drop")
def drop(session: TheSession) -> None:
    """Stop looking, and forget what was found."""
    session.works.drop(AGAIN)


@routes.post("/room")
def begin_room(given: PlacedRow, session: TheSession) -> WorkRow:
    """Make room for something where others hang; nothing is written."""
    now = session.workshop.now
    at = standing_now(session, now)
    panel = panel_with(at, given.key)
    there = Place(given.key, given.x_mm, given.z_mm)

    def do(run: Run) -> _Room:
        session.works.so_far(ROOM, run, _Room(now.number, there, None))
        return _Room(now.number, there, make_room(at, panel, there, run=run))

    session.works.drop(ROOM)
    return work_row(session.works.start(ROOM, now.instance, do))


@routes.get("/room")
def room(session: TheSession) -> RoomRow | None:
    """Return how far making room is, and what would move."""
    work, so_far = _work(session, ROOM)
    if work is None or not isinstance(so_far, _Room):
        return None
    two = so_far.two
    return RoomRow(
        state=work.state,
        key=so_far.at.key,
        x_mm=so_far.at.x_mm,
        z_mm=so_far.at.z_mm,
        faults=work_row(work).faults,
        two=None if two is None else two_row(two, session.run(), so_far.number),
    )


@routes.post("/room/take")
def take_room(session: TheSession) -> StateRow:
    """Put it there and move the others: one step of undo."""
    _, so_far = _work(session, ROOM)
    if not isinstance(so_far, _Room) or so_far.two is None:
        raise InputError("No room is found yet", todo="Wait, or choose another place")
    if so_far.number != session.workshop.now.number:
        raise InputError(
            "The workshop was changed since room was made there", todo="Put it there once more"
        )
    names = {one.key: one.name for one in so_far.two.moved}
    others = len([key for key in names if key != so_far.at.key])
    name = names.get(so_far.at.key, "it")
    return _taken(
        session,
        ROOM,
        so_far.two,
        f"{name} and {others} {'other' if others == 1 else 'others'} moved",
    )


@routes.post("/room/drop")
def drop_room(session: TheSession) -> None:
    """Leave everything where it is."""
    session.works.drop(ROOM)


def _work(session: Session, name: str) -> tuple[Working | None, object]:
    """Return the work on a sort for the workshop that is open, and what it came to so far."""
    found, opened = session.works.now(name), session.opened
    if found is None or opened is None or found.key != opened.now.instance:
        return None, None
    return found, found.result


def _taken(session: Session, name: str, both: TwoArrangements, label: str) -> StateRow:
    after = session.workshop.change(both.changes, label=label)
    session.works.drop(name)
    session.tell_revision()
    return state_row(after, session.document(after))
