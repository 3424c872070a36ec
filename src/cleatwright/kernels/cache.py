"""A bounded cache of evaluated bodies, found by content."""

from __future__ import annotations

from collections import OrderedDict
from typing import Generic, TypeVar

Value = TypeVar("Value")


class ContentCache(Generic[Value]):
    """Keeps the ``limit`` most recently used values; what it hands out must be immutable."""

    def __init__(self, limit: int) -> None:
        self._limit = limit
        self._values: OrderedDict[str, Value] = OrderedDict()

    def get(self, key: str) -> Value | None:
        """Return the value of a key, or None."""
        value = self._values.get(key)
        if value is not None:
            self._values.move_to_end(key)
        return value

    def put(self, key: str, value: Value) -> None:
        """Keep a value and drop the least recently used beyond the limit."""
        self._values[key] = value
        self._values.move_to_end(key)
        while len(self._values) > self._limit:
            self._values.popitem(last=False)

    def __len__(self) -> int:
        """Return how many values are kept."""
        return len(self._values)
