"""The ledger: which part mark stands for which recipes, and what hangs where.

``ledger.db`` lies in the workshop folder. It is never overwritten or deleted;
a damaged one is copied aside before anything else is said.
"""

from __future__ import annotations

import datetime as dt
import json
import sqlite3
from collections.abc import Generator
from contextlib import closing, contextmanager
from dataclasses import astuple, dataclass, fields
from pathlib import Path

from cleatwright.base.errors import LedgerError
from cleatwright.base.keys import read_mark
from cleatwright.workshop.ledger.faults import damaged, told_of
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import LastMade
from cleatwright.workshop.ledger.migrations import (
    LATEST,
    all_or_nothing,
    migrate,
    version,
)
from cleatwright.workshop.ledger.rows import hung_in, last_made_in, write_hung, write_last_made

FILE_NAME = "ledger.db"
BUSY_SECONDS = 0.5


@dataclass(frozen=True)
class MarkEntry:
    """One part mark and one recipe of what is needed to make the part again.

    Args:
        mark: The part mark in its normal spelling.
        content_key: The key from which the mark was made.
        recipe_key: The key of the recipe; of earlier ledgers that from which the mark was made.
        recipe_json: Family, parameters and tools, as JSON.
        family: Name of the family.
        leading: Leading dimensions in drawing notation.
        first_seen: ISO date on which it was first made.
        made_with: Version of the program; empty in entries from before it was kept.
    """

    mark: str
    content_key: str
    recipe_key: str
    recipe_json: str
    family: str
    leading: str
    first_seen: str
    made_with: str = ""


_COLUMNS = ", ".join(field.name for field in fields(MarkEntry))
_PLACES = ", ".join("?" for _ in fields(MarkEntry))


class Ledger:
    """An open ledger; get one from ``open_ledger``."""

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self._connection = connection
        self._path = path

    def record(self, entry: MarkEntry) -> bool:
        """Keep an entry and return True, or return False when its recipe is there already.

        It is the newest recipe of its mark then; an entry that is there stays as it is.

        Raises:
            LedgerError: The mark stands for another key, an entry is malformed, or the
                ledger cannot be written.
        """
        self._check(entry)
        with told_of(self._path), all_or_nothing(self._connection):
            known = self.recipe(entry.mark)
            if known is not None and known.content_key != entry.content_key:
                raise LedgerError(
                    f'The mark "{entry.mark}" already stands for another part',
                    where=str(self._path),
                    todo="Change a parameter a little; then the part gets another mark",
                )
            if known is not None and known.recipe_key == entry.recipe_key:
                return False
            again = self._connection.execute(
                "UPDATE marks SET number = (SELECT max(number) + 1 FROM marks) "
                "WHERE mark = ? AND recipe_key = ?",
                (entry.mark, entry.recipe_key),
            )
            if again.rowcount == 0:
                self._connection.execute(
                    f"INSERT INTO marks ({_COLUMNS}) VALUES ({_PLACES})",  # noqa: S608 - own names
                    astuple(entry),
                )
        return again.rowcount == 0

    def recipe(self, mark: str) -> MarkEntry | None:
        """Return the newest entry of a mark, or None when it was never recorded.

        Raises:
            LedgerError: The ledger cannot be read.
        """
        return next(iter(self.recipes(mark)), None)

    def recipes(self, mark: str) -> tuple[MarkEntry, ...]:
        """Return every entry of a mark, the newest first.

        Raises:
            LedgerError: The ledger cannot be read.
        """
        with told_of(self._path):
            rows = self._connection.execute(
                f"SELECT {_COLUMNS} FROM marks WHERE mark = ? ORDER BY number DESC",  # noqa: S608 - own names
                (read_mark(mark) or mark,),
            ).fetchall()
        return tuple(MarkEntry(*row) for row in rows)

    def all_marks(self) -> tuple[MarkEntry, ...]:
        """Return every entry, in the order of the marks, the newest of a mark first.

        Raises:
            LedgerError: The ledger cannot be read.
        """
        with told_of(self._path):
            rows = self._connection.execute(
                f"SELECT {_COLUMNS} FROM marks ORDER BY mark, number DESC"  # noqa: S608 - own names
            ).fetchall()
        return tuple(MarkEntry(*row) for row in rows)

    def hung(self) -> WhatHangs:
        """Return what hangs now, in order.

        Raises:
            LedgerError: The ledger cannot be read, or an entry is malformed.
        """
        return hung_in(self._connection, self._path, found=LATEST)

    def last_made(self) -> LastMade:
        """Return what was last made.

        Raises:
            LedgerError: The ledger cannot be read, or an entry is malformed.
        """
        return last_made_in(self._connection, self._path, found=LATEST)

    def replace_hung(self, wanted: WhatHangs) -> None:
        """Keep this as what hangs now; what hung before is forgotten. All, or nothing.

        Raises:
            LedgerError: An entry is malformed, a tool hangs in two places, two rails have one
                name, or the ledger cannot be written; then what was there stays.
        """
        wanted.require_sound(where=str(self._path))
        with told_of(self._path), all_or_nothing(self._connection):
            write_hung(self._connection, wanted)

    def replace_last_made(self, wanted: LastMade, *, hung: WhatHangs) -> None:
        """Keep this as what was last made, and what hangs with the names of its tools.

        All, or nothing; what was kept before is forgotten.

        Raises:
            LedgerError: It cannot all have been made or hang, or the ledger cannot be written;
                then what was there stays.
        """
        wanted.require_sound(where=str(self._path))
        hung.require_sound(where=str(self._path))
        with told_of(self._path), all_or_nothing(self._connection):
            write_last_made(self._connection, wanted)
            write_hung(self._connection, hung)

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
    with told_of(path):
        opened = sqlite3.connect(path, timeout=BUSY_SECONDS, isolation_level=None)
    with closing(opened) as connection:
        with told_of(path):
            _make_ready(connection, path)
        yield Ledger(connection, path)


