"""The section of a rail, read back from its PDF by another reader."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import lxml.etree
import numpy as np
import pdfplumber
import pytest

from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.papers.kit.svg_pdf import svg_pdf
from cleatwright.papers.rail_section.drawing import rail_section_svg
from cleatwright.papers.rail_section.notes import left_notes
from cleatwright.papers.rail_section.view import (
    HungView,
    LoadView,
    RailSectionView,
    ScrewView,
    WallView,
)
from cleatwright.timber.rails import Profile

PT_PER_MM = 72.0 / 25.4
STATICS = Source("closed form", "", Evidence.DERIVED)
PLATE = ((0.0, 12.0), (5.0, 12.0), (5.0, -60.0), (0.0, -60.0))
HOOK = ((-16.5, 12.0), (0.0, 12.0), (0.0, 0.0), (-14.5, -14.5), (-16.5, -14.5))
SHELF = ((5.0, -20.0), (60.0, -20.0), (60.0, -25.0), (5.0, -25.0))
TOOL = ((20.0, -20.0), (45.0, -20.0), (45.0, 60.0), (20.0, 60.0))
VIEW = RailSectionView(
    title="Shed äöü",
    rail="R1",
    profile=Profile(70.0, 18.0, 45.0),
    wall=WallView(12.5, lining_given=False, has_stud=True, top_mm=900.0, floor_gap_mm=400.0),
    screws=(ScrewView(-70.0 / 3, 5.0, 70.0, 9.2), ScrewView(-140.0 / 3, 5.0, 70.0, 9.2)),
    hung=HungView(
        name="Mallet (7K2M9QX)",
        cut=((PLATE, HOOK, SHELF),),
        beyond=((PLATE, HOOK, SHELF),),
        tools=(TOOL,),
        way_from=(32.5, 20.0),
        way_out=((0.0, 0.0, 9.0), (0.0, 41.0, 0.0)),
        lift_mm=18.0,
    ),
    load=LoadView(0.8, 7.845, 31.0, 60.0, foot_on_wall=False),
    checks=(CheckResult("stays hooked", 30.0, 60.0, "mm", STATICS, "full"),),
)


def page_of(svg: bytes) -> tuple[Any, float]:
    """Return the page of a drawing and the k of its scale, from the size of its view box."""
    document = pdfplumber.open(io.BytesIO(svg_pdf([svg], title="t")))
    root = lxml.etree.fromstring(svg)
    width = float(root.attrib["viewBox"].split()[2])
    return document.pages[0], width / float(root.attrib["width"].removesuffix("mm"))


def smallest_letter_mm(page: Any) -> float:
    """Return the size of the smallest letter; one that reads upwards is as wide as its size."""
    sizes = [c["height"] if abs(c["matrix"][0]) > 1e-6 else c["width"] for c in page.chars]
    return min(sizes) / PT_PER_MM


def sizes_mm(page: Any) -> list[tuple[float, float]]:
    found = [*page.curves, *page.rects]
    return [(o["width"] / PT_PER_MM, o["height"] / PT_PER_MM) for o in found]


def test_rail_and_scale_bar_are_true_to_scale_on_a4() -> None:
    """A rail of 18 x 70 mm at 1:2 is 9 x 35 mm on paper, and the bar four times 12.5 mm."""
    page, k = page_of(rail_section_svg(VIEW))
    assert (page.width / PT_PER_MM, page.height / PT_PER_MM) == pytest.approx(
        (210.0, 297.0), abs=0.05
    )
    assert k == 2.0
    sizes = sizes_mm(page)
    assert any(size == pytest.approx((9.0, 35.0), abs=0.05) for size in sizes)
    bars = [w for w, h in sizes if w > 10.0 and h == pytest.approx(1.6, abs=0.05)]
    assert bars == pytest.approx([12.5] * 4, abs=0.05)
    text = page.extract_text()
    for words in ("Scale 1:2", "1300 above the floor", "bevel 45°", "lift 18 to unhook", "7K2M9QX"):
        assert words in text
    assert "way out: up 9, then" in text


def test_a_letter_sheet_is_as_large_as_the_standard_says() -> None:
    """ASME Y14.1: 8.5 x 11 inches."""
    page, _ = page_of(rail_section_svg(replace(VIEW, unit="in"), sheet_name="Letter"))
    assert (page.width / 72.0, page.height / 72.0) == pytest.approx((8.5, 11.0), abs=0.01)
    assert "4 in: check it with a rule" in page.extract_text()


def test_the_drawing_is_mirrored_nowhere_and_screws_reach_into_the_stud() -> None:
    """The wall is at the left; tips are 70 mm left of the rail's face, 39.5 in the stud."""
    svg = rail_section_svg(VIEW)
    root = lxml.etree.fromstring(svg)
    screws = [
        [float(x) for x in re.findall(r"(-?[\d.]+),", one.attrib["points"])]
        for one in root.iter()
        if one.attrib.get("class") == "screw"
    ]
    assert len(screws) == 2
    for xs in screws:
        assert max(xs) - min(xs) == pytest.approx(70.0, abs=0.02)
    assert b"39.5 in the stud" in svg.replace(b"\n", b" ") or b"39.5" in svg


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("long", [60.0, 900.0])
def test_no_words_touch_and_all_can_be_read(
    unit: str, long: float, touching_letters: Callable[[Any], list[tuple[str, str]]]
) -> None:
    """Boxes of words as another reader finds them; letters are at least 2.4 mm on paper."""
    tall = tuple((y, long if z > 0.0 else z) for y, z in TOOL)
    view = replace(VIEW, unit=unit, hung=replace(VIEW.hung, tools=(tall,)))
    page, _ = page_of(rail_section_svg(view))
    assert len(page.chars) > 1000
    assert smallest_letter_mm(page) >= 2.4
    assert touching_letters(page) == []


