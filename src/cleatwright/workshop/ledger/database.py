"""The ledger: which part mark stands for which recipe, and what hangs where.

``ledger.db`` lies in the workshop folder. It is never overwritten or deleted;
a damaged one is copied aside before anything else is said.
"""

from __future__ import annotations

import datetime as dt
import filecmp
import json
import shutil
import sqlite3
from collections.abc import Generator
from contextlib import closing, contextmanager
from dataclasses import astuple, dataclass, fields
from pathlib import Path
from typing import Any

from cleatwright.base.errors import LedgerError
from cleatwright.base.keys import read_mark
from cleatwright.workshop.ledger.hung_entry import COLUMNS, HungEntry
from cleatwright.workshop.ledger.hung_rail import RAIL_COLUMNS, HungRail
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.migrations import (
    HUNG_SINCE,
    LATEST,
    RAILS_SINCE,
    all_or_nothing,
    migrate,
    version,
)

FILE_NAME = "ledger.db"
BUSY_SECONDS = 0.5
_DAMAGED = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}
_LOCKED = {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}


@dataclass(frozen=True)
class MarkEntry:
    """One part mark and what is needed to make the part again.

    Args:
        mark: The part mark in its normal spelling.
        content_key: The key from which the mark was made.
        recipe_json: Family, parameters and tools, as JSON.
        family: Name of the family.
        leading: Leading dimensions in drawing notation.
        first_seen: ISO date on which the mark was first made.
        made_with: Version of the program; empty in entries from before it was kept.
    """

    mark: str
    content_key: str
    recipe_json: str
    family: str
    leading: str
    first_seen: str
    made_with: str = ""


_COLUMNS = ", ".join(field.name for field in fields(MarkEntry))
_PLACES = ", ".join("?" for _ in fields(MarkEntry))
_HUNG_COLUMNS = ", ".join(COLUMNS)
_HUNG_PLACES = ", ".join("?" for _ in COLUMNS)
_RAIL_COLUMNS = ", ".join(RAIL_COLUMNS)
_RAIL_PLACES = ", ".join("?" for _ in RAIL_COLUMNS)


class Ledger:
    """An open ledger; get one from ``open_ledger``."""

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self._connection = connection
        self._path = path

    def record(self, entry: MarkEntry) -> bool:
        """Keep an entry and return True, or return False when the mark is there already.

        The first entry of a mark stays as it is.

        Raises:
            LedgerError: The mark stands for another key, an entry is malformed, or the
                ledger cannot be written.
        """
        self._check(entry)
        with _told(self._path):
            cursor = self._connection.execute(
                f"INSERT INTO marks ({_COLUMNS}) VALUES ({_PLACES}) "  # noqa: S608 - own names
                "ON CONFLICT (mark) DO NOTHING",
                astuple(entry),
            )
        if cursor.rowcount == 1:
            return True
        known = self.recipe(entry.mark)
        if known is None or known.content_key != entry.content_key:
            raise LedgerError(
                f'The mark "{entry.mark}" already stands for another part',
                where=str(self._path),
                todo="Change a parameter a little; then the part gets another mark",
            )
        return False

    def recipe(self, mark: str) -> MarkEntry | None:
        """Return the entry of a mark, or None when it was never recorded.

        Raises:
            LedgerError: The ledger cannot be read.
        """
        with _told(self._path):
            row = self._connection.execute(
                f"SELECT {_COLUMNS} FROM marks WHERE mark = ?",  # noqa: S608 - own names
                (read_mark(mark) or mark,),
            ).fetchone()
        return MarkEntry(*row) if row else None

    def all_marks(self) -> tuple[MarkEntry, ...]:
        """Return every entry, in the order of the marks.

        Raises:
            LedgerError: The ledger cannot be read.
        """
        with _told(self._path):
            rows = self._connection.execute(
                f"SELECT {_COLUMNS} FROM marks ORDER BY mark"  # noqa: S608 - own names
            ).fetchall()
        return tuple(MarkEntry(*row) for row in rows)

    def hung(self) -> WhatHangs:
        """Return what hangs now, in order.

        Raises:
            LedgerError: The ledger cannot be read, or an entry is malformed.
        """
        return _hung(self._connection, self._path, found=LATEST)

    def replace_hung(self, wanted: WhatHangs) -> None:
        """Keep this as what hangs now; what hung before is forgotten. All, or nothing.

        Raises:
            LedgerError: An entry is malformed, a tool hangs in two places, two rails have one
                name, or the ledger cannot be written; then what was there stays.
        """
        wanted.require_sound(where=str(self._path))
        ordered = wanted.ordered
        connection = self._connection
        with _told(self._path), all_or_nothing(connection):
            connection.execute("DELETE FROM hung")
            connection.execute("DELETE FROM hung_rails")
            connection.executemany(
                f"INSERT INTO hung ({_HUNG_COLUMNS}) VALUES ({_HUNG_PLACES})",  # noqa: S608 - own names
                [entry.row() for entry in ordered.holders],
            )
            connection.executemany(
                f"INSERT INTO hung_rails ({_RAIL_COLUMNS}) VALUES ({_RAIL_PLACES})",  # noqa: S608 - own names
                [rail.row() for rail in ordered.rails],
            )

    def _check(self, entry: MarkEntry) -> None:
        """Refuse an entry that could not be resolved later."""
        if read_mark(entry.mark) != entry.mark:
            raise LedgerError(f'"{entry.mark}" is not a part mark', where=str(self._path))
        try:
            dt.date.fromisoformat(entry.first_seen)
            json.loads(entry.recipe_json)
        except ValueError as error:
            raise LedgerError(
                f'The entry of the mark "{entry.mark}" is malformed ({error})',
                where=str(self._path),
                allowed="an ISO date and a recipe in JSON",
            ) from None


