"""Holders in the holes of a board: room for the nearest holes, and papers that talk of holes."""

from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import combinations, product
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.jobs.making import all_files_of
from cleatwright.pack.front_view import front_view
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute
from cleatwright.siting.panel_job import PanelJob

# common practice, no source: holes of a perforated board 1 in apart
PITCH_MM = 25.4
SVG = "{http://www.w3.org/2000/svg}"
TEXT = """schema = 1
name = "Board"

[wall]
width = 1200
height = 900
stud = [{ x = 300 }, { x = 700 }]

[[panel]]
name = "holes"
width = 520
height = 620
mount = "MOUNT"

[printer.bench]
bed = [220, 220, 200]

[filament.plain]
material = "PETG"
density = 1270
"""
TOOLS = "".join(
    f"""
[[tool]]
name = "{name}"
kind = "{kind}"
measures = {measures}
mass = "300 g"
panel = "holes"
"""
    for name, kind, measures in (
        ("Oil spray", "can", "{ diameter = 65.5, height = 180 }"),
        ("Wax spray", "can", "{ diameter = 53, height = 150 }"),
        ("Patch tin", "box", "{ width = 105, depth = 68, height = 30 }"),
        ("Nail tin", "box", "{ width = 80, depth = 50, height = 40 }"),
    )
)
APART = "".join(
    f'\n[[holder]]\ntools = ["{name}"]\n'
    for name in ("Oil spray", "Wax spray", "Patch tin", "Nail tin")
)


def job_of(folder: Path, mount: str) -> Job:
    folder.mkdir()
    (folder / "workshop.toml").write_text(TEXT.replace("MOUNT", mount) + TOOLS + APART, "utf-8")
    return compute(folder)


@pytest.fixture(scope="module")
def perforated(tmp_path_factory: pytest.TempPathFactory) -> Job:
    return job_of(tmp_path_factory.mktemp("perforated") / "shed", "perforated-board")


def texts(svg: bytes) -> list[str]:
    root = ET.fromstring(svg)  # noqa: S314 - our own file
    return ["".join(one.itertext()) for one in root.iter(f"{SVG}text")]


def boxes(panel: PanelJob) -> Iterator[tuple[float, float, float, float]]:
    """Yield x0, x1, z0, z1 of each holder with its tools as they hang and as they are lifted."""
    for unit in panel.units:
        place, made = panel.spots[unit.planned.key].place, unit.outer
        view = front_view(made, place, Run())
        polygons = [*view.part, *(polygon for tool in view.tools for polygon in tool)]
        lift = max(step[2] for seat in made.part.seats for step in seat.way_out)
        xs = [x for polygon in polygons for x, _ in polygon]
        zs = [z for polygon in polygons for _, z in polygon]
        yield min(xs), max(xs), min(zs), max(zs) + lift


@pytest.mark.parametrize(
    ("mount", "along_mm", "up_mm"),
    [
        ("perforated-board", PITCH_MM / 2, PITCH_MM / 2),
        ("slotwall", 0.0, 76.2 / 2),
        # slots of a profile 40 mm apart
        ("t-slot", 0.0, 20.0),
    ],
)
def test_two_holders_each_off_by_half_a_pitch_never_meet(
    tmp_path: Path, mount: str, along_mm: float, up_mm: float
) -> None:
    panel = next(one for one in job_of(tmp_path / "shed", mount).panels if one.units)
    every = list(boxes(panel))
    assert len(every) == 4
    ways = (-1.0, 1.0)
    for (a, b), (ax, az, bx, bz) in product(combinations(every, 2), product(ways, repeat=4)):
        wide = min(a[1] + ax * along_mm, b[1] + bx * along_mm) - max(
            a[0] + ax * along_mm, b[0] + bx * along_mm
        )
        high = min(a[3] + az * up_mm, b[3] + bz * up_mm) - max(a[2] + az * up_mm, b[2] + bz * up_mm)
        assert min(wide, high) <= 0.05, (a, b)
    for x0, x1, z0, z1 in every:
        assert x0 - along_mm >= -0.05
        assert x1 + along_mm <= panel.problem.space.width_mm + 0.05
        assert z0 - up_mm >= -0.05
        assert z1 + up_mm <= panel.problem.space.height_mm + 0.05


def test_its_papers_talk_of_holes_and_never_of_rails(perforated: Job) -> None:
    files = all_files_of(perforated)
    (name,) = [one for one in files if one.endswith("holes/elevation.svg")]
    told = " ".join(texts(files[name]))
    assert not any(word in told.lower() for word in ("rail", "bevel", "stud"))
    assert "put its buttons straight into" in told
    assert "half a pitch (12.7 mm) is kept on each" in told
    report = json.loads(files["report.json"])
    assert any("half a pitch (12.7 mm)" in note for note in report["notes"])
    swings = [one for one in report["cautions"] if "swings" in one]
    assert [one.startswith("If holes is a door") for one in swings] == [True]


def test_the_elevation_alone_says_where_each_holder_hangs(perforated: Job) -> None:
    panel = next(one for one in perforated.panels if one.units)
    files = all_files_of(perforated)
    (name,) = [one for one in files if one.endswith("holes/elevation.svg")]
    lines = texts(files[name])
    for unit in panel.units:
        place = panel.spots[unit.planned.key].place
        x, z = (f"{round(at, 1):g}" for at in (place.x_mm, place.z_mm))
        assert f"left edge x {x}, plate top z {z}" in lines