def test_a_tool_too_long_for_the_sheet_is_broken_off_and_says_by_how_much() -> None:
    """What is drawn of it and what is left out add up to its length."""
    tall = tuple((y, 900.0 if z > 0.0 else z) for y, z in TOOL)
    svg = rail_section_svg(replace(VIEW, hung=replace(VIEW.hung, tools=(tall,))))
    root = lxml.etree.fromstring(svg)
    (tool,) = [
        one for one in root.iter() if one.attrib.get("class") == "tool" and "points" in one.attrib
    ]
    heights = [float(z) for z in re.findall(r",(-?[\d.]+)", tool.attrib["points"])]
    told = " ".join(t.text or "" for t in root.iter() if t.attrib.get("class") == "label")
    found = re.search(r"goes on for ([\d.]+)", told)
    assert found is not None
    assert max(heights) - min(heights) + float(found[1]) == pytest.approx(920.0, abs=0.06)


def test_a_check_that_fails_and_a_rail_without_stud_say_so_in_words() -> None:
    bad = CheckResult("stays hooked", 70.0, 60.0, "mm", STATICS)
    wall = replace(VIEW.wall, has_stud=False)
    page, _ = page_of(rail_section_svg(replace(VIEW, checks=(bad,), wall=wall, screws=())))
    text = " ".join(page.extract_text().split())
    assert "DOES NOT HOLD" in text
    assert "meets no stud" in text
    assert "no stud here" in rail_section_svg(replace(VIEW, wall=wall, screws=())).decode()


def test_what_screws_hold_is_drawn_where_it_bears_and_by_their_lever() -> None:
    """7.845 N at 31 mm on a foot 36 mm down and a screw at 30: 7.845 x 31 / 6 = 40.5 N, not 6.8."""
    load = replace(VIEW.load, depth_mm=36.0, screws_mm=30.0)
    text = " ".join(page_of(rail_section_svg(replace(VIEW, load=load)))[0].extract_text().split())
    assert "bearing: 40.5 N" in text
    assert "bevel holds" not in text
    words = " ".join(one.words for one in left_notes(replace(VIEW, load=load), width=90.0))
    assert "h = 36 below the top edge" in words
    assert "s = 30 below that edge with W e / (h - s) = 40.5 N" in words


def test_a_section_with_the_wall_at_the_left_is_seen_from_the_left() -> None:
    """The rule of the right hand: y to the right and z up on paper come from an eye at +x.

    A person who faces the wall looks along -y; at their left is up x ahead.
    """
    eye = np.cross([0.0, 1.0, 0.0], [0.0, 0.0, 1.0])
    left_hand = np.cross([0.0, 0.0, 1.0], [0.0, -1.0, 0.0])
    assert eye.tolist() == left_hand.tolist() == [1.0, 0.0, 0.0]
    root = lxml.etree.fromstring(rail_section_svg(VIEW))
    assert "Seen from the left" in " ".join(root.itertext())
    xs = {
        name: [
            float(x)
            for one in root.iter()
            if one.attrib.get("class") == name and "points" in one.attrib
            for x in re.findall(r"(-?[\d.]+),", one.attrib["points"])
        ]
        for name in ("screw", "tool")
    }
    assert max(xs["screw"]) < min(xs["tool"])


@pytest.mark.parametrize(
    ("wall", "said", "unsaid"),
    [
        (replace(VIEW.wall, lining_mm=0.0, lining_given=True), "stud", "lining"),
        (replace(VIEW.wall, lining_mm=0.0, has_stud=False), "no stud here", "wall without"),
        (replace(VIEW.wall, has_stud=False, any_stud=False), "wall without studs", "no stud here"),
    ],
)
def test_the_layers_of_the_wall_are_named_as_they_are(
    wall: WallView, said: str, unsaid: str
) -> None:
    screws = VIEW.screws if wall.has_stud else ()
    root = lxml.etree.fromstring(rail_section_svg(replace(VIEW, wall=wall, screws=screws)))
    (layer,) = [one for one in root.iter() if one.attrib.get("class") == "wall"]
    names = " ".join(layer.itertext())
    assert said in names
    assert unsaid not in names


def test_equal_views_give_equal_bytes() -> None:
    assert rail_section_svg(VIEW) == rail_section_svg(replace(VIEW))


def test_wood_is_filled_otherwise_than_plastic() -> None:
    """A carrier of wood has the colour of the rail, which is of wood too."""
    plain = rail_section_svg(VIEW)
    wood = rail_section_svg(replace(VIEW, hung=replace(VIEW.hung, first_of_wood=True)))

    def fills(svg: bytes) -> list[str]:
        return [
            one.attrib["fill"]
            for one in lxml.etree.fromstring(svg).iter()
            if one.attrib.get("class") == "cut-face"
        ]

    rail = fills(plain)[-1]
    assert fills(wood).count(rail) == fills(plain).count(rail) + 1
