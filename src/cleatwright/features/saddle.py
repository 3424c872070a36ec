"""An arm with a saddle: an arched shell on two webs, with an upturned tip."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.features.outward import arm
from cleatwright.features.root import COVE_MM, gusset
from cleatwright.shapes.outline import Outline
from cleatwright.shapes.solid import Solid

# the crown's radius over the arm's width, half the angle that it then spans, and its fall
CROWN = 0.6
HALF_ANGLE = math.asin(0.5 / CROWN)
DROP = CROWN - math.sqrt(CROWN**2 - 0.25)
LEAST_ARM_MM = 20.0
LIP_MM = 3.0
EDGE_MM = 1.0
SHELL_MM = 5.0
WEB_MM = 4.0
SHELL_FALL_MM = SHELL_MM * math.cos(HALF_ANGLE)


def web_top_mm(width_mm: float) -> float:
    """Return the height at which both edges of a web lie within the shell."""
    radius, outer = CROWN * width_mm, width_mm / 4 + WEB_MM / 2
    return math.sqrt(radius**2 - outer**2) - radius - 0.5


@dataclass(frozen=True)
class SaddleArm:
    """One arm, its crown at z = 0.

    Args:
        width_mm: Width of the saddle (>= LEAST_ARM_MM).
        axis_y: Where the axis of the tool lies.
        tip_y: Where the tip begins to rise.
        tip_mm: How far the tip rises.
        web_mm: How far the webs reach out, and down from their top.
        web_top_mm: Height at which the webs end in the shell.
    """

    width_mm: float
    axis_y: float
    tip_y: float
    tip_mm: float
    web_mm: float
    web_top_mm: float

    @property
    def low_mm(self) -> float:
        """Return the lowest z of the arm."""
        shell = DROP * self.width_mm + (SHELL_MM + COVE_MM) * math.cos(HALF_ANGLE)
        return -max(shell, self.web_mm - self.web_top_mm)

    def solids(self, x: float, *, plate_mm: float) -> list[Solid]:
        """Return the pieces of the arm, centred on ``x``."""
        thick = _shell(self.width_mm, SHELL_MM + COVE_MM)
        flat = _shell(self.width_mm, SHELL_MM)
        high = _shell(self.width_mm, SHELL_MM, raised_mm=self.tip_mm)
        end = _shell(self.width_mm, SHELL_MM - 2 * EDGE_MM, raised_mm=self.tip_mm - EDGE_MM)
        top_y = self.tip_y + self.tip_mm
        face = top_y + LIP_MM - EDGE_MM
        webs = [
            gusset(
                x + side * self.width_mm / 4 - WEB_MM / 2,
                x + side * self.width_mm / 4 + WEB_MM / 2,
                plate_mm=plate_mm,
                reach_mm=self.web_mm,
                z_mm=self.web_top_mm,
            )
            for side in (-1, 1)
        ]
        sections = (
            (0.0, thick),
            (plate_mm, thick),
            (plate_mm + COVE_MM, flat),
            (self.tip_y, flat),
            (top_y, high),
            (face, high),
            (face + EDGE_MM, end),
        )
        return [arm(sections, x), *webs]


def _shell(width_mm: float, thickness_mm: float, *, raised_mm: float = 0.0) -> Outline:
    """Return the (x, z) section of a saddle whose crown lies at ``raised_mm``."""
    radius = CROWN * width_mm
    sin, cos = math.sin(HALF_ANGLE), math.cos(HALF_ANGLE)
    inner = radius - thickness_mm
    bulge = math.tan(HALF_ANGLE / 2)
    z = raised_mm - radius
    corners = (
        (radius * sin, z + radius * cos),
        (-radius * sin, z + radius * cos),
        (-inner * sin, z + inner * cos),
        (inner * sin, z + inner * cos),
    )
    return Outline(corners, (bulge, 0.0, -bulge, 0.0))
