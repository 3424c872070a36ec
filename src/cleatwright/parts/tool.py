"""A tool as the rest of the program sees it: its space, its weight, its grips."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from cleatwright.base.errors import FaultError
from cleatwright.parts.grips import Grip
from cleatwright.shapes.extent import joint_extent
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.rigid import Vector
from cleatwright.shapes.solid import Solid

G = TypeVar("G", bound=Grip)
GRAVITY_M_S2 = 9.80665


@dataclass(frozen=True)
class ToolBody:
    """What a kind makes of its measures.

    Args:
        kind: Name of the kind.
        leading: Leading dimensions in drawing notation, for names and marks.
        envelope: Convex solids, in the frame of the tool, that together enclose it.
        mass_kg: Estimated or weighed mass.
        com_mm: Centre of mass in the frame of the tool.
        grips: The ways in which it can be held.
        order_mm: The size by which a group of such tools is put in order.
    """

    kind: str
    leading: str
    envelope: tuple[Solid, ...]
    mass_kg: float
    com_mm: Vector
    grips: tuple[Grip, ...]
    order_mm: float

    @cached_property
    def extent_mm(self) -> Bounds:
        """Return the box around the envelope in the frame of the tool."""
        return joint_extent(self.envelope)

    @property
    def width_mm(self) -> float:
        """Return how much room the tool takes along the wall, about its axis."""
        (x0, _, _), (x1, _, _) = self.extent_mm
        return 2.0 * max(-x0, x1)

    def grip(self, wanted: type[G]) -> G | None:
        """Return the first grip of the wanted type, or None."""
        return next((g for g in self.grips if isinstance(g, wanted)), None)

    def needed_grip(self, wanted: type[G]) -> G:
        """Return the first grip of a type that the tool was asked for before.

        Raises:
            FaultError: It has none.
        """
        grip = self.grip(wanted)
        if grip is None:
            raise FaultError(f"a {self.kind} offers no {wanted.title}, and was taken to have one")
        return grip


@dataclass(frozen=True)
class Fit:
    """How much play a seat gets: a class of play and the printer's own correction, both in mm."""

    play_mm: float
    correction_mm: float = 0.0


@dataclass(frozen=True)
class Size:
    """A size in a part, with what it is made up of."""

    label: str
    measured_mm: float
    play_mm: float
    correction_mm: float

    @property
    def made_mm(self) -> float:
        """Return the size in the part: measured + play + correction."""
        return self.measured_mm + self.play_mm + self.correction_mm


@dataclass(frozen=True)
class FittedTool:
    """A tool together with the fit that its seat shall have."""

    body: ToolBody
    fit: Fit

    def size(self, label: str, measured_mm: float) -> Size:
        """Return the size of an opening that takes ``measured_mm``."""
        return Size(label, measured_mm, self.fit.play_mm, self.fit.correction_mm)
