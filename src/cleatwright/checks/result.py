"""What every check returns."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.base.source import Source


def _figure(value: float) -> str:
    """Return a number to three figures or to whole ones, never in powers of ten.

    >>> _figure(1460.4), _figure(12.34), _figure(0.00004), _figure(math.inf)
    ('1460', '12.3', '0.000', 'inf')
    """
    if abs(value) >= 100.0:
        return f"{value:.0f}"
    text = f"{value:.3g}"
    return text if "e" not in text else f"{value:.3f}"


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
        found = f"{self.name}: {_figure(self.demand)} against {_figure(self.capacity)} {self.unit}"
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
