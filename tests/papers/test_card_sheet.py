"""Cards on pages: the right paper, every word, and the same bytes each time."""

from __future__ import annotations

import io

import lxml.etree
import pypdf
import pytest

from cleatwright.base.errors import MeasureError, UnknownNameError
from cleatwright.jobs.measuring import measuring_card, tool_fields
from cleatwright.papers.cards.card import card_svg
from cleatwright.papers.cards.sheet import sheet_pages
from cleatwright.papers.cards.view import CardTool, CardView
from cleatwright.papers.kit.svg_pdf import svg_pdf
from cleatwright.tools.registry import KINDS

# Source: ISO 216:2007 and ANSI/ASME Y14.1, size A (from memory)
PAPERS_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
POINTS_PER_MM = 72.0 / 25.4
LEAST_LETTERS_MM = 2.5
LEAST_STROKE_MM = 0.25


def views() -> list[CardView]:
    tools = [
        CardTool("Größter Dreher", tool_fields("screwdriver", {"shank": 6.5})),
        *(CardTool(f"Driver {k}", tool_fields("screwdriver", {})) for k in range(20)),
    ]
    return [measuring_card("screwdriver", tools=tools), measuring_card("pliers")]


@pytest.mark.parametrize("paper", sorted(PAPERS_MM))
def test_the_pdf_has_the_pages_on_the_paper_with_the_words(paper: str) -> None:
    """A reader that is not ours finds the pages, their size and what stands on them."""
    pages = sheet_pages(views(), title="Shed", paper=paper)
    read = pypdf.PdfReader(io.BytesIO(svg_pdf(pages, title="Shed")))
    assert len(read.pages) == len(pages) >= 2
    for page in read.pages:
        size = float(page.mediabox.width), float(page.mediabox.height)
        assert size == pytest.approx([mm * POINTS_PER_MM for mm in PAPERS_MM[paper]], abs=0.01)
    words = " ".join(page.extract_text() for page in read.pages)
    for wanted in ("Größter Dreher", "6.5", "Driver 19", "kind: pliers", "nose_width", "Shed"):
        assert wanted in words
    assert read.metadata is not None
    assert read.metadata.creation_date is None


def test_the_same_cards_give_the_same_bytes() -> None:
    """Neither the clock nor the order of a run is in the file."""
    once, again = (sheet_pages(views(), title='Say "A\\B"') for _ in range(2))
    assert once == again
    assert svg_pdf(once, title="x") == svg_pdf(again, title="x")


def test_every_tool_has_a_field_for_each_measure_and_stays_on_the_paper() -> None:
    """The fields of all pages are as many as tools times measures, all within the margins."""
    pages = [lxml.etree.fromstring(page) for page in sheet_pages(views(), title="Shed")]
    fields = [box for page in pages for box in page.xpath('//*[@class="field"]')]
    assert len(fields) == 21 * len(views()[0].rows)
    for box in fields:
        assert float(box.get("x")) + float(box.get("width")) <= 210.0 - 10.0
        assert float(box.get("y")) + float(box.get("height")) <= 297.0 - 10.0


@pytest.mark.parametrize("name", sorted(KINDS))
def test_a_card_fits_on_both_papers_with_plain_lines_and_letters(name: str) -> None:
    """Ten millimetres of margin stay; no line is thinner and no letter lower than one can read."""
    svg = lxml.etree.fromstring(card_svg(measuring_card(name)))
    wide, high = (float(svg.get(side).removesuffix("mm")) for side in ("width", "height"))
    assert wide <= min(w for w, _ in PAPERS_MM.values()) - 20.0
    assert high <= min(h for _, h in PAPERS_MM.values()) - 20.0
    assert min(map(float, svg.xpath("//@font-size"))) >= LEAST_LETTERS_MM
    assert min(map(float, svg.xpath("//@stroke-width"))) >= LEAST_STROKE_MM


def test_no_such_paper_and_no_cards_are_told() -> None:
    """The error says which papers there are, or that there is nothing to measure."""
    with pytest.raises(UnknownNameError, match="letter"):
        sheet_pages(views(), title="Shed", paper="foolscap")
    with pytest.raises(MeasureError, match="nothing to measure"):
        sheet_pages([], title="Shed")