@contextmanager
def _open_to_read(folder: Path) -> Generator[tuple[sqlite3.Connection, Path, int] | None]:
    """Open a ledger of any version, and write nothing at all; None when there is none yet."""
    path = folder / FILE_NAME
    if not has_ledger(folder):
        yield None
        return
    address = f"{path.resolve().as_uri()}?mode=ro"
    with told_of(path):
        opened = sqlite3.connect(address, timeout=BUSY_SECONDS, isolation_level=None, uri=True)
    with closing(opened) as connection:
        with told_of(path):
            found = _checked_version(connection, path)
        yield connection, path, found


def read_hung(folder: Path) -> WhatHangs:
    """Return what hangs by the ledger of a workshop folder, and write nothing at all.

    Nothing hangs when there is no ledger yet, or one from before this was kept; no rails hang
    by one from before rails were kept.

    Raises:
        LedgerError: The ledger is locked, damaged, from a later version, or no ledger at all.
    """
    with _open_to_read(folder) as opened:
        if opened is None:
            return WhatHangs()
        connection, path, found = opened
        return hung_in(connection, path, found=found)


def read_last_made(folder: Path) -> LastMade:
    """Return what was last made by the ledger of a workshop folder, and write nothing at all.

    It is nothing when there is no ledger yet, or one from before this was kept.

    Raises:
        LedgerError: The ledger is locked, damaged, from a later version, or no ledger at all.
    """
    with _open_to_read(folder) as opened:
        if opened is None:
            return LastMade()
        connection, path, found = opened
        return last_made_in(connection, path, found=found)


def read_recipe(folder: Path, mark: str) -> str | None:
    """Return the newest recipe of a mark as it is stored, and write nothing; None when unknown.

    Raises:
        LedgerError: The ledger is locked, damaged, from a later version, or no ledger at all.
    """
    # in a ledger of any version the last row is the newest
    query = "SELECT recipe_json FROM marks WHERE mark = ? ORDER BY rowid DESC LIMIT 1"
    with _open_to_read(folder) as opened:
        if opened is None:
            return None
        connection, path, _ = opened
        with told_of(path):
            row = connection.execute(query, (mark,)).fetchone()
    return None if row is None else str(row[0])


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
        raise damaged(path, str(sound))
    names = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
    if ("marks" in names) != (found > 0) or (found == 0 and names):
        raise LedgerError(
            "The file is a database, but no ledger of this program",
            where=str(path),
            todo="Move it out of the folder; the file is unchanged",
        )
    return found
