"""How much pull a tool of a given weight asks of its magnets."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

FACTOR = 2.0
"""Times the tool's own weight: a knock must not loosen it, and people pull askew."""
FRICTION = 0.2
FRICTION_SOURCE = Source(
    "Smooth steel on printed plastic", "friction, on the low side", Evidence.MEMORY
)
VALUES = (Listed("Magnets", "friction on plastic", FRICTION, FRICTION_SOURCE),)


def carrying_n(weight_n: float, *, friction: float = FRICTION) -> float:
    """Return the pull that carries a weight by friction alone, with the factor.

    >>> carrying_n(1.0)
    10.0
    """
    return FACTOR * weight_n / friction


def tipping_n_mm(weight_n: float, *, out_mm: float) -> float:
    """Return the moment by which a weight ``out_mm`` before its face tips out, with the factor."""
    return FACTOR * weight_n * max(out_mm, 0.0)
