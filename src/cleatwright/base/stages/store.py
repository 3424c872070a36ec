"""Where results are kept: in memory, bounded, and those that have a codec on a shelf."""

from __future__ import annotations

from collections import OrderedDict
from threading import Lock
from typing import Protocol

from cleatwright.base.stages.outcome import Outcome

Key = tuple[str, str]
"""The name of a stage and the content key of its input."""
MOST_BYTES = 600_000_000


class Shelf(Protocol):
    """Keeps bytes between two runs of the program; it may forget anything at any time."""

    def get(self, key: Key) -> bytes | None:
        """Return what was put under a key, or None."""
        ...

    def put(self, key: Key, data: bytes) -> None:
        """Keep bytes under a key."""
        ...


class Store:
    """Results by stage and content; the least recently used go first when it is full.

    Args:
        most_bytes: About how much may be kept in memory, > 0.
        shelf: What keeps results between two runs of the program, if anything does.
    """

    def __init__(self, *, most_bytes: int = MOST_BYTES, shelf: Shelf | None = None) -> None:
        self._most_bytes = most_bytes
        self._bytes = 0
        self._kept: OrderedDict[Key, tuple[Outcome[object], int]] = OrderedDict()
        self._lock = Lock()
        self.shelf = shelf

    def get(self, key: Key) -> Outcome[object] | None:
        """Return what was kept under a key, or None."""
        with self._lock:
            found = self._kept.get(key)
            if found is None:
                return None
            self._kept.move_to_end(key)
            return found[0]

    def put(self, key: Key, outcome: Outcome[object], size: int) -> None:
        """Keep an outcome of about ``size`` bytes, and forget the oldest beyond the bound."""
        with self._lock:
            before = self._kept.pop(key, None)
            self._bytes += size - (before[1] if before else 0)
            self._kept[key] = (outcome, size)
            while self._bytes > self._most_bytes and len(self._kept) > 1:
                _, (_, gone) = self._kept.popitem(last=False)
                self._bytes -= gone

    def __len__(self) -> int:
        """Return how many outcomes are kept."""
        return len(self._kept)
