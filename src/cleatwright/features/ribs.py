"""Ribs under a shelf, near enough to each other that it prints as bridges between them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from cleatwright.shapes.outline import Point, polygon, rectangle
from cleatwright.shapes.solid import Intersection, PrismRow, Solid, across

RIB_MM = 2.0
# a bridge of 10 mm prints without support (common practice, no source); a little less is asked for
SPAN_MM = 9.5


def rib_starts(width_mm: float) -> tuple[float, ...]:
    """Return where ribs begin along a shelf: flush at both ends, evenly, SPAN apart at most.

    >>> rib_starts(25.0)
    (0.0, 11.5, 23.0)
    """
    count = math.ceil((width_mm - RIB_MM) / (SPAN_MM + RIB_MM) - 1e-9)
    return tuple(k * (width_mm - RIB_MM) / count for k in range(count + 1))


def ribs(width_mm: float, *, plate_mm: float, tops: Sequence[Point]) -> Solid:
    """Return 45-degree ribs from a plate out to the front, under a shelf or under stairs.

    Args:
        width_mm: Width of the shelf, more than a rib.
        plate_mm: Thickness of the plate; the ribs reach through it.
        tops: Their upper edge as (y, z), from the foremost point, where a rib begins at its
            full slope, to y = 0.
    """
    nose_y, nose_z = tops[0]
    low = nose_z - (nose_y - plate_mm)
    side = polygon([(0.0, low), (plate_mm, low), *tops])
    high = max(z for _, z in tops)
    strips = tuple(rectangle(x, 0.0, x + RIB_MM, nose_y) for x in rib_starts(width_mm))
    rows = PrismRow(strips, high - low).moved(0.0, 0.0, low)
    return Intersection((rows, across(side, 0.0, width_mm)))
