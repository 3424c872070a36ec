"""What differs between two texts of a document, each with the change that takes it back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, cast

from cleatwright.base.lengths import in_a_row
from cleatwright.workshop.document.changes import DocumentChange, Plain
from cleatwright.workshop.document.editing import Step
from cleatwright.workshop.document.toml_text import ROWS


@dataclass(frozen=True)
class DocumentDifference:
    """One thing that stands otherwise, or only on one side.

    Args:
        path: Keys and numbers from 0, as they are afterwards; as they were where it is gone.
        name: The name of the table of a row in which it stands, or "".
        before: What stood there; None for nothing.
        after: What stands there; None for nothing.
        back: The change that brings back what stood there.
    """

    path: tuple[Step, ...]
    name: str
    before: Plain
    after: Plain
    back: DocumentChange


def differences(
    before: Mapping[str, Any], after: Mapping[str, Any]
) -> tuple[DocumentDifference, ...]:
    """Return what differs between two documents as plain tables.

    Rows of tools, holders and the like are told by their names, and other rows by their numbers
    where there are as many as before; else the whole row is one difference. Made one after the
    other from the last to the first, the changes back bring all of it back.

    >>> [one.path for one in differences({"rail": {"kerf": 3}}, {"rail": {"kerf": 2}})]
    [('rail', 'kerf')]
    """
    return tuple(_in_table(before, after, ()))


def summary(found: Sequence[DocumentDifference]) -> str:
    """Return what differs in a few words; "" where nothing does.

    >>> summary(differences({}, {"tool": [{"name": "A"}, {"name": "B"}], "rail": {"kerf": 2}}))
    '2 tools and the rail'
    """
    rows = Counter(str(one.path[0]) for one in found if one.path[0] in ROWS and len(one.path) > 1)
    tables = {one.path[0]: None for one in found if one.path[0] not in rows}
    names = {
        str(key): len({one.name for one in found if one.path[0] == key and len(one.path) > 1})
        for key in rows
    }
    told = [f"{count} {key}{'' if count == 1 else 's'}" for key, count in names.items()]
    told += [f"the {key}" for key in tables]
    return in_a_row(told) if told else ""


def _in_table(
    before: Mapping[str, Any], after: Mapping[str, Any], path: tuple[Step, ...], name: str = ""
) -> Iterator[DocumentDifference]:
    for key in dict.fromkeys((*before, *after)):
        here = (*path, key)
        old, new = cast("Plain", before.get(key)), cast("Plain", after.get(key))
        if old == new and key in before and key in after and _same_kind(old, new):
            continue
        if isinstance(old, dict) and isinstance(new, dict):
            yield from _in_table(old, new, here, name)
        elif (pairs := _pairs(old, new)) and not (not path and _rows_by_name(old, new)):
            for number, (one, other) in enumerate(pairs):
                yield from _in_table(one, other, (*here, number), name)
        elif not path and key in ROWS and (rows := _rows_by_name(old, new)) is not None:
            yield from _in_rows(*rows, key)
        else:
            operation = "unset" if key not in before else "set"
            back = DocumentChange(operation, here, value=old, was=new, name=name)
            yield DocumentDifference(here, name, old, new, back)


def _same_kind(one: object, other: object) -> bool:
    """Tell whether equal values are written alike: 1, 1.0 and true are equal."""
    return repr(one) == repr(other)


def _pairs(old: Plain, new: Plain) -> list[tuple[dict[str, Plain], dict[str, Plain]]]:
    """Return the tables of two rows side by side, where both have as many."""
    if not isinstance(old, list) or not isinstance(new, list) or len(old) != len(new):
        return []
    both = zip(old, new, strict=True)
    pairs = [(a, b) for a, b in both if isinstance(a, dict) and isinstance(b, dict)]
    return pairs if len(pairs) == len(old) else []


def _rows_by_name(old: Plain, new: Plain) -> tuple[list[Any], list[Any]] | None:
    """Return two rows of tables whose tables can be told by their names, or None."""
    rows: list[Any] = [[] if one is None else one for one in (old, new)]
    names = [_names(one) for one in rows]
    if any(found is None or len({*found}) < len(found) for found in names):
        return None
    mine, others = cast("list[list[str]]", names)
    shared = [name for name in mine if name in others]
    if shared != [name for name in others if name in mine]:
        return None
    return rows[0], rows[1]


def _names(rows: Any) -> list[str] | None:
    if not isinstance(rows, list):
        return None
    listed = cast("list[Any]", rows)
    if not all(isinstance(row, dict) for row in listed):
        return None
    names = [cast("dict[str, Any]", row).get("name") for row in listed]
    return (
        cast("list[str]", names) if all(isinstance(name, str) and name for name in names) else None
    )


def _in_rows(old: list[Any], new: list[Any], key: str) -> Iterator[DocumentDifference]:
    was = {row["name"]: row for row in old}
    there = {row["name"]: (number, row) for number, row in enumerate(new)}
    kept = 0
    # back from the last to the first: what is gone comes back between those that are kept
    for number, (name, row) in enumerate(was.items()):
        if name in there:
            kept += 1
            continue
        back = DocumentChange("insert", (key, kept), value=row, name=name)
        yield DocumentDifference((key, number), name, row, None, back)
    for name, (number, row) in there.items():
        if name not in was:
            back = DocumentChange("remove", (key, number), was=name, name=name)
            yield DocumentDifference((key, number), name, None, row, back)
    for name, (number, row) in there.items():
        if name in was:
            yield from _in_table(was[name], row, (key, number), name)
