"""The column beside an elevation: legend, rails, cautions and title block, line by line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from cleatwright.reports.elevation_layout import COLUMN, COLUMN_GAP, MARGIN, Layout, flow
from cleatwright.reports.elevation_view import MM_PER_INCH, ElevationView, letter
from cleatwright.reports.svg import Anchor, Face, Pen, Sheet, text_width, wrap

INK = "#15222A"
BLUE = "#22418F"
PALE = "#5B6B75"
CAUTION = "#8A1C1C"

SMALL = 2.6
BODY = 2.8
HEAD = 3.3
TITLE = 4.6
BAR_ROOM = 13.0
RULE = "rule"
RAIL_COLUMNS = (36.0, 54.0, 72.0, COLUMN)


@dataclass(frozen=True)
class Cell:
    """Words at a distance from the left edge of the column."""

    at: float
    words: str
    name: str = ""
    anchor: Anchor = "start"


@dataclass(frozen=True)
class Row:
    """One line of the column; its cells share one face."""

    cells: tuple[Cell, ...]
    height: float
    size: float = BODY
    bold: bool = False
    colour: str = INK
    kind: str = ""


Block = tuple[Row, ...]


def column_blocks(view: ElevationView) -> tuple[Block, ...]:
    """Return everything above the title block, in blocks that no column may break."""
    return (
        *_headed("Holders", _holders(view)),
        *_headed("Stays free", _obstacles(view)),
        *_headed("Rails", _rails(view)),
        *_headed("Before you drill and hang", _cautions(view), colour=CAUTION),
    )


def block_heights(view: ElevationView) -> tuple[float, ...]:
    """Return the heights of the blocks in paper millimetres, that of the title block last."""
    blocks = (sum(row.height for row in block) for block in column_blocks(view))
    return (*blocks, title_height(view))


def title_rows(view: ElevationView, *, scale: int, paper: tuple[float, float]) -> tuple[Row, ...]:
    """Return the lines of the title block, without the scale bar below them."""
    sheet = f"{paper[0]:.0f} × {paper[1]:.0f} mm"
    facts = (
        f"Wall from the front, scale 1:{scale} on a sheet of {sheet}",
        "All dimensions in mm" if view.unit == "mm" else "All dimensions in inches, to 1/16",
        "x and heights from the lower left corner of the wall",
        "Print at 100 % and check the bar with a rule",
    )
    title = wrap(view.title, size=TITLE, width=COLUMN - 6.0)
    return (
        *(Row((Cell(3.0, line, "title"),), 6.2, size=TITLE, bold=True) for line in title),
        *(Row((Cell(3.0, line),), 4.0, size=SMALL) for line in facts),
    )


def title_height(view: ElevationView) -> float:
    """Return the height of the title block with its scale bar."""
    return sum(row.height for row in title_rows(view, scale=1, paper=(0.0, 0.0))) + BAR_ROOM + 5.0


def draw_column(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Draw the lines over the columns, and the title block at the foot of the last."""
    k = float(lay.scale)
    blocks = column_blocks(view)
    sheet.layer("legend")
    for c, indices in enumerate(flow(block_heights(view), lay.height - 2 * MARGIN)):
        x, y = lay.first_column + c * (COLUMN + COLUMN_GAP), MARGIN
        for row in (row for i in indices if i < len(blocks) for row in blocks[i]):
            y += row.height
            _draw_row(sheet, row, x=x, y=y - 0.3 * row.height, k=k)
    block = title_height(view)
    top = lay.height - MARGIN - block
    left = lay.first_column + (lay.columns - 1) * (COLUMN + COLUMN_GAP)
    sheet.layer("title-block")
    sheet.box((left * k, top * k), (COLUMN * k, block * k), Pen(INK, 0.35))
    y = top + 2.0
    for row in title_rows(view, scale=lay.scale, paper=(lay.width, lay.height)):
        y += row.height
        _draw_row(sheet, row, x=left, y=y - 0.3 * row.height, k=k)
    _scale_bar(sheet, view, x=left + 3.0, y=y + 6.0, k=k)


def _draw_row(sheet: Sheet, row: Row, *, x: float, y: float, k: float) -> None:
    if row.kind == RULE:
        sheet.line((x * k, y * k), ((x + COLUMN) * k, y * k), Pen(PALE, 0.18))
    for cell in row.cells:
        face = Face(row.size, row.colour, bold=row.bold, anchor=cell.anchor)
        sheet.text(((x + cell.at) * k, y * k), cell.words, face, name=cell.name)


