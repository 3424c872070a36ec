"""Parts are planned, printed, hanging, broken or spare, and the next batch goes by it.

Oracles: the marks in the batches of the next plan (what is there is not printed, what broke is),
and the ledger byte for byte as it was once a step is taken back.
"""

from __future__ import annotations

import shutil
import sqlite3
from collections import Counter
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from cleatwright.base.errors import InputError, LedgerError, OutputError, UnknownNameError
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.cli.main import main
from cleatwright.jobs.hung import hung_now, record_hung
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.part_states import PartsNow, parts_now, say_state
from cleatwright.jobs.since_made import last_report
from cleatwright.project.computing import compute
from cleatwright.project.opened.opened import OpenWorkshop
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.hung_entry import COLUMNS_AT_FIRST, HungEntry
from cleatwright.workshop.ledger.migrations import READY_SINCE, migrate
from cleatwright.workshop.ledger.reading import read_kept
from cleatwright.workshop.ledger.ready_parts import ReadyPart, ReadyParts

DAY = date(2024, 5, 1)


@pytest.fixture
def made(done: Any, tmp_path: Path) -> Path:
    """A copy of the small workshop as it was made; nothing of it hangs."""
    return Path(shutil.copytree(done.folder, tmp_path / "made"))


def to_print(folder: Path, known: Store) -> Counter[str]:
    """The marks in the batches of what would be made now."""
    batches = compute(folder, run=Run(known)).production.batches
    return Counter(mark for batch in batches for mark in batch.marks)


def states(now: PartsNow) -> dict[str, str]:
    return {one.label: one.state for one in now.parts}


def test_what_is_printed_is_in_no_batch_any_more(made: Path, known: Store) -> None:
    before = to_print(made, known)
    first = next(one for one in parts_now(made).parts if before[one.mark])
    assert first.state == "planned"
    now = say_state(made, "printed", parts=[first.label], on=DAY)
    assert states(now)[first.label] == "printed"
    assert to_print(made, known) == before - Counter([first.mark])
    now = say_state(made, "planned", parts=[first.mark.lower()], on=DAY)
    assert states(now)[first.label] == "planned"
    assert to_print(made, known) == before


def test_a_whole_batch_is_printed_at_once(made: Path, known: Store) -> None:
    report, _ = last_report(made / "out")
    assert report is not None
    for batch in report.batches:
        say_state(made, "printed", parts=[batch.name], on=DAY)
    assert not to_print(made, known)
    with pytest.raises(InputError, match=r"is there already.*spare"):
        say_state(made, "printed", parts=[report.batches[0].name])


def test_the_report_tells_the_state_of_each_part(made: Path, known: Store) -> None:
    one, other = parts_now(made).parts[:2]
    say_state(made, "printed", parts=[one.label], on=DAY)
    say_state(made, "spare", parts=[other.mark, other.mark], on=DAY)
    make_workshop(made, run=Run(known))
    report, _ = last_report(made / "out")
    assert report is not None
    told = {row.mark: row for row in (*report.holders, *report.carriers)}
    assert (told[one.mark].state, told[one.mark].print) == ("printed", None)
    assert told[other.mark].state == "planned"
    assert [(row.mark, row.count) for row in report.spares] == [(other.mark, 2)]
    assert parts_now(made).spares == ((other.mark, 2),)


def test_what_broke_is_printed_anew_and_hangs_again_in_its_place(made: Path, known: Store) -> None:
    record_hung(made, on=DAY, run=Run(known))
    hung, all_printed = hung_now(made).hung, to_print(made, known)
    assert not all_printed
    first = next(one for one in parts_now(made).parts if one.label.isdigit())
    now = say_state(made, "broken", parts=[first.label], on=DAY)
    assert states(now)[first.label] == "broken"
    assert to_print(made, known) == Counter([first.mark])
    job = compute(made, run=Run(known))
    assert any("broke: take its tools off" in text for text in job.warnings)
    assert "a new part takes its place" in " ".join(job.change_plan.summary)
    assert [move.what for move in job.change_plan.moves] == ["stays"] * len(job.units)
    now = say_state(made, "printed", parts=[first.mark], on=DAY)
    assert states(now)[first.label] == "printed"
    assert not to_print(made, known)
    now = say_state(made, "hanging", parts=[first.label], on=DAY)
    assert states(now)[first.label] == "hanging"
    assert (hung_now(made).hung, read_kept(made).ready) == (hung, ReadyParts())


def test_a_spare_takes_the_place_of_what_broke_and_of_nothing_else(
    made: Path, known: Store
) -> None:
    before = to_print(made, known)
    first = next(one for one in parts_now(made).parts if one.label.isdigit())
    say_state(made, "spare", parts=[first.mark], on=DAY)
    assert to_print(made, known) == before
    record_hung(made, on=DAY, run=Run(known))
    # the one that lay there is on the wall now
    assert read_kept(made).ready == ReadyParts()
    say_state(made, "spare", parts=[first.mark], on=DAY)
    say_state(made, "broken", parts=[first.label], on=DAY)
    assert not to_print(made, known)
    say_state(made, "hanging", parts=[first.label], on=DAY)
    assert read_kept(made).ready == ReadyParts()


