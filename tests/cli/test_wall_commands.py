"""The commands arrange and why from end to end."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from tests.cli.folders import places, write

from cleatwright.project.computing import compute
from cleatwright.siting.giving_places import place_given, written_place
from cleatwright.wall.model import Place

TEXT = Path(__file__).with_name("small.toml").read_text("utf-8")
PARTS = ("reach", "raised_mass", "rail_count", "rail_length", "groups", "sideways", "weak_rails")


@pytest.fixture
def small(tmp_path: Path) -> Path:
    return write(tmp_path / "small", TEXT)


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
        "helps",
        "holds",
        "moves",
        "notes",
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
    assert {row["name"] for row in panel["places"]} == {"Oil spray", "Patch tin"}


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
    x_mm, z_mm = arranged[holder]
    assert told["place"].partition(" on ")[0] == f"x {x_mm:g}, z {z_mm:g} mm"
    assert sorted(told) == ["families", "hangs", "name", "place", "sentences", "unit"]
    assert [one["holder"] for one in told["families"] if one["state"] == "used"] == [holder]
    assert any("free" in sentence for sentence in told["sentences"])
    plain = cli("why", small, name)
    assert plain.code == 0
    assert plain.out.splitlines()[0].startswith(f"{holder} hangs at {told['place'][:10]}")


def test_why_tells_an_unknown_name_with_the_nearest_one(cli: Any, small: Path) -> None:
    ran = cli("why", small, "Patch tn", "--json")
    assert (ran.code, ran.out) == (2, "")
    assert ran.error["code"] == "unknown-name"
    assert '"Patch tn"' in ran.error["given"]
    assert ran.error["allowed"] == "Oil spray, Patch tin, R1"
    assert ran.error["todo"] == 'Did you mean "Patch tin"?'
    assert "Traceback" not in cli("why", small, "wholly different").err


def test_why_tells_of_a_rail_what_it_carries_costs_and_where_it_ends(cli: Any, small: Path) -> None:
    """Prices by the weights: 200 points a height, half a point a centimetre of rail."""
    arranged = cli("arrange", small, "--json").json
    on_it = [row["name"] for row in arranged["panels"][0]["places"] if row["spot"]["rail"] == "R1"]
    told = cli("why", small, "R1", "--json").json
    assert told["name"] == "R1"
    ends = re.fullmatch(r"z \d+, from x ([\d.]+) to ([\d.]+) mm", told["place"])
    assert ends is not None
    words = " ".join(told["sentences"])
    assert on_it
    assert all(f'"{name}"' in told["sentences"][0] for name in on_it)
    assert "It costs 200 points for its height" in words
    length = re.search(r"and ([\d.]+) for its length of ([\d.]+) mm", words)
    assert length is not None
    assert float(length[1]) == pytest.approx(0.05 * float(length[2]), abs=0.1)
    assert float(length[2]) == pytest.approx(float(ends[2]) - float(ends[1]), abs=1.0)
    for words_of in (
        "Its left end ",
        "Its right end ",
        "Its screws stand in studs at x ",
        "50 mm ",
    ):
        assert any(line.startswith(words_of) for line in told["sentences"])
    assert cli("why", small, "R1").out.startswith("R1 hangs at z ")
    assert cli("why", small, "R9").code == 2


@pytest.mark.parametrize("given", ["", '\n[[holder]]\ntools = ["Patch tin"]\n'])
def test_a_place_that_is_praised_is_told_with_the_line_that_gives_it(
    small: Path, given: str
) -> None:
    """The document with the line hangs the holder there, and is what the praise was tried on."""
    write(small, TEXT + given)
    before = compute(small)
    (panel,) = before.panels
    unit = next(one for one in panel.units if one.planned.name == "Patch tin")
    there = Place(unit.planned.key, 700.123, 550.0)
    changed = place_given(TEXT + given, before.workshop, unit, written_place(there, "mm"))
    assert changed is not None
    assert 'place = { x = "700.12 mm", z = "550 mm" }' in changed.words
    write(small, changed.text)
    after = compute(small)
    (panel,) = after.panels
    unit = next(one for one in panel.units if one.planned.name == "Patch tin")
    place = panel.spots[unit.planned.key].place
    assert (place.x_mm, place.z_mm) == (700.12, 550.0)
    assert len(after.units) == len(before.units)
    assert {one.outer.mark for one in after.units} == {one.outer.mark for one in before.units}
