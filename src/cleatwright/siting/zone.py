"""Between which heights the hand shall take a tool, and what sets them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace


@dataclass(frozen=True)
class Zone:
    """Between which heights above the floor the hand shall take a tool, and why.

    Args:
        low_mm: No lower than this.
        high_mm: No higher than this.
        low_why: What sets the lower bound, a sentence about the tool; "" for nothing.
        high_why: The same of the upper bound.
        low_by: The same without the tool, after "it": "hangs out of the reach of ..."; or "".
        high_by: The same of the upper bound.
    """

    low_mm: float = 0.0
    high_mm: float = math.inf
    low_why: str = ""
    high_why: str = ""
    low_by: str = ""
    high_by: str = ""

    def lowered_to(self, high_mm: float, why: str, by: str = "") -> Zone:
        """Return the zone with an upper bound that is no higher."""
        if high_mm >= self.high_mm:
            return self
        return replace(self, high_mm=high_mm, high_why=why, high_by=by)

    def raised_to(self, low_mm: float, why: str, by: str = "") -> Zone:
        """Return the zone with a lower bound that is no lower."""
        if low_mm <= self.low_mm:
            return self
        return replace(self, low_mm=low_mm, low_why=why, low_by=by)

    @property
    def without_top(self) -> Zone:
        """Return the zone without its upper bound."""
        return replace(self, high_mm=math.inf, high_why="", high_by="")
