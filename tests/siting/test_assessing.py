"""Walls that do not do: what is in the way, what the hand lacks, and screws that carry too much.

The places are chosen by hand, so that everything that is missing is known beforehand.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.cli import show
from cleatwright.cli.main import main
from cleatwright.siting import settling
from cleatwright.siting.arranging import ARRANGED, ArrangingRequest
from cleatwright.wall.keeping import KeptArrangement
from cleatwright.wall.model import Place

STANDARD_GRAVITY = 9.80665
CAN_HEIGHT_MM, CAN_DIAMETER_MM = 196.0, 65.5
HAND_ROOM_MM = 12.0
SHELF_Z_MM = 700.0
SHELF = f"x = 0\nz = {SHELF_Z_MM:g}\nwidth = 1200\nheight = 20"
PIPE = "x = 400\nz = 0\nwidth = 50\nheight = 900"

HEAD = f"""schema = 1
name = "Narrow"

[defaults]
hand_room = {HAND_ROOM_MM:g}

[printer.bench]
bed = [220, 220, 200]

[filament.plain]
material = "PETG"
density = 1270
"""
CAN = f"""
[[tool]]
name = "Oil spray"
kind = "can"
measures = {{ diameter = {CAN_DIAMETER_MM}, height = {CAN_HEIGHT_MM} }}
mass = "390 g"
"""

Make = Callable[..., tuple[int, Any]]


def with_obstacle(where: str) -> str:
    thing = f'[[wall.obstacle]]\nname = "thing"\n{where}\nmargin = 0\ndepth = 400\n'
    return f"{HEAD}\n[wall]\nwidth = 1200\nheight = 900\n\n{thing}{CAN}"


def hung_at(x_mm: float, z_mm: float) -> str:
    place = f"place = {{ x = {x_mm}, z = {z_mm} }}"
    return f'\n[[holder]]\ntools = ["Oil spray"]\nmount = "wall-screws"\n{place}\n'


@pytest.fixture
def make(tmp_path: Path) -> Make:
    """Return a callable that makes a document and gives the exit code and the report."""
    folder = tmp_path / "narrow"
    folder.mkdir()

    def run(text: str) -> tuple[int, Any]:
        (folder / "workshop.toml").write_text(text, "utf-8")
        code = main(["make", str(folder)])
        report = folder / "out" / "report.json"
        return code, json.loads(report.read_text("utf-8")) if report.is_file() else None

    return run


def force(monkeypatch: pytest.MonkeyPatch, x_mm: float, z_mm: float) -> None:
    """Let the search, which sees rectangles only, give a wrong place for that of the document.

    What has another place in the document is arranged as it should be.
    """
    given: list[tuple[float, float] | None] = []

    def wrong(run: Run, asked: ArrangingRequest) -> KeptArrangement:
        kept, first = ARRANGED.run(run, asked), asked.problem.items[0]
        given.append(first.fixed)
        if first.fixed != given[0]:
            return kept
        places = tuple(Place(p.key, x_mm, z_mm) for p in kept.arrangement.places)
        return replace(kept, arrangement=replace(kept.arrangement, places=places))

    monkeypatch.setattr(settling, "ARRANGED", replace(ARRANGED, run=wrong))
    # what is found so must not be found again by others
    monkeypatch.setattr(show, "usual_store", Store)


def top_mm(report: Any) -> float:
    """Return how far the can stands above the edge by which its holder hangs."""
    (row,) = report["holders"]
    return row["seats"][0]["rest_z_mm"] + CAN_HEIGHT_MM - row["stand"]["contact_z_mm"]


def lift_mm(report: Any) -> float:
    (row,) = report["holders"]
    (up, forward) = row["seats"][0]["way_out_mm"]
    assert (up[0], up[1], forward[0], forward[2]) == (0.0, 0.0, 0.0, 0.0)
    return up[2]


@pytest.fixture
def free_height_mm(make: Make) -> float:
    """Return the highest place of the can that leaves its whole lift below the shelf."""
    code, report = make(with_obstacle(SHELF) + hung_at(300, 300))
    assert code == 0
    return SHELF_Z_MM - lift_mm(report) - top_mm(report)


@pytest.mark.parametrize(("short_mm", "code"), [(-0.5, 0), (0.5, 3), (40.0, 3)])
def test_a_fixed_place_needs_the_whole_lift_below_what_is_above_it(
    make: Make,
    free_height_mm: float,
    short_mm: float,
    code: int,
    capsys: pytest.CaptureFixture[str],
) -> None:
    capsys.readouterr()
    got, _ = make(with_obstacle(SHELF) + hung_at(300, free_height_mm + short_mm))
    assert got == code
    assert ('"Oil spray" overlaps the obstacle "thing"' in capsys.readouterr().err) == bool(code)


@pytest.mark.parametrize("short_mm", [4.0, 25.0])
def test_a_tool_that_does_not_come_out_fails_with_what_is_missing(
    make: Make,
    free_height_mm: float,
    short_mm: float,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The shelf begins lift - short above the can: it is met there, and short is missing."""
    force(monkeypatch, 300.0, free_height_mm + short_mm)
    capsys.readouterr()
    code, report = make(with_obstacle(SHELF) + hung_at(300, 300))
    assert code == 3
    told = [line for line in capsys.readouterr().out.splitlines() if "Does not hold" in line]
    assert len(told) == 1
    assert "Oil spray" in told[0]
    assert '"thing"' in told[0]
    missing = re.search(r"it needs at least ([\d.]+) mm more down", told[0])
    assert missing is not None
    # in the proof a tool is raised by a hair, so that it does not rub on what carries it
    assert float(missing[1]) == pytest.approx(short_mm, abs=0.15)
    # the place was given: the one to write instead leaves the whole lift below the shelf
    line = re.search(
        r'write place = { x = "300 mm", z = "([\d.]+) mm" } in the \[\[holder\]\] with "Oil spray"'
        r" \(tried",
        told[0],
    )
    assert line is not None
    assert float(line[1]) <= free_height_mm + 0.15
    (check,) = [one for one in report["panels"][0]["checks"] if one["name"].startswith("ways out")]
    assert not check["holds"]
    assert check["demand"] == pytest.approx(short_mm, abs=0.1)
    assert "Oil spray" in check["note"]
    assert report["holders"][0]["seats"][0]["in_the_way"]


