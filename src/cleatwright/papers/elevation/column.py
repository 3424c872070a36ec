"""The written parts of an elevation on its sheets: columns, the title block, the strip at the foot.

A drawing that leaves no room for the legend has its title in the strip, and further
sheets for the legend.
"""

from __future__ import annotations

from cleatwright.base.lengths import MM_PER_INCH
from cleatwright.papers.elevation.layout import COLUMN, COLUMN_GAP, HEADING, MARGIN, Columns, Layout
from cleatwright.papers.elevation.legend import (
    BAR_WIDTH,
    CAUTION,
    CAUTION_ROOM,
    FOOT_PAD,
    HEAD,
    INK,
    PALE,
    RULE,
    SMALL,
    LegendRow,
    column_blocks,
    heads_again,
    legend_of,
    title_rows,
)
from cleatwright.papers.elevation.view import ElevationView
from cleatwright.papers.kit.svg import Anchor, Face, Pen, Sheet, wrap

BAR_LONGEST = COLUMN - 24.0


def draw_column(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Draw the columns beside the wall, and the title block at the foot of the last."""
    k = float(lay.scale)
    sheet.layer("legend")
    _columns(sheet, view, lay.columns, left=lay.first_column, top=MARGIN)
    block = legend_of(view).title
    top = lay.height - MARGIN - block
    left = lay.first_column + (len(lay.columns) - 1) * (COLUMN + COLUMN_GAP)
    sheet.layer("title-block")
    sheet.box((left * k, top * k), (COLUMN * k, block * k), Pen(INK, 0.35))
    y = top + 2.0
    for row in title_rows(view, width=COLUMN, scale=lay.scale, paper=lay.paper):
        y += row.height
        _draw_row(sheet, row, x=left, y=y - 0.3 * row.height)
    _scale_bar(sheet, view, x=left + 3.0, y=y + 6.0)


def draw_foot(sheet: Sheet, view: ElevationView, lay: Layout, *, legend_page: int) -> None:
    """Draw the strip with the title, the scale bar and where the rest is to be read."""
    k = float(lay.scale)
    width, block = lay.width - 2 * MARGIN, lay.foot - FOOT_PAD
    top = lay.height - MARGIN - block
    sheet.layer("title-block")
    sheet.box((MARGIN * k, top * k), (width * k, block * k), Pen(INK, 0.35))
    y = top + FOOT_PAD / 2
    for row in title_rows(view, width=width - BAR_WIDTH, scale=lay.scale, paper=lay.paper):
        y += row.height
        _draw_row(sheet, row, x=MARGIN, y=y - 0.3 * row.height)
    if lay.later:
        words = f"Read the cautions on sheet {legend_page} before you drill and hang."
        face = Face(SMALL, CAUTION, bold=True)
        at = ((MARGIN + 3.0) * k, (y + 0.7 * CAUTION_ROOM) * k)
        sheet.text(at, words, face, name="see-cautions")
    _scale_bar(sheet, view, x=lay.width - MARGIN - BAR_WIDTH + 2.0, y=top + 9.0)


def legend_sheets(view: ElevationView, lay: Layout, *, before: int) -> tuple[bytes, ...]:
    """Return the further sheets with the legend; ``before`` sheets lie before them."""
    pages: list[bytes] = []
    width, height = lay.paper.width_mm, lay.paper.height_mm
    for number, columns in enumerate(lay.later, start=before + 1):
        sheet = Sheet(width=width, height=height, scale=1.0, title=view.title)
        sheet.layer("paper")
        sheet.box((0.0, 0.0), (width, height), Pen(fill="#FFFFFF"))
        words = f"{view.title}, sheet {number} of {before + len(lay.later)}"
        draw_heading(sheet, words, width=width)
        sheet.layer("legend")
        _columns(sheet, view, columns, left=MARGIN, top=MARGIN + HEADING)
        pages.append(sheet.to_bytes())
    return tuple(pages)


def draw_heading(sheet: Sheet, words: str, *, width: float) -> None:
    """Write one line at the head of a sheet that is drawn at 1:1, cut off where it is too long."""
    sheet.layer("heading")
    face = Face(HEAD, INK, bold=True)
    line, *_ = wrap(words, size=1.1 * HEAD, width=width - 2 * MARGIN)
    sheet.text((MARGIN, MARGIN + HEAD), line, face, name="heading")


def _columns(
    sheet: Sheet, view: ElevationView, columns: Columns, *, left: float, top: float
) -> None:
    blocks = column_blocks(view)
    again = tuple(heads_again(blocks))
    for c, indices in enumerate(columns):
        x, y = left + c * (COLUMN + COLUMN_GAP), top
        here = [i for i in indices if i < len(blocks)]
        heads = again[here[0]] if here else ()
        for row in (*heads, *(row for i in here for row in blocks[i])):
            y += row.height
            _draw_row(sheet, row, x=x, y=y - 0.3 * row.height)


def _draw_row(sheet: Sheet, row: LegendRow, *, x: float, y: float) -> None:
    k = sheet.scale
    if row.kind == RULE:
        sheet.line((x * k, y * k), ((x + COLUMN) * k, y * k), Pen(PALE, 0.18))
    for cell in row.cells:
        face = Face(row.size, row.colour, bold=row.bold, anchor=cell.anchor)
        sheet.text(((x + cell.at) * k, y * k), cell.words, face, name=cell.name)


def _scale_bar(sheet: Sheet, view: ElevationView, *, x: float, y: float) -> None:
    k = sheet.scale
    unit_mm = 1.0 if view.unit == "mm" else MM_PER_INCH
    steps = (
        (1000, 500, 200, 100, 50, 20, 10, 5, 2, 1) if view.unit == "mm" else (48, 24, 12, 6, 2, 1)
    )
    whole = next((s for s in steps if s * unit_mm <= BAR_LONGEST * k), steps[-1])
    part = whole * unit_mm / 4
    for n in range(4):
        fill = INK if n % 2 == 0 else "none"
        corner = (x * k + n * part, y * k)
        sheet.box(corner, (part, 1.6 * k), Pen(INK, 0.2, fill), name="bar")
    ends: tuple[tuple[int, Anchor], ...] = ((0, "start"), (2, "middle"), (4, "middle"))
    for n, anchor in ends:
        words = view.length(n * part) + (f" {view.unit}" if n == 4 else "")
        face = Face(SMALL, INK, anchor=anchor)
        sheet.text((x * k + n * part, (y - 1.2) * k), words, face, name="scale-bar")
