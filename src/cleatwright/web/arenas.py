"""Few arenas for the memory of a server of many threads.

The usual C library of Linux gives up to eight arenas for each core, and what a thread has freed
stays in its own. A server whose requests each go to some thread keeps the memory of all of them.
"""

from __future__ import annotations

import ctypes
import sys
from contextlib import suppress

# of <malloc.h>
M_ARENA_MAX = -8
MOST_ARENAS = 2


def share_arenas() -> None:
    """Let all threads to come share ``MOST_ARENAS`` arenas, where the C library has them."""
    if sys.platform != "linux":
        return
    with suppress(OSError, AttributeError):
        ctypes.CDLL(None).mallopt(M_ARENA_MAX, MOST_ARENAS)
