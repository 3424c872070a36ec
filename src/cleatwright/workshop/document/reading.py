"""Files that somebody names, read without waiting for ever and without filling the memory."""

from __future__ import annotations

import errno
import stat
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

NO_FILES: Mapping[str, bytes] = MappingProxyType({})


def read_limited(path: Path, *, most_bytes: int) -> bytes:
    """Return the bytes of an ordinary file; of a larger one no more than ``most_bytes`` + 1.

    Raises:
        OSError: There is no such file, it cannot be read, or it is no ordinary file, such as a
            pipe that nobody writes to.
    """
    mode = path.stat().st_mode
    if not stat.S_ISREG(mode) and not stat.S_ISDIR(mode):
        raise OSError(errno.EINVAL, "it is no ordinary file")
    with path.open("rb") as stream:
        return stream.read(most_bytes + 1)