def _scale_bar(sheet: Sheet, view: ElevationView, *, x: float, y: float, k: float) -> None:
    unit_mm = 1.0 if view.unit == "mm" else MM_PER_INCH
    steps = (
        (1000, 500, 200, 100, 50, 20, 10, 5, 2, 1) if view.unit == "mm" else (48, 24, 12, 6, 2, 1)
    )
    longest = (COLUMN - 24.0) * k
    whole = next((s for s in steps if s * unit_mm <= longest), steps[-1])
    part = whole * unit_mm / 4
    for n in range(4):
        fill = INK if n % 2 == 0 else "none"
        sheet.box((x * k + n * part, y * k), (part, 1.6 * k), Pen(INK, 0.2, fill))
    ends: tuple[tuple[int, Anchor], ...] = ((0, "start"), (2, "middle"), (4, "middle"))
    for n, anchor in ends:
        words = view.length(n * part) + (f" {view.unit}" if n == 4 else "")
        face = Face(SMALL, INK, anchor=anchor)
        sheet.text((x * k + n * part, (y - 1.2) * k), words, face, name="scale-bar")


def _headed(words: str, blocks: Iterable[Block], *, colour: str = INK) -> Iterator[Block]:
    """Yield the blocks, the first of them joined to a heading; nothing when there are none."""
    heading = (
        Row((), 2.0),
        Row((Cell(0.0, words),), 5.2, size=HEAD, bold=True, colour=colour),
        Row((), 1.0, kind=RULE),
    )
    for block in blocks:
        yield (*heading, *block)
        heading = ()


def _holders(view: ElevationView) -> Iterator[Block]:
    for holder in sorted(view.holders, key=lambda h: h.number):
        note_room = text_width(holder.note, BODY) + 2.0 if holder.note else 0.0
        note_room = min(note_room, COLUMN / 2)
        lines = wrap(holder.name, size=BODY, width=COLUMN - 9.0 - note_room)
        notes = wrap(holder.note, size=BODY, width=COLUMN / 2 - 2.0) if holder.note else ()
        rows: list[Row] = []
        for n in range(max(len(lines), len(notes))):
            cells = [Cell(6.0, str(holder.number), "legend-number", "end")] if n == 0 else []
            if n < len(lines):
                cells.append(Cell(9.0, lines[n], "legend-name"))
            if n < len(notes):
                cells.append(Cell(COLUMN, notes[n], "legend-note", "end"))
            rows.append(Row(tuple(cells), 4.3))
        yield tuple(rows)


def _obstacles(view: ElevationView) -> Iterator[Block]:
    for k, obstacle in enumerate(view.obstacles):
        x0, x1, z0, z1 = obstacle.box_mm
        words = (
            f"{obstacle.name}: {view.length(x1 - x0)} × {view.length(z1 - z0)} "
            f"at {view.length(x0)}, {view.length(z0)}"
        )
        rows: list[Row] = []
        for n, line in enumerate(wrap(words, size=BODY, width=COLUMN - 9.0)):
            mark = (Cell(6.0, letter(k), "", "end"),) if n == 0 else ()
            rows.append(Row((*mark, Cell(9.0, line, "obstacle-name")), 4.3))
        yield tuple(rows)


def _rails(view: ElevationView) -> Iterator[Block]:
    heads = ("top edge", "from x", "to x", "length")
    titles = (Cell(at, word, "", "end") for at, word in zip(RAIL_COLUMNS, heads, strict=True))
    above = (Row((Cell(0.0, "rail"), *titles), 4.3, size=SMALL, colour=PALE),)
    for rail in sorted(view.rails, key=lambda r: (-r.z_top_mm, r.x0_mm, r.name)):
        values = (rail.z_top_mm, rail.x0_mm, rail.x1_mm, rail.x1_mm - rail.x0_mm)
        cells = (
            Cell(at, view.length(v), "", "end") for at, v in zip(RAIL_COLUMNS, values, strict=True)
        )
        rows = [*above, Row((Cell(0.0, rail.name), *cells), 4.3)]
        if view.studs_mm:
            at = ", ".join(view.length(x) for x in rail.screws_mm)
            words = f"studs at x = {at}" if at else "no stud behind it: it cannot be fixed here"
            rows += [
                Row((Cell(9.0, line),), 3.8, size=SMALL, colour=PALE if at else CAUTION)
                for line in wrap(words, size=SMALL, width=COLUMN - 9.0)
            ]
        yield tuple(rows)
        above = ()


def _cautions(view: ElevationView) -> Iterator[Block]:
    rows: list[Row] = []
    for words in view.cautions:
        for n, line in enumerate(wrap(words, size=SMALL, width=COLUMN - 4.0)):
            bullet = (Cell(0.0, "•"),) if n == 0 else ()
            rows.append(Row((*bullet, Cell(3.5, line, "caution")), 3.7, size=SMALL))
        rows.append(Row((), 0.8))
    if rows:
        yield tuple(rows)
