"""Lines that make room: as they stand in the document, in mm and in inches, they suffice."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.base.units import length_mm
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute
from cleatwright.siting.missing_room import Lack, lines_for
from cleatwright.wall.way_out import Direction, Hit, WayProof
from cleatwright.workshop.document.store import checked

SMALL = Path(__file__).parents[1] / "cli" / "small.toml"
CAN_MM, ROOM_MM, PIPE_MM = 65.5, 12.0, 400.0
PIPE = f"""
[[wall.obstacle]]
name = "Pipe"
x = {PIPE_MM:g}
z = 0
width = 50
height = 900
depth = 400
margin = 0
"""
HELD = """
[[holder]]
tools = ["Oil spray"]
mount = "wall-screws"
place = {{ x = {x}, z = 400 }}
"""
LINE = re.compile(r'place = \{ x = "([^"]+)", z = "([^"]+)" \}')
KEYS = "width|height|depth|diameter|floor_gap|x|z|margin"


def document(unit: str, *more: str) -> str:
    """Return the small workshop without studs, with a hand that needs 12 mm."""
    text = re.sub(r"\[\[wall\.stud\]\]\nx = \d+\nwidth = 50\n\n", "", SMALL.read_text("utf-8"))
    text = text.replace("[printer", '[defaults]\nhand_room = "12 mm"\n\n[printer') + "".join(more)
    if unit == "in":
        text = re.sub(rf"\b({KEYS}) = ([\d.]+)", r'\1 = "\2 mm"', text)
        text = text.replace("[220, 220, 200]", '["220 mm", "220 mm", "200 mm"]')
        text = text.replace('name = "Small"', 'name = "Small"\nunits = "in"', 1)
    return text


def job_of(folder: Path, text: str, known: Store) -> Job:
    (folder / "workshop.toml").write_text(text, "utf-8")
    return compute(folder, advise=True, run=Run(known))


def hands(job: Job) -> list[str]:
    return [line for line in job.warnings if line.startswith("A hand")]


@pytest.mark.parametrize("free_mm", [8.0, 9.17, 11.9])
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_place_beside_a_pipe_is_far_enough_as_it_is_written(
    tmp_path: Path, known: Store, unit: str, free_mm: float
) -> None:
    """A can that stands 8 to 11.9 mm beside a pipe lacks what the hand needs of 12 mm."""
    far = job_of(tmp_path, document(unit, PIPE, HELD.format(x=100)), known)
    made = next(one for one in far.built if one.part.seats[0].tool.mass_kg == pytest.approx(0.39))
    middle_mm = made.part.bounds_mm[1][0] / 2
    x_mm = PIPE_MM - free_mm - CAN_MM / 2 - middle_mm
    text = document(unit, PIPE, HELD.format(x=round(x_mm, 3)))
    near = job_of(tmp_path, text, known)
    (told,) = hands(near)
    assert "(tried" in told
    (x, z) = LINE.findall(told)[0]
    assert x.endswith(unit)
    gap_mm = PIPE_MM - length_mm(x) - middle_mm - CAN_MM / 2
    assert ROOM_MM <= gap_mm + 1e-3 <= ROOM_MM + 1.0
    line = f'place = {{ x = "{x}", z = "{z}" }}'
    after = job_of(tmp_path, re.sub(r"place = \{.*\}", line, text), known)
    assert hands(after) == []


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("panel", ["wall", "panel"])
def test_a_margin_is_written_no_smaller_than_it_must_be(
    tmp_path: Path, known: Store, unit: str, panel: str
) -> None:
    """Of 2.34 mm that are missing at a margin of 7 mm, 9.34 mm become 9.4 mm or 3/8 in."""
    pipe, more = PIPE.replace("margin = 0", "margin = 7"), ""
    if panel == "panel":
        pipe = pipe.replace("wall.obstacle", "panel.obstacle")
        more = '\n[[panel]]\nname = "Door"\nwidth = 1200\nheight = 900\n'
    text = document(unit, more, pipe)
    if panel == "panel":
        text = text.replace('name = "Oil spray"', 'name = "Oil spray"\npanel = "Door"')
    job = job_of(tmp_path, text, known)
    own = next(one for one in job.panels if one.panel.obstacles)
    holder = next(one for one in own.planned if one.tools[0].name == "Oil spray")
    hit = Hit("Pipe", "obstacle", 0.0, 2.34, "left")
    way = WayProof("Oil spray", holder.name, holder.key, 90.0, None, hit)
    given = next(lines_for(Lack(way, hit, at_hand=True), own, workshop=job.workshop, text=text))
    said = {"mm": "9.4 mm", "in": "3/8 in"}[unit]
    assert given.words == f'write margin = "{said}" for the obstacle "Pipe"'
    changed = checked(given.text).surface(own.panel.name)
    assert changed.obstacles[0].keep_out_mm == pytest.approx(length_mm(said))


@pytest.mark.parametrize(
    ("direction", "x", "z"),
    [
        ("left", "297.6 mm", "500 mm"),
        ("right", "302.4 mm", "500 mm"),
        ("up", "300 mm", "502.4 mm"),
        ("down", "300 mm", "497.6 mm"),
    ],
)
def test_a_given_place_moves_the_way_that_the_hit_says(
    tmp_path: Path, known: Store, direction: Direction, x: str, z: str
) -> None:
    """From 300, 500 mm on by 2.34 mm, rounded away from what is in the way."""
    text = document("mm", HELD.format(x=300).replace("400", "500"))
    job = job_of(tmp_path, text, known)
    (panel,) = job.panels
    holder = next(one for one in job.planned if one.tools[0].name == "Oil spray")
    hit = Hit("Patch tin", "holder", 0.0, 2.34, direction)
    way = WayProof("Oil spray", holder.name, holder.key, 90.0, hit, None)
    own, other = lines_for(Lack(way, hit, at_hand=False), panel, workshop=job.workshop, text=text)
    assert LINE.findall(own.words) == [(x, z)]
    # the other may go the opposite way instead
    at = job.spots[next(one.key for one in job.planned if one.tools[0].name == "Patch tin")].place
    away = {"left": (2.4, 0.0), "right": (-2.4, 0.0), "up": (0.0, -2.4), "down": (0.0, 2.4)}
    (other_x, other_z) = LINE.findall(other.words)[0]
    dx, dz = away[direction]
    assert length_mm(other_x) == pytest.approx(at.x_mm + dx, abs=0.11)
    assert length_mm(other_z) == pytest.approx(at.z_mm + dz, abs=0.11)
