"""Reading a ledger that is there, or looking whether one is, without writing anything at all."""

from __future__ import annotations

import sqlite3
from collections.abc import Collection, Generator, Mapping
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType

from cleatwright.base.errors import LedgerError
from cleatwright.base.place import InFile
from cleatwright.workshop.ledger.faults import damaged, told_of
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import LastMade
from cleatwright.workshop.ledger.made_wall import MadeWall
from cleatwright.workshop.ledger.migrations import LATEST, version
from cleatwright.workshop.ledger.ready_parts import ReadyParts
from cleatwright.workshop.ledger.rows import (
    hung_in,
    last_made_in,
    made_wall_in,
    one_moment,
    ready_in,
)

FILE_NAME = "ledger.db"
BUSY_SECONDS = 0.5

# by itself what is made goes here; where it stands, a ledger was written before
MADE = Path("out", "manifest.json")


def has_ledger(folder: Path) -> bool:
    """Return whether a workshop folder has a ledger yet.

    Raises:
        LedgerError: Something that is no file, or a link that leads nowhere or out of the
            folder, stands in its place, or nobody may look. Or it is empty though files were made.
    """
    path = folder / FILE_NAME
    try:
        if path.is_symlink():
            _require_inside(path)
        if path.is_file():
            _require_some(path)
            return True
        blocked = path.exists()
    except OSError as error:
        raise LedgerError(
            f"The ledger cannot be read: {error.strerror}",
            place=InFile(str(path)),
            todo="Get the right to read it, and try again",
        ) from error
    if blocked:
        raise LedgerError(
            f"A {'folder' if path.is_dir() else 'thing that is no file'} is in the ledger's place",
            place=InFile(str(path)),
            todo="Move it away; if there was a ledger, put it back",
        )
    return False


def _require_some(path: Path) -> None:
    """Refuse a ledger that lost all that was in it, which would count as a new one."""
    if path.stat().st_size == 0 and (path.parent / MADE).is_file():
        raise LedgerError(
            "The ledger is empty, though files were made: what hangs and is printed would be "
            "forgotten",
            place=InFile(str(path)),
            todo="Put back a copy of it; to begin anew without one, delete it",
        )


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
        place=InFile(str(link)),
        todo="Move it away, and put the ledger itself there if there is one; nothing was changed",
    )


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
        if path.with_name(f"{path.name}-journal").exists():
            _roll_back(path)
        with told_of(path):
            found = checked_version(connection, path)
        yield connection, path, found


def _roll_back(path: Path) -> None:
    """Undo a write that was cut off; where that is refused, reading says so."""
    with suppress(sqlite3.OperationalError), closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA user_version").fetchone()


@dataclass(frozen=True)
class KeptInLedger:
    """What a ledger keeps that a plan goes by; nothing where there is no ledger yet.

    Args:
        hung: What hangs; no rails by a ledger from before rails were kept.
        made: What was last made, and what hangs beside it.
        recorded: The number of the recipe that was recorded last, 0 for none.
        ready: What is printed and does not hang.
        wall: Where everything was to hang when it was last made.
    """

    hung: WhatHangs = field(default_factory=WhatHangs)
    made: LastMade = field(default_factory=LastMade)
    recorded: int = 0
    ready: ReadyParts = field(default_factory=ReadyParts)
    wall: MadeWall = field(default_factory=MadeWall)


def read_kept(folder: Path) -> KeptInLedger:
    """Return what the ledger of a workshop folder keeps, all as it is at one moment.

    Nothing at all is written.

    Raises:
        LedgerError: The ledger is locked, damaged, from a later version, or no ledger at all.
    """
    with _open_to_read(folder) as opened:
        if opened is None:
            return KeptInLedger()
        connection, path, found = opened
        with one_moment(connection, path):
            return KeptInLedger(
                hung_in(connection, found=found),
                last_made_in(connection, found=found),
                # nothing was ever written to one of version 0
                _last_number(connection) if found else 0,
                ready_in(connection, found=found),
                made_wall_in(connection, found=found),
            )


def _last_number(connection: sqlite3.Connection) -> int:
    return int(connection.execute("SELECT max(rowid) FROM marks").fetchone()[0] or 0)


def read_hung(folder: Path) -> WhatHangs:
    """Return what hangs by the ledger of a workshop folder, and write nothing at all.

    Raises:
        LedgerError: As for ``read_kept``.
    """
    return read_kept(folder).hung


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


def read_recipes(folder: Path, marks: Collection[str]) -> Mapping[str, tuple[str, ...]]:
    """Return all recipes of some marks as they are stored, of each mark the newest first.

    Raises:
        LedgerError: As for ``read_recipe``.
    """
    query = "SELECT recipe_json FROM marks WHERE mark = ? ORDER BY rowid DESC"
    with _open_to_read(folder) as opened:
        # nothing was ever written to a ledger of version 0
        if opened is None or not opened[2]:
            return MappingProxyType({})
        connection, path, _ = opened
        with told_of(path):
            return MappingProxyType(
                {
                    mark: tuple([str(text) for (text,) in connection.execute(query, (mark,))])
                    for mark in sorted(marks)
                }
            )


def checked_version(connection: sqlite3.Connection, path: Path) -> int:
    """Return the version of a file that is a sound ledger of this program."""
    found = version(connection)
    if found > LATEST:
        raise LedgerError(
            f"The ledger has version {found}, and this program knows up to {LATEST}",
            place=InFile(str(path)),
            todo="Use a newer version of the program; the file is unchanged",
        )
    sound = connection.execute("PRAGMA quick_check").fetchone()[0]
    if sound != "ok":
        raise damaged(path, str(sound))
    names = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
    if ("marks" in names) != (found > 0) or (found == 0 and names):
        raise LedgerError(
            "The file is a database, but no ledger of this program",
            place=InFile(str(path)),
            todo="Move it out of the folder; the file is unchanged",
        )
    return found
