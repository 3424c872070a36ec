"""The screws of a holder that is screwed to the wall must meet studs, all of them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from cleatwright.jobs.making import make_workshop
from cleatwright.project.advising import Plan, advised
from cleatwright.project.computing import compute

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
    return tuple(one for one in made.failing if "screwed to the wall" in one)


@pytest.mark.parametrize("off_mm", [-30.0, -8.0, -7.0, 0.0, 7.0, 8.0, 30.0])
def test_a_middle_column_may_be_off_the_stud_by_what_its_edge_distance_leaves(
    tmp_path: Path, off_mm: float
) -> None:
    """Closed form: half a stud of 40 mm less 12.5 mm is 7.5 mm; the holder is 75.9 mm wide."""
    found = warned(tmp_path, CAN, '"Oil spray"', STUD_X_MM + off_mm - 75.9 / 2)
    assert bool(found) == (abs(off_mm) > STUD_MM / 2 - EDGE_MM)
    if found:
        # a screw beyond the face has no stud behind it; one inside is told how near the face it is
        inside_mm = STUD_MM / 2 - abs(off_mm)
        near = f"too near the edge of a stud: {inside_mm:.1f} mm from it, and it needs"
        assert (near in found[0]) == (inside_mm > 0.0)
        assert ("no stud is behind" in found[0]) == (inside_mm <= 0.0)
    # the report has a row for it either way
    (row,) = [
        check
        for one in compute(tmp_path).found
        for check in one.checks
        if check.name.startswith("screws of") and "into studs" in check.name
    ]
    assert row.holds is not bool(found)


PLACE = re.compile(r'write place = \{ x = "([\d.]+) mm", z = "([\d.]+) mm" \}')


def test_the_line_to_write_brings_the_screws_into_the_stud(tmp_path: Path) -> None:
    (said,) = warned(tmp_path, CAN, '"Oil spray"', 200.0)
    found = PLACE.search(said)
    assert found is not None
    # the height where it is does as well, and is kept
    assert float(found[2]) == 400.0
    assert warned(tmp_path, CAN, '"Oil spray"', float(found[1])) == ()


def in_front(x_mm: float, width_mm: float) -> str:
    """Return an obstacle over the whole height of the wall."""
    box = f"x = {x_mm}\nz = 0\nwidth = {width_mm}\nheight = 900\nmargin = 0"
    return f'\n[[wall.obstacle]]\nname = "pipe"\n{box}\n'


def test_no_place_is_named_behind_an_obstacle(tmp_path: Path) -> None:
    """The only stud is at 500 mm, and a pipe stands before it."""
    (said,) = warned(tmp_path, in_front(480.0, 40.0) + CAN, '"Oil spray"', 200.0)
    assert PLACE.search(said) is None
    assert "screw a board across two studs behind it" in said


def test_the_stud_that_is_free_is_named_though_another_is_nearer(tmp_path: Path) -> None:
    more = "\n[[wall.stud]]\nx = 1000\nwidth = 40\n" + in_front(480.0, 40.0)
    (said,) = warned(tmp_path, more + CAN, '"Oil spray"', 200.0)
    found = PLACE.search(said)
    assert found is not None
    assert abs(float(found[1]) + 75.9 / 2 - 1000.0) <= STUD_MM / 2 - EDGE_MM
    assert warned(tmp_path, more + CAN, '"Oil spray"', float(found[1])) == ()


def test_a_place_that_does_harm_when_it_is_tried_is_not_named(tmp_path: Path) -> None:
    warned(tmp_path, CAN, '"Oil spray"', 200.0)
    job = compute(tmp_path)
    plan = Plan(
        job.workshop, (tmp_path / "workshop.toml").read_text("utf-8"), job.panels, job.found
    )
    tried: list[str] = []

    def arranged(text: str) -> Plan | None:
        tried.append(text)
        # the first finds no place for something, the next leaves everything as it was
        return None if len(tried) == 1 else plan

    (found,) = advised(plan, arranged)
    (said,) = [one for one in found.failing if "screwed to the wall" in one]
    assert len(tried) == 2
    assert PLACE.search(said) is None
    assert "none of the 2 places that were tried over studs helps" in said


def test_two_columns_of_which_one_meets_a_stud_are_not_taken_for_held(tmp_path: Path) -> None:
    """A holder for two cans is wider than 110 mm; its columns cannot all be in a stud of 40."""
    cans = CAN + CAN.replace("Oil spray", "Wax spray")
    (said,) = warned(tmp_path, cans, '"Oil spray", "Wax spray"', STUD_X_MM - 12.0)
    assert re.search(r"only 1 of its [23] columns of screws meets a stud", said)
    assert "no place on the wall has a stud behind each of its columns of screws" in said
    assert "hold fewer tools in it" in said


def test_two_plates_of_one_tool_are_told_of_the_joint_that_meets_one_stud(tmp_path: Path) -> None:
    """Two plates cannot both be in a stud of 40 mm; the same tool in one piece has one column."""
    in_grooves = CAN + '\n[defaults]\njoint = "grooves"\n'
    (said,) = warned(tmp_path, in_grooves, '"Oil spray"', STUD_X_MM - 75.9 / 2)
    assert 'write joint = "one-piece" for it' in said
    assert "fewer tools" not in said
    assert not warned(tmp_path, CAN, '"Oil spray"', STUD_X_MM - 75.9 / 2)


def test_without_a_place_of_its_own_a_holder_is_hung_over_studs(tmp_path: Path) -> None:
    """Two cans on a wall with studs at 500 and 1000 mm: each column within 7.5 mm of a middle."""
    more = "\n[[wall.stud]]\nx = 1000\nwidth = 40\n"
    cans = CAN + CAN.replace("Oil spray", "Paint") + CAN.replace("Oil spray", "Glue")
    holders = "".join(
        f'\n[[holder]]\ntools = ["{name}"]\nmount = "wall-screws"\n'
        for name in ("Oil spray", "Paint", "Glue")
    )
    (tmp_path / "workshop.toml").write_text(HEAD + more + cans + holders, "utf-8")
    job = compute(tmp_path)
    (panel,) = job.panels
    middles = [one.place.x_mm + 75.9 / 2 for one in panel.spots.values()]
    assert len(middles) == len(("Oil spray", "Paint", "Glue"))
    for x in middles:
        assert min(abs(x - stud) for stud in (500.0, 1000.0)) <= STUD_MM / 2 - EDGE_MM
    assert not [one for found in job.found for one in found.remarks if one.beside_studs]
