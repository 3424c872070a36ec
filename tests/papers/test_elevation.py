"""The elevation as a drawing to be measured: scale, completeness, room for every text."""

import itertools
import math
import os
import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import replace
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import MeasureError
from cleatwright.papers.elevation.dimensions import spread
from cleatwright.papers.elevation.drawing import elevation_pages
from cleatwright.papers.elevation.layout import flow
from cleatwright.papers.elevation.view import (
    ElevationView,
    HolderView,
    ObstacleView,
    ScrewedAtView,
    ScrewedView,
)
from cleatwright.papers.kit.svg import text_width, wrap
from cleatwright.wall.rail import Profile, Rail

NS = {"s": "http://www.w3.org/2000/svg"}
# Mean advance of letters of plain sans-serif faces by size; common practice, no source.
MEAN_EM = 0.5


def a_holder(number: int, x: float, z: float, width: float, name: str = "Chisels") -> HolderView:
    plate = ((x, z - 90.0), (x + width, z - 90.0), (x + width, z), (x, z))
    tool = ((x + 5.0, z - 250.0), (x + 15.0, z - 250.0), (x + 15.0, z + 20.0), (x + 5.0, z + 20.0))
    return HolderView(
        number, f"{name} {number}", (plate,), (tool,), (x, x + width, z - 250.0, z + 60.0), "K4F9Q"
    )


