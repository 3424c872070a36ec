"""What hangs is kept when the owner says so, and found again after a change."""

from __future__ import annotations

import json
import shutil
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from cleatwright.base.errors import DocumentError, InputError, OutputError
from cleatwright.base.said import in_mm
from cleatwright.jobs.hung import (
    HungNow,
    forget_hung,
    hung_entries,
    hung_now,
    record_hung,
    taken_from,
)
from cleatwright.jobs.making import make_workshop
from cleatwright.siting.hung.matching import remembered
from cleatwright.siting.hung.moves import CAUTION, RailChange
from cleatwright.siting.hung.moves import change_plan as moving_with_rails
from cleatwright.wall.model import Place
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.ready_parts import ReadyParts

DAY = date(2024, 5, 1)
LATER = date(2025, 6, 2)


@pytest.fixture(scope="module")
def recorded(done: Any, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, HungNow]:
    """Return a copy of the small workshop as it was made and hung, and what was kept."""
    folder = tmp_path_factory.mktemp("recorded") / "shed"
    shutil.copytree(done.folder, folder)
    return folder, record_hung(folder, on=DAY)


@pytest.fixture
def hung(recorded: tuple[Path, HungNow], tmp_path: Path) -> Path:
    """Return a copy of the workshop that hangs."""
    return Path(shutil.copytree(recorded[0], tmp_path / "hung"))


def places_of(job: Any) -> Mapping[str, Place]:
    return {key: spot.place for key, spot in job.spots.items()}


def moving(entries: Any, units: Any, *, items: Any, places: Any) -> Any:
    """Return what happens to holders alone, as on a wall without rails."""
    rails = RailChange((), (), {})
    hung = WhatHangs(tuple(entries))
    return moving_with_rails(hung, units, items=items, places=places, rails=rails)


