"""Single changes of a document, each with what stood there when it was made.

A change says what it takes the place of. Where somebody else has written something there since,
it is refused; everywhere else changes of two people, or of a program and an editor, go together.
"""

from __future__ import annotations

from collections.abc import Mapping, MutableMapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias, cast

import tomlkit
from tomlkit.items import AoT, Array

from cleatwright.base.errors import ChangedMeanwhileError, DocumentError
from cleatwright.base.place import at as place_at
from cleatwright.workshop.document.editing import Step, Value, append_entry, into, item_of, put

Operation = Literal["set", "unset", "insert", "remove", "move"]
Plain: TypeAlias = "str | int | float | bool | list[Plain] | dict[str, Plain] | None"


@dataclass(frozen=True)
class DocumentChange:
    """One change.

    Args:
        operation: "set" and "unset" a key; "insert", "remove" and "move" a table of a row.
        path: Keys and numbers from 0, to the key, to the row of tables or to the table.
        value: What shall stand there; the table to insert; the number to move it to.
        was: What stood at a key, or the name of a table that is removed or moved; None where
            nothing stood there.
        guarded: Whether ``was`` counts.
        name: The name of the table of a row in which the key stands, by which it is found again
            when its number changed; "" when it has none.
    """

    operation: Operation
    path: tuple[Step, ...]
    value: Plain = None
    was: Plain = None
    guarded: bool = True
    name: str = ""


def apply_changes(document: tomlkit.TOMLDocument, changes: Sequence[DocumentChange]) -> None:
    """Make changes in a document, in their order.

    Args:
        document: Changed in place; it is of no use after an error.
        changes: What to do.

    Raises:
        ChangedMeanwhileError: Something else stands where one of them was to be made.
        DocumentError: A path that leads nowhere.
    """
    for change in changes:
        if not change.path or not isinstance(change.path[0], str):
            raise DocumentError("A change has no place", allowed="a path that begins with a key")
        _apply(document, change)


def _apply(document: tomlkit.TOMLDocument, change: DocumentChange) -> None:
    path = _found(document, change)
    match change.operation:
        case "set":
            _set(document, path, change)
        case "unset":
            _require(change, standing(document, path))
            if standing(document, path) is not None:
                _table_at(document, path[:-1]).pop(cast("str", path[-1]))
        case "insert":
            _insert(document, path, change)
        case "remove":
            rows, number = _row(document, path)
            _require(change, _name(rows[number]))
            del rows[number]
            if not len(rows):
                _table_at(document, path[:-2]).pop(cast("str", path[-2]))
        case "move":
            rows, number = _row(document, path)
            _require(change, _name(rows[number]))
            _move(rows, number, change.value)


def standing(document: Mapping[str, Any], path: Sequence[Step]) -> Plain:
    """Return what stands at a path, without its comments; None for nothing.

    >>> standing({"wall": {"width": 2400}}, ("wall", "width"))
    2400
    """
    found: Any = document
    for step in path:
        if isinstance(found, Mapping) and isinstance(step, str):
            found = cast("Mapping[Any, Any]", found).get(step)
        elif isinstance(found, list) and isinstance(step, int):
            rows = cast("list[Any]", found)
            found = rows[step] if 0 <= step < len(rows) else None
        else:
            return None
    return _plain(found)


def found_path(tables: Mapping[str, Any], change: DocumentChange) -> tuple[Step, ...] | None:
    """Return the path of a change with the number that its table has now.

    A table that is told by its name is found wherever it stands; None when it is gone, or when
    several have that name.
    """
    path = change.path
    if not change.name or change.operation == "insert" or len(path) < 2:
        return path
    if not isinstance(path[1], int):
        return path
    rows = standing(tables, path[:1])
    names = [_name(row) for row in rows] if isinstance(rows, list) else []
    if path[1] < len(names) and names[path[1]] == change.name:
        return path
    if names.count(change.name) == 1:
        return (path[0], names.index(change.name), *path[2:])
    return None


