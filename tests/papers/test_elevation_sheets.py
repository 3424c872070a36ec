"""On which sheets an elevation lies: read back from the files by other programs' readers."""

from __future__ import annotations

import io
import itertools
import math
import xml.etree.ElementTree as ET
from dataclasses import replace
from typing import Any

import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import DesignError, UnknownNameError
from cleatwright.papers.elevation.drawing import elevation_pages
from cleatwright.papers.elevation.view import (
    BenchView,
    ElevationView,
    HolderView,
    ObstacleView,
    ScrewedAtView,
    ScrewedView,
)
from cleatwright.papers.kit.svg_pdf import svg_pdf
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.reach import ReachBand

PT_PER_MM = 72.0 / 25.4
SVG = "{http://www.w3.org/2000/svg}"
# ISO 216 and ASME Y14.1, long side first
SIZES_MM = {
    "A4": (297.0, 210.0),
    "A3": (420.0, 297.0),
    "A1": (841.0, 594.0),
    "Letter": (279.4, 215.9),
}


def _plate(n: int, x: float, z: float, width: float) -> HolderView:
    plate = ((x, z - 80.0), (x + width, z - 80.0), (x + width, z), (x, z))
    return HolderView(n, f"Holder {n}", (plate,), note="7K2M9QX", front=(plate,))


def a_wall(count: int, **changes: Any) -> ElevationView:
    per_row = max(1, math.ceil(count / 3))
    pitch = 3000.0 / per_row
    values: dict[str, Any] = {
        "title": "Shed",
        "width_mm": 3200.0,
        "height_mm": 2000.0,
        "floor_gap_mm": 400.0,
        "studs_mm": (100.0, 700.0, 1300.0, 1900.0, 2500.0, 3100.0),
        "obstacles": (ObstacleView("Socket", (1500.0, 1580.0, 700.0, 780.0)),),
        "rails": tuple(
            Rail(
                k,
                z,
                80.0,
                3120.0,
                Profile(70.0, 18.0, 45.0),
                studs_mm=(100.0, 700.0, 1300.0, 1900.0, 2500.0, 3100.0),
            )
            for k, z in enumerate((1500.0, 1000.0, 500.0), 1)
        ),
        "holders": tuple(
            _plate(
                n + 1, 100.0 + (n % per_row) * pitch, 1500.0 - 500.0 * (n // per_row), 0.7 * pitch
            )
            for n in range(count)
        ),
    }
    return ElevationView(**{**values, **changes})


def circles(root: ET.Element) -> list[tuple[float, float, float]]:
    """Return x, y, r of each balloon."""
    group = root.find(f".//{SVG}g[@class='balloons']")
    assert group is not None
    return [
        (float(c.get("cx", "")), float(c.get("cy", "")), float(c.get("r", "")))
        for c in group.iterfind(f"{SVG}circle")
        if c.get("stroke") != "none"
    ]


def boxes(root: ET.Element) -> list[tuple[float, float, float, float]]:
    """Return x0, y0, x1, y1 of each white box of a letter, and of each text but the numbers."""
    found: list[tuple[float, float, float, float]] = []
    group = root.find(f".//{SVG}g[@class='balloons']")
    assert group is not None
    for r in group.iterfind(f"{SVG}rect"):
        x, y = float(r.get("x", "")), float(r.get("y", ""))
        found.append((x, y, x + float(r.get("width", "")), y + float(r.get("height", ""))))
    for text in root.iterfind(f".//{SVG}text"):
        if text.get("class") in {"balloon", "obstacle-letter"} or text.get("transform"):
            continue
        size, x, y = (float(text.get(key, "")) for key in ("font-size", "x", "y"))
        # mean advance of a plain face by its size: common practice, no source
        width = 0.5 * size * len(text.text or "")
        shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.get("text-anchor", "start")]
        found.append((x - shift * width, y - 0.72 * size, x + (1 - shift) * width, y))
    return found


def balloons_are_apart(page: bytes, count: int) -> None:
    """Fail when a balloon covers another, a text or the letter of an obstacle."""
    root = ET.fromstring(page)  # noqa: S314 - our own bytes
    found = circles(root)
    assert len(found) == count
    for n, (x, y, r) in enumerate(found):
        for u, v, s in found[:n]:
            assert math.hypot(x - u, y - v) >= r + s
        for x0, y0, x1, y1 in boxes(root):
            assert math.hypot(max(x0 - x, x - x1, 0.0), max(y0 - y, y - y1, 0.0)) >= r


