"""What hangs and what was last made, read from and written to the tables of an open ledger."""

from __future__ import annotations

import sqlite3
from collections.abc import Generator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any

from cleatwright.base.gathering import in_file
from cleatwright.workshop.ledger.faults import told_of
from cleatwright.workshop.ledger.hung_entry import COLUMNS, COLUMNS_AT_FIRST, HungEntry
from cleatwright.workshop.ledger.hung_rail import RAIL_COLUMNS, HungRail
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import (
    HOLDER_COLUMNS,
    TOOL_COLUMNS,
    TOOL_COLUMNS_AT_FIRST,
    LastMade,
)
from cleatwright.workshop.ledger.made_wall import WALL_COLUMNS, MadeWall
from cleatwright.workshop.ledger.migrations import (
    FITTED_SINCE,
    GONE_SINCE,
    HUNG_AS_MADE_SINCE,
    HUNG_SINCE,
    KNOWN_SINCE,
    MADE_WALL_SINCE,
    RAILS_SINCE,
    READY_SINCE,
)
from cleatwright.workshop.ledger.ready_parts import READY_COLUMNS, ReadyParts

THERE: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "hung": COLUMNS,
        "hung_rails": RAIL_COLUMNS,
        "hung_tools": TOOL_COLUMNS,
        "hung_holders": HOLDER_COLUMNS,
        "ready_parts": READY_COLUMNS,
    }
)
"""The tables that say what hangs and what lies ready, with their columns."""


@dataclass(frozen=True)
class WhatIsThere:
    """What hangs and what lies ready, row by row: to be put back as it was."""

    rows: tuple[tuple[str, tuple[tuple[object, ...], ...]], ...] = tuple(
        (table, ()) for table in THERE
    )


@contextmanager
def one_moment(connection: sqlite3.Connection, path: Path) -> Generator[None]:
    """Let all that the block reads be as it was at one moment, and its errors name the ledger."""
    with in_file(str(path)), told_of(path), connection:
        connection.execute("BEGIN")
        yield


def hung_in(connection: sqlite3.Connection, *, found: int) -> WhatHangs:
    """Return what hangs by a ledger of the version ``found``, read inside ``one_moment``.

    Raises:
        LedgerError: An entry is malformed.
    """
    if found < FITTED_SINCE:
        first = COLUMNS_AT_FIRST if found < READY_SINCE else COLUMNS[:-1]
        old = _rows(connection, "hung", first, there=found >= HUNG_SINCE)
        none = ["[]"] * (len(COLUMNS) - len(first))
        hung: list[Any] = [(*row, *none) for row in old]
    else:
        hung = _rows(connection, "hung", COLUMNS, there=True)
    runs = _rows(connection, "hung_rails", RAIL_COLUMNS, there=found >= RAILS_SINCE)
    kept = WhatHangs(
        tuple(HungEntry.of_row(row) for row in hung), tuple(HungRail.of_row(row) for row in runs)
    )
    kept.require_sound()
    return kept.ordered


def ready_in(connection: sqlite3.Connection, *, found: int) -> ReadyParts:
    """Return what lies ready, read inside ``one_moment``.

    Raises:
        LedgerError: An entry is malformed.
    """
    rows = _rows(connection, "ready_parts", READY_COLUMNS, there=found >= READY_SINCE)
    return ReadyParts.of_rows(rows)


def there_in(connection: sqlite3.Connection) -> WhatIsThere:
    """Return what hangs and what lies ready by a ledger of the latest version."""
    return WhatIsThere(
        tuple(
            (table, tuple(sorted(_rows(connection, table, columns, there=True), key=repr)))
            for table, columns in THERE.items()
        )
    )


def write_there(connection: sqlite3.Connection, wanted: WhatIsThere) -> None:
    """Put what hangs and lies ready in place of what did, inside a transaction."""
    for table, rows in wanted.rows:
        _replace(connection, table, THERE[table], rows)


def write_ready(connection: sqlite3.Connection, wanted: ReadyParts) -> None:
    """Put what lies ready in place of what did, inside a transaction."""
    _replace(connection, "ready_parts", READY_COLUMNS, [one.row() for one in wanted.parts])


def last_made_in(connection: sqlite3.Connection, *, found: int) -> LastMade:
    """Return what was last made, and what hangs beside it, read inside ``one_moment``.

    Raises:
        LedgerError: An entry is malformed.
    """
    numbers = _rows(connection, "last_number", ("number",), there=found >= KNOWN_SINCE)
    made = _known(connection, "known", numbers, found=found, since=KNOWN_SINCE)
    hung = _known(connection, "hung", (), found=found, since=HUNG_AS_MADE_SINCE)
    return made.with_what_hangs(hung)


def made_wall_in(connection: sqlite3.Connection, *, found: int) -> MadeWall:
    """Return where everything was to hang when it was last made, read inside ``one_moment``.

    Raises:
        LedgerError: It is malformed.
    """
    rows = _rows(connection, "made_wall", WALL_COLUMNS, there=found >= MADE_WALL_SINCE)
    return MadeWall.of_row(rows[0][0]) if rows else MadeWall()


def _known(
    connection: sqlite3.Connection,
    prefix: str,
    numbers: Sequence[tuple[int]],
    *,
    found: int,
    since: int,
) -> LastMade:
    table, there = f"{prefix}_tools", found >= since
    if found < GONE_SINCE:
        old = _rows(connection, table, TOOL_COLUMNS_AT_FIRST, there=there)
        tools = [(*row, 0) for row in old]
    else:
        tools = _rows(connection, table, TOOL_COLUMNS, there=True)
    holders = _rows(connection, f"{prefix}_holders", HOLDER_COLUMNS, there=there)
    # of what hangs the highest number is that of a holder
    given = numbers or [(row[0],) for row in holders]
    return LastMade.of_rows(tools, holders, max([0, *(int(number) for (number,) in given)]))


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


def write_made_wall(connection: sqlite3.Connection, wanted: MadeWall) -> None:
    """Put where everything is to hang in place of where it was to, inside a transaction."""
    _replace(connection, "made_wall", WALL_COLUMNS, [wanted.row()])


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
