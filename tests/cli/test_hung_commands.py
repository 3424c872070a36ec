"""The command hung from end to end, and what it changes for arrange and make."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from tests.cli.folders import places, write

from cleatwright.cli.main import main

TEXT = Path(__file__).with_name("small.toml").read_text("utf-8")
ONE_MORE = """
[[tool]]
name = "Nail tin"
kind = "box"
measures = { width = 80, depth = 50, height = 40 }
mass = "200 g"

[[holder]]
tools = ["Nail tin"]
"""


def fixed(tool: str, x: float, z: float) -> str:
    return f'\n[[holder]]\ntools = ["{tool}"]\nplace = {{ x = {x}, z = {z} }}\n'


@pytest.fixture
def small(tmp_path: Path) -> Path:
    return write(tmp_path / "small", TEXT)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = write(tmp_path_factory.mktemp("made") / "small", TEXT)
    assert main(["make", str(folder)]) == 0
    return folder


@pytest.fixture(scope="module")
def hung_once(made: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = Path(shutil.copytree(made, tmp_path_factory.mktemp("hung") / "small"))
    assert main(["hung", str(folder)]) == 0
    return folder


@pytest.fixture
def hanging(hung_once: Path, tmp_path: Path) -> Path:
    """Return a copy of the workshop that hangs as it was made."""
    return Path(shutil.copytree(hung_once, tmp_path / "hanging"))


def test_nothing_hangs_before_it_was_made(cli: Any, small: Path) -> None:
    ran = cli("hung", small, "--json")
    assert (ran.code, ran.out) == (5, "")
    assert ran.error["where"] == str(small / "out" / "report.json")
    assert "no report" in ran.error["given"]
    assert "Make the workshop" in ran.error["todo"]
    assert cli("hung", small, "--show", "--json").json == {"hung": [], "rails": []}
    assert [path.name for path in small.iterdir()] == ["workshop.toml"]


def test_files_of_two_runs_are_not_taken_as_what_hangs(
    cli: Any, made: Path, tmp_path: Path
) -> None:
    folder = Path(shutil.copytree(made, tmp_path / "small"))
    manifest = folder / "out" / "manifest.json"
    whole = manifest.read_text("utf-8")
    manifest.write_text(whole.replace("{", '{"between": true,', 1), "utf-8")
    ran = cli("hung", folder, "--json")
    assert (ran.code, ran.out) == (5, "")
    assert "some files are old and some are new" in ran.error["given"]
    assert "Run make again" in ran.error["todo"]
    assert cli("hung", folder, "--show", "--json").json == {"hung": [], "rails": []}
    assert cli("make", folder, "--json").code == 0
    assert manifest.read_text("utf-8") == whole
    assert cli("hung", folder).code == 0


def test_what_was_made_hangs_at_the_places_that_were_arranged(cli: Any, hanging: Path) -> None:
    now = cli("hung", hanging, "--show", "--json").json["hung"]
    found = {one["name"]: (one["x_mm"], one["z_mm"]) for one in now}
    assert found == places(cli("arrange", hanging, "--json").json)
    assert all(one["panel"] == "wall" and one["tools"] == [one["name"]] for one in now)
    plain = cli("hung", hanging, "--show")
    assert all(f'"{one["name"]}" ({one["mark"]}) hangs on the wall' in plain.out for one in now)


def test_saying_twice_that_it_hangs_changes_nothing(cli: Any, hanging: Path) -> None:
    first = cli("hung", hanging, "--show", "--json").json
    again = cli("hung", hanging, "--json")
    assert (again.code, again.json) == (0, first)
    assert cli("hung", hanging, "--show", "--json").json == first


@pytest.mark.parametrize("command", ["arrange", "make"])
def test_one_more_tool_leaves_what_hangs_exactly_where_it_is(
    cli: Any, hanging: Path, command: str
) -> None:
    before = cli("hung", hanging, "--show", "--json").json["hung"]
    write(hanging, TEXT + ONE_MORE)
    ran = cli(command, hanging, "--json")
    assert ran.code == 0
    moves = ran.json["moves" if command == "arrange" else "notes"]
    (count,) = [line for line in moves if line.startswith("Of what hangs")]
    assert count.endswith("2 stay, 0 move, 1 is new, 0 come off.")
    assert [line for line in moves if line.startswith(("1.", "2."))] == [
        next(line for line in moves if line.startswith('1. Hang "Nail tin"'))
    ]
    found = places(cli("arrange", hanging, "--json").json)
    for one in before:
        assert found[one["name"]] == (one["x_mm"], one["z_mm"])
    # until the owner says so, the ledger keeps what hangs
    assert cli("hung", hanging, "--show", "--json").json["hung"] == before


def test_a_changed_workshop_hangs_only_after_it_was_made_again(cli: Any, hanging: Path) -> None:
    before = cli("hung", hanging, "--show", "--json").json
    write(hanging, TEXT + ONE_MORE)
    ran = cli("hung", hanging, "--json")
    assert (ran.code, ran.out) == (2, "")
    assert ran.error["where"] == str(hanging / "workshop.toml")
    assert "not what was made" in ran.error["given"]
    assert cli("hung", hanging, "--show", "--json").json == before
    assert cli("make", hanging).code == 0
    now = cli("hung", hanging, "--json").json["hung"]
    assert [one["name"] for one in now if one not in before["hung"]] == ["Nail tin"]


def test_what_must_move_is_listed_with_its_way_and_its_new_place(cli: Any, hanging: Path) -> None:
    """Its left edge goes from x to 900 mm, and its hang height from z to 450 mm."""
    (tin,) = [
        one
        for one in cli("hung", hanging, "--show", "--json").json["hung"]
        if one["name"] == "Patch tin"
    ]
    write(hanging, TEXT + fixed("Patch tin", 900, 450))
    moves = cli("arrange", hanging, "--json").json["moves"]
    (line,) = [line for line in moves if '"Patch tin"' in line]
    way_mm = 900 - tin["x_mm"]
    assert f"{abs(way_mm):.0f} mm to the {'right' if way_mm > 0 else 'left'}" in line
    assert f"{450 - tin['z_mm']:.0f} mm up" in line
    assert "left edge 900 mm" in line
    assert "hang height 450 mm" in line
    assert moves[-1].startswith("Take the tools out")


def test_afresh_and_forgetting_free_what_hangs(cli: Any, hanging: Path) -> None:
    """A place far off is kept by the ledger; without the ledger the wall is as on the first day."""
    fresh = places(cli("arrange", hanging, "--json").json)
    write(hanging, TEXT + fixed("Oil spray", 1000, 250))
    assert cli("make", hanging).code == 0
    assert cli("hung", hanging).code == 0
    write(hanging, TEXT)
    stays = cli("arrange", hanging, "--json").json
    assert places(stays)["Oil spray"] == (1000.0, 250.0)
    afresh = cli("arrange", hanging, "--json", "--afresh").json
    assert places(afresh) == fresh
    assert any('"Oil spray"' in line for line in afresh["moves"])
    forgotten = cli("hung", hanging, "--forget", "--json").json["hung"]
    assert {one["name"] for one in forgotten} == {"Oil spray", "Patch tin"}
    after = cli("arrange", hanging, "--json").json
    assert (places(after), after["moves"]) == (fresh, [])
