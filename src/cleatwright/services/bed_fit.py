"""Does a part lie on a printer's bed in some quarter-turned pose?"""

from __future__ import annotations

from itertools import permutations

from cleatwright.shapes.facts import Bounds
from cleatwright.workshop.sections import Printer


def usable_mm(printer: Printer) -> tuple[float, float, float]:
    """Return the usable room of a printer: its bed without the rim, and its height."""
    x, y, z = printer.bed_mm
    return (x - 2 * printer.edge_mm, y - 2 * printer.edge_mm, z)


def fits_bed(bounds: Bounds, printer: Printer) -> bool:
    """Return True when the box fits the printer in one of the quarter-turned poses."""
    (x0, y0, z0), (x1, y1, z1) = bounds
    size = (x1 - x0, y1 - y0, z1 - z0)
    room = usable_mm(printer)
    return any(
        all(side <= most + 1e-6 for side, most in zip(turned, room, strict=True))
        for turned in permutations(size)
    )
