"""What can be wrong with the file of a ledger, as errors; a damaged one is copied aside."""

from __future__ import annotations

import filecmp
import shutil
import sqlite3
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path

from cleatwright.base.errors import LedgerError
from cleatwright.base.place import InFile

_DAMAGED = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}
_LOCKED = {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}


@contextmanager
def told_of(path: Path) -> Generator[None]:
    """Turn what the database reports into a ledger error."""
    try:
        yield
    except UnicodeDecodeError as error:
        raise damaged(path, "a text in it is not UTF-8") from error
    except sqlite3.Error as error:
        if "decode to UTF-8" in str(error):
            raise damaged(path, "a text in it is not UTF-8") from error
        code = getattr(error, "sqlite_errorcode", 0) & 0xFF
        if code in _DAMAGED:
            raise damaged(path, str(error)) from error
        if code in _LOCKED:
            raise LedgerError(
                "The ledger is in use by another program",
                place=InFile(str(path)),
                todo="Close the other program and try again",
            ) from error
        if code == sqlite3.SQLITE_FULL:
            raise LedgerError(
                "The ledger cannot be written: the disk is full",
                place=InFile(str(path)),
                todo="Make room and try again; the ledger is as it was",
            ) from error
        raise LedgerError(
            f"The ledger cannot be used: {error}",
            place=InFile(str(path)),
            todo=_remedy(code),
        ) from error


def _remedy(code: int) -> str:
    if code in {sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM}:
        return (
            "Get the right to write to the folder of the workshop, or copy it to where you may "
            "write; the ledger is as it was"
        )
    return "Look at the folder, the rights and the disk, then try again; the ledger is as it was"


def damaged(path: Path, reason: str) -> LedgerError:
    """Copy a damaged ledger aside, once, and return the error that says so."""
    try:
        copy = _copy_aside(path)
    except OSError as error:
        return LedgerError(
            f"The ledger is damaged ({reason}) and could not be copied: {error.strerror}",
            place=InFile(str(path)),
            todo="Copy the file to a safe place before anything else",
        )
    return LedgerError(
        f"The ledger is damaged ({reason}); a copy was kept as {copy.name}",
        place=InFile(str(path)),
        todo="Put an undamaged copy back, or move the damaged file away to begin a new ledger",
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
