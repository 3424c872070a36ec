"""Does a part lie on a printer's bed on one of its six sides, turned by any angle?"""

from __future__ import annotations

from cleatwright.printing.footprint import SLACK_MM, turn_to_fit
from cleatwright.shapes.facts import Bounds
from cleatwright.workshop.document.sections import Printer


def usable_mm(printer: Printer) -> tuple[float, float, float]:
    """Return the usable room of a printer: its bed without the rim, and its height."""
    x, y, z = printer.bed_mm
    return (x - 2 * printer.edge_mm, y - 2 * printer.edge_mm, z)


def fits_bed(bounds: Bounds, printer: Printer) -> bool:
    """Return True when the box fits the printer on one of its sides, turned by any angle."""
    (x0, y0, z0), (x1, y1, z1) = bounds
    size = (x1 - x0, y1 - y0, z1 - z0)
    width, depth, height = usable_mm(printer)
    return any(
        size[up] <= height + SLACK_MM
        and turn_to_fit((size[up - 1], size[up - 2]), (width, depth)) is not None
        for up in range(3)
    )
