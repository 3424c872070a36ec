"""A workshop that is made again keeps its holders, their numbers and what hangs.

The oracle is the person's edit: what it does not name stays as it was on the papers.
"""

from __future__ import annotations

import json
import sqlite3
from pathlib import Path

import pytest

from cleatwright.base.errors import LedgerError
from cleatwright.jobs.hung import forget_hung, hung_now, record_hung
from cleatwright.jobs.making import make_workshop
from cleatwright.project.computing import compute
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import KnownHolder, KnownTool, LastMade
from cleatwright.workshop.ledger.reading import FILE_NAME, read_kept

pytestmark = pytest.mark.usefixtures("shared_runs")


def numbers(folder: Path) -> dict[str, int]:
    """Return the number of the holder of each tool by the report."""
    report = json.loads((folder / "out" / "report.json").read_text("utf-8"))
    return {
        seat["tool"]: holder["number"] for holder in report["holders"] for seat in holder["seats"]
    }


def edit(folder: Path, *changes: tuple[str, str]) -> None:
    path = folder / "workshop.toml"
    text = path.read_text("utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    path.write_text(text, "utf-8")


HAMMER = """[[tool]]
name = "Hammer"
kind = "hammer"
measures = { length = 300, head_length = 105, head_width = 23.5, head_height = 24, neck_width = 20.5, neck_depth = 14.5, handle_width = 31, handle_depth = 22 }
mass = "430 g"
"""  # noqa: E501 - as in the document


def test_what_an_edit_does_not_name_keeps_its_number(shed: Path) -> None:
    make_workshop(shed)
    before = numbers(shed)
    edit(shed, (HAMMER, ""), ('name = "Patch tin"', 'name = "Tin of patches"'))
    make_workshop(shed)
    after = numbers(shed)
    assert after.pop("Tin of patches") == before.pop("Patch tin")
    assert before.pop("Hammer") not in after.values()
    assert after == before
    # the papers agree with each other
    rows = (shed / "out" / "lists" / "holders.csv").read_text("utf-8-sig").splitlines()[1:]
    listed = {row.split(",")[0] for row in rows}
    assert listed == {str(number) for number in numbers(shed).values()}


def test_a_tool_that_hangs_and_is_renamed_stays_where_it_is(shed: Path) -> None:
    make_workshop(shed)
    record_hung(shed)
    edit(shed, ('name = "Patch tin"', 'name = "Tin of patches"'))
    job = compute(shed)
    assert {move.what for move in job.change_plan.moves} == {"stays"}
    assert job.in_use == frozenset(job.parts)
    make_workshop(shed)
    names = {tool for one in hung_now(shed).hung.holders for tool in one.tools}
    assert "Tin of patches" in names
    assert "Patch tin" not in names


def test_the_name_of_a_tool_that_went_may_go_to_another(shed: Path) -> None:
    """The tin that hangs is gone; the spray takes its name. Nothing hangs in two places."""
    make_workshop(shed)
    record_hung(shed)
    text = (shed / "workshop.toml").read_text("utf-8")
    start = text.index('[[tool]]\nname = "Patch tin"')
    end = text.index("[[holder]]")
    text = (text[:start] + text[end:]).replace('"Oil spray"', '"Patch tin"')
    (shed / "workshop.toml").write_text(text, "utf-8")
    make_workshop(shed)
    held = sorted(tool for one in hung_now(shed).hung.holders for tool in one.tools)
    assert "Patch tin" in held
    assert "Patch tin (gone)" in held


def test_making_with_regroup_says_what_is_shared_anew(shed: Path) -> None:
    make_workshop(shed)
    again = make_workshop(shed, regroup=True)
    assert {change.what for change in again.changes} == {"same"}


def tool(identity: str, name: str = "") -> KnownTool:
    return KnownTool(identity, name or identity, "box", (("width_mm", 1.0),))


SOUND = LastMade((tool("a"), tool("b")), (KnownHolder(3, "wall", "", "shelf", "k", ("b", "a")),), 4)


def test_the_ledger_gives_back_what_was_made(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        ledger.replace_last_made(SOUND, hung=WhatHangs())
        assert ledger.last_made() == SOUND
    assert read_kept(tmp_path).made == SOUND


@pytest.mark.parametrize(
    "wrong",
    [
        LastMade((tool("a"), tool("a", "b"))),
        LastMade((tool("a"), tool("b", "a"))),
        LastMade((tool("a"),), (KnownHolder(1, "wall", "", "shelf", "", ("b",)),), 1),
        LastMade((tool("a"),), (KnownHolder(1, "wall", "", "shelf", "", ()),), 1),
        LastMade((tool("a"),), (KnownHolder(2, "wall", "", "shelf", "", ("a",)),), 1),
        LastMade((tool("a"),), (KnownHolder(1, "wall", "", "shelf", "", ("a", "a")),), 1),
    ],
)
def test_what_cannot_have_been_made_is_not_kept(tmp_path: Path, wrong: LastMade) -> None:
    with open_ledger(tmp_path) as ledger:
        ledger.replace_last_made(SOUND, hung=WhatHangs())
        with pytest.raises(LedgerError, match="last made"):
            ledger.replace_last_made(wrong, hung=WhatHangs())
        assert ledger.last_made() == SOUND


@pytest.mark.parametrize(
    "damage",
    [
        "UPDATE known_tools SET measures_json = 'x'",
        "UPDATE known_holders SET tools_json = '[1]'",
        "UPDATE last_number SET number = 1",
    ],
)
def test_rows_that_were_changed_by_hand_are_refused(tmp_path: Path, damage: str) -> None:
    with open_ledger(tmp_path) as ledger:
        ledger.replace_last_made(SOUND, hung=WhatHangs())
    with sqlite3.connect(tmp_path / FILE_NAME) as connection:
        connection.execute(damage)
    connection.close()
    with pytest.raises(LedgerError, match="Put an undamaged copy"):
        read_kept(tmp_path)


def test_what_hangs_is_known_again_though_it_was_left_out_for_a_while(shed: Path) -> None:
    """All tools of one holder out of the document, made, and back: nothing is to be done."""
    make_workshop(shed)
    record_hung(shed)
    before, text = numbers(shed), (shed / "workshop.toml").read_text("utf-8")
    edit(shed, (HAMMER, ""))
    make_workshop(shed)
    (shed / "workshop.toml").write_text(text, "utf-8")
    job = compute(shed)
    assert {move.what for move in job.change_plan.moves} == {"stays"}
    make_workshop(shed)
    assert numbers(shed) == before


def test_what_is_forgotten_does_not_come_back(shed: Path) -> None:
    make_workshop(shed)
    record_hung(shed)
    edit(shed, (HAMMER, ""))
    make_workshop(shed)
    assert any(one.name == "Hammer" for one in read_kept(shed).made.tools)
    forget_hung(shed)
    assert all(one.name != "Hammer" for one in read_kept(shed).made.tools)


def test_a_step_names_the_part_that_comes_down_by_the_mark_that_stands_on_it(shed: Path) -> None:
    make_workshop(shed)
    record_hung(shed)
    marks = {one.tools: one.mark for one in hung_now(shed).hung.holders}
    edit(shed, ("width = 105", "width = 112"))
    job = compute(shed)
    (down,) = [step for step in job.change_plan.steps if step.action == "take down"]
    (up,) = [step for step in job.change_plan.steps if step.action == "hang"]
    (new,) = [made.mark for made in job.built if made.mark not in marks.values()]
    assert f'Take down "Patch tin" ({marks["Patch tin",]}): a new part' in down.sentence
    assert f'Hang "Patch tin" ({new}): ' in up.sentence
