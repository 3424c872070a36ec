"""A narrow arm with a rounded top, deeper at its root, whose end rises to an upturned tip.

section across            section along

   ╭───╮ ← z = 0          ║plate            ╱│ ← tip
   │   │                  ║╲_______________╱ │
   ╰╲_╱╯ depth            ║            ___╱ ╱
   width                  ║ __--──''‾‾   end_mm
                          ║╱ root_mm
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.features.saddle import DROP, HALF_ANGLE
from cleatwright.shapes.outline import Outline

LIP_MM = 2.5
EDGE_MM = 1.0
# of the width, broken off each lower edge
BROKEN = 0.2
_BULGE = math.tan(HALF_ANGLE / 2)


@dataclass(frozen=True)
class HookArm:
    """One arm, its crown at z = 0.

    Args:
        width_mm: Width of the arm.
        flare_mm: How far it widens on each side at the plate, within as much of y.
        foot_mm: Its depth at the plate.
        root_mm: Its depth before that.
        end_mm: Its depth where the tip begins.
        axis_y: Where the axis of its tool lies.
        tip_y: Where the tip begins to rise.
        tip_mm: How far the tip rises.
        lift_mm: Room above the tip on the way out.
    """

    width_mm: float
    flare_mm: float
    foot_mm: float
    root_mm: float
    end_mm: float
    axis_y: float
    tip_y: float
    tip_mm: float
    lift_mm: float

    @property
    def low_mm(self) -> float:
        """Return the lowest z of the arm."""
        return -max(self.foot_mm, self.root_mm)

    @property
    def end_y(self) -> float:
        """Return the end of the arm."""
        return self.tip_y + self.tip_mm + LIP_MM

    def sections(self, plate_mm: float) -> tuple[tuple[float, Outline], ...]:
        """Return the (x, z) sections from the wall to the tip."""
        wide, deep = self.width_mm + 2 * self.flare_mm, self.foot_mm
        high = _section(self.width_mm, self.tip_mm, self.end_mm)
        slim = _section(self.width_mm - EDGE_MM, self.tip_mm - EDGE_MM / 2, self.end_mm - EDGE_MM)
        return (
            (0.0, _section(wide, 0.0, deep)),
            (plate_mm, _section(wide, 0.0, deep)),
            (plate_mm + self.flare_mm, _section(self.width_mm, 0.0, self.root_mm)),
            (self.tip_y, _section(self.width_mm, 0.0, self.end_mm)),
            (self.tip_y + self.tip_mm, high),
            (self.end_y - EDGE_MM, high),
            (self.end_y, slim),
        )


def _section(width_mm: float, top_mm: float, depth_mm: float) -> Outline:
    """Return a section with a crown as round as that of a saddle, its lower edges broken."""
    half, broken = width_mm / 2, BROKEN * width_mm
    edge, low = top_mm - DROP * width_mm, top_mm - depth_mm
    corners = (
        (half, edge),
        (-half, edge),
        (-half, low + broken),
        (-half + broken, low),
        (half - broken, low),
        (half, low + broken),
    )
    return Outline(corners, (_BULGE, 0.0, 0.0, 0.0, 0.0, 0.0))
