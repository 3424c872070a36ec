"""Rails that hang are neither cut nor screwed on again, from the command line to the files."""

from __future__ import annotations

import csv
import json
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from tests.cli.folders import write

from cleatwright.cli.main import main

TEXT = Path(__file__).with_name("small.toml").read_text("utf-8") + (
    '\n[rail]\nkerf = 3\n\n[[rail.stock]]\nname = "board"\nlength = 1300\n'
)
# far to the right of what hangs, at a height of its own
BOX = """
[[wall.obstacle]]
name = "box"
x = 740
z = 60
width = 80
height = 110
margin = 5
"""
TIN = """
[[tool]]
name = "Nail tin"
kind = "box"
measures = { width = 80, depth = 50, height = 40 }
mass = "200 g"

[[holder]]
tools = ["Nail tin"]
place = { x = 850, z = 150 }
"""


# tables of later versions of the ledger
LATER = (
    "known_tools",
    "known_holders",
    "last_number",
    "hung_tools",
    "hung_holders",
    "ready_parts",
    "made_wall",
)


@pytest.fixture(scope="module")
def hung_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = write(tmp_path_factory.mktemp("rails") / "small", TEXT)
    assert main(["make", str(folder)]) == 0
    assert main(["hung", str(folder)]) == 0
    return folder


@pytest.fixture
def hanging(hung_once: Path, tmp_path: Path) -> Path:
    """Return a copy of the workshop that hangs as it was made."""
    return Path(shutil.copytree(hung_once, tmp_path / "hanging"))


def table(path: Path) -> list[list[str]]:
    return list(csv.reader(path.read_text("utf-8-sig").splitlines()))


def rails_of(folder: Path) -> list[dict[str, Any]]:
    report = json.loads((folder / "out" / "report.json").read_text("utf-8"))
    return report["rails"]


def rail_screws(folder: Path) -> list[str]:
    """Return the counts of screws for rails in the hardware list."""
    rows = table(folder / "out" / "lists" / "hardware.csv")
    return [row[1] for row in rows if len(row) > 2 and row[2].startswith("rails, ")]


def test_the_ledger_has_each_rail_of_the_report(cli: Any, hanging: Path) -> None:
    now = cli("hung", hanging, "--show", "--json").json["rails"]
    drawn = rails_of(hanging)
    assert [one["name"] for one in now] == [one["name"] for one in drawn]
    for one, row in zip(now, drawn, strict=True):
        for key in ("panel", "z_top_mm", "x0_mm", "x1_mm", "height_mm", "bevel_deg", "studs_mm"):
            assert one[key] == row[key]
    plain = cli("hung", hanging, "--show").out
    assert all(f"Rail {one['name']} hangs on the wall from x " in plain for one in now)
    assert cli("hung", hanging, "--json").json["rails"] == now


def test_nothing_is_cut_drilled_or_bought_for_rails_that_hang(cli: Any, hanging: Path) -> None:
    before = rails_of(hanging)
    ran = cli("make", hanging, "--json")
    assert ran.code == 0
    assert any(line.endswith(", 0 rails to cut.") for line in ran.json["notes"])
    out = hanging / "out"
    assert not (out / "wood").exists()
    assert not (out / "wall" / "drilling-template.pdf").exists()
    assert rail_screws(hanging) == []
    assert rails_of(hanging) == [{**row, "stays": True} for row in before]


def test_one_more_tool_needs_the_wood_and_the_screws_of_its_own_rail_only(
    cli: Any, hanging: Path
) -> None:
    """Its plate at 850 mm lies between the studs at 700 and 1100 mm, with 50 mm beyond each screw.

    So its rail goes from 650 to 1150 mm, is 500 mm long, and has two screws in each of two studs.
    """
    before = rails_of(hanging)
    new = f"R{len(before) + 1}"
    # a rail as long as it takes, and no row from end to end
    write(hanging, TEXT.replace("[wall]\n", '[wall]\nrail_layout = "pieces"\n') + TIN)
    ran = cli("make", hanging, "--json")
    assert ran.code == 0
    kept = [row for row in rails_of(hanging) if row["stays"]]
    (added,) = [row for row in rails_of(hanging) if not row["stays"]]
    assert kept == [{**row, "stays": True} for row in before]
    assert (added["name"], added["z_top_mm"]) == (new, 150.0)
    assert (added["x0_mm"], added["x1_mm"], added["studs_mm"]) == (650.0, 1150.0, [700.0, 1100.0])
    wood = hanging / "out" / "wood"
    (cut,) = [row for row in table(wood / "cut-list.csv") if row[0] == "1"]
    assert cut == ["1", "board", "1", new, "500.0", "0.0", "797.0"]
    assert [row[0] for row in table(wood / "rip-list.csv") if row[-1] == "500.0"] == [new]
    assert rail_screws(hanging) == ["4"]
    moves = ran.json["notes"]
    assert "Of the rails, 1 stays, 1 is new, 0 come down." in moves
    on, hang = (line for line in moves if line.startswith(("1. ", "2. ")))
    assert on == (
        f"1. Screw on rail {new}: 500 mm long, its left end 650 mm from the left edge of the "
        "wall, its top edge 150 mm above its lower edge."
    )
    assert hang.startswith('2. Hang "Nail tin"')
    # what hangs now is kept, the new rail with it
    first = cli("hung", hanging, "--show", "--json").json["rails"]
    now = cli("hung", hanging, "--json").json["rails"]
    assert [one for one in now if one["name"] != new] == first


