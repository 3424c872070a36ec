"""What every geometry kernel can do."""

from __future__ import annotations

from typing import Protocol

from cleatwright.shapes.facts import BodyFacts
from cleatwright.shapes.solid import Solid

CHORD_ERROR_MM = 0.02


class Body(Protocol):
    """An evaluated solid."""

    @property
    def facts(self) -> BodyFacts:
        """Return the measured facts."""
        ...


class Kernel(Protocol):
    """Turns a description into a body; each failure is a KernelError that names the node."""

    @property
    def name(self) -> str:
        """Return the name for reports."""
        ...

    def evaluate(self, solid: Solid) -> Body:
        """Return the body of a description."""
        ...
