"""Closed openings in flat handles, by which a tool hangs from a peg, a hook or a saddle.

┌──────────────┐  ← top
│  ┌────────┐  │  rim, above the opening
│  │        │  │  width by height
│  └────────┘  │
└──────────────┘  ← low
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.parts.grips import EyeHole, Loop
from cleatwright.shapes.outline import Outline
from cleatwright.shapes.solid import Solid
from cleatwright.tools.features.pieces import flat
from cleatwright.tools.features.plates import pierced


@dataclass(frozen=True)
class Opening:
    """A rectangular opening about x = 0 in a plate that is centred on y = 0.

    Args:
        half_mm: Half the width of the plate around it.
        low_mm: Lower edge of the plate.
        top_mm: Upper edge of the plate.
        width_mm: The opening, clear along x.
        z0_mm: Lower edge of the opening.
        z1_mm: Upper edge of the opening.
        thickness_mm: Through the plate.
    """

    half_mm: float
    low_mm: float
    top_mm: float
    width_mm: float
    z0_mm: float
    z1_mm: float
    thickness_mm: float

    @property
    def height_mm(self) -> float:
        """Return the opening, clear along z."""
        return self.z1_mm - self.z0_mm

    def outlines(self) -> list[Outline]:
        """Return the convex pieces of the plate around the opening, in the xz plane."""
        x = self.width_mm / 2
        hole = ((-x, self.z0_mm), (x, self.z0_mm), (x, self.z1_mm), (-x, self.z1_mm))
        return pierced(self.half_mm, self.low_mm, self.top_mm, hole)

    def solids(self) -> tuple[Solid, ...]:
        """Return the convex pieces of the plate around the opening."""
        return tuple(flat(outline, self.thickness_mm) for outline in self.outlines())

    def grips(self) -> tuple[EyeHole, Loop]:
        """Return the opening as a hole for a peg and as a loop."""
        clear = min(self.width_mm, self.height_mm)
        rim = self.top_mm - self.z1_mm
        return (
            EyeHole(self.z1_mm, clear, self.thickness_mm, rim),
            Loop(self.z1_mm, self.width_mm, self.height_mm, self.thickness_mm),
        )
