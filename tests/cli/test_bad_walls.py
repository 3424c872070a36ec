"""Each wrong wall is told in one error: where, what, what is allowed and what to do."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from tests.cli.folders import write

TEXT = Path(__file__).with_name("small.toml").read_text("utf-8")
STUDS = TEXT[TEXT.index("[[wall.stud]]") : TEXT.index("[printer")]
FIRST = '[[tool]]\nname = "Oil spray"'


def fixed(tool: str, x: float, z: float) -> str:
    return f'\n[[holder]]\ntools = ["{tool}"]\nplace = {{ x = {x}, z = {z} }}\n'


def obstacle(**keys: object) -> str:
    given = {"name": '"Socket"', "kind": '"socket"', "width": 80, "height": 80, **keys}
    rows = "\n".join(f"{key} = {value}" for key, value in given.items())
    return f"[[wall.obstacle]]\n{rows}\n\n{FIRST}"


def kept(*heights: int) -> str:
    rails = [f"[[wall.rail]]\nx = 100\nz_top = {z}\nlength = 900\n\n" for z in heights]
    return "".join(rails) + FIRST


@pytest.fixture
def small(tmp_path: Path) -> Path:
    return write(tmp_path / "small", TEXT)


@pytest.mark.parametrize(
    ("changes", "where", "said", "allowed", "todo"),
    [
        (
            {FIRST: obstacle(x=1180, z=300)},
            'wall, obstacle "Socket" (number 1)',
            "Its far edge at 1260 mm lies outside the wall",
            "from 0 mm to 1200 mm",
            "",
        ),
        (
            {FIRST: obstacle(x=100, z=850)},
            'wall, obstacle "Socket" (number 1)',
            "Its far edge at 930 mm lies outside the wall",
            "from 0 mm to 900 mm",
            "",
        ),
        (
            {FIRST: kept(520, 600)},
            'wall, rail number 2, key "z_top"',
            "number 1 and number 2 are 80 mm apart",
            # 70 mm of rail and 60 mm of gap, the defaults of [rail]
            "at least 130 mm",
            "take one rail off",
        ),
        ({"width = 1200": "width = 0"}, 'wall, key "width"', "0 mm is out", "from 100 mm", ""),
        ({"height = 900": "height = 0"}, 'wall, key "height"', "0 mm is out", "from 100 mm", ""),
        (
            {'use = "daily"': 'panel = "lid"'},
            'tool "Oil spray" (number 1), key "panel"',
            'no panel "lid"',
            "wall",
            "[[panel]]",
        ),
        (
            {FIRST: f'[drawings]\nsheet = "A7"\n\n{FIRST}'},
            'drawings, key "sheet"',
            '"A7"',
            "'A4'",
            "",
        ),
        (
            {STUDS: STUDS.replace("x = 700", "x = 300")},
            'wall, stud number 2, key "x"',
            "number 1 and number 2",
            "more than 50 mm, or exactly that for studs that are nailed together",
            "",
        ),
        (
            {"floor_gap = 800": "floor_gap = 800\nbench_depth = 1600"},
            'wall, key "bench_depth"',
            "1600 mm",
            "from 0 mm to 1500 mm",
            "",
        ),
    ],
)
@pytest.mark.parametrize("command", ["check", "arrange"])
def test_a_wall_that_cannot_be_is_told_with_table_key_and_value(
    cli: Any,
    small: Path,
    command: str,
    changes: dict[str, str],
    where: str,
    said: str,
    allowed: str,
    todo: str,
) -> None:
    error = told(cli, small, changed(changes), command=command)
    assert (error["code"], error["exit_code"]) == ("document", 2)
    assert error["where"] == f"{small / 'workshop.toml'}, {where}"
    assert said in error["given"]
    assert allowed in error["allowed"]
    assert todo in error["todo"]


@pytest.mark.parametrize(
    ("changes", "where", "said", "allowed", "todo"),
    [
        (
            # a screw keeps 20 mm off the end of a rail, and a rail ends with the wall
            {"x = 300": "x = 10", "x = 1100": "x = 1195"},
            ", wall",
            "those at 10, 700 and 1195 mm leave 1",
            "at least two studs",
            "screw a board across two studs",
        ),
        (
            {STUDS: "[[wall.stud]]\nx = 300\n\n"},
            ", wall",
            "those at 300 mm leave 1",
            "at least two studs",
            "Give the x of every stud",
        ),
        (
            {FIRST: f"{fixed('Oil spray', 400, 500)}{fixed('Patch tin', 430, 500)}\n{FIRST}"},
            ", wall",
            '"Oil spray" and "Patch tin" overlap',
            "",
            "Move or free one",
        ),
        (
            {STUDS: "", "width = 1200": "width = 110"},
            ", wall",
            '"Patch tin" is 117 mm wide with its tools, and the wall is 110 mm wide',
            "",
            "Change the wall",
        ),
        (
            {"floor_gap = 800": "floor_gap = 800\nbench_depth = 1200"},
            ", wall",
            "over a bench 1200 mm deep",
            "mm deep",
            "Make bench_depth smaller",
        ),
    ],
)
def test_a_wall_on_which_things_cannot_hang_is_told_with_what_would_help(
    cli: Any,
    small: Path,
    changes: dict[str, str],
    where: str,
    said: str,
    allowed: str,
    todo: str,
) -> None:
    error = told(cli, small, changed(changes), command="make")
    assert error["exit_code"] == 3
    assert error["where"] == f"{small / 'workshop.toml'}{where}"
    assert said in error["given"]
    assert allowed in error["allowed"]
    assert todo in error["todo"]


def test_a_wall_that_is_too_narrow_is_wide_enough_as_soon_as_the_error_says(
    cli: Any, small: Path
) -> None:
    narrow = {STUDS: "", "width = 1200": "width = 110"}
    said = told(cli, small, changed(narrow), command="make")["given"]
    helps = re.search(r"a wall (\d+) mm wider \(width at least (\d+) mm\)", said)
    assert helps is not None
    assert 110 + int(helps[1]) == int(helps[2])
    write(small, changed({STUDS: "", "width = 1200": f"width = {helps[2]}"}))
    assert cli("arrange", small).code == 0


def test_a_lining_through_which_no_screw_on_sale_reaches_is_told(cli: Any, small: Path) -> None:
    """50 mm of rail, 60 mm of lining and 6 x 5 mm in the stud (NDS 2018, 12.1.5.6) are 140 mm."""
    thick = {
        "floor_gap = 800": "floor_gap = 800\nlining = 60",
        FIRST: f"[rail]\nthickness = 50\n\n{FIRST}",
    }
    error = told(cli, small, changed(thick), command="arrange")
    assert (error["code"], error["exit_code"]) == ("measure", 2)
    assert error["where"] == f"{small / 'workshop.toml'}, wall"
    assert ["wall", "lining"] in error["paths"]
    assert "a lining of 60 mm, which needs screws of at least 140 mm" in error["given"]
    assert "for rail and lining together" in error["allowed"]
    assert "thinner board" in error["todo"]


def changed(changes: dict[str, str]) -> str:
    text = TEXT
    for old, new in changes.items():
        assert text.count(old) == 1
        text = text.replace(old, new)
    return text


def told(cli: Any, folder: Path, text: str, *, command: str) -> Any:
    """Run a command on a wrong document and return its one error; nothing may be written."""
    write(folder, text)
    ran = cli(command, folder, "--json")
    assert (ran.code, ran.out) == (ran.error["exit_code"], "")
    assert [path.name for path in folder.iterdir()] == ["workshop.toml"]
    return ran.error
