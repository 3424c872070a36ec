"""The document: its state, changes, undo and redo, and its text."""

from __future__ import annotations

from fastapi import APIRouter
from pydantic import Field, JsonValue

from cleatwright.project.opened.opened import Opened
from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.rows.raw import entry_at
from cleatwright.web.rows.row import Row
from cleatwright.web.rows.state import ChangesRow, StateRow, state_row
from cleatwright.web.session import Session

routes = APIRouter(tags=["document"])


class TextRow(Row):
    """The whole text of the document."""

    text: str = Field(max_length=1_000_000)


def _state(session: Session, now: Opened) -> StateRow:
    session.tell_revision()
    return state_row(now, session.document(now))


@routes.get("/state")
def state(session: TheSession) -> StateRow | None:
    """Return the state of the open workshop, or nothing when none is open."""
    opened = session.opened
    if opened is None:
        return None
    now = opened.now
    return state_row(now, session.document(now))


@routes.post("/changes")
def change(given: ChangesRow, session: TheSession) -> StateRow:
    """Change the document."""
    changes = [one.change() for one in given.changes]
    return _state(session, session.workshop.change(changes, label=given.label, key=given.key))


@routes.post("/undo")
def undo(session: TheSession) -> StateRow:
    """Go one step back."""
    return _state(session, session.workshop.undo())


@routes.post("/redo")
def redo(session: TheSession) -> StateRow:
    """Go one step forward."""
    return _state(session, session.workshop.redo())


@routes.get("/entries/{table}/{number}")
def entry(table: str, number: int, session: TheSession) -> dict[str, JsonValue]:
    """Return one table of a row as it stands in the document."""
    return entry_at(session.document().raw, table, number)


@routes.get("/text")
def text(session: TheSession) -> TextRow:
    """Return the document as it is written."""
    return TextRow(text=session.workshop.now.text)


@routes.put("/text")
def put_text(given: TextRow, session: TheSession) -> StateRow:
    """Put another text in the place of the document."""
    return _state(session, session.workshop.replace_text(given.text, label="the whole document"))
