"""A bench before the wall stays where it stands when a change of the wall is tried."""

from __future__ import annotations

from pathlib import Path

import pytest

from cleatwright.base.errors import CleatwrightError
from cleatwright.project.computing import compute
from cleatwright.wall.explaining.offers import begun_lower_space, grown
from cleatwright.wall.model import Box, WallSpace

WALL = WallSpace(1000.0, 700.0, 950.0, bench_mm=900.0)
SAW_AND_CAN = """schema = 1
name = "Mini"
units = "mm"

[wall]
width = 1000
height = 700
floor_gap = 950
bench_depth = 500
bench_height = 900

[[wall.stud]]
x = 300

[[wall.stud]]
x = 700

[printer.bench]
bed = [220, 220, 240]

[filament.grey]
material = "PLA"
density = 1240

[[tool]]
name = "Hand saw"
kind = "hand-saw"
measures = { plate_length = 500, handle_width = 130, handle_length = 110, handle_thickness = 22, hole_width = 90, hole_height = 42, heel_width = 115, toe_width = 55, plate = 1.4 }
"""  # noqa: E501 - a line of a table cannot be broken


def test_a_wall_that_begins_lower_reaches_down_behind_the_bench() -> None:
    """200 mm lower it begins at 750 mm: 150 mm of it are below the top of the bench at 900."""
    assert WALL.bench is None
    lower = begun_lower_space(WALL, 200.0)
    assert lower.floor_gap_mm == 750.0
    assert lower.obstacles == (Box("bench", 0.0, 0.0, 1000.0, 150.0),)
    again = begun_lower_space(lower, 100.0)
    assert again.obstacles == (Box("bench", 0.0, 0.0, 1000.0, 250.0),)


def test_a_wider_wall_has_the_bench_before_all_of_it() -> None:
    wall = begun_lower_space(WALL, 200.0)
    assert grown(wall, 300.0, wide=True).obstacles == (Box("bench", 0.0, 0.0, 1300.0, 150.0),)
    assert grown(wall, 300.0, wide=False).obstacles == wall.obstacles


def test_no_change_is_told_that_the_bench_forbids(tmp_path: Path) -> None:
    """A blade of half a metre hangs from below the shoulder: behind the bench at any beginning."""
    (tmp_path / "workshop.toml").write_text(SAW_AND_CAN, "utf-8")
    with pytest.raises(CleatwrightError) as caught:
        compute(tmp_path)
    assert "Hand saw" in caught.value.sentence
    assert "begun" not in caught.value.sentence
    # without the bench that helps
    free = SAW_AND_CAN.replace("bench_depth = 500\n", "").replace("bench_height = 900\n", "")
    (tmp_path / "workshop.toml").write_text(free, "utf-8")
    with pytest.raises(CleatwrightError, match="begun"):
        compute(tmp_path)
