"""The drilling template measured in its PDF by another program's reader."""

from __future__ import annotations

import io
import itertools
import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import DesignError
from cleatwright.papers.drilling.plan import plan_sheets
from cleatwright.papers.drilling.template import template_pages, template_plan
from cleatwright.papers.drilling.view import (
    DrilledPlate,
    DrilledStud,
    DrillSizes,
    TemplateView,
)
from cleatwright.papers.drilling.words import words_mm
from cleatwright.papers.kit.svg_pdf import svg_pdf
from cleatwright.standards import cautions
from cleatwright.standards.wall.masonry import at_the_drill
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.screws import ScrewPoint

MM_PER_PT = 25.4 / 72.0
SVG = "{http://www.w3.org/2000/svg}"
# of the sheets: white edge, room above the rail, paper before its left end, shared strip
EDGE, ABOVE, LEAD, SHARED = 6.0, 9.0, 10.0, 10.0
LONG = Rail(
    1,
    1200.0,
    75.0,
    2490.0,
    Profile(70.0, 18.0, 45.0),
    studs_mm=(100.0, 725.0, 1350.0, 1975.0, 2470.0),
)
SHORT = Rail(2, 700.0, 300.0, 460.0, Profile(70.0, 18.0, 45.0), studs_mm=(380.0,))
VIEW = TemplateView(
    title="Shed",
    rails=(LONG, SHORT),
    studs=tuple(DrilledStud(x, 45.0) for x in (100.0, 380.0, 725.0, 1350.0, 1975.0, 2470.0)),
    sizes=DrillSizes(5.0, 3.0, 5.5, 10.4),
    floor_gap_mm=700.0,
)


@dataclass(frozen=True)
class Sheet:
    """A page as read back, in mm from its upper left corner."""

    rail: str
    number: int
    total: int
    width: float
    height: float
    circles: tuple[tuple[float, float], ...]
    text: str

    @property
    def start(self) -> float:
        """Return the place along the rail at the left edge of the window, in closed form."""
        return -LEAD + (self.number - 1) * (self.width - 2 * EDGE - SHARED)


def _sheet(page: Any) -> Sheet:
    text = page.extract_text()
    found = re.search(r"rail (R\d+), sheet (\d+) of (\d+)", text)
    assert found is not None
    circles = tuple(
        (
            (float(c["x0"]) + float(c["x1"])) / 2 * MM_PER_PT,
            (float(c["top"]) + float(c["bottom"])) / 2 * MM_PER_PT,
        )
        for c in page.curves
        if abs((float(c["x1"]) - float(c["x0"])) * MM_PER_PT - 8.0) < 0.05
    )
    sides = (float(page.width) * MM_PER_PT, float(page.height) * MM_PER_PT)
    return Sheet(found[1], int(found[2]), int(found[3]), *sides, circles, text)


@cache
def read(view: TemplateView, paper: str) -> tuple[Sheet, ...]:
    pdf = svg_pdf(template_pages(view, sheet=paper), title=view.title)
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        return tuple(_sheet(page) for page in document.pages)


@pytest.mark.parametrize(("paper", "size"), [("A4", (297.0, 210.0)), ("Letter", (279.4, 215.9))])
def test_the_crosses_lie_where_the_screws_belong(paper: str, size: tuple[float, float]) -> None:
    """Two screws in each stud at thirds of the rail's height; sizes of ISO 216 and ASME Y14.1."""
    sheets = read(VIEW, paper)
    for rail in VIEW.rails:
        third = rail.height_mm / 3
        wanted = sorted((x, d) for x in rail.studs_mm for d in (third, 2 * third))
        mine = [s for s in sheets if s.rail == rail.name]
        assert all((s.width, s.height) == pytest.approx(size, abs=0.05) for s in mine)
        found = sorted(
            (s.start + x - EDGE + rail.x0_mm, y - EDGE - ABOVE) for s in mine for x, y in s.circles
        )
        # a screw in the shared strip is on two sheets
        for place in found:
            assert any(place == pytest.approx(w, abs=0.05) for w in wanted)
        for place in wanted:
            assert any(place == pytest.approx(f, abs=0.05) for f in found)