def has_ledger(folder: Path) -> bool:
    """Return whether a workshop folder has a ledger yet.

    Raises:
        LedgerError: Something that is no file, or a link that leads nowhere or out of the
            folder, stands in its place, or nobody may look.
    """
    path = folder / FILE_NAME
    try:
        if path.is_symlink():
            _require_inside(path)
        if path.is_file():
            return True
        blocked = path.exists()
    except OSError as error:
        raise LedgerError(
            f"The ledger cannot be read: {error.strerror}",
            where=str(path),
            todo="Get the right to read it, and try again",
        ) from error
    if blocked:
        raise LedgerError(
            f"A {'folder' if path.is_dir() else 'thing that is no file'} is in the ledger's place",
            where=str(path),
            todo="Move it away; if there was a ledger, put it back",
        )
    return False


def _require_inside(link: Path) -> None:
    """Refuse a link that leads nowhere, to itself or out of the folder of the workshop."""
    try:
        target = link.resolve(strict=True)
    except FileNotFoundError:
        fault = "leads to nothing"
    except (OSError, RuntimeError):
        fault = "leads to itself"
    else:
        if target.is_relative_to(link.parent.resolve()):
            return
        fault = "leads out of the folder of the workshop"
    raise LedgerError(
        f"A link that {fault} is in the ledger's place",
        where=str(link),
        todo="Move it away, and put the ledger itself there if there is one; nothing was changed",
    )


@contextmanager
def open_ledger(folder: Path) -> Generator[Ledger]:
    """Open the ledger of a workshop folder; it is made, or brought up to date, when needed.

    Raises:
        LedgerError: The ledger is locked, damaged, from a later version, or no ledger at all.
    """
    path = folder / FILE_NAME
    has_ledger(folder)
    with _told(path):
        opened = sqlite3.connect(path, timeout=BUSY_SECONDS, isolation_level=None)
    with closing(opened) as connection:
        with _told(path):
            _make_ready(connection, path)
        yield Ledger(connection, path)


def read_hung(folder: Path) -> WhatHangs:
    """Return what hangs by the ledger of a workshop folder, and write nothing at all.

    Nothing hangs when there is no ledger yet, or one from before this was kept; no rails hang
    by one from before rails were kept.

    Raises:
        LedgerError: The ledger is locked, damaged, from a later version, or no ledger at all.
    """
    path = folder / FILE_NAME
    if not has_ledger(folder):
        return WhatHangs()
    address = f"{path.resolve().as_uri()}?mode=ro"
    with _told(path):
        opened = sqlite3.connect(address, timeout=BUSY_SECONDS, isolation_level=None, uri=True)
    with closing(opened) as connection:
        with _told(path):
            found = _checked_version(connection, path)
        return _hung(connection, path, found=found)


def read_recipe(folder: Path, mark: str) -> str | None:
    """Return the recipe of a mark as it is stored, and write nothing; None when it is not known.

    Raises:
        LedgerError: The ledger is locked, damaged, from a later version, or no ledger at all.
    """
    path = folder / FILE_NAME
    if not has_ledger(folder):
        return None
    query = "SELECT recipe_json FROM marks WHERE mark = ?"
    address = f"{path.resolve().as_uri()}?mode=ro"
    with _told(path):
        opened = sqlite3.connect(address, timeout=BUSY_SECONDS, isolation_level=None, uri=True)
        with closing(opened) as connection:
            _checked_version(connection, path)
            row = connection.execute(query, (mark,)).fetchone()
    return None if row is None else str(row[0])


