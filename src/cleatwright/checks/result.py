"""What every check returns."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.source import Source

NEAR = 0.9


def _form(value: float) -> str:
    """Return how a number is formatted to three figures or whole, never in powers of ten.

    >>> [format(value, _form(value)) for value in (1460.4, 12.34, 0.00004, math.inf)]
    ['1460', '12.3', '0.000', 'inf']
    """
    if abs(value) >= 100.0:
        return ".0f"
    return ".3f" if "e" in f"{value:.3g}" else ".3g"


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
        is_open: True when nobody has said what is there: the capacity is 0, it does not hold, and
            the note says what has to be found out.
        by_design: True when the program itself chose a measure so that this just holds, such as
            how thick the thinnest wall is; near its bound says nothing then.
    """

    name: str
    demand: float
    capacity: float
    unit: str
    source: Source
    note: str = ""
    is_open: bool = False
    by_design: bool = False

    @property
    def sentence(self) -> str:
        """Return what was found, for a person.

        >>> from cleatwright.base.source import Evidence
        >>> rule = Source("a rule", "", Evidence.PRACTICE)
        >>> CheckResult("screws", 12.34, 10.0, "N", rule, "stud 2").sentence
        'screws: 12.3 against 10 N, stud 2'
        """
        if self.is_open:
            return f"{self.name}: it is not known whether they do; {self.note}"
        demand = self.in_unit(self.demand, _form(self.demand))
        found = (
            f"{self.name}: {demand} against {self.with_unit(self.capacity, _form(self.capacity))}"
        )
        return f"{found}, {self.note}" if self.note else found

    def in_unit(self, value: float, form: str) -> str:
        """Return the demand or the capacity in words, without its unit but for a mass."""
        say = {"mm": said.fine, "mm2": said.area_number, "kg": said.mass}.get(
            self._measured, format
        )
        return say(value, form)

    def with_unit(self, value: float, form: str) -> str:
        """Return the demand or the capacity in words, with its unit."""
        say = {"mm": said.fine_mm, "mm2": said.area, "kg": said.mass}.get(self._measured)
        if say is None:
            return f"{format(value, form)} {self.unit}"
        return say(value, form) + self.unit.removeprefix(self._measured)

    @property
    def _measured(self) -> str:
        """Return the unit without what is counted in it, as "mm" of "mm of fall"."""
        return self.unit.split(" ")[0]

    @property
    def of_load(self) -> bool:
        """Return True when what hangs changes the demand: play and other lengths are of shape."""
        return self._measured not in {"mm", "mm2"}

    @property
    def utilisation(self) -> float:
        """Return demand over capacity; infinity when something is asked of nothing."""
        if self.is_open:
            return math.inf
        if self.demand <= 0.0:
            return 0.0
        return self.demand / self.capacity if self.capacity > 0.0 else math.inf

    @property
    def holds(self) -> bool:
        """Return True when the demand does not exceed the capacity, and that is known."""
        return not self.is_open and self.demand <= self.capacity

    @property
    def near(self) -> bool:
        """Return True when it holds with less than a tenth to spare, and not by design.

        >>> from cleatwright.base.source import Evidence
        >>> rule = Source("a rule", "", Evidence.PRACTICE)
        >>> [CheckResult("screws", load, 10.0, "N", rule).near for load in (8.9, 9.0, 10.1)]
        [False, True, False]
        >>> CheckResult("thinnest wall", 0.95, 1.0, "mm", rule, by_design=True).near
        False
        """
        return self.holds and not self.by_design and self.utilisation >= NEAR
