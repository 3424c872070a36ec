"""What another program changed, for the page beside which it did."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from cleatwright.project.opened.opened import Outside
from cleatwright.web.rows.row import Row, Step
from cleatwright.web.rows.state import ChangeRow, change_row
from cleatwright.workshop.document.changes import DocumentChange, Plain, found_path, standing
from cleatwright.workshop.document.differences import DocumentDifference, differences
from cleatwright.workshop.document.toml_text import toml_tables
from cleatwright.workshop.document.typed import shown

LONGEST = 80


class DifferenceRow(Row):
    """One thing that another program changed, and the change that takes it back."""

    path: tuple[Step, ...]
    name: str
    words: str
    before: str
    after: str
    still: bool
    back: ChangeRow


class OutsideRow(Row):
    """What another program changed since somebody last saw it."""

    rows: tuple[DifferenceRow, ...]


def found_outside(outside: Outside) -> tuple[DocumentDifference, ...]:
    """Return what another program changed."""
    texts = (outside.before, outside.after)
    before, after = (toml_tables(text, file="workshop.toml") for text in texts)
    return differences(before, after)


def difference_row(one: DocumentDifference, stands: Mapping[str, Any]) -> DifferenceRow:
    """Return one thing that another program changed, as it is told to a person.

    Args:
        one: The difference.
        stands: The document as it is now, which may have changed since.
    """
    path = found_path(stands, DocumentChange("set", one.path, name=one.name))
    now = None if path is None else standing(stands, path)
    return DifferenceRow(
        path=one.path,
        name=one.name,
        words=_words(one),
        before=_told(one.before),
        after=_told(one.after),
        still=(None if one.after is None and path is None else now) == one.after,
        back=change_row(one.back),
    )


def _told(value: Plain) -> str:
    if isinstance(value, dict):
        value = {key: one for key, one in value.items() if key != "name"}
    words = shown(value)
    return words if len(words) <= LONGEST else f"{words[:LONGEST]} ..."


def _words(one: DocumentDifference) -> str:
    """Return where a difference is: "neck of Long nose", "wall stud 2 x", "tool Awl"."""
    steps = [str(s + 1) if isinstance(s, int) else s.replace("_", " ") for s in one.path]
    if not one.name:
        return " ".join(steps)
    return f"{steps[0]} {one.name}" if len(steps) == 2 else f"{' '.join(steps[2:])} of {one.name}"
