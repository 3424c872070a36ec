"""What every check returns."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.base.source import Source


@dataclass(frozen=True)
class CheckResult:
    """A demand that must not exceed a capacity.

    Args:
        name: What was checked.
        demand: What is asked, in ``unit``.
        capacity: What is there, in ``unit``.
        unit: Unit of both.
        source: Where the rule comes from.
        note: What it was governed by, in a few words.
    """

    name: str
    demand: float
    capacity: float
    unit: str
    source: Source
    note: str = ""

    @property
    def utilisation(self) -> float:
        """Return demand over capacity; infinity when something is asked of nothing."""
        if self.demand <= 0.0:
            return 0.0
        return self.demand / self.capacity if self.capacity > 0.0 else math.inf

    @property
    def holds(self) -> bool:
        """Return True when the demand does not exceed the capacity."""
        return self.demand <= self.capacity
