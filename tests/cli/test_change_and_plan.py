"""How far a change may go, from the command line: the options --change and --plan of make.

A can hangs in the middle of a brick wall 640 mm wide, and a rule 300 mm long needs 360 mm beside
it: that is there only when the can moves. Oracles: the ledger, and the papers held against each
other.
"""

from __future__ import annotations

import csv
import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from tests.cli.folders import write

from cleatwright.cli.main import main

WALL = """schema = 1
name = "Store"

[wall]
width = 640
height = 380
made_of = "brick"

[wall.anchor]
name = "plug"
loads = "characteristic"
tension_n = 2200
shear_n = 2000
hole = 10
hole_depth = 85
embedment = 70
screw = 7
screw_length = 105
head = 11
edge = 60
spacing = 100

[printer.bench]
bed = [220, 220, 200]

[filament.plain]
material = "PETG"
density = 1270

[[rail.stock]]
name = "board"
length = 1300
"""
CAN = """
[[tool]]
name = "Oil spray"
kind = "can"
measures = { diameter = 65, height = 195 }

[[holder]]
tools = ["Oil spray"]
family = "ring-floor"
"""
MIDDLE = "place = { x = 290, z = 150 }\n"
RULE = """
[[tool]]
name = "Steel rule"
kind = "rule"
measures = { length = 300, width = 28, thickness = 1.0 }

[[holder]]
tools = ["Steel rule"]
family = "edge-comb"
"""


@pytest.fixture(scope="module")
def hung_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = write(tmp_path_factory.mktemp("change") / "store", WALL + CAN + MIDDLE)
    assert main(["make", str(folder)]) == 0
    assert main(["hung", str(folder)]) == 0
    return write(folder, WALL + CAN + RULE)


@pytest.fixture
def hanging(hung_once: Path, tmp_path: Path) -> Path:
    """Return a copy of the workshop of which the can hangs, with the rule in its document."""
    return Path(shutil.copytree(hung_once, tmp_path / "hanging"))


def column(path: Path, name: str) -> list[str]:
    if not path.exists():
        return []
    head, *rows = csv.reader(path.read_text("utf-8-sig").splitlines())
    return [row[head.index(name)] for row in rows if len(row) == len(head)]


def agreed(folder: Path) -> dict[str, list[str]]:
    """Return the names of rails by what happens to them, once all papers say the same."""
    out = folder / "out"
    report: Any = json.loads((out / "report.json").read_text("utf-8"))
    told: dict[str, list[str]] = {}
    for one in report["rail_moves"]:
        told.setdefault(one["what"], []).append(one["name"])
    new = told.get("is new", [])
    drawn = {one["name"]: one for one in report["rails"]}
    assert sorted(told.get("stays", [])) == sorted(n for n in drawn if drawn[n]["stays"])
    assert sorted(new) == sorted(name for name in drawn if not drawn[name]["stays"])
    assert sorted(column(out / "wood" / "cut-list.csv", "piece")) == sorted(new)
    anchors = [
        int(count)
        for count, where in zip(
            column(out / "lists" / "hardware.csv", "count"),
            column(out / "lists" / "hardware.csv", "for"),
            strict=True,
        )
        if where.startswith("rails ")
    ]
    assert sum(anchors) == sum(len(drawn[name]["studs_mm"]) for name in new)
    assert (out / "wall" / "drilling-template.pdf").exists() == bool(new)
    return told


def test_a_rail_that_a_fresh_plan_leaves_in_its_place_is_not_made_again(
    cli: Any, hanging: Path
) -> None:
    (before,) = cli("hung", hanging, "--show", "--json").json["rails"]
    ran = cli("make", hanging, "--plan", "afresh", "--json")
    assert ran.code == 0
    assert agreed(hanging) == {"stays": ["R1"], "is new": ["R2"]}
    drawn = json.loads((hanging / "out" / "report.json").read_text("utf-8"))["rails"]
    (stays,) = [one for one in drawn if one["stays"]]
    for key in ("z_top_mm", "x0_mm", "x1_mm", "studs_mm"):
        assert stays[key] == before[key]


def test_another_arrangement_of_what_hangs_says_how_to_let_it_move(cli: Any, hanging: Path) -> None:
    write(hanging, WALL + CAN)
    ran = cli("rearrange", hanging, "--tries", 1)
    assert ran.code == 0
    assert "1 of 1 hang already, and what hangs stays." in ran.out
    assert "--hung-moves" in ran.out
    assert "none hangs yet" not in ran.out
    moves = cli("rearrange", hanging, "--tries", 1, "--hung-moves")
    assert (moves.code, "To let it move" in moves.out) == (0, False)
