"""The wall drawing in DXF, read by GDAL, a reader that shares no code with what wrote it."""

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import shapely
from pyogrio.raw import read

from cleatwright.base.stages.run import Run
from cleatwright.pack.drawing import elevation_files
from cleatwright.pack.output_file import drawn


@pytest.fixture
def layers(done: Any, tmp_path: Path) -> dict[str, list[Any]]:
    """Return the shapes on each layer of the wall's drawing."""
    path = tmp_path / "elevation.dxf"
    path.write_bytes(drawn(elevation_files(done.job.panels[0], Run()))["wall/elevation.dxf"])
    meta, _, geometry, fields = read(path)
    names = fields[list(meta["fields"]).index("Layer")]
    found: dict[str, list[Any]] = {}
    for name, shape in zip(names, shapely.from_wkb(geometry), strict=True):
        found.setdefault(str(name), []).append(shape)
    return found


def test_rails_lie_where_the_arrangement_puts_them_in_real_millimetres(
    done: Any, layers: dict[str, list[Any]]
) -> None:
    panel = done.job.panels[0]
    height = panel.setting.rail.height_mm
    wanted = sorted(
        (run.x0_mm, run.z_top_mm - height, run.x1_mm, run.z_top_mm)
        for run in panel.arrangement.rails
    )
    read_back = sorted(tuple(shape.bounds) for shape in layers["RAILS"])
    assert read_back == [pytest.approx(one, abs=1e-6) for one in wanted]


def test_the_wall_its_studs_and_its_screws_are_all_there(
    done: Any, layers: dict[str, list[Any]]
) -> None:
    panel = done.job.panels[0]
    (wall,) = layers["WALL"]
    assert wall.bounds == pytest.approx((0.0, 0.0, panel.panel.width_mm, panel.panel.height_mm))
    studs = sorted(shape.bounds[0] for shape in layers["STUDS"])
    assert studs == pytest.approx(sorted(stud.x_mm for stud in panel.panel.studs))
    # a cross of two lines for each of two screws where a rail meets a stud
    crossings = sum(len(one.studs_mm) for one in panel.arrangement.rails)
    # and for each screw that is bought to go straight into the wall
    bought = [one for unit in panel.units for one in unit.outer.part.hardware if one.stud_mm]
    assert bought
    assert len(layers["SCREWS"]) == 4 * crossings + 2 * sum(one.count for one in bought)


def test_each_holder_and_each_tool_has_its_outline(done: Any, layers: dict[str, list[Any]]) -> None:
    counts = Counter({name: len(shapes) for name, shapes in layers.items()})
    assert counts["HOLDERS"] >= len(done.job.panels[0].planned)
    assert counts["TOOLS"] >= sum(len(one.tools) for one in done.job.panels[0].planned)
