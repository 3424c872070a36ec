"""A drawing that is larger than its paper, cut into sheets to be glued over each other."""

from __future__ import annotations

import copy
import xml.etree.ElementTree as ET

from cleatwright.base.lengths import show_length
from cleatwright.papers.elevation.column import draw_heading
from cleatwright.papers.elevation.layout import HEADING, MARGIN, OVERLAP, Layout, tile_room
from cleatwright.papers.elevation.legend import BLUE, INK
from cleatwright.papers.elevation.view import ElevationView, letter
from cleatwright.papers.kit.svg import Pen, Sheet, number
from cleatwright.papers.kit.tiling import Window, windows

MARK = 2.0


def tile_count(lay: Layout) -> int:
    """Return on how many sheets the drawing itself lies."""
    across, down = _grid(lay)
    return len(across) * len(down) if lay.tiled else 1


def tile_sheets(drawing: Sheet, view: ElevationView, lay: Layout) -> tuple[bytes, ...]:
    """Return the sheets, row by row, each with marks where it lies over its neighbours."""
    across, down = _grid(lay)
    pages: list[bytes] = []
    for row in down:
        for column in across:
            over = show_length(OVERLAP, view.unit)
            name = f"{letter(row.number - 1)}{column.number}"
            words = f"{view.title}, sheet {len(pages) + 1} of {tile_count(lay) + len(lay.later)}: "
            words += f"part {name}; parts lie {over} over each other, mark on mark"
            pages.append(_tile(drawing, lay, row=row, column=column, words=words))
    return tuple(pages)


def _grid(lay: Layout) -> tuple[tuple[Window, ...], tuple[Window, ...]]:
    wide, high = tile_room(lay.paper)
    return (
        windows(MARGIN, lay.width - MARGIN, room=wide, overlap=OVERLAP),
        windows(MARGIN, lay.height - MARGIN, room=high, overlap=OVERLAP),
    )


def _tile(drawing: Sheet, lay: Layout, *, row: Window, column: Window, words: str) -> bytes:
    k = float(lay.scale)
    width, height = lay.paper.width_mm, lay.paper.height_mm
    wide, high = tile_room(lay.paper)
    sheet = Sheet(width=width, height=height, scale=1.0, title=words)
    sheet.layer("paper")
    sheet.box((0.0, 0.0), (width, height), Pen(fill="#FFFFFF"))
    draw_heading(sheet, words, width=width)
    top = MARGIN + HEADING
    view_box = [column.start * k, row.start * k, wide * k, high * k]
    window = ET.SubElement(
        sheet.root,
        "svg",
        {
            "x": number(MARGIN),
            "y": number(top),
            "width": number(wide),
            "height": number(high),
            "viewBox": " ".join(number(value) for value in view_box),
        },
    )
    window.extend(copy.deepcopy(list(drawing.root)))
    sheet.layer("marks")
    sheet.box((MARGIN, top), (wide, high), Pen(INK, 0.13, dash=(2.0, 2.0)))
    _marks(sheet, lay, row=row, column=column)
    return sheet.to_bytes()


def _marks(sheet: Sheet, lay: Layout, *, row: Window, column: Window) -> None:
    """Draw crosses in the middle of what two sheets share."""
    across, down = _grid(lay)
    wide, high = tile_room(lay.paper)
    xs = ((MARGIN + OVERLAP / 2, 1), (MARGIN + wide - OVERLAP / 2, len(across)))
    top = MARGIN + HEADING
    ys = ((top + OVERLAP / 2, 1), (top + high - OVERLAP / 2, len(down)))
    r = MARK
    for x, last_column in xs:
        for y, last_row in ys:
            if column.number != last_column or row.number != last_row:
                sheet.lines([((x - r, y), (x + r, y)), ((x, y - r), (x, y + r))], Pen(BLUE, 0.18))
