"""How much room the mark of a part needs, whatever its letters are.

A mark is seven signs, the widest of which (W) is 1.52 cap heights wide in the
lettering font; the J reaches 0.28 cap heights below the line (both measured in the
font). Capitals are at least 5 mm high.
"""

from __future__ import annotations

import math

from cleatwright.parts.holder import Front, MarkPlace, front_mark

LEAST_CAP_MM = 5.0
LINE_PITCH = 1.45
RIM_MM = 1.0
DESCENT = 0.28
_WIDEST = 1.52


def lettering_height_mm(cap_mm: float, lines: int) -> float:
    """Return how high a place must be for lines of capitals ``cap_mm`` high, rims included."""
    return cap_mm * (1 + (lines - 1) * LINE_PITCH + DESCENT) + 2 * RIM_MM


# (signs in the longest line, lines): all in one, or four and three
_LAYOUTS = ((7, 1), (4, 2))
_SIZES = tuple(
    (
        signs * _WIDEST * LEAST_CAP_MM + 2 * RIM_MM,
        lettering_height_mm(LEAST_CAP_MM, lines),
    )
    for signs, lines in _LAYOUTS
)


def has_room(width_mm: float, height_mm: float) -> bool:
    """Return True when any mark fits a face of that size, along it or upright."""
    w, h = width_mm, height_mm
    return any((a <= w and b <= h) or (a <= h and b <= w) for a, b in _SIZES)


def band_height_mm(width_mm: float) -> float:
    """Return how high a band of that width must be for any mark; infinity below 7 mm.

    >>> band_height_mm(60.0) < band_height_mm(40.0) < band_height_mm(20.0)
    True
    """
    fitting = [b for a, b in _SIZES if a <= width_mm]
    upright = [a for a, b in _SIZES if b <= width_mm]
    return min([*fitting, *upright], default=math.inf)


def mark_below(width_mm: float, *, low_mm: float, plate_mm: float) -> tuple[MarkPlace, float]:
    """Return a place on the plate below ``low_mm`` for any mark, and how low the plate must be.

    Args:
        width_mm: Width of the plate (>= 7).
        low_mm: Lowest z of what stands in front of the plate.
        plate_mm: Thickness of the plate.
    """
    low = low_mm - band_height_mm(width_mm)
    return front_mark(0.0, width_mm, z0=low, z1=low_mm, y_mm=plate_mm), low


def plate_place(front: Front, low_mm: float, *, plate_mm: float) -> tuple[MarkPlace, ...]:
    """Return the plate's own face below a front as a place for the mark, if there is any.

    Args:
        front: The front.
        low_mm: Lowest z of the plate.
        plate_mm: Thickness of the plate.
    """
    high = min(front.low_mm, front.plate_low_mm)
    if not high > low_mm:
        return ()
    return (front_mark(0.0, front.width_mm, z0=low_mm, z1=high, y_mm=plate_mm),)
