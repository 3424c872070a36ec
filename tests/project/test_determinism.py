"""The same workshop gives the same bytes, today and later, here and there."""

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from cleatwright.base.errors import DocumentError, LedgerError, UnknownNameError
from cleatwright.base.keys import CROCKFORD
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.remaking import remake_part
from cleatwright.mounts.fittings import bolt
from cleatwright.mounts.printed import wall_screws
from cleatwright.workshop.ledger.database import open_ledger

PROGRAM = Path(sys.executable).parent / "cleatwright"


def content(folder: Path) -> dict[str, bytes]:
    paths = sorted(path for path in folder.rglob("*") if path.is_file())
    return {str(path.relative_to(folder)): path.read_bytes() for path in paths}


def test_other_processes_with_other_hash_seeds_write_the_same_bytes(
    done: Any, shed: Path, tmp_path: Path
) -> None:
    for seed in ("1", "4711"):
        out = tmp_path / f"out-{seed}"
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": "Asia/Tokyo", "LC_ALL": "C"}
        subprocess.run(  # noqa: S603 - our own program
            [str(PROGRAM), "make", str(shed), "--out", str(out)],
            env=environment,
            check=True,
            capture_output=True,
        )
        assert content(out) == content(done.out)


def test_a_second_run_says_that_everything_is_the_same(done: Any) -> None:
    before = content(done.out)
    made = make_workshop(done.folder)
    assert {change.what for change in made.changes} == {"same"}
    assert content(done.out) == before


@pytest.mark.parametrize(
    "spelling", [str, str.lower, lambda mark: f"{mark[:4].lower()}-{mark[4:]}"]
)
def test_a_mark_gives_the_same_bytes_again(done: Any, tmp_path: Path, spelling: Any) -> None:
    built = done.job.built[1]
    remake_part(done.folder, spelling(built.mark), out=tmp_path)
    again = content(tmp_path)
    del again["manifest.json"]
    assert len(again) == 2
    assert again == {name: data for name, data in done.files().items() if name in again}


def test_a_mark_outlives_changes_of_printer_and_filament(
    done: Any, tmp_path: Path, shed_text: str
) -> None:
    changed = shed_text.replace("[220, 220, 200]", "[120, 120, 120]").replace("PETG", "ABS")
    changed = changed.replace("hole_correction = 0.15", "hole_correction = 0.3")
    folder = tmp_path / "later"
    folder.mkdir()
    (folder / "workshop.toml").write_text(changed, "utf-8")
    (folder / "ledger.db").write_bytes((done.folder / "ledger.db").read_bytes())
    for mark in {made.mark for _, made in done.job.parts.values()}:
        remake_part(folder, mark, out=folder / "again")
    again = content(folder / "again")
    del again["manifest.json"]
    parts = {name: data for name, data in done.files().items() if name.startswith("parts/")}
    assert again == parts


def test_a_mark_with_a_wrong_check_character_is_no_mark(done: Any) -> None:
    mark = done.job.built[0].mark
    for digit in set(CROCKFORD) - {mark[-1]}:
        with pytest.raises(UnknownNameError, match="check character"):
            remake_part(done.folder, mark[:-1] + digit, out=None)


def test_an_unknown_mark_is_told_with_those_that_are_known(done: Any) -> None:
    with pytest.raises(UnknownNameError) as caught:
        remake_part(done.folder, "0000000", out=None)
    assert done.job.built[0].mark in caught.value.allowed
    assert "ledger.db" in caught.value.where


def test_a_place_without_a_workshop_or_a_ledger_stays_as_it_is(shed: Path, tmp_path: Path) -> None:
    with pytest.raises(UnknownNameError, match="nothing was made here yet"):
        remake_part(shed, "0000000", out=None)
    with pytest.raises(DocumentError, match="no workshop"):
        remake_part(tmp_path / "nowhere", "0000000", out=None)
    assert sorted(path.name for path in shed.iterdir()) == ["workshop.toml"]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["shed"]


@pytest.mark.parametrize("recipe", ['{"version": 1}', '"text"'])
def test_a_recipe_that_is_none_of_ours_is_a_ledger_error(
    done: Any, tmp_path: Path, shed: Path, recipe: str
) -> None:
    (shed / "ledger.db").write_bytes((done.folder / "ledger.db").read_bytes())
    mark = done.job.built[0].mark
    with open_ledger(shed) as ledger:
        ledger._connection.execute("UPDATE marks SET recipe_json = ?", (recipe,))
    with pytest.raises(LedgerError, match="recipe cannot be read"):
        remake_part(shed, mark, out=tmp_path / "again")
    assert not (tmp_path / "again").exists()


def test_a_part_that_this_program_would_shape_otherwise_is_not_passed_off_as_the_same(
    shed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The mark holds the shape too, so a later change of geometry cannot go unnoticed."""
    make_workshop(shed, out=tmp_path / "first")
    mark = next(
        path.stem.rsplit("_", 1)[1]
        for path in sorted((tmp_path / "first" / "parts").glob("*.3mf"))
        if "bore-block" not in path.stem
    )
    monkeypatch.setattr(bolt, "HIGH_MM", bolt.HIGH_MM + 0.5)
    monkeypatch.setattr(wall_screws, "RIM_MM", wall_screws.RIM_MM + 0.5)
    with pytest.raises(LedgerError, match="another shape"):
        remake_part(shed, mark, out=tmp_path / "again")
    assert not (tmp_path / "again").exists()
