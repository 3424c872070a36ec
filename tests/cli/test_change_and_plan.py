"""How far a change may go, from the command line: the options --change and --plan of make.

Oracles: the ledger, and the papers held against each other.
"""

from __future__ import annotations

import csv
import json
import re
import shutil
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from tests.a_move_needed import CAN, MIDDLE, RULE, WALL
from tests.cli.folders import write

from cleatwright.cli.main import main


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


def done(folder: Path) -> dict[str, list[str]]:
    """Return the names of holders and of rails by what happens to them, from the report."""
    report: Any = json.loads((folder / "out" / "report.json").read_text("utf-8"))
    told: dict[str, list[str]] = {}
    for one in (*report["moves"], *report["rail_moves"]):
        told.setdefault(one["what"], []).append(one["name"])
    return told


def test_what_plans_shows_is_what_make_does_of_each_plan(
    cli: Any, hanging: Path, tmp_path: Path
) -> None:
    shown = cli("plans", hanging, "--json").json
    assert shown["taken"] is None
    for plan in shown["plans"]:
        folder = Path(shutil.copytree(hanging, tmp_path / plan["far"]))
        assert cli("make", folder, "--plan", plan["far"], "--json").code == 0
        rails = agreed(folder)
        assert plan["moved"] == done(folder)["moves"]
        assert plan["rails"] == len(rails.get("is new", []))
        assert plan["rails_down"] == len(rails.get("comes down", []))
        hung = cli("hung", folder, "--json")
        assert hung.code == 0
        assert {one["name"] for one in hung.json["rails"]} == {
            name for what, names in rails.items() for name in names if what != "comes down"
        }
    words = cli("plans", hanging).out
    assert "make takes none of them by itself, since something that hangs would move" in words


def test_make_refuses_to_move_what_hangs_and_does_the_least_when_that_is_allowed(
    cli: Any, hanging: Path, tmp_path: Path
) -> None:
    """Beside the can the rule has a place once the can is at the end of its rail."""
    papers = (hanging / "out" / "report.json").read_bytes()
    refused = cli("make", hanging)
    assert refused.code == 3
    assert "--change moves" in refused.err
    assert (hanging / "out" / "report.json").read_bytes() == papers
    planned = Path(shutil.copytree(hanging, tmp_path / "planned"))
    assert cli("make", hanging, "--change", "moves").code == 0
    assert done(hanging) == {"moves": ["Oil spray"], "is new": ["Steel rule"], "stays": ["R1"]}
    assert cli("make", planned, "--plan", "moves").code == 0
    wall = Path("wall") / "elevation.svg"
    assert (hanging / "out" / wall).read_bytes() == (planned / "out" / wall).read_bytes()


@pytest.mark.parametrize("option", ["--change", "--plan"])
def test_there_is_no_plan_of_another_name(cli: Any, hanging: Path, option: str) -> None:
    ran = cli("make", hanging, option, "some", "--json")
    assert ran.code == 2
    assert (ran.error["code"], ran.error["where"]) == ("unknown-name", option)
    assert "afresh, little, moves, parts" in ran.error["allowed"]


def test_a_plan_that_cannot_be_is_refused_and_nothing_is_written(cli: Any, hanging: Path) -> None:
    papers = (hanging / "out" / "report.json").read_bytes()
    ran = cli("make", hanging, "--plan", "little")
    assert (ran.code, (hanging / "out" / "report.json").read_bytes()) == (3, papers)
    assert '"Steel rule" finds no free place' in ran.err
    cli("make", hanging, "--change", "moves", "--dry-run")
    assert (hanging / "out" / "report.json").read_bytes() == papers


def test_what_the_document_allows_is_taken_and_said(cli: Any, hanging: Path) -> None:
    write(hanging, WALL + CAN + RULE + '\n[defaults]\nchange = "moves"\n')
    shown = cli("plans", hanging, "--json").json
    assert (shown["taken"], shown["plans"][0]["far"]) == ("moves", "moves")
    assert cli("make", hanging, "--change", "little").code == 3
    assert cli("make", hanging).code == 0
    assert done(hanging)["moves"] == shown["plans"][0]["moved"] == ["Oil spray"]