@pytest.mark.parametrize("depth", [20.0, 60.0])
def test_a_cross_lies_as_far_below_the_drawn_top_edge_as_its_screw_below_the_rails(
    monkeypatch: pytest.MonkeyPatch, depth: float
) -> None:
    """Rows that are not their own mirror image, so that a template turned over is seen."""
    rail = replace(SHORT, profile=Profile(90.0, 18.0, 45.0))
    only = (ScrewPoint(380.0, rail.z_top_mm - depth),)
    monkeypatch.setattr(Rail, "screws", only)
    (page,) = template_pages(replace(VIEW, rails=(rail,)))
    root = ET.fromstring(page)  # noqa: S314 - our own bytes
    heights = {
        name: [float(p.split(",")[1]) for p in line.get("points", "").split()]
        for name in ("rail-top", "rail-bottom")
        for line in root.iterfind(f".//{SVG}polyline[@class='{name}']")
    }
    (top,), (bottom,) = set(heights["rail-top"]), set(heights["rail-bottom"])
    assert bottom - top == pytest.approx(90.0)
    circles = root.findall(f".//{SVG}g[@class='screws']/{SVG}circle")
    assert {float(one.get("cy", "")) - top for one in circles} == {depth}
    words = [t.text for t in root.iterfind(f".//{SVG}text[@class='screw-words']")]
    assert f"{depth:g} below the top" in words


def test_a_long_rail_takes_nine_sheets_and_one_between_two_with_screws_is_kept() -> None:
    """2415 mm and 10 mm at each end, 275 mm a sheet of A4 but for the last: 9 sheets."""
    plan = plan_sheets(LONG, sheet="A4", unit="mm")
    assert plan.total == 9
    # screws at 25, 650, 1275, 1900 and 2395 mm of the rail
    assert [w.number for w in plan.kept] == list(range(1, 10))
    assert plan.left_out == ()


@pytest.mark.parametrize(
    ("screws", "kept", "told", "gap"),
    [
        # 275 mm a sheet: 25 on the first, 1275 on the fifth, 2395 on the ninth
        ((100.0, 1350.0), [1, 5], "Sheets 2, 3, 4, 6, 7, 8, 9 left out", True),
        ((1350.0, 1975.0), [5, 6, 7], "Sheets 1, 2, 3, 4, 8, 9 left out", True),
        ((100.0,), [1], "Sheets 2, 3, 4, 5, 6, 7, 8, 9 left out", False),
    ],
)
def test_sheets_without_a_screw_are_left_out_at_the_ends_too(
    screws: tuple[float, ...], kept: list[int], told: str, gap: bool
) -> None:
    """Words about a gap stand only where a sheet that is printed comes after it."""
    sheets = read(replace(VIEW, rails=(replace(LONG, studs_mm=screws),)), "A4")
    assert [s.number for s in sheets] == kept
    for sheet in sheets:
        assert told in " ".join(sheet.text.split())
        assert ("by the distances on the wall" in " ".join(sheet.text.split())) == gap


def test_a_warning_of_a_hole_stands_on_the_sheet_with_that_hole_alone() -> None:
    rail = replace(LONG, studs_mm=(105.0, 2460.0))
    first, last = read(replace(VIEW, rails=(rail,)), "A4")
    assert "bore both holes" in first.text
    assert "30 mm of wood" in first.text
    assert "bore both holes" in last.text
    one = replace(LONG, studs_mm=(105.0, 2000.0))
    assert [s.number for s in read(replace(VIEW, rails=(one,)), "A4") if "both" in s.text] == [1]


def test_no_line_of_a_stud_runs_through_the_words_of_a_screw() -> None:
    """White lies between a stud's lines and the words beside its screws, drawn in this order."""
    for page in template_pages(replace(VIEW, rails=(SHORT,))):
        root = ET.fromstring(page)  # noqa: S314 - our own bytes
        groups = [g.get("class") for g in root.iterfind(f"{SVG}g")]
        assert groups.index("studs") < groups.index("screws")
        boxes = [
            tuple(float(r.get(k, "")) for k in ("x", "y", "width", "height"))
            for r in root.iterfind(f".//{SVG}rect[@class='clear']")
        ]
        words = list(root.iterfind(f".//{SVG}text[@class='screw-words']"))
        assert len(words) == 3 * len(boxes) > 0
        for text in words:
            x, y, size = (float(text.get(k, "")) for k in ("x", "y", "font-size"))
            assert any(
                bx <= x <= bx + bw and by <= y - 0.72 * size and y <= by + bh
                for bx, by, bw, bh in boxes
            )


