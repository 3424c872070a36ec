"""Keys of the document as fields of a form, made of what is described of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from pydantic import Field, JsonValue

from cleatwright.base.lengths import LengthUnit, Wording, bounds_words, measured_length
from cleatwright.jobs.settings import Path, SettingsTable
from cleatwright.web.rows.row import Row, Step
from cleatwright.web.rows.sentence import Sentence
from cleatwright.workshop.document.changes import Plain, standing
from cleatwright.workshop.document.described import DescribedField, Takes
from cleatwright.workshop.document.typed import shown

_UNITS: Mapping[str, str] = {"angle": "deg", "mass": "g"}


class FieldRow(Row):
    """One key: what it is for, what it takes, and what stands there."""

    path: tuple[Step, ...]
    title: str
    words: Sentence
    takes: Takes
    many: int
    unit: str
    bounds: str
    why: Sentence
    choices: tuple[str, ...]
    needed: bool
    usual: str
    raw: JsonValue
    shown: str


class FormRow(Row):
    """One table of the settings."""

    path: tuple[Step, ...]
    title: str
    words: Sentence
    fields: tuple[FieldRow, ...]
    grows: str
    row: tuple[FieldRow, ...]
    removable: bool
    flat: bool = Field(description="whether it grows by rows, each of which has room in one line")
    name: str


def field_row(
    field: DescribedField, path: Path, unit: LengthUnit, *, stands: Plain = None
) -> FieldRow:
    """Return a key as a field, with what stands there."""
    words = Wording(unit)
    return FieldRow(
        path=(*path, field.key),
        title=field.key.replace("_", " "),
        words=words(field.words),
        takes=field.takes,
        many=field.many,
        unit=unit if field.takes == "length" else _UNITS.get(field.takes, ""),
        bounds=_bounds(field, unit),
        why=words(field.why),
        choices=("yes", "no") if field.takes == "flag" else field.choices,
        needed=field.needed,
        usual=_usual(field, unit),
        raw=cast("JsonValue", stands),
        shown=shown(stands),
    )


def table_row(table: SettingsTable, raw: Mapping[str, Plain], unit: LengthUnit) -> FormRow:
    """Return a table of the settings with what stands in it."""
    name = standing(raw, (*table.path, "name")) if table.removable else None
    last = table.path[-1] if table.removable else ""
    return FormRow(
        path=table.path,
        title=table.title,
        words=Wording(unit)(table.words),
        fields=tuple(
            field_row(one, table.path, unit, stands=standing(raw, (*table.path, one.key)))
            for one in table.fields
        ),
        grows=table.grows,
        row=tuple(field_row(one, table.path, unit) for one in table.row),
        removable=table.removable,
        flat=table.flat,
        name=name if isinstance(name, str) else last if isinstance(last, str) else "",
    )


def _bounds(field: DescribedField, unit: LengthUnit) -> str:
    if field.low is None or field.high is None:
        return ""
    if field.takes == "length":
        return bounds_words(field.low, field.high, unit)
    return f"{field.low:g} to {field.high:g}"


def _usual(field: DescribedField, unit: LengthUnit) -> str:
    """Return what holds where nothing is written, as a person would type it."""
    value = field.default
    if field.takes == "length" and isinstance(value, (int, float)):
        return measured_length(value, unit)
    return shown(value)
