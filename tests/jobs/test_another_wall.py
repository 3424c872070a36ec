"""A holder goes from its cleat wall to a board, a profile or screws, and back: its front stays.

Oracles: the marks in the batches of the next plan, and the bytes of the print files.
"""

from __future__ import annotations

import csv
import io
import shutil
from collections import Counter
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from cleatwright.base.errors import DesignError
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.jobs.hung import record_hung
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.part_states import parts_now
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute
from cleatwright.workshop.ledger.reading import read_hung

DAY = date(2024, 5, 1)
SMALL_PARTS = {"hanger", "bolt", "screw-plate", "hook-plate", "board-hook"}


def hung_by(text: str, mount: str) -> str:
    kept = text.split("[[holder]]", maxsplit=1)[0]
    return kept.replace(
        "[printer.bench]",
        f'[defaults]\nmount = "{mount}"\njoint = "grooves"\n\n[printer.bench]',
    )


@pytest.fixture(scope="module")
def on_cleat(
    tmp_path_factory: pytest.TempPathFactory, shed_text: str, known: Store
) -> tuple[Path, Job]:
    """The small workshop on rails, made and hung."""
    folder = tmp_path_factory.mktemp("moved") / "shed"
    folder.mkdir()
    (folder / "workshop.toml").write_text(hung_by(shed_text, "french-cleat"), "utf-8")
    make_workshop(folder, run=Run(known))
    record_hung(folder, on=DAY, run=Run(known))
    return folder, compute(folder, run=Run(known))


def _fronts(job: Job) -> dict[str, str]:
    return {unit.planned.name: unit.outer.mark for unit in job.units}


def _to_print(job: Job) -> Counter[str]:
    made = {made.mark: made.part.family for _, made in job.parts.values()}
    return Counter(made[mark] for batch in job.production.batches for mark in batch.marks)


@pytest.mark.parametrize("mount", ["perforated-board", "t-slot", "wall-screws"])
def test_only_small_parts_are_printed_for_another_wall(
    mount: str, on_cleat: tuple[Path, Job], shed_text: str, tmp_path: Path, known: Store
) -> None:
    there, before = on_cleat
    folder = Path(shutil.copytree(there, tmp_path / "shed"))
    (folder / "workshop.toml").write_text(hung_by(shed_text, mount), "utf-8")
    job = compute(folder, run=Run(known))
    assert _fronts(job) == _fronts(before)
    printed = _to_print(job)
    assert printed
    assert set(printed) <= SMALL_PARTS - {"hanger"}
    assert all(made.holds for _, made in job.parts.values())
    assert not job.rails


def test_a_board_is_told_with_all_that_it_takes_and_the_way_back_prints_nothing(
    on_cleat: tuple[Path, Job], shed_text: str, tmp_path: Path, known: Store
) -> None:
    there, before = on_cleat
    folder = Path(shutil.copytree(there, tmp_path / "shed"))
    fronts = {
        path.name: path.read_bytes()
        for path in (folder / "out" / "parts").glob("*.stl")
        if path.name.split("_")[0] not in SMALL_PARTS
    }
    (folder / "workshop.toml").write_text(hung_by(shed_text, "perforated-board"), "utf-8")
    job = compute(folder, run=Run(known))
    make_workshop(folder, run=Run(known))
    moves = " ".join(job.change_plan.summary)
    assert moves.count("draw the pins of its grooves, slide out what is in them") == len(
        before.units
    )
    for name, data in fronts.items():
        assert (folder / "out" / "parts" / name).read_bytes() == data
    bought = (folder / "out" / "lists" / "hardware.csv").read_text("utf-8-sig")
    pins = [row for row in csv.DictReader(io.StringIO(bought)) if "over its bar" in row["for"]]
    assert [int(row["count"]) for row in pins] == [sum(map(_plates, job.units))]
    record_hung(folder, on=DAY, run=Run(known))
    now = parts_now(folder).parts
    assert all("hook-plate" not in one.name or one.state == "hanging" for one in now)
    marks = {made.mark for unit in job.units for made in unit.fittings}
    assert {mark for one in read_hung(folder).holders for mark in one.fittings} == marks
    assert not compute(folder, run=Run(known)).production.batches
    (folder / "workshop.toml").write_text(hung_by(shed_text, "french-cleat"), "utf-8")
    back = compute(folder, run=Run(known))
    assert _fronts(back) == _fronts(before)
    # the hangers and bolts that were slid out lie ready
    assert not _to_print(back)
    make_workshop(folder, run=Run(known))
    record_hung(folder, on=DAY, run=Run(known))
    assert not set(_to_print(compute(folder, run=Run(known))))


def _plates(unit: Any) -> int:
    return sum(one.part.family == "hook-plate" for one in unit.fittings)


def test_a_mount_that_takes_no_plates_is_refused_with_those_that_do(
    shed_text: str, tmp_path: Path, known: Store
) -> None:
    (tmp_path / "workshop.toml").write_text(hung_by(shed_text, "slotwall"), "utf-8")
    with pytest.raises(DesignError, match=r"no plates in the grooves.*slotwall") as refused:
        compute(tmp_path, run=Run(known))
    assert "perforated-board" in str(refused.value)
