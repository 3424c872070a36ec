"""Changes to a TOML document that keep the owner's comments and order."""

from __future__ import annotations

from collections.abc import Mapping, MutableMapping, Sequence
from typing import Any, cast

import tomlkit
from tomlkit.container import Container
from tomlkit.items import AoT, Array, Key, Table

from cleatwright.base.errors import DocumentError, unknown_name

Step = str | int
Value = str | int | float | bool | Sequence["Value"] | Mapping[str, "Value"]


def append_tool(document: tomlkit.TOMLDocument, tool: Mapping[str, Value]) -> None:
    """Add a tool behind those that are there.

    Args:
        document: Changed in place.
        tool: The table, with the keys that the owner would write.
    """
    append_entry(document, "tool", entry=tool)


def append_entry(document: tomlkit.TOMLDocument, key: str, *, entry: Mapping[str, Value]) -> None:
    """Add a table to the row of tables ``[[key]]``, which is made when there is none.

    Raises:
        DocumentError: The document has something else under that key.
    """
    rows: Any = cast("Any", document).get(key)
    if rows is None:
        rows = tomlkit.aot()
        rows.append(_table(entry))
        cast("Any", document).append(key, rows)
    elif isinstance(rows, AoT):
        cast("Any", rows).append(_table(entry))
    elif isinstance(rows, Array):
        cast("Any", rows).append(item_of(entry))
    else:
        raise DocumentError(f'"{key}" is not a row of tables', allowed=f"[[{key}]]")


def set_value(document: tomlkit.TOMLDocument, path: Sequence[Step], *, value: Value) -> None:
    """Set one value, for example ("wall", "width") or ("tool", "Long nose", "measures", "neck").

    An entry of a row is found by its name or by its number, counted from 0. A
    table that is missing on the way is made.

    Raises:
        UnknownNameError: A row has no entry of that name.
        DocumentError: The path is empty or leads through something that is no table.
    """
    if not path or not isinstance(path[-1], str):
        raise DocumentError("A value needs a key", allowed="a path that ends in a key")
    at: Any = document
    for step in path[:-1]:
        at = into(at, step)
    if not isinstance(at, MutableMapping):
        raise DocumentError(f'"{path[-1]}" does not stand in a table')
    put(cast("MutableMapping[str, Any]", at), path[-1], item_of(value))


def put(table: MutableMapping[Any, Any], key: str, item: Any) -> None:
    """Set a key of a table; a new one stands behind the last key, before blank lines and comments.

    What stands behind a blank line, above the next heading, reads as if it belonged to that.
    """
    if key not in table and isinstance(table, (Table, Container)):
        container: Any = table.value if isinstance(table, Table) else table
        last = _last_key(container)
        if last is not None:
            container._insert_after(last, key, item)  # noqa: SLF001 - the library offers no other way
    table[key] = item


def _last_key(container: Container) -> Key | None:
    """Return the last key before the first table inside, or None."""
    last: Key | None = None
    for key, value in container.body:
        if key is None:
            continue
        if isinstance(value, (Table, AoT)):
            return None if key.is_dotted() else last
        last = key
    return last


def into(at: Any, step: Step) -> Any:
    """Return what lies one step deeper; a missing table is made.

    Raises:
        UnknownNameError: A row has no entry of that name.
        DocumentError: A row has no entry of that number, or it is no table.
    """
    if isinstance(at, (AoT, Array)):
        rows: Any = at
        number = step if isinstance(step, int) else _number(rows, step)
        if not 0 <= number < len(rows):
            raise DocumentError(f"There is no entry number {number + 1}")
        return rows[number]
    if isinstance(at, MutableMapping) and isinstance(step, str):
        table = cast("MutableMapping[str, Any]", at)
        if step not in table:
            table[step] = tomlkit.table() if isinstance(at, Table) else {}
        return table[step]
    raise DocumentError(f'"{step}" does not lead to a table')


def _number(rows: Any, name: str) -> int:
    """Return the number of the entry with that name."""
    names = [str(row.get("name", "")) for row in rows]
    if name not in names:
        raise unknown_name("entry", name, [one for one in names if one])
    return names.index(name)


def _table(entry: Mapping[str, Value]) -> Table:
    """Return a table; tables inside it stand on one line."""
    table = tomlkit.table()
    for key, value in entry.items():
        table.append(key, item_of(value))
    # an empty line keeps it apart from what comes behind it
    table.add(tomlkit.nl())
    return table


def item_of(value: Value) -> Any:
    """Return a value for the document; a mapping becomes a table on one line."""
    if isinstance(value, Mapping):
        inline: Any = tomlkit.inline_table()
        inline.update({key: item_of(one) for key, one in value.items()})
        return inline
    return tomlkit.item(value)
