"""The load map, read back from its PDF by another reader."""

from __future__ import annotations

import io
import math
import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pdfplumber
import pytest

from cleatwright.papers.kit.svg_pdf import svg_pdf
from cleatwright.papers.load_map.drawing import load_map_pages
from cleatwright.papers.load_map.view import ArrowView, LoadedStud, LoadMapView, StripView
from cleatwright.parts.screw_strength import ScrewLoad, ScrewStrength
from cleatwright.wall.rail import Profile, Rail

PT_PER_MM = 72.0 / 25.4
A4_MM = (210, 297)
LETTER_MM = (8.5 * 25.4, 11 * 25.4)


def stud(x: float, weight: float, shear: float, out: float) -> LoadedStud:
    screws = (ScrewLoad(x, 46.7, shear, out), ScrewLoad(x, 23.3, shear, out / 2))
    return LoadedStud(x, weight, screws)


STRIP = StripView(
    Rail(1, 900.0, 200.0, 1700.0, Profile(70.0, 18.0, 45.0)),
    arrows=(
        ArrowView("1", "Hammer", 430.0, 1.0, 9.80665),
        ArrowView(
            "2-3", "Chisels and a very long name that no label can take", 440.0, 2.0, 19.6133
        ),
        ArrowView("4", "Saw", 1500.0, 0.5, 4.903325),
    ),
    studs=(
        stud(300.0, 20.0, 50.0, 0.0),
        stud(900.0, 15.3, 25.0, 0.0),
        stud(1500.0, -1.2, 5.0, 0.0),
    ),
)
VIEW = LoadMapView(
    title="Shed äöü",
    floor_gap_mm=700.0,
    strips=(STRIP, replace(STRIP, rail=replace(STRIP.rail, number=2, z_top_mm=600.0))),
    strength=ScrewStrength(400.0, 100.0),
    assumed="Screws of some size.",
)


def pages_of(view: LoadMapView) -> list[Any]:
    return pdfplumber.open(io.BytesIO(svg_pdf(load_map_pages(view), title="t"))).pages


def page_of(view: LoadMapView) -> Any:
    """Return the first page, on which the first rail stands."""
    return pages_of(view)[0]


def sizes_mm(page: Any) -> list[tuple[float, float]]:
    return [(o["width"] / PT_PER_MM, o["height"] / PT_PER_MM) for o in (*page.rects, *page.curves)]


def test_rails_are_true_to_scale_on_paper_that_homes_have() -> None:
    """1500 x 70 mm at 1:10 is 150 x 7 mm; sheets are A4 of ISO 216, or Letter of ASME Y14.1."""
    pages = pages_of(VIEW)
    assert len(pages) > 1
    for page in pages:
        sides = sorted((float(page.width) / PT_PER_MM, float(page.height) / PT_PER_MM))
        assert sides == pytest.approx(A4_MM, abs=0.1)
    rails = [
        size
        for page in pages
        for size in sizes_mm(page)
        if size == pytest.approx((150.0, 7.0), abs=0.05)
    ]
    assert len(rails) == 2
    assert "at 1:10" in pages[-1].extract_text()
    inches = page_of(replace(VIEW, unit="in"))
    sides = sorted((float(inches.width) / PT_PER_MM, float(inches.height) / PT_PER_MM))
    assert sides == pytest.approx(LETTER_MM, abs=0.1)


def test_no_letter_is_smaller_than_eight_points() -> None:
    for page in pages_of(VIEW):
        for c in page.chars:
            lies = abs(c["matrix"][0]) > 1e-6
            assert (c["height"] if lies else c["width"]) >= 8.0


def test_bars_show_the_share_that_the_words_say() -> None:
    """50, 25 and 5 N of 100 N along the wall fill that share of a frame of 20 mm."""
    page = page_of(replace(VIEW, strips=(STRIP,)))
    bars = sorted(w for w, h in sizes_mm(page) if h == pytest.approx(2.2, abs=0.02))
    assert bars == pytest.approx([1.0, 5.0, 10.0, 20.0, 20.0, 20.0], abs=0.05)
    text = page.extract_text()
    for words in ("50 % used", "25 % used", "5 % used", "lifts 1 N", "bears 20 N"):
        assert words in text
    assert "3.50 kg = 34.3 N" in text


def test_too_much_and_no_stud_are_told_in_words() -> None:
    heavy = replace(STRIP, studs=(stud(300.0, 300.0, 150.0, 0.0),))
    assert "150 % of what it may" in page_of(replace(VIEW, strips=(heavy,))).extract_text()
    loose = replace(STRIP, rail=replace(STRIP.rail, x0_mm=1900.0, x1_mm=2590.0), studs=())
    page = page_of(replace(VIEW, strips=(loose,)))
    assert "meets no stud" in page.extract_text()
    assert max(c["x1"] for c in page.chars) < float(page.width)
    weak = replace(VIEW, strips=(STRIP,), strength=ScrewStrength(0.0, 0.0))
    assert "carries nothing" in page_of(weak).extract_text()


