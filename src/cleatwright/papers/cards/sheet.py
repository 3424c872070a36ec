"""Measuring cards on pages, as SVG files; ``svg_pdf`` makes one PDF file of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from cleatwright.base.errors import MeasureError, unknown_name
from cleatwright.base.stages.stage import Stage
from cleatwright.papers.cards.card import WIDTH, CardStrip, card_strips, draw_strip
from cleatwright.papers.cards.drawing import INK
from cleatwright.papers.cards.view import CardView
from cleatwright.papers.kit.drawn import Pages, drawn_pages
from cleatwright.papers.kit.svg import Face, Pen, Sheet

# Source: ISO 216:2007, A4; ANSI/ASME Y14.1, size A (both from memory)
PAPERS: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
)
MARGIN = 11.0
FOOT = 5.0
# low enough for two cards on a page
DRAWING_HEIGHT = 54.0


def sheet_pages(views: Sequence[CardView], *, title: str, paper: str = "a4") -> tuple[bytes, ...]:
    """Return the pages as SVG files, as many cards on each as fit.

    Raises:
        UnknownNameError: There is no such paper.
        MeasureError: There are no cards.
    """
    if paper not in PAPERS:
        raise unknown_name("paper", paper, PAPERS)
    if not views:
        raise MeasureError("there is nothing to measure", todo="Name a kind, or list a tool")
    width, height = PAPERS[paper]
    room = height - 2 * MARGIN - FOOT
    strips = [s for v in views for s in card_strips(v, drawing_height=DRAWING_HEIGHT)]
    pages = _filled(strips, room)
    made: list[bytes] = []
    for number, strips in enumerate(pages, 1):
        sheet = Sheet(width=width, height=height, scale=1.0, title=title)
        sheet.box((0.0, 0.0), (width, height), Pen(fill="#FFFFFF"), name="paper")
        left, y = (width - WIDTH) / 2, MARGIN
        for strip in strips:
            draw_strip(sheet, strip, (left, y))
            y += strip.height
        sheet.layer("foot")
        at = height - MARGIN + 2.0
        sheet.text((left, at), title, Face(2.5, INK))
        told = f"page {number} of {len(pages)}"
        sheet.text((left + WIDTH, at), told, Face(2.5, INK, anchor="end"))
        made.append(sheet.to_bytes())
    return tuple(made)


CARD_SHEETS: Stage[tuple[tuple[CardView, ...], str, str], Pages] = drawn_pages(
    "sheets of measuring cards",
    lambda given: sheet_pages(given[0], title=given[1], paper=given[2]),
)
"""From measuring cards, a title and the name of the paper to pages."""


def _filled(strips: Sequence[CardStrip], room: float) -> list[list[CardStrip]]:
    """Return what goes on each page; a card takes its first tool with it."""
    pages: list[list[CardStrip]] = []
    left = 0.0
    for number, strip in enumerate(strips):
        after = strips[number + 1] if number + 1 < len(strips) else strip
        needed = strip.height
        if strip.tool is None and after.tool is not None and needed + after.height <= room:
            needed += after.height
        if needed > left or not pages:
            pages.append([])
            left = room
        pages[-1].append(strip)
        left -= strip.height
    return pages
