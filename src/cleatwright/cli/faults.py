"""What no other place foresaw, as an error of the program: the last place before a traceback."""

from __future__ import annotations

import hashlib
import platform
import shlex
import sys
import traceback
from collections.abc import Sequence
from pathlib import Path

import platformdirs

from cleatwright import __version__
from cleatwright.base.errors import CleatwrightError, FaultError, StorageError
from cleatwright.base.place import InFile
from cleatwright.base.visible import visible

MOST_SIGNS = 300


def reported(error: Exception, arguments: Sequence[str]) -> CleatwrightError:
    """Return the error that a person is told of in the place of any other.

    What the system refused is said with its reason; anything else is a fault of the program, and
    what is needed to mend it is kept in a file that the person can send.
    """
    if isinstance(error, CleatwrightError):
        return error
    if isinstance(error, OSError):
        return StorageError(
            f"The system refused: {error.strerror or _short(error)}",
            place=InFile(str(error.filename or "")),
            todo="Look at the path, the rights and the room on the disk, then try again",
        )
    if isinstance(error, MemoryError):
        return FaultError(
            "There is not enough memory for this",
            todo="Close other programs, or make the workshop in smaller parts",
        )
    kept = _kept(error, arguments)
    return FaultError(
        f"The program has a fault: {_short(error)}",
        todo=f"Report it to its makers with the file {kept} and, if you may, with the workshop"
        if kept
        else "Report it to its makers with the command and, if you may, with the workshop",
    )


def _short(error: Exception) -> str:
    """Return the kind and the text of an error in one line that a terminal may show."""
    return visible(" ".join(f"{type(error).__name__} {error}".split()))[:MOST_SIGNS]


def _kept(error: Exception, arguments: Sequence[str]) -> Path | None:
    """Return a file with all that is known of a fault, or None where none can be written."""
    trace = "".join(traceback.format_exception(error))
    name = f"fault-{hashlib.sha256(trace.encode('utf-8', 'replace')).hexdigest()[:8]}.txt"
    lines = (
        f"cleatwright {__version__}, Python {sys.version}, {platform.platform()}",
        f"cleatwright {shlex.join(arguments)}",
        trace,
    )
    try:
        path = platformdirs.user_log_path("cleatwright", appauthor=False) / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("\n".join(lines), encoding="utf-8", errors="backslashreplace")
    except OSError:
        return None
    return path