def _found(document: tomlkit.TOMLDocument, change: DocumentChange) -> tuple[Step, ...]:
    path = found_path(document, change)
    if path is None:
        raise _meanwhile(change, None)
    return path


def _set(document: tomlkit.TOMLDocument, path: tuple[Step, ...], change: DocumentChange) -> None:
    key = path[-1]
    if not isinstance(key, str):
        raise DocumentError("A value needs a key", allowed="a path that ends in a key")
    table = _table_at(document, path[:-1])
    _require(change, _plain(table.get(key)))
    value = _value(change.value)
    if isinstance(table.get(key), AoT) and isinstance(value, list):
        # a list on one line behind other tables would belong to the last of them
        del table[key]
        for entry in value:
            append_entry(cast("tomlkit.TOMLDocument", table), key, entry=cast("Any", entry))
        return
    put(table, key, item_of(value))


def _insert(document: tomlkit.TOMLDocument, path: tuple[Step, ...], change: DocumentChange) -> None:
    entry = _value(change.value)
    number = path[-1] if isinstance(path[-1], int) else None
    way = path[:-1] if number is not None else path
    if not isinstance(entry, Mapping) or not way or not isinstance(way[-1], str):
        raise DocumentError("An entry is a table, and stands in a row that has a name")
    table, key = _table_at(document, way[:-1]), way[-1]
    append_entry(cast("tomlkit.TOMLDocument", table), key, entry=entry)
    if number is not None:
        rows: Any = table[key]
        _move(rows, len(rows) - 1, number)


def _move(rows: Any, number: int, to: Plain) -> None:
    """Put a table of a row at another number; the comments inside it go along."""
    if not isinstance(to, int) or isinstance(to, bool):
        raise DocumentError("A table is moved to a number", allowed="a whole number, from 0")
    if not 0 <= to < len(rows):
        raise DocumentError(f"There is no place number {to + 1} in a row of {len(rows)}")
    entries = list(rows)
    entries.insert(to, entries.pop(number))
    for at in reversed(range(len(rows))):
        del rows[at]
    for one in entries:
        rows.append(one)


def _row(document: tomlkit.TOMLDocument, path: tuple[Step, ...]) -> tuple[Any, int]:
    rows, number = _at(document, path[:-1]), path[-1]
    if not isinstance(rows, (AoT, Array)) or not isinstance(number, int):
        raise DocumentError("The path does not lead to a table of a row")
    if not 0 <= number < len(cast("Any", rows)):
        raise DocumentError(f"There is no entry number {number + 1}")
    return rows, number


def _table_at(document: tomlkit.TOMLDocument, path: tuple[Step, ...]) -> MutableMapping[Any, Any]:
    found = _at(document, path)
    if not isinstance(found, MutableMapping):
        raise DocumentError("The path does not lead to a table", place=place_at(*path))
    return cast("MutableMapping[Any, Any]", found)


def _at(document: tomlkit.TOMLDocument, path: tuple[Step, ...]) -> Any:
    found: Any = document
    for step in path:
        found = into(found, step)
    return found


def _require(change: DocumentChange, stands: Plain) -> None:
    if change.guarded and stands != change.was:
        raise _meanwhile(change, stands)


def _meanwhile(change: DocumentChange, stands: Plain) -> ChangedMeanwhileError:
    now = "nothing" if stands is None else f"{stands}"
    return ChangedMeanwhileError(
        f"Somebody else changed it meanwhile: {now} stands there now",
        place=place_at(*change.path),
        todo="Look at both, and say which shall stand",
    )


def _plain(value: Any) -> Plain:
    """Return a value of a document without its comments."""
    return value.unwrap() if hasattr(value, "unwrap") else value


def _name(row: Any) -> str:
    found = _plain(row)
    return str(found.get("name", "")) if isinstance(found, dict) else ""


def _value(value: Plain) -> Value:
    """Return a value that can be written: nothing in it is left open."""
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    for one in inner:
        _value(one)
    if value is None:
        raise DocumentError("There is no value to set")
    return cast("Value", value)
