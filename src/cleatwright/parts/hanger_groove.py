"""The section of hangers where they sit in the groove of a back."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class HangerGroove:
    """Dovetails in a level groove, y from the back's face to the front, z from their middle.

    Args:
        long_mm: Length of all hangers together along the rail.
        strip_mm: Length of the wall before their grooves.
        middle_mm: How far above the bevel's edge the middle of the dovetail lies.
        root_mm: Height of the hook at the back's face; above and below the neck it bears on it.
        neck_mm: Height of the dovetail at the back's face.
        wide_mm: Where it is highest.
        floor_mm: Height of its floor.
        land_mm: How deep it is as high as its neck.
        flank_mm: How deep its flanks of 45 degrees are beyond that.
        deep_mm: Depth of the groove.
        wall_mm: What is left of the plate before it.
        bedded: True when the layers of the back are parallel to its face.
    """

    long_mm: float
    strip_mm: float
    middle_mm: float
    root_mm: float
    neck_mm: float
    wide_mm: float
    floor_mm: float
    land_mm: float
    flank_mm: float
    deep_mm: float
    wall_mm: float
    bedded: bool

    @property
    def lip_mm(self) -> float:
        """Return how thick the lips behind the flanks are where they leave the back."""
        return self.land_mm + self.flank_mm

    @property
    def flank_at_mm(self) -> tuple[float, float]:
        """Return (y, z) of the middle of the upper flank."""
        return self.land_mm + self.flank_mm / 2, (self.neck_mm + self.wide_mm) / 4

    @property
    def shoulder_mm(self) -> float:
        """Return how far above its middle the hook bears on the back's face."""
        return (self.root_mm + self.neck_mm) / 4
