"""A table from a file that somebody sends, read in a process of its own.

An XLSX file is packed XML: a small one may take hours to read, or all the memory. The process may
take so much of each and no more, and is ended when it takes longer; the program itself goes on.
Memory and processor time are bounded by the system on Linux; elsewhere time alone is.
"""

from __future__ import annotations

import multiprocessing
import signal
import sys
from dataclasses import dataclass
from importlib import import_module
from multiprocessing.connection import Connection
from pathlib import Path

from cleatwright.base.errors import ImportTableError
from cleatwright.base.place import InFile
from cleatwright.workshop.tables.cells import CellRow, read_rows


@dataclass(frozen=True)
class ReadingLimits:
    """What the reading of one file may take.

    Args:
        seconds: How long it may take, the start of its process included.
        memory_bytes: How much memory its process may ask for beside the program itself.
    """

    seconds: float = 30.0
    memory_bytes: int = 800_000_000


LIMITS = ReadingLimits()


def read_confined(path: Path, *, limits: ReadingLimits = LIMITS) -> tuple[CellRow, ...]:
    """Return the rows of a file as ``read_rows`` does, within limits.

    Raises:
        ImportTableError: ``read_rows`` refuses the file, or it takes too long or too much memory.
    """
    context = multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe(duplex=False)
    process = context.Process(target=_read, args=(theirs, path, limits), daemon=True)
    process.start()
    theirs.close()
    try:
        if not ours.poll(limits.seconds):
            raise _too_much(f"takes longer than {limits.seconds:g} s to read", path)
        found: tuple[CellRow, ...] | ImportTableError = ours.recv()
    except EOFError:
        raise _too_much("takes too long or too much memory to read", path) from None
    finally:
        process.kill()
        process.join()
        ours.close()
    if isinstance(found, ImportTableError):
        raise found
    return found


def _too_much(what: str, path: Path) -> ImportTableError:
    return ImportTableError(
        f"The file {what}",
        place=InFile(str(path)),
        todo="Copy the cells alone into a new sheet, and save that",
    )


def _read(answer: Connection, path: Path, limits: ReadingLimits) -> None:
    """Read a file in the process of its own, and send the rows or the fault."""
    # an interrupt is left to the process that a person talks to
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _confine(limits)
    try:
        found: tuple[CellRow, ...] | ImportTableError = read_rows(path)
    except ImportTableError as error:
        found = error.again()
    except MemoryError:
        found = _too_much("takes too much memory to read", path)
    answer.send(found)


def _confine(limits: ReadingLimits) -> None:
    # what the library takes for itself depends on the computer, and is no matter of the file
    import_module("openpyxl")
    if sys.platform == "linux":
        import resource  # noqa: PLC0415 - there is none on other systems

        pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0])
        most = pages * resource.getpagesize() + limits.memory_bytes
        seconds = int(limits.seconds) + 1
        resource.setrlimit(resource.RLIMIT_AS, (most, most))
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
