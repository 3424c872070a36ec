"""Cheeks with slanted slots, in the (y, z) plane.

A slot has its own frame: s along it, up and to the front, n across it, upward;
s = n = 0 is the middle of its bottom.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.features.root import COVE_MM
from cleatwright.shapes.outline import Outline, Point, polygon
from cleatwright.shapes.solid import Difference, Solid, Union, across, prism

# material above the top slot and below the lowest one, across the slot
TOOTH_MM = 6.0
FLARE_MM = 1.0
FLARE_LENGTH_MM = 1.5
PAST_MM = 1.0
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


def cheeks(
    slots: Sequence[Slot], x0: float, *, x1: float, thick_mm: float, plate_mm: float
) -> Solid:
    """Return a pair of cheeks with their slots, from x0 to x1 outside, with a fillet inside."""
    outline = cheek(slots, plate_mm=plate_mm)
    plain: list[Solid] = []
    for outer, side in ((x0, -1.0), (x1, 1.0)):
        inner = outer - side * thick_mm
        plain.append(across(outline, min(inner, outer), max(inner, outer)))
        plain.append(_fillet(outline, inner, side=side, plate_mm=plate_mm))
    cuts = tuple(across(slot.cut(), x0 - PAST_MM, x1 + PAST_MM) for slot in slots)
    return Difference(Union(tuple(plain)), cuts)


def _fillet(outline: Outline, inner: float, *, side: float, plate_mm: float) -> Solid:
    """Return the 45-degree fillet at the inside of a cheek on the ``side`` (-1 or 1)."""
    corners = [
        (inner, 0.0),
        (inner, plate_mm + COVE_MM),
        (inner - side * COVE_MM, plate_mm),
        (inner - side * COVE_MM, 0.0),
    ]
    # below, a cheek stands out less than its fillet
    low, high = outline.bounds[1] + COVE_MM, outline.corners[-1][1]
    plan = polygon(corners[::-1] if side < 0.0 else corners)
    return prism(plan, high - low).moved(0.0, 0.0, low)
