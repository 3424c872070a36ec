"""What the load map shows: each rail with its loads, studs and screws, as plain values."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.base.lengths import show_length, show_mass
from cleatwright.parts.screw_strength import ScrewLoad, ScrewStrength
from cleatwright.standards import cautions
from cleatwright.wall.rail import Rail


@dataclass(frozen=True)
class ArrowView:
    """One thing on a rail: its number on the elevation, its name, where it loads, its mass.

    A seat that is kept free has no number; it counts with the mass of a usual holder.
    """

    number: str
    name: str
    x_mm: float
    mass_kg: float
    weight_n: float


@dataclass(frozen=True)
class LoadedStud:
    """A stud behind a rail: what it bears when everything hangs, and the worst of each screw."""

    x_mm: float
    weight_n: float
    screws: tuple[ScrewLoad, ...]


@dataclass(frozen=True)
class StripView:
    """One rail with its loads.

    Args:
        rail: The rail; one that hangs already has screws that are taken to be the same.
        arrows: What hangs on it, from left to right.
        studs: The studs that it meets, from left to right.
        fails: Why it does not hold, in sentences; "" for one that does.
        own_n: What the rail itself weighs.
        most: How much of what one may carry is asked by the check that asks most, and by which;
            the share is 0 where nobody knows.
    """

    rail: Rail
    arrows: tuple[ArrowView, ...]
    studs: tuple[LoadedStud, ...]
    fails: str = ""
    own_n: float = 0.0
    most: tuple[float, str] = (0.0, "")

    @property
    def mass_kg(self) -> float:
        """Return everything that hangs on it."""
        return math.fsum(arrow.mass_kg for arrow in self.arrows if arrow.number)

    @property
    def reserved_kg(self) -> float:
        """Return what counts for the seats that are kept free on it."""
        return math.fsum(arrow.mass_kg for arrow in self.arrows if not arrow.number)

    @property
    def weight_n(self) -> float:
        """Return the weight of both."""
        return math.fsum(arrow.weight_n for arrow in self.arrows)

    @property
    def borne_n(self) -> float:
        """Return what all its studs bear together."""
        return math.fsum(stud.weight_n for stud in self.studs)


@dataclass(frozen=True)
class LoadMapView:
    """Everything on the sheet.

    Args:
        title: Name of the workshop.
        floor_gap_mm: Height of the wall's lower edge above the floor.
        strips: The rails, from top to bottom.
        strength: What one screw or anchor may carry; None where nobody has said it.
        assumed: Which screw in which wood that is.
        unit: Unit in which lengths are written, "mm" or "in".
        cautions: What the person must read.
        one: What holds the rails, "screw" or "anchor".
        place: What a place for them is called.
        rule: The standard by which wood screws count.
    """

    title: str
    floor_gap_mm: float
    strips: tuple[StripView, ...]
    strength: ScrewStrength | None
    assumed: str
    unit: str = "mm"
    cautions: tuple[str, ...] = (cautions.FIXING, cautions.OVERHEAD, cautions.DEFER)
    one: str = "screw"
    place: str = "stud"
    rule: str = "NDS 2018"

    @property
    def nowhere(self) -> str:
        """Return what is said of a rail that is held nowhere."""
        return "meets no stud" if self.place == "stud" else f"has no room for its {self.one}s"

    def mass(self, kg: float) -> str:
        """Return a mass with its unit."""
        return show_mass(kg, self.unit)

    def length(self, value_mm: float) -> str:
        """Return a length with its unit, to a millimetre, or as a fraction of an inch."""
        return show_length(value_mm, self.unit, decimals=0)

    @property
    def least_spacing_mm(self) -> float:
        """Return the smallest distance of two studs behind a rail; infinity without two."""
        return min(
            (
                right.x_mm - left.x_mm
                for strip in self.strips
                for left, right in zip(strip.studs, strip.studs[1:], strict=False)
            ),
            default=math.inf,
        )
