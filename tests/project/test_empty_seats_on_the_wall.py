"""A holder that hangs and loses a tool: nothing is printed, nothing moves, all papers say so.

Oracles: the marks in the ledger, the person's edit, and the seats of the part.
"""

from __future__ import annotations

import csv
import json
import shutil
from pathlib import Path
from typing import Any

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.jobs.checking import check_workshop
from cleatwright.jobs.hung import hung_now, record_hung
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.part_states import parts_now, say_state
from cleatwright.jobs.why import why_there
from cleatwright.pack.drawing import elevation_view
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute
from cleatwright.project.going import Going

LOST = '  { label = "5.5", shank = 5.5, shank_length = 125, handle = 28.2, handle_length = 98 },\n'
ANOTHER = """
[[tool]]
name = "A driver from the flea market"
kind = "screwdriver"
measures = { shank = 5.5, shank_length = 125, handle = 28.2, handle_length = 98 }
"""


def edited(folder: Path, old: str, new: str = "") -> None:
    path = folder / "workshop.toml"
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), "utf-8")


@pytest.fixture(scope="module")
def hung(done: Any, known: Store, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small workshop, of which everything hangs."""
    folder = Path(shutil.copytree(done.folder, tmp_path_factory.mktemp("hung") / "shed"))
    record_hung(folder, run=Run(known))
    return folder


@pytest.fixture
def shed(hung: Path, tmp_path: Path) -> Path:
    """The same, without the larger screwdriver."""
    folder = Path(shutil.copytree(hung, tmp_path / "shed"))
    edited(folder, LOST)
    return folder


def as_it_hangs(job: Job) -> bool:
    """Tell whether there is nothing to print and nothing to do at the wall."""
    return (
        not job.production.batches
        and not job.change_plan.steps
        and {move.what for move in job.change_plan.moves} == {"stays"}
    )


def test_a_tool_less_changes_nothing_on_the_wall_and_all_papers_say_so(
    shed: Path, known: Store
) -> None:
    job = compute(shed, run=Run(known))
    assert as_it_hangs(job)
    (one,) = [holder for holder in job.planned if holder.empty_for]
    assert one.empty_for == ("Driver 5.5",)
    said = f'Holder {one.number}, "Driver 4", has an empty place for "Driver 5.5".'
    assert said in make_workshop(shed, run=Run(known)).notes
    assert said in check_workshop(shed).remarks
    assert said in why_there(shed, "Driver 4", run=Run(known)).sentences
    report = json.loads((shed / "out" / "report.json").read_text("utf-8"))
    assert said in report["notes"]
    (row,) = [row for row in report["holders"] if row["number"] == one.number]
    assert {seat["tool"]: seat["empty"] for seat in row["seats"]} == {
        "Driver 4": False,
        "Driver 5.5": True,
    }
    assert row["load_kg"] == pytest.approx(one.load_kg)
    with (shed / "out" / "lists" / "holders.csv").open(encoding="utf-8-sig") as file:
        listed = [seat for seat in csv.DictReader(file) if seat["holder"] == str(one.number)]
    assert sorted(seat["tool"] for seat in listed) == ["Driver 4", "empty, for Driver 5.5"]


def test_an_empty_seat_has_no_silhouette_in_the_drawing(
    shed: Path, hung: Path, known: Store
) -> None:
    def drawn(folder: Path) -> int:
        (panel,) = compute(folder, run=Run(known)).panels
        view = elevation_view(panel, Run(known))
        return next(len(one.tools) for one in view.holders if "Driver" in one.name)

    assert drawn(shed) < drawn(hung)


def test_it_stays_so_when_it_is_made_and_hung_again(shed: Path, known: Store) -> None:
    for _ in range(2):
        make_workshop(shed, run=Run(known))
        assert as_it_hangs(compute(shed, run=Run(known)))
    before = hung_now(shed).hung
    record_hung(shed, run=Run(known))
    assert [(one.tools, one.mark) for one in hung_now(shed).hung.holders] == [
        (one.tools, one.mark) for one in before.holders
    ]
    assert as_it_hangs(compute(shed, run=Run(known)))


def test_its_like_takes_the_seat_that_a_making_left_empty(shed: Path, known: Store) -> None:
    make_workshop(shed, run=Run(known))
    edited(shed, "[[holder]]", f"{ANOTHER}\n[[holder]]")
    job = compute(shed, run=Run(known))
    assert as_it_hangs(job)
    assert not job.empty_notes
    make_workshop(shed, run=Run(known))
    names = {tool for one in hung_now(shed).hung.holders for tool in one.tools}
    assert "A driver from the flea market" in names
    assert "Driver 5.5" not in names


def test_why_a_new_tool_does_not_take_an_empty_seat_is_said(shed: Path, known: Store) -> None:
    make_workshop(shed, run=Run(known))
    thicker = ANOTHER.replace("handle = 28.2", "handle = 29.4")
    edited(shed, "[[holder]]", f"{thicker}\n[[holder]]")
    (note,) = compute(shed, run=Run(known)).empty_notes
    assert '"A driver from the flea market" does not take the place of "Driver 5.5": ' in note
    assert "its handle is 29.4 mm, and was 28.2 mm" in note
    told = " ".join(why_there(shed, "Driver 4", run=Run(known)).sentences)
    assert "its handle is 29.4 mm, and was 28.2 mm" in told


def test_its_owner_may_have_the_part_made_anew(shed: Path, known: Store) -> None:
    job = compute(shed, going=Going(plan="parts"), run=Run(known))
    (one,) = [holder for holder in job.planned if holder.name == "Driver 4"]
    assert len(one.tools) == 1
    assert not job.empty_notes
    assert job.production.batches


def test_what_is_printed_and_does_not_hang_keeps_its_seats_too(
    done: Any, tmp_path: Path, known: Store
) -> None:
    folder = Path(shutil.copytree(done.folder, tmp_path / "shed"))
    numbers = {one.name: one.number for one in done.job.planned}
    name = next(name for name in numbers if "Driver" in name)
    label = str(numbers[name])
    mark = next(one.mark for one in parts_now(folder).parts if one.label == label)
    edited(folder, LOST)
    assert mark not in {made.mark for made in compute(folder, run=Run(known)).built}
    edited(folder, "sizes = [\n", f"sizes = [\n{LOST}")
    say_state(folder, "printed", parts=[label])
    edited(folder, LOST)
    for _ in range(2):
        job = compute(folder, run=Run(known))
        assert mark in {made.mark for made in job.built}
        assert len(job.empty_notes) == 1
        make_workshop(folder, run=Run(known))
