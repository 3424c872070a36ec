"""Cheeks with slanted slots, in the (y, z) plane.

A slot has its own frame: s along it, up and to the front, n across it, upward;
s = n = 0 is the middle of its bottom.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.shapes.outline import Outline, Point, polygon

# material above the top slot and below the lowest one, across the slot
TOOTH_MM = 6.0
FLARE_MM = 1.0
FLARE_LENGTH_MM = 1.5
# how far a cut goes on in front of the cheek, in flares
PAST = 3.0


@dataclass(frozen=True)
class Slot:
    """One slot: the middle of its bottom, its width, the depth of its lower wall, its tilt."""

    y: float
    z: float
    width_mm: float
    depth_mm: float
    tilt_deg: float

    @property
    def along(self) -> Point:
        """Return the (y, z) direction out of the slot."""
        tilt = math.radians(self.tilt_deg)
        return (math.cos(tilt), math.sin(tilt))

    def at(self, s: float, n: float) -> Point:
        """Return the (y, z) place of a point given along and across the slot."""
        cos, sin = self.along
        return (self.y + s * cos - n * sin, self.z + s * sin + n * cos)

    @property
    def mouth(self) -> Point:
        """Return where the lower wall ends in the front of the cheek."""
        return self.at(self.depth_mm, -self.width_mm / 2)

    def cut(self) -> Outline:
        """Return what the slot takes out of a cheek with an upright front at its mouth."""
        half, lower = self.width_mm / 2, self.depth_mm
        cos, sin = self.along
        upper = lower + self.width_mm * sin / cos
        back, past = FLARE_LENGTH_MM, FLARE_LENGTH_MM * (PAST - 1.0)
        corners = (
            (0.0, -half),
            (lower - back, -half),
            (lower + past, -half - PAST * FLARE_MM),
            (upper + past, half + PAST * FLARE_MM),
            (upper - back, half),
            (0.0, half),
        )
        return polygon([self.at(s, n) for s, n in corners])


def cheek(slots: Sequence[Slot], *, plate_mm: float) -> Outline:
    """Return a cheek from y = 0 to the mouths of slots given from the lowest to the highest.

    Its underside runs at 45 degrees to the plate, its top along the top slot.
    """
    lowest, highest = slots[0], slots[-1]
    cos, sin = highest.along
    front, mouth_z = lowest.mouth
    toe = mouth_z - TOOTH_MM / cos
    heel = toe - (front - plate_mm)
    _, on_top = highest.at(0.0, highest.width_mm / 2 + TOOTH_MM)
    y_top, _ = highest.at(0.0, highest.width_mm / 2 + TOOTH_MM)
    rise = sin / cos
    tip, root = on_top + (front - y_top) * rise, on_top - (y_top - plate_mm) * rise
    return polygon(
        [(0.0, heel), (plate_mm, heel), (front, toe), (front, tip), (plate_mm, root), (0.0, root)]
    )
