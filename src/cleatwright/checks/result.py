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
    def sentence(self) -> str:
        """Return what was found, for a person.

        >>> from cleatwright.base.source import Evidence
        >>> rule = Source("a rule", "", Evidence.PRACTICE)
        >>> CheckResult("screws", 12.34, 10.0, "N", rule, "stud 2").sentence
        'screws: 12.3 against 10 N, stud 2'
        """
        found = f"{self.name}: {self.demand:.3g} against {self.capacity:.3g} {self.unit}"
        return f"{found}, {self.note}" if self.note else found

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
