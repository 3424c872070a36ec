"""The seats that are kept free on an elevation: dashed, with their names as far as these fit."""

from __future__ import annotations

from cleatwright.papers.elevation.layout import Layout
from cleatwright.papers.elevation.legend import BLUE
from cleatwright.papers.elevation.view import ElevationView
from cleatwright.papers.kit.svg import Face, Pen, Sheet, text_width

SIZE = 2.2
KEPT_FREE = Pen(BLUE, 0.25, dash=(2.0, 1.0))


def draw_seats(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Draw the room of each seat that is kept free, and its name, or only the number of it."""
    sheet.layer("reserved-seats")
    k = float(lay.scale)
    for seat in view.seats:
        x0, x1, z0, z1 = seat.box_mm
        left, top = lay.left * k + x0, lay.bottom * k - z1
        sheet.box((left, top), (x1 - x0, z1 - z0), KEPT_FREE, name="reserved-seat")
        words = seat.name
        if text_width(words, SIZE) * k > x1 - x0:
            words = words.rpartition(" ")[2]
        at = (left + (x1 - x0) / 2, top + (z1 - z0) - 0.6 * SIZE * k)
        sheet.text(at, words, Face(SIZE, BLUE, anchor="middle"), name="reserved-seat-name")
