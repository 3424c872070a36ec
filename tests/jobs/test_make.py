"""A second ``make`` with nothing changed computes nothing, and any change is seen."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.jobs.hung import record_hung
from cleatwright.jobs.made import Made
from cleatwright.jobs.make import make
from cleatwright.project.shelf import DiskShelf


@pytest.fixture
def again(tmp_path: Path) -> Callable[[], Run]:
    """Return a callable that gives a run as a new process has it: only the disk is known."""

    def run() -> Run:
        return Run(Store(shelf=DiskShelf(tmp_path / "found.db")))

    return run


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory, shed_text: str) -> tuple[Path, Made]:
    """Return a workshop that was made, what was found in a file beside it, and what was told."""
    folder = tmp_path_factory.mktemp("made") / "shed"
    folder.mkdir()
    (folder / "workshop.toml").write_text(shed_text, "utf-8")
    shelf = DiskShelf(folder.parent / "found.db")
    made = make(folder, run=Run(Store(shelf=shelf)))
    shelf.close()
    return folder, made


@pytest.fixture
def made(first: tuple[Path, Made], tmp_path: Path) -> Path:
    """Return a copy of the workshop that was made, for one test."""
    shutil.copytree(first[0].parent, tmp_path, dirs_exist_ok=True)
    return tmp_path / "shed"


def files(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_nothing_changed_computes_nothing_and_tells_the_same(first: tuple[Path, Made]) -> None:
    folder, told = first
    before, run = files(folder), Run(Store(shelf=DiskShelf(folder.parent / "found.db")))
    second = make(folder, run=run)
    assert run.computed == {}
    assert files(folder) == before
    assert {change.what for change in second.changes} == {"same"}
    assert [change.path for change in second.changes] == [one.path for one in told.changes]
    assert (second.holders, second.cautions) == (told.holders, told.cautions)
    assert second.notes == told.notes
    assert make(folder, dry_run=True, run=run).dry_run


def test_a_copy_in_which_nothing_changed_computes_nothing(
    made: Path, again: Callable[[], Run]
) -> None:
    run = again()
    make(made, run=run)
    assert run.computed == {}


def one_more_space(shed: Path) -> None:
    document = shed / "workshop.toml"
    document.write_text(document.read_text("utf-8") + "\n", "utf-8")


def a_file_was_edited(shed: Path) -> None:
    (shed / "out" / "report.json").write_text("{}", "utf-8")


def a_file_is_gone(shed: Path) -> None:
    (shed / "out" / "report.json").unlink()


def the_manifest_is_gone(shed: Path) -> None:
    # what nobody knows to be ours is never written over
    for path in sorted((shed / "out").rglob("*"), reverse=True):
        path.unlink() if path.is_file() else path.rmdir()


def the_ledger_is_gone(shed: Path) -> None:
    for path in shed.glob("ledger.db*"):
        path.unlink()


@pytest.mark.parametrize(
    "change",
    [
        one_more_space,
        a_file_was_edited,
        a_file_is_gone,
        the_manifest_is_gone,
        the_ledger_is_gone,
    ],
    ids=lambda change: change.__name__,
)
def test_any_change_is_computed_and_mended(
    made: Path, again: Callable[[], Run], change: Callable[[Path], None]
) -> None:
    before = files(made / "out")
    change(made)
    run = again()
    make(made, run=run)
    assert run.computed
    assert files(made / "out") == before


def test_what_hangs_is_computed_anew(first: tuple[Path, Made], again: Callable[[], Run]) -> None:
    folder, _ = first
    record_hung(folder)
    run = Run(Store(shelf=DiskShelf(folder.parent / "found.db")))
    make(folder, run=run)
    assert run.computed["part"] > 0
    report = json.loads((folder / "out" / "report.json").read_text("utf-8"))
    assert report["moves"]
