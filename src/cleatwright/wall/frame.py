"""From the frame of a part to that of its wall.

The frame of a wall: z up from its lower edge, y out of it from its face, and x along it
from its left edge. It is right-handed as that of a part, so that x runs to the left for the
reader and everything on the wall lies at x <= 0; ``parts.mirror`` turns it round for a person.
"""

from __future__ import annotations

from cleatwright.parts.holder import HolderPart
from cleatwright.parts.mirror import to_part
from cleatwright.shapes.rigid import Rigid, shift
from cleatwright.wall.model import Place


def part_on_wall(part: HolderPart, place: Place) -> Rigid:
    """Return the motion from the frame of a part to that of the wall on which it hangs.

    Args:
        part: A holder in one piece, or a carrier.
        place: The left edge of its plate for the reader, and its hang height.
    """
    hanging, x_mm = part.hanging, to_part(origin_mm(part, place))
    return shift(x_mm, hanging.stand_off_mm, place.z_mm - hanging.contact_z_mm)


def origin_mm(part: HolderPart, place: Place) -> float:
    """Return where the reader finds the x = 0 of a part that hangs: at its right edge."""
    return place.x_mm + part.bounds_mm[1][0]
