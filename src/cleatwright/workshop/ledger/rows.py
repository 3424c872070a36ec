"""What hangs and what was last made, read from and written to the tables of an open ledger."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from cleatwright.base.gathering import in_file
from cleatwright.workshop.ledger.faults import told_of
from cleatwright.workshop.ledger.hung_entry import COLUMNS, HungEntry
from cleatwright.workshop.ledger.hung_rail import RAIL_COLUMNS, HungRail
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import HOLDER_COLUMNS, TOOL_COLUMNS, LastMade
from cleatwright.workshop.ledger.migrations import (
    HUNG_AS_MADE_SINCE,
    HUNG_SINCE,
    KNOWN_SINCE,
    RAILS_SINCE,
)


def hung_in(connection: sqlite3.Connection, path: Path, *, found: int) -> WhatHangs:
    """Return what hangs by a ledger of the version ``found``.

    Raises:
        LedgerError: It cannot be read, or an entry is malformed.
    """
    with told_of(path), connection:
        # both as they were at one moment
        connection.execute("BEGIN")
        hung = _rows(connection, "hung", COLUMNS, there=found >= HUNG_SINCE)
        runs = _rows(connection, "hung_rails", RAIL_COLUMNS, there=found >= RAILS_SINCE)
    with in_file(str(path)):
        kept = WhatHangs(
            tuple(HungEntry.of_row(row) for row in hung),
            tuple(HungRail.of_row(row) for row in runs),
        )
        kept.require_sound()
    return kept.ordered


def last_made_in(connection: sqlite3.Connection, path: Path, *, found: int) -> LastMade:
    """Return what was last made, and what hangs beside it, by a ledger of the version ``found``.

    Raises:
        LedgerError: It cannot be read, or an entry is malformed.
    """
    hangs = _hung_as_made_in(connection, path, found=found)
    return _made_in(connection, path, found=found).with_what_hangs(hangs)


def _made_in(connection: sqlite3.Connection, path: Path, *, found: int) -> LastMade:
    there = found >= KNOWN_SINCE
    with told_of(path), connection:
        # all as they were at one moment
        connection.execute("BEGIN")
        tools = _rows(connection, "known_tools", TOOL_COLUMNS, there=there)
        holders = _rows(connection, "known_holders", HOLDER_COLUMNS, there=there)
        numbers = _rows(connection, "last_number", ("number",), there=there)
    last = max([0, *(int(number) for (number,) in numbers)])
    with in_file(str(path)):
        return LastMade.of_rows(tools, holders, last)


def _hung_as_made_in(connection: sqlite3.Connection, path: Path, *, found: int) -> LastMade:
    there = found >= HUNG_AS_MADE_SINCE
    with told_of(path), connection:
        connection.execute("BEGIN")
        tools = _rows(connection, "hung_tools", TOOL_COLUMNS, there=there)
        holders = _rows(connection, "hung_holders", HOLDER_COLUMNS, there=there)
    last = max([0, *(int(row[0]) for row in holders)])
    return LastMade.of_rows(tools, holders, last)


def write_hung_as_made(connection: sqlite3.Connection, wanted: LastMade) -> None:
    """Put the tools and holders that hang in place of those that hung, inside a transaction."""
    _replace(connection, "hung_tools", TOOL_COLUMNS, wanted.tool_rows())
    _replace(connection, "hung_holders", HOLDER_COLUMNS, wanted.holder_rows())


def write_hung(connection: sqlite3.Connection, wanted: WhatHangs) -> None:
    """Put what hangs in place of what hung, inside a transaction."""
    ordered = wanted.ordered
    _replace(connection, "hung", COLUMNS, [entry.row() for entry in ordered.holders])
    _replace(connection, "hung_rails", RAIL_COLUMNS, [rail.row() for rail in ordered.rails])


def write_last_made(connection: sqlite3.Connection, wanted: LastMade) -> None:
    """Put what was last made in place of what was kept before, inside a transaction."""
    _replace(connection, "known_tools", TOOL_COLUMNS, wanted.tool_rows())
    _replace(connection, "known_holders", HOLDER_COLUMNS, wanted.holder_rows())
    _replace(connection, "last_number", ("number",), [(wanted.last_number,)])


def _rows(
    connection: sqlite3.Connection, table: str, columns: Sequence[str], *, there: bool
) -> list[Any]:
    if not there:
        return []
    return connection.execute(f"SELECT {', '.join(columns)} FROM {table}").fetchall()  # noqa: S608 - own names


def _replace(
    connection: sqlite3.Connection,
    table: str,
    columns: Sequence[str],
    rows: Sequence[tuple[object, ...]],
) -> None:
    places = ", ".join("?" for _ in columns)
    connection.execute(f"DELETE FROM {table}")  # noqa: S608 - own names
    connection.executemany(
        f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({places})",  # noqa: S608 - own names
        rows,
    )