def test_a_rail_without_a_tool_may_come_down_and_is_forgotten_by_its_name(
    cli: Any, hanging: Path
) -> None:
    write(hanging, TEXT + TIN)
    assert cli("make", hanging).code == 0
    now = cli("hung", hanging, "--json").json["rails"]
    new = now[-1]["name"]
    ran = cli("hung", hanging, "--gone", new, "--json")
    assert (ran.code, ran.out) == (2, "")
    assert ran.error["given"] == f'"Nail tin" hangs on rail {new} by the ledger'
    write(hanging, TEXT)
    moves = cli("arrange", hanging, "--json").json["moves"]
    assert f"Rail {new} carries nothing any more; it may stay or come down." in moves
    assert cli("make", hanging).code == 0
    assert [one["name"] for one in cli("hung", hanging, "--json").json["rails"]] == [
        one["name"] for one in now
    ]
    ran = cli("hung", hanging, "--gone", "R77", "--json")
    assert ran.code == 2
    assert "R77" in ran.error["given"]
    gone = cli("hung", hanging, "--gone", new, "--json").json
    assert ([one["name"] for one in gone["rails"]], gone["hung"]) == ([new], [])
    assert cli("hung", hanging, "--show", "--json").json["rails"] == now[:-1]
    moves = cli("arrange", hanging, "--json").json["moves"]
    assert not any(new in line for line in moves)


@pytest.mark.parametrize("other", ["--show", "--forget"])
def test_a_rail_that_is_gone_is_not_told_together_with_another_wish(
    cli: Any, hanging: Path, other: str
) -> None:
    """So that nobody forgets the whole wall who wants to forget one rail."""
    before = cli("hung", hanging, "--show", "--json").json
    ran = cli("hung", hanging, other, "--gone", "R1", "--json")
    assert ran.code == 2
    assert ran.error["allowed"] == "one of --show, --forget and --gone"
    assert cli("hung", hanging, "--show", "--json").json == before


def test_a_ledger_of_nothing_says_so_and_no_more(cli: Any, hanging: Path) -> None:
    assert cli("hung", hanging, "--forget").out.startswith("Forgotten:\n")
    for wish in ("--show", "--forget"):
        told = cli("hung", hanging, wish).out.strip()
        assert told == "The ledger knows of nothing that hangs."
    ran = cli("hung", hanging, "--gone", "R1", "--json")
    assert (ran.code, ran.error["allowed"]) == (2, "none")


def test_a_rail_that_cannot_stay_is_told_with_its_reason_and_in_the_steps(
    cli: Any, hanging: Path
) -> None:
    text = TEXT.replace("[rail]", "[rail]\nthickness = 20")
    write(hanging, text)
    moves = cli("arrange", hanging, "--json").json["moves"]
    count = len(rails_of(hanging))
    old, new = "R1", f"R{count + 1}"
    reason = "and [rail] asks for 70 mm high and 20 mm thick"
    assert any(line.startswith(f"Rail {old} must come down: ") and reason in line for line in moves)
    (down,) = [n for n, line in enumerate(moves) if f"Unscrew rail {old}" in line]
    (up,) = [n for n, line in enumerate(moves) if f"Screw on rail {new}" in line]
    assert down < up
    assert moves[-2].startswith("Before you drill: look for pipes and cables")


def test_a_rail_that_hangs_beside_studs_is_still_warned_of(cli: Any, hanging: Path) -> None:
    """A box on the wall from x = 740 to 820 mm keeps the rail at 150 mm from the stud at 700 mm."""
    write(hanging, TEXT + TIN + BOX)
    made = cli("make", hanging, "--json").json
    (line,) = [line for line in made["warnings"] if line.startswith("Rail R2")]
    assert line == (
        "Rail R2 meets one stud only and cannot be fixed safely as it is: move what hangs on it, "
        "or screw a board across two studs behind it."
    )
    (rail,) = cli("hung", hanging, "--json").json["rails"][1:]
    assert (rail["name"], rail["studs_mm"]) == ("R2", [1100.0])
    then = cli("arrange", hanging, "--json").json
    (line,) = [line for line in then["warnings"] if line.startswith("Rail R2")]
    assert line == (
        "Rail R2 meets one stud only and hangs already: see that it is fixed safely, as to a "
        "board across two studs behind it."
    )