def a_view(count: int = 15, **changes: object) -> ElevationView:
    heights = (1200.0, 850.0, 500.0)
    per_row = max(math.ceil(count / 3), 1)
    pitch = 2200.0 / per_row
    holders = tuple(
        a_holder(n + 1, 100.0 + (n % per_row) * pitch, heights[n // per_row], 0.8 * pitch)
        for n in range(count)
    )
    rails = tuple(
        Rail(
            k,
            z,
            80.0,
            2290.0 - 100.0 * k,
            Profile(80.0, 18.0, 45.0),
            studs_mm=(400.0, 1000.0, 1600.0),
        )
        for k, z in enumerate(heights, start=1)
    )
    values: dict[str, object] = {
        "title": "Shed by the apple tree",
        "width_mm": 2400.0,
        "height_mm": 1500.0,
        "floor_gap_mm": 600.0,
        "studs_mm": (400.0, 1000.0, 1600.0, 2200.0),
        "obstacles": (ObstacleView("Socket", (1100.0, 1190.0, 40.0, 130.0)),),
        "rails": rails,
        "holders": holders,
    }
    return ElevationView(**{**values, **changes})  # type: ignore[arg-type]


def first_page(view: ElevationView, *, sheet: str = "auto", scale: int | None = None) -> bytes:
    return elevation_pages(view, sheet=sheet, scale=scale)[0]


def all_texts(view: ElevationView, name: str, *, sheet: str = "auto") -> list[str]:
    pages = elevation_pages(view, sheet=sheet)
    return [words for page in pages for words in texts(parsed(page), name)]


def parsed(data: bytes) -> ET.Element:
    return ET.fromstring(data)  # noqa: S314 - our own bytes


def texts(root: ET.Element, name: str) -> list[str]:
    return [t.text or "" for t in root.iterfind(f".//s:text[@class='{name}']", NS)]


def box_of(text: ET.Element) -> tuple[float, float, float, float]:
    """Return x0, x1, y0, y1 of a text, estimated from its size and number of letters."""
    size = float(text.get("font-size", "0"))
    x, y = float(text.get("x", "0")), float(text.get("y", "0"))
    width = MEAN_EM * size * len(text.text or "")
    shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.get("text-anchor", "start")]
    if text.get("transform"):
        return x - 0.72 * size, x, y - (1 - shift) * width, y + shift * width
    return x - shift * width, x + (1 - shift) * width, y - 0.72 * size, y


@pytest.mark.parametrize(("scale", "paper_scale"), [(None, 10), (5, 5), (20, 20)])
def test_the_wall_measured_on_paper_is_its_width_over_the_scale(
    scale: int | None, paper_scale: int
) -> None:
    root = parsed(first_page(a_view(), scale=scale))
    paper_mm = float(root.get("width", "").removesuffix("mm"))
    view_box = [float(v) for v in root.get("viewBox", "").split()]
    (wall,) = root.iterfind(".//s:rect[@class='wall-outline']", NS)
    assert float(wall.get("width", "")) * paper_mm / view_box[2] == pytest.approx(
        2400.0 / paper_scale, abs=0.01
    )
    assert float(wall.get("height", "")) == pytest.approx(1500.0)
    tall_mm = float(root.get("height", "").removesuffix("mm"))
    assert view_box[3] / tall_mm == pytest.approx(view_box[2] / paper_mm, rel=1e-4)


def test_a_usual_wall_is_drawn_on_a3_at_one_to_ten() -> None:
    """A3 is 420 by 297 mm (ISO 216)."""
    root = parsed(first_page(a_view()))
    assert (root.get("width"), root.get("height")) == ("420.00mm", "297.00mm")
    assert any("1:10 " in (t.text or "") for t in root.iterfind(".//s:text", NS))


def test_many_holders_get_a_larger_sheet_and_scale() -> None:
    """A1 is 841 by 594 mm (ISO 216)."""
    root = parsed(first_page(a_view(100)))
    assert (root.get("width"), root.get("height")) == ("841.00mm", "594.00mm")
    assert any("1:5 " in (t.text or "") for t in root.iterfind(".//s:text", NS))


def test_rails_lie_where_they_were_put() -> None:
    view = a_view()
    root = parsed(first_page(view))
    (wall,) = root.iterfind(".//s:rect[@class='wall-outline']", NS)
    left = float(wall.get("x", ""))
    base = float(wall.get("y", "")) + view.height_mm
    drawn = root.findall(".//s:rect[@class='rail']", NS)
    for rail, shape in zip(view.rails, drawn, strict=True):
        assert float(shape.get("x", "")) - left == pytest.approx(rail.x0_mm, abs=0.01)
        assert base - float(shape.get("y", "")) == pytest.approx(rail.z_top_mm, abs=0.01)
        assert float(shape.get("width", "")) == pytest.approx(rail.x1_mm - rail.x0_mm, abs=0.01)


@pytest.mark.parametrize("count", [1, 15, 40])
def test_every_holder_and_every_rail_is_named_once(count: int) -> None:
    view = a_view(count)
    root = parsed(first_page(view))
    numbers = [str(n + 1) for n in range(count)]
    assert sorted(texts(root, "balloon"), key=int) == numbers
    assert all_texts(view, "legend-number") == numbers
    assert all_texts(view, "legend-name") == [f"Chisels {n}" for n in numbers]
    assert texts(root, "rail-height") == ["R1: 1200", "R2: 850", "R3: 500"]
    assert sorted(texts(root, "rail-length")) == ["R1: 2110", "R2: 2010", "R3: 1910"]
    assert texts(root, "wall-width") == ["2400"]
    assert texts(root, "wall-height") == ["1500"]


NARROW = tuple(a_holder(n, 40.0 + 45.0 * n, 800.0, 40.0) for n in range(1, 30))
SHORT_RAILS = tuple(
    Rail(n, 200.0 + 40.0 * n, 2250.0 - 60.0 * n, 2400.0 - 60.0 * n, Profile(80.0, 18.0, 45.0))
    for n in range(1, 16)
)


KINDS_BEHIND: tuple[tuple[int, Literal["stud", "none", "edge"]], ...] = (
    (1, "stud"),
    (2, "none"),
    (3, "edge"),
)
SCREWED = tuple(
    replace(
        a_holder(n, 300.0 * n, 900.0, 60.0),
        screwed=ScrewedView("", (ScrewedAtView(300.0 * n + 30.0, (890.0, 830.0), behind),)),
    )
    for n, behind in KINDS_BEHIND
)


@pytest.mark.parametrize(
    "view",
    [
        a_view(),
        a_view(100),
        a_view(40, unit="in"),
        a_view(0, rails=(), obstacles=(), studs_mm=(), floor_gap_mm=0.0, cautions=()),
        a_view(title="A workshop with a name so long " * 4),
        a_view(holders=NARROW),
        a_view(holders=SCREWED, unit="in"),
        a_view(rails=SHORT_RAILS, floor_gap_mm=50.0),
        a_view(3, width_mm=300.0, height_mm=200.0, rails=(), holders=(), obstacles=()),
        a_view(5, width_mm=9000.0, height_mm=2500.0),
    ],
)
def test_texts_lie_on_their_sheets_and_do_not_overlap(view: ElevationView) -> None:
    for page in elevation_pages(view):
        texts_are_apart(parsed(page))


def texts_are_apart(root: ET.Element) -> None:
    _, _, width, height = (float(v) for v in root.get("viewBox", "").split())
    boxes = [(box_of(t), t.text) for t in root.iterfind(".//s:text", NS)]
    assert boxes
    for (x0, x1, y0, y1), words in boxes:
        assert x0 >= 0.0, words
        assert x1 <= width, words
        assert y0 >= 0.0, words
        assert y1 <= height, words
    for (a, one), (b, other) in itertools.combinations(boxes, 2):
        apart = a[1] <= b[0] or b[1] <= a[0] or a[3] <= b[2] or b[3] <= a[2]
        assert apart, (one, other)


HOSTILE = "</text><script>alert('x')</script>&amp;\" onload=\"y\x00\x1b\u202e"


def test_hostile_names_stay_text() -> None:
    view = a_view(
        title=HOSTILE,
        holders=(HolderView(1, HOSTILE, (((1.0, 1.0), (9.0, 1.0), (9.0, 9.0)),), note=HOSTILE),),
        obstacles=(ObstacleView(HOSTILE, (500.0, 600.0, 500.0, 600.0)),),
        rails=(Rail(1, 800.0, 100.0, 1900.0, Profile(80.0, 18.0, 45.0)),),
    )
    data = first_page(view)
    root = parsed(data)
    assert not root.findall(".//s:script", NS)
    assert not any("onload" in element.attrib for element in root.iter())
    assert not any(sign in data.decode() for sign in ("\x00", "\x1b", "\u202e"))
    assert texts(root, "rail-height") == ["R1: 800"]


@settings(deadline=None, max_examples=25)
@given(st.text(max_size=60), st.text(max_size=300))
def test_any_name_gives_a_drawing_that_can_be_read(title: str, name: str) -> None:
    view = a_view(title=title, holders=(HolderView(1, name, (), lift=(10.0, 90.0, 10.0, 90.0)),))
    assert texts(parsed(first_page(view)), "balloon") == ["1"]


def test_cautions_are_on_the_sheet_word_for_word() -> None:
    view = a_view()
    words = " ".join(all_texts(view, "caution"))
    assert words == " ".join(view.cautions)
    for topic in ("pipes and cables", "studs or sound masonry", "sharp tools", "qualified people"):
        assert topic in words


def test_a_rail_without_a_stud_is_said_to_be_so() -> None:
    rails = (Rail(1, 800.0, 100.0, 300.0, Profile(80.0, 18.0, 45.0)),)
    data = first_page(a_view(0, rails=rails)).decode()
    assert "no stud behind it" in data
    assert "no stud" not in first_page(a_view(0, rails=rails, studs_mm=())).decode()


def test_screws_into_the_wall_itself_are_crossed_and_listed_and_no_balloon_lies_on_them() -> None:
    view = a_view(0, holders=SCREWED)
    root = parsed(first_page(view))
    assert all_texts(view, "screwed-name") == [f"Chisels {n} (K4F9Q)" for n in (1, 2, 3)]
    places = [f"{x}" for n in (1, 2, 3) for x in (300 * n + 30, 890, 830)]
    assert all_texts(view, "screwed-at") == places
    assert all_texts(view, "screwed-stud") == ["in a stud", "NO STUD", "EDGE OF STUD"]
    assert len(all_texts(view, "beside-studs")) == 2
    (wall,) = root.iterfind(".//s:rect[@class='wall-outline']", NS)
    left, low = float(wall.get("x", "")), float(wall.get("y", "")) + view.height_mm
    layer = next(g for g in root.iter(f"{{{NS['s']}}}g") if "wall-screws" in g.attrib.values())
    spots = [
        (float(c.get("cx", "")), float(c.get("cy", ""))) for c in layer.iterfind("s:circle", NS)
    ]
    drawn = sorted((round(x - left, 1), round(low - y, 1)) for x, y in spots)
    assert drawn == [(300.0 * n + 30.0, z) for n in (1, 2, 3) for z in (830.0, 890.0)]
    round_numbers = [
        c
        for g in root.iter(f"{{{NS['s']}}}g")
        if "balloons" in g.attrib.values()
        for c in g.iterfind("s:circle", NS)
    ]
    for ball in round_numbers:
        x, y, r = (float(ball.get(name, "")) for name in ("cx", "cy", "r"))
        if ball.get("fill") == "#FFFFFF":
            assert all(math.dist((x, y), spot) > r for spot in spots)


def test_inches_are_written_to_the_nearest_thirty_second() -> None:
    """One inch is 25.4 mm exactly (international yard and pound agreement, 1959)."""
    view = a_view(unit="in", width_mm=96 * 25.4)
    root = parsed(first_page(view))
    assert texts(root, "wall-width") == ["96"]
    assert texts(root, "wall-height") == ["59-1/16"]
    assert view.length(25.4 / 64 * 7) in {"3/32", "1/8"}
    assert view.length(25.4 * 7 / 8) == "7/8"


def test_the_scale_bar_is_as_long_as_it_says() -> None:
    for unit, in_mm in (("mm", 1.0), ("in", 25.4)):
        root = parsed(first_page(a_view(unit=unit)))
        block = root.find(".//s:g[@class='title-block']", NS)
        assert block is not None
        bars = block.findall("s:rect[@class='bar']", NS)
        last = texts(root, "scale-bar")[-1].split()[0]
        assert sum(float(bar.get("width", "")) for bar in bars) == pytest.approx(
            float(last) * in_mm, abs=0.05
        )


def test_another_process_with_another_hash_seed_writes_the_same_bytes(
    under_hash_seeds: Callable[..., set[bytes]],
) -> None:
    code = (
        "import sys; sys.path.insert(0, sys.argv[1]);"
        "from test_elevation import *;"
        "sys.stdout.buffer.write(first_page(a_view(20)))"
    )
    here = os.path.dirname(__file__)  # noqa: PTH120 - it goes into sys.path as text
    outputs = under_hash_seeds(code, here)
    assert outputs == {first_page(a_view(20))}


def test_impossible_sheets_are_refused() -> None:
    with pytest.raises(MeasureError):
        elevation_pages(a_view(), scale=0)
    with pytest.raises(MeasureError):
        a_view(width_mm=0.0)


@settings(deadline=None, max_examples=60)
@given(st.lists(st.floats(0.0, 200.0), max_size=20))
def test_spread_labels_keep_their_distance_and_their_order(places: list[float]) -> None:
    moved = spread(sorted(places), step=5.0, low=0.0, high=200.0)
    assert all(b - a >= 5.0 - 1e-9 for a, b in itertools.pairwise(moved))
    assert all(0.0 - 1e-9 <= p <= 200.0 for p in moved)


@settings(deadline=None, max_examples=60)
@given(st.text(max_size=200), st.floats(10.0, 80.0))
def test_wrapped_lines_fit_and_lose_no_letter(text: str, width: float) -> None:
    lines = wrap(text, size=3.0, width=width)
    assert all(text_width(line, 3.0) <= width for line in lines)
    whole = "".join(wrap(text, size=1.0, width=1e9))
    assert "".join("".join(lines).split()) == "".join(whole.split())


def test_columns_are_filled_from_the_top_without_losing_a_block() -> None:
    columns = flow((40.0, 40.0, 40.0, 120.0, 10.0), 100.0)
    assert columns == ((0, 1), (2,), (3,), (4,))
    # 40 and 40 fill a column of 80, but not below heads of 10
    assert flow((80.0, 40.0, 40.0), 80.0) == ((0,), (1, 2))
    assert flow((80.0, 40.0, 40.0), 80.0, again=(0.0, 10.0, 10.0)) == ((0,), (1,), (2,))
