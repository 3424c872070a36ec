"""Where measures lie on a tool, for the drawing on its measuring card."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from cleatwright.shapes.rigid import Vector

View = Literal["front", "side", "above"]


@dataclass(frozen=True)
class Dimension:
    """Where a measure lies on a tool, for the drawing on its measuring card.

    The distance between the two points is the measure.

    Args:
        measure: The name that a person writes.
        view: The view in which it is drawn: from the front (x, z), from the side (y, z) or
            from above (x, y).
        start_mm: One end, in the frame of the tool.
        end_mm: The other end.
    """

    measure: str
    view: View
    start_mm: Vector
    end_mm: Vector

    @property
    def length_mm(self) -> float:
        """Return the distance between both ends."""
        return math.dist(self.start_mm, self.end_mm)


def across(
    measure: str, length_mm: float, *, z_mm: float, view: View = "front", at_mm: float = 0.0
) -> Dimension:
    """Return a dimension across the tool, centred on ``at_mm``, at the height ``z_mm``.

    It runs along x in the view from the front, along y in that from the side.
    """
    low, high = at_mm - length_mm / 2, at_mm + length_mm / 2
    if view == "side":
        return Dimension(measure, view, (0.0, low, z_mm), (0.0, high, z_mm))
    return Dimension(measure, view, (low, 0.0, z_mm), (high, 0.0, z_mm))


def along(
    measure: str, z0_mm: float, z1_mm: float, *, x_mm: float = 0.0, view: View = "front"
) -> Dimension:
    """Return a dimension along the tool from one height to another.

    ``x_mm`` is where it lies across: along x from the front, along y from the side.
    """
    if view == "side":
        return Dimension(measure, view, (0.0, x_mm, z0_mm), (0.0, x_mm, z1_mm))
    return Dimension(measure, view, (x_mm, 0.0, z0_mm), (x_mm, 0.0, z1_mm))