def test_a_ledger_from_before_rails_were_kept_says_what_it_does_not_know(
    cli: Any, hanging: Path
) -> None:
    with closing(sqlite3.connect(hanging / "ledger.db")) as ledger:
        for table in ("hung_rails", *LATER):
            ledger.execute(f"DROP TABLE {table}")
        for column in ("broken_json", "fittings_json"):
            ledger.execute(f"ALTER TABLE hung DROP COLUMN {column}")
        ledger.execute("PRAGMA user_version = 3")
        ledger.commit()
    moves = cli("arrange", hanging, "--json").json["moves"]
    assert "Of the rails, 0 stay, 1 is new, 0 come down." in moves
    assert any(line.startswith("The ledger does not know on which rails") for line in moves)
    now = cli("hung", hanging, "--json").json["rails"]
    assert [one["name"] for one in now] == ["R1"]
    assert not any("ledger" in line for line in cli("arrange", hanging, "--json").json["moves"])


@pytest.mark.parametrize(
    ("key", "value"),
    [("x1_mm", 899.5), ("thickness_mm", 21.0), ("studs_mm", [300.0]), ("panel", "lid")],
)
def test_a_report_of_another_rail_is_not_what_was_made(
    cli: Any, hanging: Path, key: str, value: object
) -> None:
    """Another stud, too: the ledger must not have screws where nobody screwed."""
    path = hanging / "out" / "report.json"
    report = json.loads(path.read_text("utf-8"))
    assert report["rails"][0][key] != value
    report["rails"][0][key] = value
    path.write_text(json.dumps(report), "utf-8")
    # as an earlier version of the program wrote it, without the digests that would tell first
    manifest = hanging / "out" / "manifest.json"
    told = json.loads(manifest.read_text("utf-8"))
    del told["sha256"]
    manifest.write_text(json.dumps(told), "utf-8")
    ran = cli("hung", hanging, "--json")
    assert ran.code == 2
    assert "not what was made" in ran.error["given"]


def test_forgetting_and_afresh_free_the_rails_too(cli: Any, hanging: Path) -> None:
    write(hanging, TEXT + TIN)
    assert cli("make", hanging).code == 0
    rails = cli("hung", hanging, "--json").json["rails"]
    write(hanging, TEXT)
    afresh = cli("arrange", hanging, "--afresh", "--json").json
    # one hangs where a fresh start would have one, and nothing needs the other
    assert "Of the rails, 1 stays, 0 are new, 1 comes down." in afresh["moves"]
    assert afresh["panels"][0]["points"]["rail_count"] == 0.0
    assert cli("arrange", hanging, "--json").json["panels"][0]["points"]["rail_count"] == 0.0
    forgotten = cli("hung", hanging, "--forget", "--json").json
    assert forgotten["rails"] == rails
    assert cli("hung", hanging, "--show", "--json").json == {"hung": [], "rails": []}


def test_what_hangs_unchanged_is_neither_printed_nor_bought_again(cli: Any, hanging: Path) -> None:
    out = hanging / "out"
    printed = {row[4] for row in table(out / "lists" / "printing.csv")[1:]}
    bought = table(out / "lists" / "hardware.csv")
    assert printed
    assert not (out / "lists" / "printed-before.csv").exists()
    ran = cli("make", hanging, "--json")
    assert any(line.startswith("0 beds, ") for line in ran.json["notes"])
    assert not (out / "batches").exists()
    assert len(table(out / "lists" / "printing.csv")) == 1
    assert len(table(out / "lists" / "hardware.csv")) == 1
    # apart from the new, everything that was there is listed as before
    assert table(out / "lists" / "hardware-in-use.csv") == bought
    assert {row[1] for row in table(out / "lists" / "printed-before.csv")[1:]} == printed
    report = json.loads((out / "report.json").read_text("utf-8"))
    assert all(row["print"] is None for row in report["holders"])
    assert not (out / "lists" / "steps.pdf").exists()


def test_one_more_tool_is_all_that_is_printed_and_the_steps_come_as_a_sheet(
    cli: Any, hanging: Path
) -> None:
    out = hanging / "out"
    before = {row[4] for row in table(out / "lists" / "printing.csv")[1:]}
    write(hanging, TEXT + TIN)
    ran = cli("make", hanging, "--json")
    assert ran.code == 0
    new = table(out / "lists" / "printing.csv")[1:]
    report = json.loads((out / "report.json").read_text("utf-8"))
    (tin,) = [row for row in report["holders"] if row["name"] == "Nail tin"]
    # it, its hangers and its bolt
    assert len(tin["fittings"]) >= 2
    assert sorted(row[4] for row in new) == sorted([tin["mark"], *tin["fittings"]])
    assert tin["print"]["batch"] == "batch 01"
    assert {row[1] for row in table(out / "lists" / "printed-before.csv")[1:]} == before
    with pdfplumber.open(out / "lists" / "steps.pdf") as document:
        said = " ".join(" ".join(page.extract_text().split()) for page in document.pages)
    steps = [line for line in ran.json["notes"] if line[:2] in {"1.", "2."}]
    assert len(steps) == 2
    for step in steps:
        assert step in said
    # the cautions of the steps stand before the first of them
    assert -1 < said.find("look for pipes and cables") < said.find(steps[0])
