"""The state of the open workshop, and what a page sends to change it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal, cast

from pydantic import Field, JsonValue

from cleatwright.base.lengths import LengthUnit, show_length
from cleatwright.project.opened.document import ReadDocument
from cleatwright.project.opened.opened import Opened, Outside
from cleatwright.web.rows.row import FaultRow, Row, Step, fault_row
from cleatwright.workshop.document.changes import DocumentChange
from cleatwright.workshop.document.differences import differences, summary
from cleatwright.workshop.document.own_unit import unit_of
from cleatwright.workshop.document.toml_text import toml_tables

MOVES_MM: Mapping[LengthUnit, tuple[float, float]] = MappingProxyType(
    {"mm": (1.0, 10.0), "in": (25.4 / 16, 25.4 / 2)}
)
OUTSIDE_ONLY_WORDS = "comments or order alone"


class ChangeRow(Row):
    """One change of the document; see ``workshop.document.changes``."""

    operation: Literal["set", "unset", "insert", "remove", "move"]
    path: tuple[Step, ...] = Field(min_length=1, max_length=12)
    value: JsonValue = None
    was: JsonValue = None
    guarded: bool = True
    name: str = ""

    def change(self) -> DocumentChange:
        """Return it as a change of the document."""
        return DocumentChange(
            self.operation, self.path, self.value, self.was, self.guarded, self.name
        )


def change_row(change: DocumentChange) -> ChangeRow:
    """Return a change of the document as a row."""
    return ChangeRow(
        operation=change.operation,
        path=change.path,
        value=cast("JsonValue", change.value),
        was=cast("JsonValue", change.was),
        guarded=change.guarded,
        name=change.name,
    )


class ChangesRow(Row):
    """Changes that are one step of undo."""

    changes: tuple[ChangeRow, ...] = Field(min_length=1, max_length=20_000)
    label: str = Field(max_length=200)
    key: str = Field("", max_length=200)


class MovingRow(Row):
    """By how much something on the wall is moved at a time."""

    fine_mm: float = Field(description="by a key, and what a place is rounded to")
    fine: str
    coarse_mm: float = Field(description="by a key with Shift")
    coarse: str


class StateRow(Row):
    """At which revision the document is."""

    instance: str
    number: int
    name: str
    unit: Literal["mm", "in"]
    moving: MovingRow
    folder: str
    undoes: str
    redoes: str
    readable: bool = Field(description="whether the file on the disk can be taken over")
    fault: FaultRow | None
    outside: str = Field(description='what another program changed, such as "2 tools", or ""')


def state_row(now: Opened, document: ReadDocument) -> StateRow:
    """Return the state of a revision."""
    name = document.raw.get("name")
    unit = unit_of(document.raw)
    return StateRow(
        instance=now.instance,
        number=now.number,
        name=name if isinstance(name, str) else document.path.parent.name,
        unit=unit,
        moving=moving_row(unit),
        folder=str(document.path.parent),
        undoes=now.undoes,
        redoes=now.redoes,
        readable=now.fault is None,
        fault=None if now.fault is None else fault_row(now.fault),
        outside="" if now.outside is None else outside_words(now.outside),
    )


def moving_row(unit: LengthUnit) -> MovingRow:
    """Return the steps on the wall: 1 and 10 mm, or what an inch rule is read to, and 1/2 in.

    >>> moving_row("in").fine, moving_row("in").coarse, moving_row("mm").coarse
    ('1/16 in', '1/2 in', '10 mm')
    """
    fine, coarse = MOVES_MM[unit]
    return MovingRow(
        fine_mm=fine,
        fine=show_length(fine, unit),
        coarse_mm=coarse,
        coarse=show_length(coarse, unit),
    )


def outside_words(outside: Outside) -> str:
    """Return what another program changed, in a few words."""
    before, after = (
        toml_tables(text, file="workshop.toml") for text in (outside.before, outside.after)
    )
    return summary(differences(before, after)) or OUTSIDE_ONLY_WORDS