@pytest.mark.parametrize("sheet", ["auto", "A4", "Letter", "A0"])
@pytest.mark.parametrize("count", [1, 37, 90])
def test_no_balloon_covers_another_or_a_text(count: int, sheet: str) -> None:
    pages = elevation_pages(a_wall(count), sheet=sheet)
    roots = [ET.fromstring(page) for page in pages]  # noqa: S314 - our own bytes
    drawn = [
        page for page, root in zip(pages, roots, strict=True) if root.find(f"{SVG}svg") is None
    ]
    with_wall = [p for p in drawn if b'class="balloons"' in p]
    for page in with_wall:
        balloons_are_apart(page, count)
    tiled = any(root.find(f"{SVG}svg") is not None for root in roots)
    assert bool(with_wall) != tiled


BOX = st.tuples(st.floats(20.0, 2000.0), st.floats(100.0, 1400.0), st.floats(15.0, 300.0))


@settings(deadline=None, max_examples=40)
@given(st.lists(BOX, max_size=40), st.floats(2400.0, 5000.0))
def test_no_balloon_covers_another_wherever_the_holders_hang(
    plates: list[tuple[float, float, float]], width: float
) -> None:
    holders = tuple(_plate(n, *plate) for n, plate in enumerate(plates, 1))
    view = a_wall(0, width_mm=width, height_mm=1500.0, rails=(), holders=holders)
    balloons_are_apart(elevation_pages(view)[0], len(holders))


def test_a_wall_too_small_for_its_numbers_is_refused() -> None:
    crowd = tuple(_plate(n, 10.0, 50.0, 20.0) for n in range(1, 60))
    view = a_wall(0, width_mm=40.0, height_mm=60.0, obstacles=(), rails=(), holders=crowd)
    with pytest.raises(DesignError, match="larger sheet"):
        elevation_pages(view)


@pytest.mark.parametrize(("sheet", "count"), [("A4", 12), ("A3", 12), ("A1", 90), ("Letter", 90)])
def test_every_page_of_the_pdf_is_the_named_sheet(sheet: str, count: int) -> None:
    pages = elevation_pages(a_wall(count), sheet=sheet)
    with pdfplumber.open(io.BytesIO(svg_pdf(pages, title="Shed"))) as document:
        assert len(document.pages) == len(pages)
        for page in document.pages:
            sides = sorted((float(page.width), float(page.height)), reverse=True)
            assert sides == pytest.approx([s * PT_PER_MM for s in SIZES_MM[sheet]], abs=0.1)
        words = "\n".join(page.extract_text() for page in document.pages)
    for n in range(1, count + 1):
        assert f"Holder {n}" in words
    assert "pipes and cables" in words


def test_the_bar_in_the_pdf_is_as_long_as_the_scale_says() -> None:
    pages = elevation_pages(a_wall(12), sheet="A3")
    with pdfplumber.open(io.BytesIO(svg_pdf(pages, title="Shed"))) as document:
        page = document.pages[0]
        words = page.extract_text()
        # four parts of 1.6 mm height, one after the other
        bars = [r for r in page.rects if abs(float(r["height"]) / PT_PER_MM - 1.6) < 0.05]
        length = (max(float(r["x1"]) for r in bars) - min(float(r["x0"]) for r in bars)) / PT_PER_MM
    assert "1:10 on A3" in words
    assert "500 mm" in words
    assert len(bars) == 4
    assert length == pytest.approx(500.0 / 10, abs=0.02)


def test_a_legend_without_room_beside_the_wall_fills_further_sheets() -> None:
    pages = elevation_pages(a_wall(12), sheet="A4")
    assert len(pages) == 2
    assert b"Read the cautions on sheet 2" in pages[0]
    assert b"legend-name" not in pages[0]
    assert b"legend-name" in pages[1]
    assert b"Shed, sheet 2 of 2" in pages[1]


def test_a_long_wall_on_small_paper_is_cut_into_tiles_that_show_all_of_it() -> None:
    """The wall is 30 m long, 600 mm at 1:50; a tile of Letter shows 259.4 mm and repeats 10 mm."""
    view = a_wall(0, width_mm=30_000.0, obstacles=(), rails=())
    pages = elevation_pages(view, sheet="Letter")
    windows: list[tuple[float, float]] = []
    for page in pages:
        root = ET.fromstring(page)  # noqa: S314 - our own bytes
        window = root.find(f"{SVG}svg")
        if window is None:
            continue
        x, _, wide, _ = (float(v) for v in window.get("viewBox", "").split())
        assert wide / float(window.get("width", "")) == pytest.approx(50.0)
        (wall,) = window.iterfind(f".//{SVG}rect[@class='wall-outline']")
        assert float(wall.get("width", "")) == 30_000.0
        left = float(wall.get("x", ""))
        windows.append(((x - left) / 50.0, (x + wide - left) / 50.0))
    windows.sort()
    assert len(windows) == math.ceil((600.0 + 40.0 - 10.0) / (259.4 - 10.0))
    assert windows[0][0] <= 0.0
    assert windows[-1][1] >= 600.0
    for (_, end), (start, _) in itertools.pairwise(windows):
        assert end - start == pytest.approx(10.0, abs=0.01)
    assert len(pages) > len(windows)
    with pdfplumber.open(io.BytesIO(svg_pdf(pages, title="Long"))) as document:
        assert [float(p.width) for p in document.pages] == pytest.approx([792.0] * len(pages))


