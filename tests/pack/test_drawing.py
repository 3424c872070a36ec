"""The wall drawing of the examples: numbers that can be read, on sheets that can be bought."""

from __future__ import annotations

import itertools
import math
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import shapely

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.pack.drawing import elevation_files, elevation_view
from cleatwright.pack.output_file import drawn
from cleatwright.project.computing import compute
from cleatwright.workshop.document.sections import Drawings

SVG = "{http://www.w3.org/2000/svg}"
# ISO 216, A series; ASME Y14.1, sizes A to E: long side by short side in mm
SHEETS = {(1189, 841), (841, 594), (594, 420), (420, 297), (297, 210)}
INCH_SHEETS = {(1118, 864), (864, 559), (559, 432), (432, 279), (279, 216)}
LETTER = (279, 216)


def _numbers(page: ET.Element) -> list[tuple[float, float, float]]:
    """Return x, y, r of each balloon."""
    group = page.find(f".//{SVG}g[@class='balloons']")
    found = [] if group is None else list(group.iterfind(f"{SVG}circle"))
    return [
        (float(c.get("cx", "")), float(c.get("cy", "")), float(c.get("r", "")))
        for c in found
        if c.get("stroke") != "none"
    ]


@pytest.mark.slow
@pytest.mark.parametrize("name", ["bicycle-room", "joiners-bench", "shared-workshop"])
def test_no_two_numbers_of_an_example_touch_on_any_sheet(
    examples: Path, name: str, known: Store
) -> None:
    run = Run(known)
    job = compute(examples / name, run=run)
    usual = SHEETS if job.workshop.units == "mm" else INCH_SHEETS
    for panel, (sheet, sizes) in itertools.product(
        job.panels, (("auto", usual), ("Letter", {LETTER}))
    ):
        drawings = Drawings.model_validate({"sheet": sheet})
        asked = replace(panel, setting=replace(panel.setting, drawings=drawings))
        files = drawn(elevation_files(asked, run), run)
        pages = [
            ET.fromstring(data)  # noqa: S314 - our own bytes
            for path, data in files.items()
            if path.endswith(".svg")
        ]
        for page in pages:
            sides = sorted((float(page.get(s, "")[:-2]) for s in ("width", "height")), reverse=True)
            assert (round(sides[0]), round(sides[1])) in sizes
        (balloons,) = [numbers for page in pages if (numbers := _numbers(page))]
        assert len(balloons) == len(panel.planned)
        for (x, y, r), (u, v, s) in itertools.combinations(balloons, 2):
            assert math.hypot(x - u, y - v) >= r + s
        words = [t.text for page in pages for t in page.iterfind(f".//{SVG}text")]
        for made in panel.built:
            assert words.count(made.mark) >= 1


def _area(outlines: tuple[tuple[tuple[float, float], ...], ...]) -> Any:
    """Return what the outlines enclose; one inside another is a hole."""
    area: Any = shapely.Polygon()
    for outline in outlines:
        area = area.symmetric_difference(shapely.make_valid(shapely.Polygon(outline)))
    return area


def test_what_hides_the_tools_is_a_part_of_the_holder_and_some_of_it_does(done: Any) -> None:
    """The shadow of a part of a body lies within the shadow of the body."""
    hiding = 0
    for holder in elevation_view(done.job.panels[0], Run()).holders:
        front, whole = _area(holder.front), _area(holder.holder)
        # shadows are simplified to 0.05 mm
        assert front.difference(whole.buffer(0.1)).area == pytest.approx(0.0, abs=0.01)
        hiding += front.area > 0.0
    assert hiding > 0
