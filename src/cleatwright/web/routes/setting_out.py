"""Setting out: a workshop of one's own in four steps, an example to look round, or an old one."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from fastapi import APIRouter, Response
from pydantic import Field

from cleatwright.base.lengths import LengthUnit
from cleatwright.jobs.card_lists import cards_pdf, kind_cards
from cleatwright.jobs.examples import start_workshop
from cleatwright.jobs.recent import holds_workshop
from cleatwright.jobs.start_view import start_view
from cleatwright.jobs.starting import folder_words, named_folder, start_faults, start_own
from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.rows.row import Row, fault_row
from cleatwright.web.rows.setting_out import (
    ExampleRow,
    SetOutRow,
    StartedRow,
    StepRow,
    example_rows,
    seen_row,
    step_rows,
)
from cleatwright.web.rows.state import StateRow, state_row

routes = APIRouter(tags=["setting out"])
Folder = Annotated[str, Field(max_length=1_000)]


class BeginRow(Row):
    """What setting out begins with."""

    folder: str = Field(description="the folder that was named, or one that suits")
    words: str
    recent: tuple[str, ...]
    steps: tuple[StepRow, ...]
    examples: tuple[ExampleRow, ...]


class FolderRow(Row):
    """A folder that a person names."""

    folder: Folder


class FolderWordsRow(Row):
    """What a folder is: whether a workshop stands in it, and what starting one would do."""

    folder: str
    opens: bool
    words: str


class OwnRow(Row):
    """A workshop that was set out, and the folder into which it is written."""

    folder: Folder
    started: StartedRow


class CopyRow(Row):
    """An example, and the folder into which it is copied."""

    folder: Folder
    example: str = Field(max_length=100)


@routes.get("/setting-out")
def begin(session: TheSession, unit: LengthUnit = "mm") -> BeginRow:
    """Return what setting out begins with."""
    folder = session.place or Path.home() / "workshop"
    return BeginRow(
        folder=str(folder),
        words=folder_words(folder),
        recent=tuple(str(one) for one in session.recent.folders()),
        steps=step_rows(unit),
        examples=example_rows(),
    )


@routes.post("/setting-out/check")
def check(given: StartedRow, session: TheSession) -> SetOutRow:
    """Return what is wrong with what was typed so far, and what can be drawn of it."""
    del session
    started = given.started()
    faults = tuple(fault_row(one) for one in start_faults(started))
    return SetOutRow(faults=faults, seen=seen_row(start_view(started), started.unit))


@routes.post("/setting-out/folder")
def look_at(given: FolderRow, session: TheSession) -> FolderWordsRow:
    """Return what a folder is; nothing is made."""
    del session
    folder = named_folder(given.folder)
    return FolderWordsRow(
        folder=str(folder), opens=holds_workshop(folder), words=folder_words(folder)
    )


@routes.post("/setting-out/own")
def start(given: OwnRow, session: TheSession) -> StateRow:
    """Write a workshop that was set out into a folder, and open it."""
    start_own(named_folder(given.folder), given.started.started())
    return _opened(session, given.folder)


@routes.post("/setting-out/example")
def copy(given: CopyRow, session: TheSession) -> StateRow:
    """Copy an example into a folder, and open it."""
    start_workshop(named_folder(given.folder), example=given.example)
    return _opened(session, given.folder)


@routes.post("/setting-out/open")
def open_folder(given: FolderRow, session: TheSession) -> StateRow:
    """Open the workshop in a folder."""
    return _opened(session, given.folder)


@routes.get("/setting-out/cards.pdf", response_class=Response)
def cards(
    session: TheSession,
    kinds: Annotated[str, Field(max_length=2_000)] = "",
    unit: LengthUnit = "mm",
) -> Response:
    """Return measuring cards to print; of all kinds when none are named."""
    paper = "letter" if unit == "in" else "a4"
    views = kind_cards(kinds, unit=unit)
    data = cards_pdf(views, title="Measuring cards", paper=paper, run=session.run())
    return Response(data, media_type="application/pdf")


def _opened(session: TheSession, folder: str) -> StateRow:
    session.open(named_folder(folder))
    now = session.workshop.now
    return state_row(now, session.document(now))