def test_reach_is_drawn_at_its_height_above_the_floor() -> None:
    band = ReachBand(1102.5, 1431.5, 500.0, 1900.0)
    view = a_wall(3, reach=band, bench=BenchView(600.0, 900.0))
    pages = elevation_pages(view)
    root = ET.fromstring(pages[0])  # noqa: S314 - our own bytes
    (wall,) = root.iterfind(f".//{SVG}rect[@class='wall-outline']")
    floor = float(wall.get("y", "")) + 2000.0 + 400.0
    heights = {
        name: (
            floor - float(r.get("y", "")) - float(r.get("height", "")),
            floor - float(r.get("y", "")),
        )
        for name in ("easy", "too-low", "too-high")
        for r in root.iterfind(f".//{SVG}rect[@class='{name}']")
    }
    assert heights["easy"] == pytest.approx((1102.5, 1431.5))
    assert heights["too-low"] == pytest.approx((400.0, 500.0))
    assert heights["too-high"] == pytest.approx((1900.0, 2400.0))
    told = [t.text for t in root.iterfind(f".//{SVG}text[@class='reach-height']")]
    assert told == ["1900", "1431.5", "1102.5", "500"]
    assert "600 deep, its top 900 above the floor" in b"".join(pages).decode()
    assert b'class="reach"' not in elevation_pages(a_wall(3))[0]


def test_a_rail_that_stays_is_drawn_in_its_own_way_and_named() -> None:
    rails = (Rail(1, 1500.0, 80.0, 900.0, Profile(70.0, 18.0, 45.0), state="document"),)
    pages = elevation_pages(a_wall(2, rails=rails))
    root = ET.fromstring(pages[0])  # noqa: S314 - our own bytes
    assert len(root.findall(f".//{SVG}rect[@class='rail-stays']")) == 1
    assert not root.findall(f".//{SVG}rect[@class='rail']")
    words = b"".join(pages).decode()
    assert "R1 (stays): 1500" in words
    assert "stays as it hangs" in words
    assert "no stud" not in words


def test_no_text_on_paper_is_smaller_than_the_smallest_usual_lettering() -> None:
    """Lettering of 2.5 mm is the least that is read well (ISO 3098-1, from memory)."""
    for page in elevation_pages(a_wall(37, reach=ReachBand(1100.0, 1430.0)), sheet="A3"):
        root = ET.fromstring(page)  # noqa: S314 - our own bytes
        scale = float(root.get("viewBox", "").split()[2]) / float(root.get("width", "")[:-2])
        for text in root.iterfind(f".//{SVG}text"):
            assert float(text.get("font-size", "")) / scale >= 2.4


def test_a_sheet_that_does_not_exist_is_named() -> None:
    with pytest.raises(UnknownNameError, match="A3"):
        elevation_pages(a_wall(1), sheet="A33")


def test_a_table_that_goes_on_in_a_further_column_has_its_heads_there_too() -> None:
    """Each column of screws with more than one entry has its heads above the first."""
    wall = a_wall(60)
    holders = tuple(
        replace(one, screwed=ScrewedView("", (ScrewedAtView(100.0, (890.0, 830.0), "stud"),)))
        for one in wall.holders
    )
    heads: list[tuple[int, float]] = []
    rows: list[tuple[int, float]] = []
    for page, data in enumerate(elevation_pages(replace(wall, holders=holders), sheet="A3")):
        for text in ET.fromstring(data).iter(f"{SVG}text"):  # noqa: S314 - our own bytes
            words = "".join(text.itertext())
            if words == "upper z":
                heads.append((page, float(text.attrib["x"])))
            if text.attrib.get("class") == "screwed-name":
                rows.append((page, float(text.attrib["x"])))
    assert rows
    columns = set(rows)
    assert len(columns) > 1
    assert len(heads) == len(columns)