def _hung(connection: sqlite3.Connection, path: Path, *, found: int) -> WhatHangs:
    """Return what hangs by a ledger of the version ``found``."""
    where = str(path)
    holders, rails = "SELECT {} FROM hung", "SELECT {} FROM hung_rails"
    with _told(path), connection:
        # both as they were at one moment
        connection.execute("BEGIN")
        hung = _rows(connection, holders.format(_HUNG_COLUMNS), there=found >= HUNG_SINCE)
        runs = _rows(connection, rails.format(_RAIL_COLUMNS), there=found >= RAILS_SINCE)
    kept = WhatHangs(
        tuple(HungEntry.of_row(row, where=where) for row in hung),
        tuple(HungRail.of_row(row, where=where) for row in runs),
    )
    kept.require_sound(where=where)
    return kept.ordered


def _rows(connection: sqlite3.Connection, query: str, *, there: bool) -> list[Any]:
    return connection.execute(query).fetchall() if there else []


def _make_ready(connection: sqlite3.Connection, path: Path) -> None:
    """Check the file from inside, then migrate it."""
    if _checked_version(connection, path) < LATEST:
        migrate(connection)


def _checked_version(connection: sqlite3.Connection, path: Path) -> int:
    """Return the version of a file that is a sound ledger of this program."""
    found = version(connection)
    if found > LATEST:
        raise LedgerError(
            f"The ledger has version {found}, and this program knows up to {LATEST}",
            where=str(path),
            todo="Use a newer version of the program; the file is unchanged",
        )
    sound = connection.execute("PRAGMA quick_check").fetchone()[0]
    if sound != "ok":
        raise _damaged(path, str(sound))
    names = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
    if ("marks" in names) != (found > 0) or (found == 0 and names):
        raise LedgerError(
            "The file is a database, but no ledger of this program",
            where=str(path),
            todo="Move it out of the folder; the file is unchanged",
        )
    return found


@contextmanager
def _told(path: Path) -> Generator[None]:
    """Turn what the database reports into a ledger error."""
    try:
        yield
    except UnicodeDecodeError as error:
        raise _damaged(path, "a text in it is not UTF-8") from error
    except sqlite3.Error as error:
        if "decode to UTF-8" in str(error):
            raise _damaged(path, "a text in it is not UTF-8") from error
        code = getattr(error, "sqlite_errorcode", 0) & 0xFF
        if code in _DAMAGED:
            raise _damaged(path, str(error)) from error
        if code in _LOCKED:
            raise LedgerError(
                "The ledger is in use by another program",
                where=str(path),
                todo="Close the other program and try again",
            ) from error
        if code == sqlite3.SQLITE_FULL:
            raise LedgerError(
                "The ledger cannot be written: the disk is full",
                where=str(path),
                todo="Make room and try again; the ledger is as it was",
            ) from error
        raise LedgerError(
            f"The ledger cannot be used: {error}",
            where=str(path),
            todo=_remedy(code),
        ) from error


def _remedy(code: int) -> str:
    if code in {sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM}:
        return (
            "Get the right to write to the folder of the workshop, or copy it to where you may "
            "write; the ledger is as it was"
        )
    return "Look at the folder, the rights and the disk, then try again; the ledger is as it was"


def _damaged(path: Path, reason: str) -> LedgerError:
    """Copy a damaged ledger aside, once, and return the error that says so."""
    try:
        copy = _copy_aside(path)
    except OSError as error:
        return LedgerError(
            f"The ledger is damaged ({reason}) and could not be copied: {error.strerror}",
            where=str(path),
            todo="Copy the file to a safe place before anything else",
        )
    return LedgerError(
        f"The ledger is damaged ({reason}); a copy was kept as {copy.name}",
        where=str(path),
        todo="Put a sound copy back, or move the damaged file away to begin a new ledger",
    )


def _copy_aside(path: Path) -> Path:
    """Return a copy of the file beside it; one that is there already is used again."""
    number = 1
    while True:
        copy = path.with_name(f"{path.name}.damaged-{number}")
        if not copy.exists():
            shutil.copyfile(path, copy)
            return copy
        if filecmp.cmp(path, copy, shallow=False):
            return copy
        number += 1
