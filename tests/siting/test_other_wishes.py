"""Changes of wishes, and of where a wall begins, that are told to help do help when followed."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.small import can, document

from cleatwright.base.errors import WallError
from cleatwright.project.computing import compute

PEOPLE = """
[person]
name = "Ann"
stature = 1450

[[other_person]]
name = "Bo"
stature = 1950

[[other_person]]
name = "Tom"
child = true
stature = 850
"""
SINK = '\n[[wall.obstacle]]\nname = "sink"\nx = 30\nz = 0\nwidth = 200\nheight = 100\n'


def hung(folder: Path, *lines: str, people: str = "", height: int = 700, wall: str = "") -> None:
    """Hang one can that is used daily, or raise why it finds no place."""
    jar = can("Can", 'use = "daily"', *lines, diameter=66, height=150, mass="400 g")
    text = document(
        "High", jar, people, width=2000, height=height, studs=range(100, 2000, 400), wall=wall
    )
    (folder / "workshop.toml").write_text(text, "utf-8")
    compute(folder)


def test_somebody_else_may_take_it_or_the_wall_may_begin_lower(tmp_path: Path) -> None:
    """The eyes of Ann are at 0.936 of 1450 mm, those of Bo at 0.936 of 1950."""
    with pytest.raises(WallError) as told:
        hung(tmp_path, people=PEOPLE, wall="floor_gap = 1550\n")
    words = str(told.value)
    assert 'taken_by = ["Bo"] for "Can"' in words
    assert 'taken_by = ["Tom"]' not in words
    hung(tmp_path, 'taken_by = ["Bo"]', people=PEOPLE, wall="floor_gap = 1550\n")
    assert "the wall begun 400 mm lower (floor_gap 1150 mm, height 1100 mm" in words
    hung(tmp_path, people=PEOPLE, wall="floor_gap = 1150\n", height=1100)
    with pytest.raises(WallError):
        hung(tmp_path, people=PEOPLE, wall="floor_gap = 1200\n", height=1050)


def test_what_is_wanted_where_there_is_no_room_may_hang_elsewhere(tmp_path: Path) -> None:
    wall = f"floor_gap = 900\n{SINK}"
    with pytest.raises(WallError, match='finds a place with no left_of for "Can"'):
        hung(tmp_path, 'left_of = "sink"', wall=wall)
    hung(tmp_path, wall=wall)


def test_a_wish_for_a_height_that_the_wall_does_not_have_may_be_left_out(tmp_path: Path) -> None:
    wall = "floor_gap = 900\n"
    with pytest.raises(WallError, match='finds a place with no highest_height for "Can"'):
        hung(tmp_path, "highest_height = 900", wall=wall)
    hung(tmp_path, wall=wall)


def test_no_wall_begins_below_the_floor(tmp_path: Path) -> None:
    """One that begins 40 mm above it is no step of 50 mm lower."""
    with pytest.raises(WallError) as told:
        hung(tmp_path, wall="floor_gap = 40\n", height=130)
    assert "begun" not in str(told.value)
