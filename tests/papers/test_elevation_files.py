"""The wall as PDF and DXF, read back by other programs' readers."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import ezdxf
import pdfplumber
import pytest

from cleatwright.base.errors import DesignError
from cleatwright.papers.elevation.drawing import elevation_pages
from cleatwright.papers.elevation.dxf import elevation_dxf
from cleatwright.papers.elevation.dxf_drawing import LAYERS
from cleatwright.papers.elevation.view import ElevationView, FreeSeatView, HolderView, ObstacleView
from cleatwright.papers.kit.svg_pdf import svg_pdf
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.reach import ReachBand

PT_PER_MM = 72.0 / 25.4
# the stubs of the library leave most of it open
READER: Any = ezdxf
VIEW = ElevationView(
    title="Shed äöü",
    width_mm=2600.0,
    height_mm=1500.0,
    floor_gap_mm=700.0,
    studs_mm=(300.0, 900.0, 1500.0, 2100.0),
    obstacles=(ObstacleView("socket", (2000.0, 2150.0, 300.0, 400.0)),),
    rails=(
        Rail(1, 1100.0, 200.0, 1700.0, Profile(70.0, 18.0, 45.0), studs_mm=(300.0, 900.0, 1500.0)),
    ),
    holders=(
        HolderView(
            1,
            "Hammer",
            (((400.0, 1040.0), (520.0, 1040.0), (520.0, 1110.0), (400.0, 1110.0)),),
            (((430.0, 900.0), (490.0, 900.0), (490.0, 1200.0), (430.0, 1200.0)),),
            (390.0, 530.0, 1200.0, 1230.0),
            "7K2M9QX",
        ),
    ),
)


def test_the_pdf_is_as_large_as_its_sheet_and_its_wall_is_true_to_scale() -> None:
    """Another reader measures the wall on the page: 2600 x 1500 mm divided by the k of 1:k."""
    (svg,) = elevation_pages(VIEW, sheet="A3", scale=10)
    pdf = svg_pdf([svg], title=VIEW.title)
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        (page,) = document.pages
        width, height = float(page.width) / PT_PER_MM, float(page.height) / PT_PER_MM
        assert f'width="{width:.2f}mm"'.encode() in svg
        assert f'height="{height:.2f}mm"'.encode() in svg
        boxes = [
            (float(r["width"]) / PT_PER_MM, float(r["height"]) / PT_PER_MM) for r in page.rects
        ]
        text = page.extract_text()
    assert any(
        w == pytest.approx(260.0, abs=0.05) and h == pytest.approx(150.0, abs=0.05)
        for w, h in boxes
    )
    assert "Hammer" in text
    assert "7K2M9QX" in text
    assert svg_pdf([svg], title=VIEW.title) == pdf


def test_a_drawing_without_a_size_is_refused() -> None:
    with pytest.raises(DesignError, match="page"):
        svg_pdf([*elevation_pages(VIEW), b"<svg/>"], title="x")


def test_the_dxf_has_no_error_and_everything_is_at_its_place_on_its_layer() -> None:
    data = elevation_dxf(VIEW)
    document = READER.read(io.StringIO(data.decode("utf-8")))
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert document.units == READER.units.MM
    assert set(LAYERS) <= {layer.dxf.name for layer in document.layers}
    space = document.modelspace()

    def loops(layer: str) -> list[list[tuple[float, float]]]:
        found = space.query(f'LWPOLYLINE[layer=="{layer}"]')
        return [[(x, y) for x, y in one.get_points("xy")] for one in found]

    assert loops("WALL") == [[(0.0, 0.0), (2600.0, 0.0), (2600.0, 1500.0), (0.0, 1500.0)]]
    assert loops("HOLDERS") == [list(VIEW.holders[0].holder[0])]
    assert loops("TOOLS") == [list(VIEW.holders[0].tools[0])]
    ((x0, z0), _, (x1, z1), _) = loops("RAILS")[0]
    assert (x0, x1, z0, z1) == (200.0, 1700.0, 1030.0, 1100.0)
    assert len(space.query('LINE[layer=="STUDS"]')) == 4
    # two screws in each of three studs, a cross of two lines each
    assert len(space.query('LINE[layer=="SCREWS"]')) == 12
    assert {one.dxf.text for one in space.query('TEXT[layer=="NAMES"]')} == {
        "A socket",
        "1 7K2M9QX",
    }
    assert elevation_dxf(VIEW) == data


def test_the_dxf_measures_from_the_corner_of_the_wall_and_shows_reach_and_rails_that_stay() -> None:
    """The dimensions are entities of the format; a reader measures them between their points."""
    rail = replace(VIEW.rails[0], number=2, z_top_mm=600.0, state="document")
    view = replace(VIEW, reach=ReachBand(1102.5, 1431.5, 500.0, 1900.0), rails=(*VIEW.rails, rail))
    document = READER.read(io.StringIO(elevation_dxf(view).decode("utf-8")))
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    space = document.modelspace()
    dimensions = space.query('DIMENSION[layer=="DIMENSIONS"]')
    measured = sorted(round(one.get_measurement(), 3) for one in dimensions)
    up, across = [600.0, 1100.0, 1500.0], [200.0, 300.0, 900.0, 1500.0, 1700.0, 200.0, 1700.0]
    assert measured == sorted([*up, *across, 2600.0])
    for one in dimensions:
        assert one.dxf.text.split(": ")[-1] == f"{one.get_measurement():g}"
    heights = sorted(one.dxf.start.y for one in space.query('LINE[layer=="REACH"]'))
    # above the floor, which lies 700 mm below the wall; 500 lies under it
    assert heights == [402.5, 731.5, 1200.0]
    assert len(space.query('LWPOLYLINE[layer=="RAILS_THAT_STAY"]')) == 1
    (datum,) = space.query('CIRCLE[layer=="DATUM"]')
    assert (datum.dxf.center.x, datum.dxf.center.y) == (0.0, 0.0)


def test_seats_that_are_kept_free_are_dashed_on_a_layer_of_their_own() -> None:
    box = (1000.0, 1160.0, 980.0, 1180.0)
    view = replace(VIEW, seats=(FreeSeatView("reserved seat 1", box, 1100.0),))
    document = READER.read(io.StringIO(elevation_dxf(view).decode("utf-8")))
    line = document.linetypes.get(document.layers.get("RESERVED_SEATS").dxf.linetype)
    dashes = [tag.value for tag in line.pattern_tags.tags if tag.code == 49]
    assert min(dashes) < 0.0 < max(dashes), "gaps are less than 0, by the DXF reference"
    (loop,) = document.modelspace().query('LWPOLYLINE[layer=="RESERVED_SEATS"]')
    assert {point[:2] for point in loop.get_points()} == {(x, z) for x in box[:2] for z in box[2:]}
    page = elevation_pages(view)[0].decode("utf-8")
    (seat,) = re.findall(r'<rect class="reserved-seat"[^>]*>', page)
    assert "stroke-dasharray" in seat
    legend = [one.decode("utf-8") for one in elevation_pages(view)]
    assert sum(page.count(">reserved seat 1<") for page in legend) >= 1
    assert "Reserved seats" not in elevation_pages(VIEW)[0].decode("utf-8")


def test_the_dxf_depends_on_no_hash_seed(under_hash_seeds: Callable[..., set[bytes]]) -> None:
    code = (
        "import sys; sys.path.insert(0, sys.argv[1]);"
        "from test_elevation_files import *;"
        "sys.stdout.buffer.write(elevation_dxf(VIEW))"
    )
    outputs = under_hash_seeds(code, str(Path(__file__).parent))
    assert outputs == {elevation_dxf(VIEW)}