def bytes_of(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def test_each_unit_is_kept_with_the_mark_and_place_of_the_report(
    done: Any, recorded: tuple[Path, HungNow]
) -> None:
    folder, now = recorded
    assert now == hung_now(folder)
    report = json.loads((folder / "out" / "report.json").read_text("utf-8"))
    drawn = {
        (row["mark"], row["place"]["x_mm"], row["place"]["z_mm"])
        for row in (*report["holders"], *report["carriers"])
        if not row.get("carrier")
    }
    assert {(one.mark, one.x_mm, one.z_mm) for one in now.hung.holders} == drawn
    tools = sorted(tool for one in now.hung.holders for tool in one.tools)
    assert tools == sorted(item.name for item in done.job.workshop.items())
    assert {one.since for one in now.hung.holders} == {"2024-05-01"}
    assert {one.panel for one in now.hung.holders} == {"wall"}
    assert len(now.summary) == len(done.job.units) + len(now.hung.rails)
    assert all(line.endswith("since 2024-05-01.") for line in now.summary)


def test_what_hangs_is_known_again_and_nothing_is_to_be_done(done: Any) -> None:
    job, places = done.job, places_of(done.job)
    entries = hung_entries(job.units, places, since="2024-05-01")
    assert remembered(entries, job.units) == {
        unit.planned.key: places[unit.planned.key] for unit in job.units
    }
    assert remembered(reversed(entries), job.units[::-1]) == remembered(entries, job.units)
    stays = moving(entries, job.units, items=job.panels[0].problem.items, places=places)
    assert {move.what for move in stays.moves} == {"stays"}
    assert stays.steps == ()
    assert stays.summary == (
        f"Of what hangs or shall hang, {len(job.units)} stay, 0 move, 0 are new, 0 come off.",
    )


def test_a_new_unit_one_that_moved_and_one_that_is_gone_are_told(done: Any) -> None:
    job, places = done.job, places_of(done.job)
    new, moved, *rest = job.units
    entries = hung_entries(job.units[1:], places, since="2024-05-01")
    there = places[moved.planned.key]
    entries = tuple(
        replace(one, x_mm=there.x_mm + 3000.0) if one.name == moved.planned.name else one
        for one in entries
    )
    gone = replace(entries[0], name="Old thing", tools=("Old thing",), x_mm=5000.0)
    told = moving((*entries, gone), job.units, items=job.panels[0].problem.items, places=places)
    assert [move.what for move in told.moves].count("stays") == len(rest)
    assert [(step.action, step.move.name) for step in told.steps] == [
        ("take down", "Old thing"),
        ("move", moved.planned.name),
        ("hang", new.planned.name),
    ]
    assert "3000 mm to the left" in in_mm(told.summary[2])
    assert told.summary[0].endswith("1 moves, 1 is new, 1 comes off.")
    assert told.summary[-1] == CAUTION
    assert new.planned.key not in remembered((*entries, gone), job.units)
    as_data: Any = told.as_dict()
    assert [step["sentence"] for step in as_data["steps"]] == [s.sentence for s in told.steps]
    assert {row["what"] for row in as_data["moves"]} == {"stays", "moves", "is new", "comes off"}


def test_a_unit_of_another_panel_has_no_place_here_though_it_is_the_same(done: Any) -> None:
    job, places = done.job, places_of(done.job)
    lid = tuple(
        replace(one, panel="lid") for one in hung_entries(job.units, places, since="2024-05-01")
    )
    assert remembered(lid, job.units) == {}
    told = moving(lid, job.units, items=job.panels[0].problem.items, places=places)
    assert {move.way for move in told.moves} == {'from the panel "lid" to the wall'}
    assert {step.action for step in told.steps} == {"move"}


def test_a_part_that_got_another_shape_is_taken_down_and_hung_anew_in_its_place(done: Any) -> None:
    job, places = done.job, places_of(done.job)
    other = job.units[1].outer.mark
    entries = tuple(
        replace(one, mark=other) for one in hung_entries(job.units[:1], places, since="2024-05-01")
    )
    told = moving(entries, job.units[:1], items=job.panels[0].problem.items, places=places)
    assert [step.action for step in told.steps] == ["take down", "hang"]
    assert told.moves[0].sentence.endswith("stays where it hangs, as a new part.")
    key = job.units[0].planned.key
    assert remembered(entries, job.units) == {key: places[key]}


def test_what_hangs_unchanged_keeps_its_day(hung: Path) -> None:
    first = hung_now(hung)
    with open_ledger(hung) as ledger:
        other = replace(first.hung.holders[0], mark=first.hung.holders[1].mark)
        ledger.replace_hung(WhatHangs((other, *first.hung.holders[1:]), first.hung.rails))
    again = record_hung(hung, on=LATER)
    assert [one.since for one in again.hung.holders] == [
        "2025-06-02",
        *["2024-05-01"] * (len(first.hung.holders) - 1),
    ]
    assert [replace(one, since="") for one in again.hung.holders] == [
        replace(one, since="") for one in first.hung.holders
    ]
    assert again.hung.rails == first.hung.rails


def test_forgetting_returns_what_hung_and_leaves_the_marks(hung: Path) -> None:
    first = hung_now(hung)
    with open_ledger(hung) as ledger:
        marks = ledger.all_marks()
    assert forget_hung(hung) == first
    assert hung_now(hung) == forget_hung(hung) == HungNow(WhatHangs())
    assert hung_now(hung).summary == ("The ledger knows of nothing that hangs.",)
    with open_ledger(hung) as ledger:
        assert ledger.all_marks() == marks


def test_only_what_was_made_can_hang(shed: Path, hung: Path, shed_text: str) -> None:
    with pytest.raises(OutputError, match="no report of a workshop"):
        record_hung(shed)
    assert forget_hung(shed) == hung_now(shed) == HungNow(WhatHangs())
    assert [path.name for path in shed.iterdir()] == ["workshop.toml"]
    (hung / "workshop.toml").write_text(
        shed_text.replace("hole_correction = 0.15", "hole_correction = 0.3"), "utf-8"
    )
    before = bytes_of(hung)
    with pytest.raises(InputError, match="is not what was made"):
        record_hung(hung)
    assert bytes_of(hung) == before
    (hung / "out" / "report.json").write_text("{", "utf-8")
    with pytest.raises(OutputError, match="report cannot be read"):
        record_hung(hung)


def test_what_was_damaged_since_it_was_made_is_not_kept_as_hung(hung: Path) -> None:
    forget_hung(hung)
    (part, *_) = sorted((hung / "out" / "parts").glob("*.3mf"))
    part.write_bytes(b"other")
    with pytest.raises(OutputError, match=rf"parts/{part.name} was changed"):
        record_hung(hung)
    shutil.rmtree(hung / "out" / "parts")
    with pytest.raises(OutputError, match=r"is missing.*Make the workshop again"):
        record_hung(hung)
    assert hung_now(hung) == HungNow(WhatHangs())


def test_a_place_without_a_workshop_is_told(tmp_path: Path) -> None:
    for ask in (hung_now, record_hung, forget_hung):
        with pytest.raises(DocumentError, match="no workshop here"):
            ask(tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_making_and_looking_write_nothing_into_what_hangs(hung: Path) -> None:
    first = hung_now(hung)
    before = (hung / "ledger.db").read_bytes()
    assert hung_now(hung) == first
    assert (hung / "ledger.db").read_bytes() == before
    make_workshop(hung)
    assert hung_now(hung) == first


@pytest.mark.parametrize(
    ("mark", "fittings", "said"),
    [
        ("AAAA", ("P1", "P2"), 'the new plates, hooks, hangers or bolts of "Saw" were not said'),
        ("BBBB", ("P1", "P1"), '"Saw" was not said'),
        ("AAAA", ("P1", "P1"), ""),
    ],
)
def test_of_a_front_that_hung_before_only_what_is_new_is_not_said_to_be_printed(
    mark: str, fittings: tuple[str, ...], said: str
) -> None:
    before = HungEntry("wall", "Saw", 0.0, 0.0, "AAAA", ("Saw",), "2026-01-01", (), ("P1", "P1"))
    after = replace(before, mark=mark, fittings=fittings)
    there, then = WhatHangs((before,), ()), WhatHangs((after,), ())
    marks = {after.identity: [mark]}
    taken = taken_from(ReadyParts(), there, then, marks, since="2026-02-01")
    notes = HungNow(WhatHangs(), unsaid=taken.unsaid).notes("cleatwright parts shop")
    assert [note.partition(" to be printed")[0] for note in notes] == ([said] if said else [])
