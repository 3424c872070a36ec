"""What stands in a document as it is written, whether it can be read or not."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeAlias, cast

from pydantic import JsonValue

from cleatwright.base.errors import DocumentError

RawTable: TypeAlias = dict[str, JsonValue]


def text_of(value: object) -> str:
    """Return a value as text; nothing for none."""
    if value is None:
        return ""
    return f"{value:g}" if isinstance(value, float) else str(value)


def list_of(value: object) -> list[JsonValue]:
    """Return a list as it is, and an empty one for anything else."""
    return cast("list[JsonValue]", value) if isinstance(value, list) else []


def tables_of(value: object) -> list[RawTable]:
    """Return the tables of a list, without what is none."""
    return [cast("RawTable", one) for one in list_of(value) if isinstance(one, dict)]


def entry_at(raw: Mapping[str, Any], table: str, number: int) -> RawTable:
    """Return one table of a row.

    Args:
        raw: The document as plain tables.
        table: The name of the row.
        number: The number of the table, from 0.

    Raises:
        DocumentError: There is no such table.
    """
    rows = tables_of(raw.get(table))
    if not 0 <= number < len(rows):
        raise DocumentError(f"There is no [[{table}]] number {number + 1}")
    return rows[number]


def table_of(value: object) -> RawTable:
    """Return a table as it is, and an empty one for anything else."""
    return cast("RawTable", value) if isinstance(value, dict) else {}
