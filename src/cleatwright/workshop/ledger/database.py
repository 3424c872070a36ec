"""The ledger: which part mark stands for which recipes, and what hangs where.

``ledger.db`` lies in the workshop folder. It is never overwritten or deleted;
a damaged one is copied aside before anything else is said.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Generator
from contextlib import closing, contextmanager
from dataclasses import astuple
from pathlib import Path

from cleatwright.base.errors import LedgerError
from cleatwright.base.gathering import in_file
from cleatwright.base.keys import read_mark
from cleatwright.base.place import InFile
from cleatwright.workshop.ledger.faults import told_of
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import LastMade
from cleatwright.workshop.ledger.made_wall import MadeWall
from cleatwright.workshop.ledger.mark_entry import MARK_COLUMNS, MarkEntry
from cleatwright.workshop.ledger.migrations import LATEST, all_or_nothing, migrate
from cleatwright.workshop.ledger.reading import (
    BUSY_SECONDS,
    FILE_NAME,
    checked_version,
    has_ledger,
)
from cleatwright.workshop.ledger.ready_parts import ReadyParts
from cleatwright.workshop.ledger.rows import (
    WhatIsThere,
    hung_in,
    last_made_in,
    one_moment,
    ready_in,
    there_in,
    write_hung,
    write_hung_as_made,
    write_last_made,
    write_made_wall,
    write_ready,
    write_there,
)

_COLUMNS = ", ".join(MARK_COLUMNS)
_PLACES = ", ".join("?" for _ in MARK_COLUMNS)


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
        with in_file(str(self._path)):
            entry.require_sound()
        with told_of(self._path), all_or_nothing(self._connection):
            known = self.recipe(entry.mark)
            if known is not None and known.content_key != entry.content_key:
                raise LedgerError(
                    f'The mark "{entry.mark}" already stands for another part',
                    place=InFile(str(self._path)),
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
        with one_moment(self._connection, self._path):
            return hung_in(self._connection, found=LATEST)

    def last_made(self) -> LastMade:
        """Return what was last made.

        Raises:
            LedgerError: The ledger cannot be read, or an entry is malformed.
        """
        with one_moment(self._connection, self._path):
            return last_made_in(self._connection, found=LATEST)

    def ready(self) -> ReadyParts:
        """Return what is printed and does not hang.

        Raises:
            LedgerError: The ledger cannot be read, or an entry is malformed.
        """
        with one_moment(self._connection, self._path):
            return ready_in(self._connection, found=LATEST)

    def there(self) -> WhatIsThere:
        """Return what hangs and what lies ready, to be put back as it was.

        Raises:
            LedgerError: The ledger cannot be read.
        """
        with one_moment(self._connection, self._path):
            return there_in(self._connection)

    def put_back(self, wanted: WhatIsThere, *, instead_of: WhatIsThere) -> None:
        """Put what hung and lay ready at one time in place of what does now. All, or nothing.

        Args:
            wanted: What was there.
            instead_of: What should be there now.

        Raises:
            LedgerError: Something else is there now, or the ledger cannot be written.
        """
        with told_of(self._path), all_or_nothing(self._connection):
            if there_in(self._connection) != instead_of:
                raise LedgerError(
                    "something else was said to hang or to be printed since",
                    place=InFile(str(self._path)),
                    todo="Say what hangs and what is printed as it is now",
                )
            write_there(self._connection, wanted)

    def replace_hung(
        self,
        wanted: WhatHangs,
        *,
        made: LastMade | None = None,
        ready: ReadyParts | None = None,
        wall: MadeWall | None = None,
    ) -> None:
        """Keep this as what hangs now; what hung before is forgotten. All, or nothing.

        Args:
            wanted: What hangs.
            made: The tools and holders that hang; as they were when None, none when nothing hangs.
            ready: What lies ready; as it was when None.
            wall: Where everything is to hang; as it was when None.

        Raises:
            LedgerError: An entry is malformed, a tool hangs in two places, two rails have one
                name, or the ledger cannot be written; then what was there stays.
        """
        with in_file(str(self._path)):
            wanted.require_sound()
            (ready or ReadyParts()).require_sound()
        kept = made if wanted.holders else LastMade()
        with told_of(self._path), all_or_nothing(self._connection):
            write_hung(self._connection, wanted)
            if kept is not None:
                write_hung_as_made(self._connection, kept)
            if ready is not None:
                write_ready(self._connection, ready)
            if wall is not None:
                write_made_wall(self._connection, wall)

    def replace_last_made(
        self, wanted: LastMade, *, hung: WhatHangs, wall: MadeWall | None = None
    ) -> None:
        """Keep this as what was last made, and what hangs with the names of its tools.

        All, or nothing; what was kept before is forgotten.

        Args:
            wanted: The tools and holders.
            hung: What hangs.
            wall: Where everything is to hang; nowhere in particular when None.

        Raises:
            LedgerError: It cannot all have been made or hang, or the ledger cannot be written;
                then what was there stays.
        """
        with in_file(str(self._path)):
            wanted.require_sound()
            hung.require_sound()
        with told_of(self._path), all_or_nothing(self._connection):
            write_last_made(self._connection, wanted)
            write_made_wall(self._connection, wall or MadeWall())
            write_hung(self._connection, hung)


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


def _make_ready(connection: sqlite3.Connection, path: Path) -> None:
    """Check the file from inside, then migrate it."""
    if checked_version(connection, path) < LATEST:
        migrate(connection)
