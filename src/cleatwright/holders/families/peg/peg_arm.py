"""A round peg that rises, with a cone at its root and an upturned tip."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.parts.tool import Size
from cleatwright.shapes.outline import Outline, circle

ROOT_MM = 2.5
LIP_MM = 2.0
EDGE_MM = 1.0


@dataclass(frozen=True)
class Peg:
    """One peg, whose top lies at z = 0 where its tip begins.

    Args:
        sizes: Its thickness, and its length between the root and the tip.
        axis_y: Where the axis of its tool lies.
        tip_mm: How far the tip rises.
        lift_mm: Room above the tip on the way out.
        rise: By how much it rises for each mm before the tip.
    """

    sizes: tuple[Size, Size]
    axis_y: float
    tip_mm: float
    lift_mm: float
    rise: float

    @property
    def peg_mm(self) -> float:
        """Return the thickness."""
        return self.sizes[0].made_mm

    @property
    def tip_y(self) -> float:
        """Return where the tip begins to rise."""
        return self.axis_y + self.sizes[1].made_mm / 2

    @property
    def end_y(self) -> float:
        """Return the end of the peg."""
        return self.tip_y + self.tip_mm + LIP_MM

    def section(self, y: float, top_mm: float, *, more_mm: float = 0.0) -> tuple[float, Outline]:
        """Return the (x, z) section at ``y`` below a height, thicker all around by ``more_mm``."""
        middle = top_mm - self.peg_mm / 2
        return y, circle(self.peg_mm + 2 * more_mm, at=(0.0, middle))

    def top_mm(self, y: float) -> float:
        """Return the height of the peg's top before the tip."""
        return (y - self.tip_y) * self.rise

    def sections(self, plate_mm: float) -> tuple[tuple[float, Outline], ...]:
        """Return the sections from the wall to the tip."""
        root, up = plate_mm + ROOT_MM, self.tip_y + self.tip_mm
        near = self.top_mm(root)
        return (
            self.section(0.0, near, more_mm=ROOT_MM),
            self.section(plate_mm, near, more_mm=ROOT_MM),
            self.section(root, near),
            self.section(self.tip_y, 0.0),
            self.section(up, self.tip_mm),
            self.section(self.end_y - EDGE_MM, self.tip_mm),
            self.section(self.end_y, self.tip_mm, more_mm=-EDGE_MM / 2),
        )
