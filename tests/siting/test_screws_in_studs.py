"""The screws of a holder that is screwed to the wall must meet studs, all of them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from cleatwright.jobs.making import make_workshop

STUD_X_MM = 500.0
STUD_MM = 40.0
EDGE_MM = 12.5
HEAD = """schema = 1
name = "Narrow"
units = "mm"

[wall]
width = 1200
height = 900

[[wall.stud]]
x = 500
width = 40

[printer.bench]
bed = [240, 240, 200]

[filament.plain]
material = "PETG"
density = 1270
"""
CAN = """
[[tool]]
name = "Oil spray"
kind = "can"
measures = { diameter = 65.5, height = 180 }
mass = "390 g"
"""


def warned(folder: Path, tools: str, names: str, x_mm: float) -> tuple[str, ...]:
    place = f"place = {{ x = {x_mm:g}, z = 400 }}"
    holder = f'\n[[holder]]\ntools = [{names}]\nmount = "wall-screws"\n{place}\n'
    (folder / "workshop.toml").write_text(HEAD + tools + holder, "utf-8")
    made = make_workshop(folder, dry_run=True)
    return tuple(one for one in made.warnings if "screwed to the wall" in one)


@pytest.mark.parametrize("off_mm", [-30.0, -8.0, -7.0, 0.0, 7.0, 8.0, 30.0])
def test_a_middle_column_may_be_off_the_stud_by_what_its_edge_distance_leaves(
    tmp_path: Path, off_mm: float
) -> None:
    """Closed form: half a stud of 40 mm less 12.5 mm is 7.5 mm; the holder is 75.9 mm wide."""
    found = warned(tmp_path, CAN, '"Oil spray"', STUD_X_MM + off_mm - 75.9 / 2)
    assert bool(found) == (abs(off_mm) > STUD_MM / 2 - EDGE_MM)


def test_the_line_to_write_brings_the_screws_into_the_stud(tmp_path: Path) -> None:
    (said,) = warned(tmp_path, CAN, '"Oil spray"', 200.0)
    found = re.search(r"write place = \{ x = ([\d.]+), z = ([\d.]+) \}", said)
    assert found is not None
    assert warned(tmp_path, CAN, '"Oil spray"', float(found[1])) == ()


def test_two_columns_of_which_one_meets_a_stud_are_not_taken_for_held(tmp_path: Path) -> None:
    """A holder for two cans is wider than 110 mm; its columns cannot all be in a stud of 40."""
    cans = CAN + CAN.replace("Oil spray", "Wax spray")
    (said,) = warned(tmp_path, cans, '"Oil spray", "Wax spray"', STUD_X_MM - 12.0)
    assert re.search(r"only 1 of its [23] columns of screws meets a stud", said)
