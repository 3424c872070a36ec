"""The settings of the workshop: a form for each table, made of what is described of it."""

from __future__ import annotations

from typing import cast

from fastapi import APIRouter
from pydantic import Field, JsonValue

from cleatwright.base.place import InDocument, plain_path
from cleatwright.jobs.settings import ELSEWHERE, added, removed, settings_tables, typed_change
from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.rows.fields import FormRow, table_row
from cleatwright.web.rows.row import FaultRow, Row, Step, fault_row
from cleatwright.web.rows.state import ChangesRow, change_row
from cleatwright.workshop.document.changes import DocumentChange, Plain
from cleatwright.workshop.document.own_unit import UNITS, in_other_unit, unit_of

routes = APIRouter(tags=["settings"])


class SettingsRow(Row):
    """Every table of the settings, and what is wrong in them."""

    tables: tuple[FormRow, ...]
    faults: tuple[FaultRow, ...]


class TypedRow(Row):
    """What a person typed into a field, and what stood there."""

    path: tuple[Step, ...] = Field(min_length=1, max_length=12)
    text: str = Field(max_length=2_000)
    was: JsonValue = None


class AddedRow(Row):
    """A row to add to a table of the settings: its name in the heading, and what was typed."""

    path: tuple[Step, ...] = Field(min_length=1, max_length=12)
    name: str = Field("", max_length=80)
    typed: dict[str, str] = Field(max_length=40)


class RemovedRow(Row):
    """A row, or a table by its name, to take away."""

    path: tuple[Step, ...] = Field(min_length=2, max_length=12)
    title: str = Field(max_length=160)


@routes.get("/settings")
def settings(session: TheSession) -> SettingsRow:
    """Return the settings of the workshop."""
    document = session.document()
    raw, unit = document.raw, unit_of(document.raw)
    run = session.run()
    faults = session.tools(document, run).faults
    return SettingsRow(
        tables=tuple(table_row(one, raw, unit) for one in settings_tables(raw)),
        faults=tuple(
            fault_row(one)
            for one in faults
            if isinstance(one.place, InDocument)
            and any(plain_path(path)[0] not in ELSEWHERE for path in one.place.paths if path)
        ),
    )


@routes.post("/settings/typed")
def typed(given: TypedRow, session: TheSession) -> ChangesRow:
    """Return the change that writes what was typed, unless it is wrong; nothing is written."""
    raw = session.document().raw
    change = typed_change(raw, given.path, given.text, was=cast("Plain", given.was))
    if change.path == UNITS and change.operation == "set":
        # what was measured stays what it is: 200 becomes 200 mm
        changes = in_other_unit(raw, unit_of({"units": change.value})) or (change,)
        inches = change.value == "in"
        return _changes(changes, f"counting in {'inches' if inches else 'mm'} from now on")
    return _changes((change,), " ".join(map(str, given.path)).replace("_", " "))


@routes.post("/settings/added")
def add(given: AddedRow, session: TheSession) -> ChangesRow:
    """Return the changes that add a row to a table of the settings; nothing is written."""
    raw = session.document().raw
    changes = added(raw, given.path, name=given.name, typed=given.typed)
    return _changes(changes, f"{given.path[-1]} {given.name} added".replace("  ", " "))


@routes.post("/settings/removed")
def remove(given: RemovedRow, session: TheSession) -> ChangesRow:
    """Return the change that takes a row, or a table by its name, away; nothing is written."""
    raw = session.document().raw
    return _changes((removed(raw, given.path),), f"{given.title} taken away")


def _changes(changes: tuple[DocumentChange, ...], label: str) -> ChangesRow:
    return ChangesRow(changes=tuple(change_row(one) for one in changes), label=label, key="")