def test_what_two_neighbours_share_has_the_same_marks_at_the_same_place() -> None:
    rail = replace(LONG, studs_mm=tuple(float(x) for x in range(100, 2500, 200)))
    pages = template_pages(replace(VIEW, rails=(rail,)), sheet="A4")
    assert len(pages) == 9
    marks: dict[str, set[tuple[float, float]]] = {}
    for n, page in enumerate(pages):
        root = ET.fromstring(page)  # noqa: S314 - our own bytes
        group = root.find(f"{SVG}g[@class='register']")
        assert group is not None
        letters = [t.text or "" for t in group.iterfind(f"{SVG}text")]
        diamonds = [
            [tuple(map(float, p.split(","))) for p in d.get("points", "").split()]
            for d in group.iterfind(f"{SVG}polygon")
        ]
        for name, points in zip(letters, diamonds, strict=True):
            x = sum(p[0] for p in points) / 4 - EDGE - LEAD + n * 275.0
            marks.setdefault(name, set()).add(
                (round(x, 2), round(sum(p[1] for p in points) / 4, 2))
            )
    assert sorted(marks) == list("ABCDEFGH")
    # two marks for each meeting, each at one place although it is drawn on two sheets
    assert all(len(places) == 2 for places in marks.values())


def test_every_sheet_has_its_square_its_distances_and_its_cautions() -> None:
    for unit, side, pilot in (
        ("mm", 100.0, "pilot hole of 3 mm"),
        ("in", 4 * 25.4, "pilot hole of 1/8 in"),
    ):
        view = replace(VIEW, unit=unit)
        for page in template_pages(view, sheet="Letter"):
            root = ET.fromstring(page)  # noqa: S314 - our own bytes
            (square,) = root.iterfind(f".//{SVG}rect[@class='square']")
            assert float(square.get("width", "")) == pytest.approx(side)
            assert float(square.get("height", "")) == pytest.approx(side)
            words = " ".join(t.text or "" for t in root.iterfind(f".//{SVG}text"))
            for told in ("pipes and cables", "100 %", pilot, "qualified people"):
                assert told in words
    first = read(VIEW, "A4")[0].text
    for told in ("25 from the left end", "100 on the wall", "23.3 below the top", "1900 above the"):
        assert told in first


MASONRY = replace(
    VIEW,
    sizes=None,
    fails=("R1", "R2"),
    holes="Cross in a circle: the middle of an anchor of some maker. In the wall a hole of 10 mm, "
    "deep at the least 85 mm, embedment 70 mm. In the rail a clear hole for its screw of 7 mm, "
    "sunk to 11 mm for its head. Each must bear 398 N out of the wall and 258 N along it at worst.",
    cautions=(cautions.PIPES, *at_the_drill("unknown"), cautions.DEFER),
)


@pytest.mark.parametrize("words", [VIEW, MASONRY], ids=["wood", "masonry"])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("height", [40.0, 70.0, 88.9, 120.0, 147.0, 167.0, 300.0])
def test_texts_and_square_lie_on_the_paper_and_texts_do_not_overlap(
    paper: str, height: float, words: TemplateView
) -> None:
    view = replace(words, title="A workshop with a rather long name", unit="in")
    view = replace(
        view,
        rails=tuple(
            replace(rail, profile=replace(rail.profile, height_mm=height)) for rail in view.rails
        ),
    )
    for page in template_pages(view, sheet=paper):
        root = ET.fromstring(page)  # noqa: S314 - our own bytes
        _, _, width, high = (float(v) for v in root.get("viewBox", "").split())
        boxes: list[tuple[float, float, float, float]] = []
        for text in root.iterfind(f".//{SVG}text"):
            size, x, y = (float(text.get(key, "")) for key in ("font-size", "x", "y"))
            assert size >= 2.4
            # mean advance of a plain face by its size: common practice, no source
            wide = 0.5 * size * len(text.text or "")
            shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.get("text-anchor", "start")]
            boxes.append((x - shift * wide, y - 0.72 * size, x + (1 - shift) * wide, y))
        (square,) = root.iterfind(f".//{SVG}rect[@class='square']")
        x, y, side = (float(square.get(key, "")) for key in ("x", "y", "width"))
        for x0, y0, x1, y1 in (*boxes, (x, y, x + side, y + side)):
            assert x0 >= EDGE - 0.01
            assert y0 >= 2.0
            assert x1 <= width - EDGE + 0.01
            assert y1 <= high - EDGE + 0.01
        for a, b in itertools.combinations(boxes, 2):
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


