"""Places as an owner can type them: on the step in which they are shown, where they are free."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from cleatwright.base import said
from cleatwright.base.lengths import MM_PER_INCH, PARTS_OF_AN_INCH, LengthUnit
from cleatwright.wall.explaining.insertion import Standing
from cleatwright.wall.model import Item, Place
from cleatwright.wall.tolerances import RULE_DIGITS, SLACK_MM

# a rail that hangs between the steps takes what is typed to so much, and no less
FINE_IN, FINE_DIGITS = 0.001, 2
_SAME_MM = 1e-6


@dataclass(frozen=True)
class Typing:
    """How places are shown and typed in a unit: to 0.1 mm, or to 1/32 in.

    >>> at = Typing("in").nearest(851.4)
    >>> [round(x / 25.4 * 32) for x in at], [round(x, 1) for x in Typing("mm").nearest(851.44)]
    ([1073, 1072], [851.4, 851.5])
    """

    unit: LengthUnit = "mm"

    @property
    def step_mm(self) -> float:
        """Return the step in which places are shown."""
        return MM_PER_INCH / PARTS_OF_AN_INCH if self.unit == "in" else 10.0**-RULE_DIGITS

    def nearest(self, mm: float) -> tuple[float, ...]:
        """Return the steps on both sides of a length, the nearer first; one where it lies on it."""
        steps = mm / self.step_mm
        low = int(steps // 1)
        found = sorted((low, low + 1), key=lambda one: abs(one - steps))
        if abs(found[0] - steps) * self.step_mm <= _SAME_MM:
            found = found[:1]
        return tuple(round(one * self.step_mm, 6) for one in found)

    def heights(self, z_mm: float) -> tuple[float, ...]:
        """Return a hang height as it is typed: on its rail, and on a step where one lies there."""
        (near, *_) = self.nearest(z_mm)
        if abs(near - z_mm) <= SLACK_MM:
            return (near,)
        if self.unit == "in":
            fine = round(z_mm / MM_PER_INCH / FINE_IN) * FINE_IN * MM_PER_INCH
        else:
            fine = round(z_mm, FINE_DIGITS)
        return (*self.nearest(z_mm), round(fine, 6))

    def said(self, mm: float) -> str:
        """Return a length of a typed place as it is to be typed, with its unit."""
        if len(self.nearest(mm)) == 1:
            return said.at(mm)
        return said.fine_mm(mm, f".{FINE_DIGITS}f")

    def free(self, others: Standing, item: Item, place: Place) -> Place | None:
        """Return the nearest place that can be typed as it is shown and breaks no rule, or None.

        Args:
            others: What hangs beside it.
            item: What shall hang there.
            place: Where it would hang to the last bit.
        """
        tried = self._around(place)
        return next((one for one in tried if not others.broken_by(item, one)), None)

    def beside(self, place: Place) -> Iterator[Place]:
        """Yield the places on the steps on both sides of one, the nearer first."""
        for z, x in product(self.nearest(place.z_mm), self.nearest(place.x_mm)):
            if x >= 0.0 and z >= 0.0:
                yield Place(place.key, x, z)

    def _around(self, place: Place) -> Iterator[Place]:
        for z, x in product(self.heights(place.z_mm), self.nearest(place.x_mm)):
            if x >= 0.0 and z >= 0.0:
                yield Place(place.key, x, z)


MM = Typing()
