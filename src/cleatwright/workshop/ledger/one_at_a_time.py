"""One process at a time writes to a folder.

The lock is one of the operating system on a hidden file in the folder. It ends with the process
that holds it, however that ends, so that a file left behind by a dead process locks nobody out.
"""

from __future__ import annotations

import contextlib
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path

from filelock import FileLock, Timeout

from cleatwright.base.errors import OutputError
from cleatwright.base.place import InFile

LOCK_NAME = ".cleatwright.lock"
PATIENCE_S = 0.5


@contextmanager
def alone_in(folder: Path) -> Generator[None]:
    """Keep every other process that asks the same out of a folder until the block is done.

    It is not to be asked again inside the block.

    Args:
        folder: A folder that is there.

    Raises:
        OutputError: Another process writes there now, or the folder cannot be written.
    """
    path = folder / LOCK_NAME
    lock = FileLock(path, timeout=PATIENCE_S)
    try:
        lock.acquire()
    except Timeout:
        raise OutputError(
            "another run of this program is writing here now",
            place=InFile(str(folder)),
            todo="Wait until it is done, then run this again; nothing was changed",
        ) from None
    except OSError as error:
        raise OutputError(
            f"cannot write: {error.strerror or error}",
            place=InFile(str(folder)),
            todo="Choose another folder, or get the right to write there; nothing was changed",
        ) from error
    try:
        yield
    finally:
        # nobody else can hold it now, and whoever waits for a file that is gone tries again
        with contextlib.suppress(OSError):
            path.unlink()
        lock.release()