@pytest.mark.parametrize(("paper", "height"), [("A4", 300.0), ("Letter", 40.0)])
def test_the_longest_name_leaves_room_for_all_words(paper: str, height: float) -> None:
    """80 broad letters, and the most that is said of any wall; a hundred cautions are refused."""
    rail = replace(LONG, profile=replace(LONG.profile, height_mm=height))
    view = replace(MASONRY, title="W" * 80, fails=(rail.name,), unit="in")
    plan = template_plan(view, rail, sheet=paper)
    assert words_mm(view, rail, plan) <= plan.below_mm + 1e-3
    with pytest.raises(DesignError, match="find no room"):
        template_plan(replace(view, cautions=view.cautions * 25), rail, sheet=paper)


@pytest.mark.parametrize("height", [168.0, 200.0, 300.0])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_rail_higher_than_the_paper_lies_on_rows_of_sheets(paper: str, height: float) -> None:
    """Screws at thirds of the height: each cross lies where its row says, whole on one sheet."""
    rail = replace(LONG, profile=replace(LONG.profile, height_mm=height))
    plan = template_plan(VIEW, rail, sheet=paper)
    assert [band.number for band in plan.bands] == list(range(1, len(plan.bands) + 1))
    assert len(plan.bands) > 1
    assert plan.bands[0].start == 0.0
    assert plan.bands[-1].end >= height
    for upper, lower in itertools.pairwise(plan.bands):
        assert upper.end - lower.start == pytest.approx(SHARED)
    pages = template_pages(replace(VIEW, rails=(rail,)), sheet=paper)
    assert len(pages) == len(plan.bands) * len(plan.kept)
    found: set[tuple[float, float]] = set()
    for page, (window, band) in zip(pages, plan.spots, strict=True):
        root = ET.fromstring(page)  # noqa: S314 - our own bytes
        texts = [t.text or "" for t in root.iterfind(f".//{SVG}text")]
        assert f"row {band.number} of {len(plan.bands)}" in " ".join(texts)
        for circle in root.iterfind(f".//{SVG}circle"):
            if float(circle.get("r", "")) != 4.0:
                continue
            x, y = (float(circle.get(key, "")) for key in ("cx", "cy"))
            down = y - EDGE - ABOVE + band.start
            found.add((round(x - EDGE + window.start + rail.x0_mm, 1), round(down, 1)))
    thirds = (height / 3, 2 * height / 3)
    assert found == {(x, round(down, 1)) for x in rail.studs_mm for down in thirds}


def test_rows_of_sheets_have_the_same_marks_at_the_same_place_of_the_rail() -> None:
    rail = replace(LONG, profile=replace(LONG.profile, height_mm=300.0))
    plan = template_plan(VIEW, rail, sheet="A4")
    places: dict[str, set[tuple[float, float]]] = {}
    for page, (window, band) in zip(
        template_pages(replace(VIEW, rails=(rail,))), plan.spots, strict=True
    ):
        root = ET.fromstring(page)  # noqa: S314 - our own bytes
        group = root.find(f"{SVG}g[@class='register']")
        assert group is not None
        for text in group.iterfind(f"{SVG}text"):
            x, y = float(text.get("x", "")), float(text.get("y", ""))
            at = (x - EDGE + window.start, y - EDGE - ABOVE + band.start)
            places.setdefault(text.text or "", set()).add((round(at[0], 1), round(at[1], 1)))
    below = {name: at for name, at in places.items() if name[0].isdigit()}
    # two marks for each meeting of two sheets, each drawn on both at one place of the rail
    assert len(below) == (len(plan.bands) - 1) * len(plan.kept)
    assert all(len(at) == 2 for at in below.values())


def test_a_rail_without_a_stud_says_so_on_its_sheets() -> None:
    view = replace(VIEW, rails=(replace(SHORT, studs_mm=()),))
    (sheet,) = read(view, "A4")
    assert "R2 meets no stud" in sheet.text
    assert sheet.circles == ()