@pytest.mark.parametrize("free_mm", [2.0, 9.0])
def test_a_hand_without_room_is_warned_of_by_how_much(
    make: Make,
    free_mm: float,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """A pipe over the whole height stands free_mm beside the can: 12 - free_mm are missing."""
    _, report = make(with_obstacle(PIPE) + hung_at(100, 400))
    (row,) = report["holders"]
    middle = row["size_mm"][0] / 2
    force(monkeypatch, 400.0 - free_mm - CAN_DIAMETER_MM / 2 - middle, 400.0)
    capsys.readouterr()
    code, report = make(with_obstacle(PIPE) + hung_at(100, 400))
    told = [line for line in capsys.readouterr().out.splitlines() if "Warning" in line]
    (check,) = [one for one in report["panels"][0]["checks"] if "the hand" in one["name"]]
    assert not check["holds"]
    assert check["demand"] == pytest.approx(HAND_ROOM_MM - free_mm, abs=0.2)
    (hand,) = [line for line in told if "Oil spray" in line and '"thing"' in line]
    assert re.search(
        r'mm more to the left: write place = { x = "[\d.]+ mm", z = "400 mm" }.*\(tried', hand
    )
    assert report["warnings"]
    # a hand finds a way; a tool that meets something does not
    assert code == 0


@pytest.mark.parametrize(
    ("x_mm", "code", "rail"), [(260, 0, "x = 220, length = 250"), (1700, 3, "x = 0, length = 2000")]
)
def test_a_heavy_tool_far_beyond_the_last_stud_breaks_the_screws_of_its_rail(
    make: Make, x_mm: int, code: int, rail: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Statics: by the lever rule a stud at 400 mm bears W (x - 300) / 100, on two screws.

    Between the studs each bears its share. The tray and its box are alike left and right. So is
    the rail itself, 1098 mm2 of plywood with 700 kg/m3 in three pieces, of which none relieves.
    """
    text = f"""{HEAD}
[wall]
width = 2000
height = 900
floor_gap = 700
reserved_seats = 0
stud = [{{ x = 300 }}, {{ x = 400 }}]
rail = [{{ {rail}, z_top = 500 }}]

[[tool]]
name = "Anvil"
kind = "box"
measures = {{ width = 90, depth = 60, height = 50 }}
mass = 3.0

[[holder]]
tools = ["Anvil"]
place = {{ x = {x_mm}, z = 500 }}
"""
    got, report = make(text)
    assert got == code
    (row,) = report["holders"]
    assert all(check["holds"] for check in row["checks"])
    assert row["place"]["rail"] == report["rails"][0]["name"]
    weight = STANDARD_GRAVITY * (3.0 + row["stand"]["own_mass_most_kg"])
    at = x_mm + row["size_mm"][0] / 2
    shares = [weight * (400.0 - at) / 100.0, weight * (at - 300.0) / 100.0]
    x0, long = map(float, re.findall(r"\d+", rail))
    per_mm = STANDARD_GRAVITY * 1098.0 * 700.0 / 1e9
    pieces = [((a + b) / 2, per_mm * (b - a)) for a, b in pairwise((x0, 300.0, 400.0, x0 + long))]
    own = [
        sum(n * max(0.0, (400.0 - x) / 100.0) for x, n in pieces),
        sum(n * max(0.0, (x - 300.0) / 100.0) for x, n in pieces),
    ]
    (check, *_) = [one for one in report["panels"][0]["checks"] if "screws" in one["name"]]
    said = re.search(r"screw at x (\d+) mm.*: (\d+) N along the wall, (\d+) N out", check["note"])
    assert said is not None
    stud, along, out = (float(word) for word in said.groups())
    assert stud == (400.0 if abs(shares[1]) > abs(shares[0]) else 300.0)
    # its hangers and bolt weigh a little, too
    most = max(share + more for share, more in zip(map(abs, shares), own, strict=True))
    assert along == pytest.approx(most / 2, rel=0.02, abs=1.0)
    assert check["demand"] == pytest.approx(math.hypot(along, out), abs=1.5)
    assert check["holds"] == (check["demand"] <= check["capacity"]) == (code == 0)
    told = [line for line in capsys.readouterr().out.splitlines() if "Does not hold" in line]
    assert len(told) == bool(code)
    assert all("screws of rail" in line for line in told)