def test_what_hangs_is_taken_down_again_with_all_of_its_piece(made: Path, known: Store) -> None:
    first = parts_now(made).parts[0]
    say_state(made, "hanging", parts=[first.label], on=DAY)
    hanging = [one for one in parts_now(made).parts if one.state == "hanging"]
    assert first.label in [one.label for one in hanging]
    now = say_state(made, "printed", parts=[first.label], on=DAY)
    printed = {label for label, state in states(now).items() if state == "printed"}
    assert printed == {one.label for one in hanging}
    assert not hung_now(made).hung.holders
    say_state(made, "hanging", parts=[first.label], on=DAY)
    assert read_kept(made).ready == ReadyParts()
    now = say_state(made, "planned", parts=[first.label], on=DAY)
    assert set(states(now).values()) == {"planned"}


def test_what_cannot_be_is_refused_and_nothing_is_kept(made: Path, shed: Path) -> None:
    label = parts_now(made).parts[0].label
    kept = read_kept(made)
    with pytest.raises(InputError, match="neither hangs nor lies ready"):
        say_state(made, "broken", parts=[label])
    with pytest.raises(UnknownNameError, match='no part "99"'):
        say_state(made, "printed", parts=[label, "99"])
    with pytest.raises(OutputError, match="no report"):
        say_state(shed, "printed", parts=["1"])
    assert read_kept(made) == kept


def test_a_step_is_taken_back_and_done_again(made: Path) -> None:
    label = parts_now(made).parts[0].label
    opened = OpenWorkshop(made)
    text = opened.now.text
    before = read_kept(made)
    opened.say(lambda: say_state(made, "printed", parts=[label], on=DAY), label="printed")
    printed = read_kept(made)
    opened.say(lambda: say_state(made, "hanging", parts=[label], on=DAY), label="hangs")
    hangs = read_kept(made)
    assert opened.now.undoes == "hangs"
    for act, kept in (
        (opened.undo, printed),
        (opened.undo, before),
        (opened.undo, before),
        (opened.redo, printed),
        (opened.redo, hangs),
        (opened.undo, printed),
    ):
        act()
        assert read_kept(made) == kept
    assert opened.now.text == text


def test_a_step_is_not_taken_back_over_what_another_said_since(made: Path) -> None:
    one, other = parts_now(made).parts[:2]
    opened = OpenWorkshop(made)
    opened.say(lambda: say_state(made, "printed", parts=[one.label], on=DAY), label="printed")
    say_state(made, "printed", parts=[other.label], on=DAY)
    kept = read_kept(made)
    with pytest.raises(LedgerError, match="something else was said"):
        opened.undo()
    assert read_kept(made) == kept
    assert opened.now.undoes == ""


def test_the_command_shows_and_says_states(made: Path, capsys: pytest.CaptureFixture[str]) -> None:
    first = parts_now(made).parts[0]
    assert main(["parts", str(made), "printed", first.mark]) == 0
    assert "printed" in capsys.readouterr().out
    assert states(parts_now(made))[first.label] == "printed"
    assert main(["parts", str(made)]) == 0
    assert first.mark in capsys.readouterr().out
    assert main(["parts", str(made), "lost", first.mark]) == 2
    assert "Allowed: broken, hanging, planned, printed, spare" in capsys.readouterr().err
    assert main(["parts", str(made), "printed"]) == 2


def test_a_ledger_from_before_keeps_what_hangs(tmp_path: Path) -> None:
    entry = HungEntry("wall", "Tin", 10.0, 10.0, "0000000", ("Tin",), "2024-05-01")
    path = tmp_path / "ledger.db"
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        migrate(connection, to=READY_SINCE - 1)
        row = entry.row()[: len(COLUMNS_AT_FIRST)]
        connection.execute(f"INSERT INTO hung VALUES ({', '.join('?' * len(row))})", row)  # noqa: S608
    before = path.read_bytes()
    assert read_kept(tmp_path).hung.holders == (entry,)
    assert not read_kept(tmp_path).ready
    assert path.read_bytes() == before
    ready = ReadyParts((ReadyPart("0000000", "spare", 2, "2024-05-02"),))
    with open_ledger(tmp_path) as ledger:
        assert ledger.hung().holders == (entry,)
        ledger.replace_hung(ledger.hung(), ready=ready)
    assert read_kept(tmp_path).ready == ready


@pytest.mark.parametrize(
    "wrong",
    [
        ReadyPart("not a mark", "spare", 1, "2024-05-02"),
        ReadyPart("0000000", "spare", 0, "2024-05-02"),
        ReadyPart("0000000", "spare", 1, "yesterday"),
    ],
)
def test_what_cannot_lie_ready_is_refused(tmp_path: Path, wrong: ReadyPart) -> None:
    with open_ledger(tmp_path) as ledger, pytest.raises(LedgerError, match="is malformed"):
        ledger.replace_hung(ledger.hung(), ready=ReadyParts((wrong,)))