def test_a_screw_near_the_end_of_a_rail_is_warned_of() -> None:
    """NDS Commentary, Table C12.1.5.7 (from memory): 5 d at the least and 10 d, of 5 mm screws."""

    def warned(x0: float, words: bytes) -> bool:
        (page,) = template_pages(replace(VIEW, rails=(replace(SHORT, x0_mm=x0),)))
        return words in page

    assert warned(380.0 - 24.9, b"may split there")
    assert not warned(380.0 - 25.0, b"may split there")
    assert warned(380.0 - 25.0, b"bore both holes")
    assert warned(380.0 - 49.9, b"bore both holes")
    assert not warned(380.0 - 50.0, b"bore both holes")


@settings(deadline=None, max_examples=60)
@given(
    st.floats(30.0, 6000.0),
    st.lists(st.floats(0.0, 1.0), max_size=12),
    st.sampled_from(["A4", "Letter", "A3"]),
)
def test_every_screw_is_well_inside_a_sheet_that_is_printed(
    length: float, shares: list[float], paper: str
) -> None:
    screws = tuple(sorted(100.0 + share * length for share in shares))
    rail = Rail(1, 900.0, 100.0, 100.0 + length, Profile(70.0, 18.0, 45.0), studs_mm=screws)
    plan = plan_sheets(rail, sheet=paper, unit="mm")
    for u in (x - 100.0 for x in screws):
        assert any(w.start + 4.99 <= u <= w.end - 4.99 for w in plan.kept)
    assert len(plan.kept) + len(plan.left_out) == plan.total
    assert len(plan.kept) <= max(2 * len(set(screws)) - 1, 1)


def test_the_pdf_depends_on_no_hash_seed(under_hash_seeds: Callable[..., set[bytes]]) -> None:
    code = (
        "import sys; sys.path.insert(0, sys.argv[1]);"
        "from test_drill_template import *;"
        "sys.stdout.buffer.write(svg_pdf(template_pages(VIEW), title='Shed'))"
    )
    outputs = under_hash_seeds(code, str(Path(__file__).parent))
    assert outputs == {svg_pdf(template_pages(VIEW), title="Shed")}


PLATE = DrilledPlate(
    5,
    "Chisels",
    360.0,
    480.0,
    900.0,
    100.0,
    (ScrewPoint(380.0, 890.0), ScrewPoint(380.0, 820.0), ScrewPoint(460.0, 890.0)),
    holes="Cross in a circle: a countersunk wood screw.",
)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_crosses_of_a_holder_lie_where_its_screws_do(paper: str) -> None:
    """Measured in the PDF from its drawn left and top edge, which lie 10 mm in and 9 mm down."""
    view = replace(VIEW, rails=(), plates=(PLATE,))
    pdf = svg_pdf(template_pages(view, sheet=paper), title=view.title)
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        (page,) = document.pages
        circles = sorted(
            (
                (float(c["x0"]) + float(c["x1"])) / 2 * MM_PER_PT - EDGE - LEAD,
                (float(c["top"]) + float(c["bottom"])) / 2 * MM_PER_PT - EDGE - ABOVE,
            )
            for c in page.curves
            if abs((float(c["x1"]) - float(c["x0"])) * MM_PER_PT - 8.0) < 0.05
        )
        text = " ".join(page.extract_text().split())
    wanted = ((20.0, 10.0), (20.0, 80.0), (100.0, 10.0))
    for cross, place in zip(circles, wanted, strict=True):
        assert cross == pytest.approx(place, abs=0.05)
    assert "Shed: holder 5, sheet 1 of 1" in text
    assert "Holder 5, Chisels: 120 mm wide, 100 high, from 360 to 480 on the wall" in text
    assert "a countersunk wood screw" in text
    assert "stud 380, 45 wide" in text
    assert "the rail may split" not in text
    assert cautions.PIPES.split(":")[0] in text


def test_a_holder_that_must_not_be_drilled_for_says_so() -> None:
    plate = replace(PLATE, fails="Do not drill for it yet: no stud is behind its screws.")
    (page,) = template_pages(replace(VIEW, rails=(), plates=(plate,)))
    root = ET.fromstring(page)  # noqa: S314 - our own bytes
    words = " ".join(one.text or "" for one in root.iter(f"{SVG}text"))
    assert "Do not drill for it yet: no stud is behind its screws." in words
