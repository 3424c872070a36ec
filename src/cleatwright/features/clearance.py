"""How far a tool keeps from the plate behind it and, on its way out, from the holder."""

from __future__ import annotations

from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import Vector

CLEAR_MM = 1.0


def up_and_out(
    tool: ToolBody, *, up_mm: float, axis_mm: float, reach_mm: float
) -> tuple[Vector, Vector]:
    """Return the way out of an upright tool: up, then out past the front of its holder.

    Args:
        tool: The tool, turned as it was measured.
        up_mm: How far it is lifted.
        axis_mm: Distance of its axis from the wall.
        reach_mm: Distance of the holder's front from the wall.
    """
    out = reach_mm - axis_mm - tool.extent_mm[0][1] + CLEAR_MM
    return (0.0, 0.0, up_mm), (0.0, out, 0.0)
