"""From the frame of a part to that of its wall.

The frame of a wall: z up from its lower edge, y out of it from its face, and x along it
from its left edge. It is right-handed as that of a part, so that x runs to the left for the
reader and everything on the wall lies at x <= 0; only what is told to a person is mirrored.
"""

from __future__ import annotations

from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.rigid import Rigid, shift
from cleatwright.wall.model import Place


def part_on_wall(part: HolderPart, place: Place) -> Rigid:
    """Return the motion from the frame of a part to that of the wall on which it hangs.

    Args:
        part: A holder in one piece, or a carrier.
        place: The left edge of its plate for the reader, and its hang height.
    """
    plate_mm = part.bounds_mm[1][0]
    hanging = part.hanging
    return shift(-place.x_mm - plate_mm, hanging.stand_off_mm, place.z_mm - hanging.contact_z_mm)
