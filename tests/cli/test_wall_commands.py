"""The commands arrange, why and hung from end to end, and each wrong wall told in one error."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from typing import Any

import pytest

from cleatwright.cli.main import main

STUDS = "".join(f"[[wall.stud]]\nx = {x}\nwidth = 50\n\n" for x in (300, 700, 1100))
FIRST = '[[tool]]\nname = "Oil spray"'
TEXT = f"""schema = 1
name = "Small"

[wall]
width = 1200
height = 900
floor_gap = 800

{STUDS}[printer.bench]
bed = [220, 220, 200]

[filament.plain]
material = "PETG"
density = 1270

{FIRST}
kind = "can"
measures = {{ diameter = 65.5, height = 196 }}
mass = "390 g"
use = "daily"

[[tool]]
name = "Patch tin"
kind = "box"
measures = {{ width = 105, depth = 68, height = 30 }}
mass = "140 g"
"""
ONE_MORE = """
[[tool]]
name = "Nail tin"
kind = "box"
measures = { width = 80, depth = 50, height = 40 }
mass = "200 g"

[[holder]]
tools = ["Nail tin"]
"""
PARTS = ("reach", "raised_mass", "rail_count", "rail_length", "groups", "sideways", "weak_rails")


def write(folder: Path, text: str) -> Path:
    folder.mkdir(exist_ok=True)
    (folder / "workshop.toml").write_text(text, "utf-8")
    return folder


def fixed(tool: str, x: float, z: float) -> str:
    return f'\n[[holder]]\ntools = ["{tool}"]\nplace = {{ x = {x}, z = {z} }}\n'


def obstacle(**keys: object) -> str:
    given = {"name": '"Socket"', "kind": '"socket"', "width": 80, "height": 80, **keys}
    rows = "\n".join(f"{key} = {value}" for key, value in given.items())
    return f"[[wall.obstacle]]\n{rows}\n\n{FIRST}"


def kept(*heights: int) -> str:
    rails = [f"[[wall.rail]]\nx = 100\nz_top = {z}\nlength = 900\n\n" for z in heights]
    return "".join(rails) + FIRST


def places(answer: Any) -> dict[str, str]:
    """Return where each holder hangs, without the name of its rail."""
    return {
        row["holder"]: row["hangs at"].partition(" on ")[0]
        for panel in answer["panels"]
        for row in panel["places"]
    }


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


# arrange


def test_the_table_has_a_row_for_each_holder_and_the_points_are_their_sum(
    cli: Any, small: Path
) -> None:
    """Every point is in one column of one holder; cells are rounded to whole points."""
    ran = cli("arrange", small)
    assert (ran.code, ran.err) == (0, "")
    heading = next(line for line in ran.out.splitlines() if "hangs at" in line)
    assert " ".join(heading.split()) == "no holder hangs at points reach mass side rails group"
    rows = re.findall(
        r"^ *(\d+) +(Oil spray|Patch tin) +x (\d+), z (\d+) mm on rail (R\d) +"
        r"(\d+) +(\d+) +(\d+) +(\d+) +(\d+) +(\d+)",
        ran.out,
        re.MULTILINE,
    )
    assert [row[:2] for row in rows] == [("1", "Oil spray"), ("2", "Patch tin")]
    for row in rows:
        assert int(row[5]) == pytest.approx(sum(map(int, row[6:])), abs=3)
    told = re.search(r"Small: (\d+) points .*less is better", ran.out)
    assert told is not None
    assert sum(int(row[5]) for row in rows) == pytest.approx(int(told[1]), abs=2)
    assert "Keep spray cans" in ran.out
    assert [path.name for path in small.iterdir()] == ["workshop.toml"]


def test_points_for_programs_add_up_and_no_bound_is_above_them(cli: Any, small: Path) -> None:
    ran = cli("arrange", small, "--json")
    assert (ran.code, ran.err) == (0, "")
    assert sorted(ran.json) == [
        "cautions",
        "failing",
        "holds",
        "moves",
        "panels",
        "warnings",
        "workshop",
    ]
    assert (ran.json["holds"], ran.json["failing"], ran.json["moves"]) == (True, [], [])
    (panel,) = ran.json["panels"]
    points = panel["points"]
    assert sorted(points) == sorted([*PARTS, "moved", "total"])
    assert points["total"] == pytest.approx(sum(points[part] for part in PARTS), abs=1e-9)
    assert points["moved"] == 0.0
    assert 0.0 < panel["lower_bound"] <= points["total"] + 1e-9
    assert {row["holder"] for row in panel["places"]} == {"Oil spray", "Patch tin"}


def test_a_longer_search_is_no_worse_and_says_how_to_keep_it(cli: Any, small: Path) -> None:
    once = cli("arrange", small, "--json").json["panels"][0]["points"]["total"]
    thrice = cli("arrange", small, "--json", "--effort", 3).json["panels"][0]["points"]["total"]
    assert thrice <= once + 1e-9
    told = cli("arrange", small, "--effort", 3)
    assert "write effort = 3 under [defaults]" in told.out
    write(small, TEXT + "\n[defaults]\neffort = 3\n")
    kept_so = cli("arrange", small, "--json").json
    assert kept_so["panels"][0]["points"]["total"] == thrice


@pytest.mark.parametrize("effort", ["0", "101", "-1", "2.5", "much"])
def test_an_effort_out_of_bounds_is_told(cli: Any, small: Path, effort: str) -> None:
    ran = cli("arrange", small, "--effort", effort)
    assert (ran.code, ran.out) == (2, "")
    assert "'--effort'" in ran.err
    assert ran.err.count("Error") == 1


# why


@pytest.mark.parametrize(
    ("name", "holder"), [("Patch tin", "Patch tin"), ("Driver 3", "Driver 3 to Driver 4")]
)
def test_why_answers_for_a_holder_and_for_a_tool_in_it(
    cli: Any, small: Path, name: str, holder: str
) -> None:
    """Two screwdrivers of one entry share a holder, which either of them names."""
    driver = "shank_length = 75, handle = 20, handle_length = 80 }"
    sizes = "".join(f'{{ label = "{n}", shank = {n}, {driver}, ' for n in (3, 4))
    write(small, f'{TEXT}\n[[tool]]\nname = "Driver"\nkind = "screwdriver"\nsizes = [{sizes}]\n')
    told = cli("why", small, name, "--json").json
    arranged = places(cli("arrange", small, "--json").json)
    assert told["name"] == holder
    assert told["place"].partition(" on ")[0] == arranged[holder]
    assert sorted(told) == ["name", "place", "sentences"]
    assert any("free" in sentence for sentence in told["sentences"])
    plain = cli("why", small, name)
    assert plain.code == 0
    assert plain.out.splitlines()[0].startswith(f"{holder} hangs at {told['place'][:10]}")


def test_why_tells_an_unknown_name_with_the_nearest_one(cli: Any, small: Path) -> None:
    ran = cli("why", small, "Patch tn", "--json")
    assert (ran.code, ran.out) == (2, "")
    assert ran.error["code"] == "unknown-name"
    assert '"Patch tn"' in ran.error["given"]
    assert ran.error["allowed"] == "Oil spray, Patch tin"
    assert ran.error["todo"] == 'Did you mean "Patch tin"?'
    assert "Traceback" not in cli("why", small, "wholly different").err


# hung


def test_nothing_hangs_before_it_was_made(cli: Any, small: Path) -> None:
    ran = cli("hung", small, "--json")
    assert (ran.code, ran.out) == (5, "")
    assert ran.error["where"] == str(small / "out" / "report.json")
    assert "no report" in ran.error["given"]
    assert "Make the workshop" in ran.error["todo"]
    assert cli("hung", small, "--show", "--json").json == {"hung": []}
    assert [path.name for path in small.iterdir()] == ["workshop.toml"]


def test_what_was_made_hangs_at_the_places_that_were_arranged(cli: Any, hanging: Path) -> None:
    now = cli("hung", hanging, "--show", "--json").json["hung"]
    found = {one["name"]: f"x {one['x_mm']:.0f}, z {one['z_mm']:.0f} mm" for one in now}
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
        assert found[one["name"]] == f"x {one['x_mm']:.0f}, z {one['z_mm']:.0f} mm"
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
    """Its left edge goes from x to 900 mm, and its hang height from z to 400 mm."""
    (tin,) = [
        one
        for one in cli("hung", hanging, "--show", "--json").json["hung"]
        if one["name"] == "Patch tin"
    ]
    write(hanging, TEXT + fixed("Patch tin", 900, 400))
    moves = cli("arrange", hanging, "--json").json["moves"]
    (line,) = [line for line in moves if '"Patch tin"' in line]
    assert f"{900 - tin['x_mm']:.0f} mm to the right" in line
    assert f"{400 - tin['z_mm']:.0f} mm up" in line
    assert "left edge 900 mm" in line
    assert "hang height 400 mm" in line
    assert moves[-1].startswith("Take the tools out")


def test_afresh_and_forgetting_free_what_hangs(cli: Any, hanging: Path) -> None:
    """A place far off is kept by the ledger; without the ledger the wall is as on the first day."""
    fresh = places(cli("arrange", hanging, "--json").json)
    write(hanging, TEXT + fixed("Oil spray", 1000, 250))
    assert cli("make", hanging).code == 0
    assert cli("hung", hanging).code == 0
    write(hanging, TEXT)
    stays = cli("arrange", hanging, "--json").json
    assert places(stays)["Oil spray"] == "x 1000, z 250 mm"
    afresh = cli("arrange", hanging, "--json", "--afresh").json
    assert places(afresh) == fresh
    assert any('"Oil spray"' in line for line in afresh["moves"])
    forgotten = cli("hung", hanging, "--forget", "--json").json["hung"]
    assert {one["name"] for one in forgotten} == {"Oil spray", "Patch tin"}
    after = cli("arrange", hanging, "--json").json
    assert (places(after), after["moves"]) == (fresh, [])


# wrong walls


@pytest.mark.parametrize(
    ("changes", "where", "said", "allowed", "todo"),
    [
        (
            {FIRST: obstacle(x=1180, z=300)},
            'wall, obstacle "Socket" (number 1), key "width"',
            "Its far edge at 1260 mm lies outside the wall",
            "from 0 mm to 1200 mm",
            "",
        ),
        (
            {FIRST: obstacle(x=100, z=850)},
            'wall, obstacle "Socket" (number 1), key "height"',
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
            "each stud once",
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
            "",
            "those at 10, 700, 1195 mm leave 1",
            "at least two studs",
            "screw a board across two studs",
        ),
        (
            {STUDS: "[[wall.stud]]\nx = 300\n\n"},
            "",
            "those at 300 mm leave 1",
            "at least two studs",
            "Give the x of every stud",
        ),
        (
            {FIRST: f"{fixed('Oil spray', 400, 500)}{fixed('Patch tin', 430, 500)}\n{FIRST}"},
            "",
            '"Oil spray" and "Patch tin" overlap',
            "",
            "Move or free one",
        ),
        (
            {STUDS: "", "width = 1200": "width = 110"},
            "",
            '"Patch tin" is 117 mm wide with its tools, and the wall is 110 mm wide',
            "",
            "Change the wall",
        ),
        (
            {"floor_gap = 800": "floor_gap = 800\nbench_depth = 1200"},
            ": reach",
            "over a bench 1200 mm deep",
            "mm deep",
            "Make bench_depth smaller",
        ),
        (
            {FIRST: f"[rail]\nheight = 250\n\n{FIRST}"},
            ": drilling template",
            "250 mm high",
            "rails up to",
            "smaller height under [rail]",
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
    said = told(cli, small, changed(narrow), command="arrange")["given"]
    helps = re.search(r"a wall (\d+) mm wider \((\d+) mm\)", said)
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
    assert error["where"] == str(small / "workshop.toml")
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