@pytest.mark.parametrize("option", ["--change", "--plan"])
@pytest.mark.parametrize("far", ["moves", "parts", "afresh"])
def test_the_steps_on_paper_are_those_of_the_terminal_with_the_rail_of_each_holder(
    cli: Any, hanging: Path, option: str, far: str
) -> None:
    ran = cli("make", hanging, option, far, "--json")
    assert ran.code == 0
    steps = [line for line in ran.json["notes"] if line[0].isdigit() and ". " in line[:4]]
    with pdfplumber.open(hanging / "out" / "lists" / "steps.pdf") as pdf:
        paper = " ".join(" ".join(page.extract_text() for page in pdf.pages).split())
    report: Any = json.loads((hanging / "out" / "report.json").read_text("utf-8"))
    on = {one["name"]: one["place"]["rail"] for one in report["holders"]}
    hangs = [line for line in steps if line.split(". ")[1].startswith(("Move ", "Hang "))]
    assert len(hangs) == 2
    for line in hangs:
        name = line.split('"')[1]
        assert line.endswith(f"above its lower edge, on rail {on[name]}.")
    for line in steps:
        assert line.split(". ", 1)[1].split(":")[0] in paper
    for name in set(on.values()):
        assert f"on rail {name}." in paper


def test_hung_names_what_nobody_said_to_be_printed(cli: Any, hanging: Path) -> None:
    assert cli("make", hanging, "--change", "moves").code == 0
    report: Any = json.loads((hanging / "out" / "report.json").read_text("utf-8"))
    (rule,) = (one for one in report["holders"] if one["name"] == "Steel rule")
    said = Path(shutil.copytree(hanging, hanging.parent / "said"))
    ran = cli("hung", hanging)
    assert ran.code == 0
    (line,) = (one for one in ran.out.splitlines() if "printed" in one)
    assert '"Steel rule"' in line
    assert "Oil spray" not in line
    assert cli("parts", hanging, "planned", rule["number"]).code == 0
    held = cli("hung", hanging, "--show", "--json").json["hung"]
    assert [one["name"] for one in held] == ["Oil spray"]
    assert cli("parts", said, "printed", "batch 01").code == 0
    again = cli("hung", said, "--json")
    assert (again.code, "not_said_printed" in again.json) == (0, False)


def lefts(sheet: ET.Element, layer: str, *, stroke: str = "") -> list[float]:
    """Return the left ends of the outlines in a layer of a drawing, in mm of the wall."""
    paths = sheet.findall(f".//{{*}}g[@class='{layer}']/{{*}}path")
    return [
        min(float(x) for x in re.findall(r"[ML]([-\d.]+),", one.get("d", "")))
        for one in paths
        if stroke in ("", one.get("stroke"))
    ]


def test_plans_are_drawn_side_by_side_with_where_each_thing_hangs_now(
    cli: Any, hanging: Path, tmp_path: Path
) -> None:
    """Oracles: where the report has the can by each plan, and another reader of PDF."""
    svg, pdf = tmp_path / "plans.svg", tmp_path / "plans.pdf"
    shown = cli("plans", hanging, "--out", svg, "--json").json
    names = [one["far"] for one in shown["plans"]]
    assert (shown["files"], len(names)) == ([str(svg)], 2)
    sheet = ET.parse(svg).getroot()  # noqa: S314 - the program's own file
    by: list[float] = []
    for name in names:
        folder = Path(shutil.copytree(hanging, tmp_path / name))
        assert cli("make", folder, "--plan", name, "--json").code == 0
        report: Any = json.loads((folder / "out" / "report.json").read_text("utf-8"))
        (can,) = (one for one in report["holders"] if one["name"] == "Oil spray")
        by.append(can["place"]["x_mm"] - 290)
    was, blue = lefts(sheet, "was"), lefts(sheet, "holders", stroke="#22418F")
    # each blue part is drawn with what of it is before its tool
    then = [blue[0], blue[len(blue) // 2]]
    assert [b - a for a, b in zip(was, then, strict=True)] == pytest.approx(by, abs=0.02)
    texts = ["".join(one.itertext()) for one in sheet.iter("{http://www.w3.org/2000/svg}text")]
    assert texts.count("+2") == 2
    assert "+R2" in texts
    assert cli("plans", hanging, "--out", pdf).code == 0
    with pdfplumber.open(pdf) as read:
        (page,) = read.pages
        words = page.extract_text()
        assert "Hangs elsewhere: Oil spray." in words
        assert all(name in words for name in names)
        scale = int(words.split("1:")[1].split()[0])
        wide = 640 / scale * 72 / 25.4
        assert len([one for one in page.rects if abs(one["width"] - wide) < 0.2]) >= 2
    assert cli("plans", hanging, "--out", pdf).code == 5
    assert cli("plans", hanging, "--out", tmp_path / "plans.png").code == 5
