"""What another program changed beside the page, and what stands where a change was refused."""

from __future__ import annotations

from fastapi import APIRouter
from pydantic import JsonValue

from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.rows.outside import OutsideRow, difference_row, found_outside
from cleatwright.web.rows.row import Row
from cleatwright.web.rows.state import ChangesRow, StateRow, state_row
from cleatwright.workshop.document.changes import found_path, standing
from cleatwright.workshop.document.typed import shown

routes = APIRouter(tags=["outside"])


class StandingRow(Row):
    """What stands at a place now, as it is written and as a person would type it."""

    raw: JsonValue
    shown: str


@routes.get("/outside")
def outside(session: TheSession) -> OutsideRow:
    """Return what another program changed since somebody last saw it."""
    now = session.workshop.now
    if now.outside is None:
        return OutsideRow(rows=())
    stands = session.document(now).raw
    return OutsideRow(rows=tuple(difference_row(one, stands) for one in found_outside(now.outside)))


@routes.post("/outside/seen")
def seen(session: TheSession) -> StateRow:
    """Forget what another program changed: the person has seen it."""
    now = session.workshop.seen()
    session.tell_revision()
    return state_row(now, session.document(now))


@routes.post("/outside/put-back")
def put_back(session: TheSession) -> StateRow:
    """Write the last text that could be read over a file that is no TOML any more."""
    now = session.workshop.put_back()
    session.tell_revision()
    return state_row(now, session.document(now))


@routes.post("/standing")
def stands(given: ChangesRow, session: TheSession) -> tuple[StandingRow, ...]:
    """Return what stands where changes would be made."""
    raw = session.document().raw
    found = [standing(raw, found_path(raw, one.change()) or ()) for one in given.changes]
    named = [one.get("name") if isinstance(one, dict) else one for one in found]
    values = [
        name if change.operation in {"remove", "move"} else value
        for change, value, name in zip(given.changes, found, named, strict=True)
    ]
    return tuple(StandingRow(raw=one, shown=shown(one)) for one in values)