def test_arrows_point_to_the_places_of_their_loads() -> None:
    """Heads stand at x / 10 from the wall's left edge: 1500 less 430 mm is 107 mm on paper."""
    page = page_of(replace(VIEW, strips=(STRIP,)))
    heads = [
        (o["x0"] + o["x1"]) / 2 / PT_PER_MM
        for o in page.curves
        if (o["width"] / PT_PER_MM, o["height"] / PT_PER_MM) == pytest.approx((1.3, 2.0), abs=0.05)
        and len(o["pts"]) <= 4
    ]
    assert len(heads) == 3
    assert max(heads) - min(heads) == pytest.approx(107.0, abs=0.05)


def test_labels_of_near_loads_stand_apart_and_keep_number_and_mass() -> None:
    page = page_of(replace(VIEW, strips=(STRIP,)))
    turned = [c for c in page.chars if abs(c["matrix"][0]) < 1e-6]
    columns = sorted({round((c["x0"] + c["x1"]) / 2 / PT_PER_MM, 1) for c in turned})
    # the long name stands in two lines
    assert len(columns) == 4
    assert min(b - a for a, b in pairwise(columns)) >= 3.9
    lines = [
        "".join(
            c["text"]
            for c in sorted(turned, key=lambda c: -c["top"])
            if math.isclose((c["x0"] + c["x1"]) / 2 / PT_PER_MM, x, abs_tol=0.1)
        )
        for x in columns
    ]
    assert lines[0].startswith("1")
    told = " ".join(" ".join(lines[1:3]).split())
    assert told == "2-3 Chisels and a very long name that no label can take 2.00 kg"


def test_a_long_rail_with_narrow_studs_goes_on_on_the_next_page() -> None:
    """Studs 300 mm apart need 29 mm of paper each, so no scale smaller than 1:10.

    There 5 m of rail are 500 mm of paper, and A4 is 297 mm wide.
    """
    studs = tuple(stud(300.0 * n, 10.0 + n, 10.0, 0.0) for n in range(1, 17))
    loads = tuple(ArrowView(str(n), f"Thing {n}", 190.0 * n, 1.0, 9.8) for n in range(1, 26))
    rail = replace(STRIP.rail, x0_mm=0.0, x1_mm=5000.0)
    long = replace(STRIP, rail=rail, studs=studs, arrows=loads)
    pages = pages_of(replace(VIEW, strips=(long,)))
    texts = [page.extract_text() for page in pages]
    assert "at 1:10" in texts[-1]
    assert "part 1 of 2: from 0 mm to " in texts[0]
    told = " ".join(texts)
    for n in range(1, 17):
        assert told.count(f"bears {10 + n} N") == 1
    upright = "".join(
        c["text"]
        for page in pages
        for c in sorted(page.chars, key=lambda c: (round(c["x0"]), -c["top"]))
        if abs(c["matrix"][0]) < 1e-6
    )
    assert upright.count("Thing") == 25
    for page in pages:
        assert min(c["x0"] for c in page.chars) > 0.0
        assert max(c["x1"] for c in page.chars) < float(page.width)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_no_letters_touch(
    unit: str, touching_letters: Callable[[Any], list[tuple[str, str]]]
) -> None:
    """Studs 16 inches apart, as common practice has them, and a rail that stays."""
    close = replace(
        STRIP, studs=tuple(stud(203.2 + 406.4 * n, 111.0, 111.0, 111.0) for n in range(4))
    )
    kept = replace(close, rail=replace(close.rail, state="document"))
    pages = pages_of(replace(VIEW, strips=(close, kept), unit=unit))
    for page in pages:
        assert touching_letters(page) == []
    assert any("hangs already" in page.extract_text() for page in pages)


def test_a_rail_that_does_not_hold_says_so_and_why_on_its_page() -> None:
    why = "anchors carry a person who leans: 342 against 329 N, " * 6 + "anchor at x 1710 mm."
    page = load_map_pages(replace(VIEW, strips=(replace(STRIP, fails=why),)))[0].decode()
    root = ET.fromstring(page)  # noqa: S314 - our own bytes
    told = [
        text
        for text in root.iter("{http://www.w3.org/2000/svg}text")
        if text.get("class") == "fails"
    ]
    assert f"R{STRIP.rail.number} does not hold: {why}".split() == (
        " ".join(text.text or "" for text in told).split()
    )
    assert "does not hold" not in load_map_pages(VIEW)[0].decode()
