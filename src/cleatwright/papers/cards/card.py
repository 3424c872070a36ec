"""A measuring card: what to measure on a tool, drawn on the tool, with room to write it down."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from cleatwright.base.lengths import LengthUnit
from cleatwright.papers.cards.drawing import FAINT, INK, THIN, Drawing, draw, drawing
from cleatwright.papers.cards.view import CardRow, CardTool, CardView
from cleatwright.papers.kit.drawn import drawn_file
from cleatwright.papers.kit.svg import Face, Pen, Point, Sheet, text_width, wrap

# fits between the margins of A4 and of Letter paper
WIDTH = 186.0
DRAWING_HEIGHT = 82.0
EDGE = 1.0
HEAD = Face(4.2, INK, bold=True)
WORDS = Face(2.6, INK)
STRONG = Face(2.6, INK, bold=True)
SMALL = Face(2.5, INK)
LINE = 3.4
HEAD_HEIGHT = 11.0
ROW_PAD = 1.2
# room for a hand to write in
WRITING = 6.2
COLUMNS = ("", "name", "where the calliper goes", "bounds", "")
STARTS = (0.0, 7.0, 38.0, 110.0, 158.0)
ENDS = (6.0, 37.0, 109.0, 157.0, WIDTH)
FIELD_HEIGHT, NAME_HEIGHT = 9.5, 5.5
FIELDS_A_LINE = 10
WIDEST_FIELD = 30.0
HOW = (
    "Not to scale. Measure in {unit} with a calliper and write what you read; play is added later. "
    "Weigh what is heavy."
)
UNITS: Mapping[LengthUnit, str] = MappingProxyType({"mm": "mm", "in": "inches"})


@dataclass(frozen=True)
class CardStrip:
    """What stays together on a page: a card without its tools, or one tool with its fields."""

    height: float
    view: CardView
    drawn: Drawing | None = None
    tool: CardTool | None = None


def card_svg(view: CardView) -> bytes:
    """Return a card as an SVG file, 188 mm wide; widths and heights are mm of paper."""
    strips = list(card_strips(view))
    height = sum(strip.height for strip in strips)
    sheet = Sheet(
        width=WIDTH + 2 * EDGE, height=height + 2 * EDGE, scale=1.0, title=f"Card: {view.title}"
    )
    paper = (WIDTH + 2 * EDGE, height + 2 * EDGE)
    sheet.box((0.0, 0.0), paper, Pen(fill="#FFFFFF"), name="paper")
    y = EDGE
    for strip in strips:
        draw_strip(sheet, strip, (EDGE, y))
        y += strip.height
    return sheet.to_bytes()


MEASURING_CARD = drawn_file("measuring card", card_svg)
"""From what is on a measuring card to its drawing."""


def card_strips(view: CardView, *, drawing_height: float = DRAWING_HEIGHT) -> Iterator[CardStrip]:
    """Yield what a card is made of, from top to bottom."""
    shown = drawing(view.faces, width=WIDTH, height=drawing_height)
    legend = sum(_row_height(row, view) for row in view.rows)
    height = HEAD_HEIGHT + shown.size[1] + 2.0 + LINE + ROW_PAD + legend + 5.0
    height += len(_caution(view)) * LINE
    yield CardStrip(height, view, drawn=shown)
    for tool in view.tools:
        lines = -(-len(tool.values) // FIELDS_A_LINE)
        yield CardStrip(NAME_HEIGHT + lines * FIELD_HEIGHT + 3.5, view, tool=tool)


def draw_strip(sheet: Sheet, strip: CardStrip, corner: Point) -> None:
    """Draw a strip with its upper left corner at a point of the sheet."""
    if strip.tool is not None:
        sheet.layer("tool")
        _tool(sheet, strip.view, strip.tool, corner)
    elif strip.drawn is not None:
        _card(sheet, strip.view, strip.drawn, corner)


def _card(sheet: Sheet, view: CardView, shown: Drawing, corner: Point) -> None:
    x, y = corner
    sheet.layer("head")
    sheet.line((x, y + 0.5), (x + WIDTH, y + 0.5), Pen(INK, 0.5))
    sheet.text((x, y + 5.5), view.title, HEAD, name="title")
    sheet.text((x + WIDTH, y + 5.5), f"kind: {view.kind}", Face(3.2, INK, anchor="end"))
    sheet.text((x, y + 9.3), f"{HOW.format(unit=UNITS[view.unit])} {view.hint}", SMALL, name="how")
    y += HEAD_HEIGHT
    draw(sheet, shown, (x + (WIDTH - shown.size[0]) / 2, y))
    y += shown.size[1] + 2.0
    sheet.layer("legend")
    for start, words in zip(STARTS, _heads(view), strict=True):
        sheet.text((x + start, y + LINE - 0.5), words, STRONG)
    y += LINE + ROW_PAD / 2
    for row in view.rows:
        y = _row(sheet, view, row, (x, y))
    sheet.line((x, y), (x + (WIDTH if view.tools else ENDS[-2]), y), FAINT)
    for number, words in enumerate(_caution(view), 1):
        sheet.text((x, y + number * LINE), words, SMALL, name="caution")


def _caution(view: CardView) -> tuple[str, ...]:
    if not view.caution:
        return ()
    return wrap(f"Caution: {view.caution}", size=SMALL.size, width=WIDTH)


def _heads(view: CardView) -> tuple[str, ...]:
    return (*COLUMNS[:-1], "" if view.tools else f"your tool, {view.unit}")


def _cells(row: CardRow, view: CardView) -> tuple[tuple[str, ...], ...]:
    """Return the lines of each cell of the legend, but for the letter."""
    texts = (row.name, row.where, row.bounds if view.tools else _with_note(row))
    last = (row.note,) if view.tools else ()
    return tuple(
        wrap(text, size=WORDS.size, width=end - start)
        for text, start, end in zip((*texts, *last), STARTS[1:], ENDS[1:], strict=False)
    )


def _with_note(row: CardRow) -> str:
    return f"{row.bounds}, {row.note}" if row.note else row.bounds


def _row_height(row: CardRow, view: CardView) -> float:
    needed = max(len(lines) for lines in _cells(row, view)) * LINE + ROW_PAD
    return needed if view.tools else max(needed, WRITING)


def _row(sheet: Sheet, view: CardView, row: CardRow, corner: Point) -> float:
    """Draw a line of the legend and return where the next one begins."""
    x, y = corner
    height = _row_height(row, view)
    sheet.line((x, y), (x + (WIDTH if view.tools else ENDS[-2]), y), FAINT)
    base = y + ROW_PAD / 2 + LINE - 1.0
    sheet.text((x + 1.0, base), row.letter, STRONG, name="row")
    for start, lines in zip(STARTS[1:], _cells(row, view), strict=False):
        for number, words in enumerate(lines):
            sheet.text((x + start, base + number * LINE), words, WORDS)
    if not view.tools:
        sheet.line((x + STARTS[-1], y + height), (x + ENDS[-1], y + height), THIN)
        sheet.text((x + STARTS[-1] + 1.0, base), row.value, STRONG, name="value")
    return y + height


def _tool(sheet: Sheet, view: CardView, tool: CardTool, corner: Point) -> None:
    x, y = corner
    words = tool.name or "Name of the tool:"
    sheet.text((x, y + NAME_HEIGHT - 1.8), words, STRONG, name="tool")
    sheet.text((x + WIDTH, y + NAME_HEIGHT - 1.8), view.kind, Face(2.5, INK, anchor="end"))
    if not tool.name:
        after = x + text_width(words, STRONG.size) + 1.0
        sheet.line((after, y + NAME_HEIGHT - 1.2), (x + 120.0, y + NAME_HEIGHT - 1.2), THIN)
    wide = min(WIDEST_FIELD, WIDTH / min(len(tool.values), FIELDS_A_LINE))
    for number, (row, value) in enumerate(zip(view.rows, tool.values, strict=True)):
        line, place = divmod(number, FIELDS_A_LINE)
        left, top = x + place * wide, y + NAME_HEIGHT + line * FIELD_HEIGHT
        sheet.box((left, top), (wide, FIELD_HEIGHT), THIN, name="field")
        sheet.text((left + 0.8, top + 3.0), row.letter, SMALL)
        at = left + wide / 2 + 1.0, top + FIELD_HEIGHT - 2.2
        sheet.text(at, value, Face(3.0, INK, anchor="middle"), name="value")
