"""What holds a rail to its wall: screws or anchors, what one may carry, and by which rule."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from cleatwright.base.source import Source
from cleatwright.parts.screw_strength import ScrewStrength

Fixing = Literal["screw", "anchor"]


@dataclass(frozen=True)
class Fastening:
    """What holds a rail to its wall.

    Args:
        one: What one of them is called.
        strength: What one may carry for ever; None where nobody has said it.
        source: The rule, or who says what one may carry.
        place: What a place for them is called, as "stud".
        nowhere: Why a rail without a place for one carries nothing.
        unknown: What has to be found out where ``strength`` is None, as the end of a sentence.
        days: How much more one may carry for a week, as a multiple of ``strength``.
        minutes: The same for ten minutes.
    """

    one: Fixing
    strength: ScrewStrength | None
    source: Source
    place: str
    nowhere: str
    unknown: str = ""
    days: float = 1.0
    minutes: float = 1.0
