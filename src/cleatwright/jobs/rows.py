"""Rows of what was computed: numbers in mm and kg, which whoever shows them writes in a unit."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.lengths import LengthUnit, length_words
from cleatwright.workshop.document.surfaces import MAIN


@dataclass(frozen=True)
class SpotRow:
    """Where something hangs.

    Args:
        panel: The panel; the main wall is "wall".
        rail: The name of its rail, or "" for what is fixed to the wall or board itself.
        mount: The name of its mount.
        x_mm: Its left edge from the left edge of the panel.
        z_mm: Its hang height above the lower edge of the panel.
    """

    panel: str
    rail: str
    mount: str
    x_mm: float
    z_mm: float

    def words(self, unit: LengthUnit) -> str:
        """Return where it is, for a person who reads lengths in a unit."""
        x, z = (length_words(at, unit) for at in (self.x_mm, self.z_mm))
        on = f"rail {self.rail}" if self.rail else "the wall itself"
        panel = "" if self.panel == MAIN else f" of {self.panel}"
        return f"x {x}, z {z} {unit} on {on}{panel}"


@dataclass(frozen=True)
class MadeRow:
    """One holder that was made.

    Args:
        number: Its number in all drawings.
        mark: Its part mark.
        name: A name for people.
        family: The name of its family.
        size_mm: Its width, depth and height.
        load_kg: The mass of its tools and its own.
        spot: Where it hangs.
        used: The largest share of what its cleat or screws can do; None where nothing is checked.
            What the program made just thick enough does not count.
        plate_used: The same of what it made just thick enough; None where nothing is.
    """

    number: int
    mark: str
    name: str
    family: str
    size_mm: tuple[float, float, float]
    load_kg: float
    spot: SpotRow
    used: float | None
    plate_used: float | None = None
