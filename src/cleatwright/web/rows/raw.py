"""What stands in a document as it is written, whether it can be read or not."""

from __future__ import annotations

from typing import TypeAlias, cast

from pydantic import JsonValue

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


def table_of(value: object) -> RawTable:
    """Return a table as it is, and an empty one for anything else."""
    return cast("RawTable", value) if isinstance(value, dict) else {}
