"""Publishing: a folder holds the whole new set or the whole old one."""

import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from cleatwright.base.errors import OutputError
from cleatwright.base.interrupts import STOPPING, defer_interrupts
from cleatwright.project import publishing
from cleatwright.project.publishing import MANIFEST, STAGING, compare, no_files, publish
from cleatwright.workshop.ledger.one_at_a_time import LOCK_NAME, alone_in

OLD = {"a.txt": b"old a", "deep/b.txt": b"old b"}
NEW = {"a.txt": b"new a", "c.txt": b"new c"}


def content(folder: Path) -> dict[str, bytes]:
    names = (path.relative_to(folder) for path in sorted(folder.rglob("*")) if path.is_file())
    return {
        str(name): (folder / name).read_bytes()
        for name in names
        if name.name != MANIFEST and name.parts[0] != STAGING
    }


def test_a_second_set_replaces_the_first_and_leaves_strangers_alone(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    (tmp_path / "mine.txt").write_bytes(b"mine")
    changes = {change.path: change.what for change in publish(tmp_path, NEW)}
    assert changes == {"a.txt": "changed", "c.txt": "new", "deep/b.txt": "removed"}
    assert content(tmp_path) == NEW | {"mine.txt": b"mine"}


def test_the_same_set_again_changes_nothing(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    assert {change.what for change in compare(tmp_path, OLD)} == {"same"}


def test_a_dry_run_writes_nothing(tmp_path: Path) -> None:
    compare(tmp_path / "out", NEW)
    assert not (tmp_path / "out").exists()


def test_a_partial_set_keeps_the_rest(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    publish(tmp_path, {"c.txt": b"c"}, replaces=no_files)
    assert content(tmp_path) == OLD | {"c.txt": b"c"}
    publish(tmp_path, {})
    assert content(tmp_path) == {}


def test_a_full_disk_leaves_the_old_set(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    publish(tmp_path, OLD)

    def full(_descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(publishing.os, "fsync", full)
    with pytest.raises(OutputError, match="No space left"):
        publish(tmp_path, NEW)
    assert content(tmp_path) == OLD
    assert not (tmp_path / STAGING).exists()


def test_a_file_where_the_folder_should_be_is_one_clear_error(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(OutputError, match="out"):
        publish(tmp_path / "out", NEW)
    assert (tmp_path / "out").read_text() == "a file"


@pytest.mark.usefixtures("interruptible")
def test_an_interrupt_while_staging_leaves_the_old_set(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    publish(tmp_path, OLD)
    real = os.fsync

    def interrupted(descriptor: int) -> None:
        real(descriptor)
        signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr(publishing.os, "fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        publish(tmp_path, NEW)
    assert content(tmp_path) == OLD
    assert not (tmp_path / STAGING).exists()


@pytest.mark.parametrize("number", STOPPING)
def test_a_signal_to_stop_while_moving_waits_until_all_is_moved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: signal.Signals
) -> None:
    class Told(Exception):  # noqa: N818 - a signal is no error
        pass

    def told(*_: object) -> None:
        raise Told

    publish(tmp_path, OLD)
    real = Path.replace

    def interrupted(self: Path, target: Path) -> Path:
        signal.raise_signal(number)
        return real(self, target)

    monkeypatch.setattr(Path, "replace", interrupted)
    before = signal.signal(number, told)
    try:
        with pytest.raises(Told):
            publish(tmp_path, NEW)
        assert signal.getsignal(number) is told
    finally:
        signal.signal(number, before)
    assert content(tmp_path) == NEW


@pytest.mark.parametrize("number", STOPPING)
def test_a_signal_that_is_ignored_stays_ignored(tmp_path: Path, number: signal.Signals) -> None:
    """A program that was started with nohup goes on when the terminal closes."""
    before = signal.signal(number, signal.SIG_IGN)
    try:
        with defer_interrupts():
            assert signal.getsignal(number) is signal.SIG_IGN
    finally:
        signal.signal(number, before)


def test_a_manifest_that_points_outside_removes_nothing(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    folder.mkdir()
    (tmp_path / "precious.txt").write_text("precious")
    (folder / MANIFEST).write_text('{"files": ["../precious.txt", "a.txt"]}')
    publish(folder, {})
    assert (tmp_path / "precious.txt").exists()


@pytest.mark.parametrize(
    "broken", ["", "[]", '{"files": 3}', '{"files": [3]}', "{", '{"other": []}']
)
def test_a_manifest_that_is_not_ours_stops_the_writing(tmp_path: Path, broken: str) -> None:
    publish(tmp_path, OLD)
    (tmp_path / MANIFEST).write_text(broken)
    with pytest.raises(OutputError, match="not written by this program"):
        publish(tmp_path, NEW)
    assert content(tmp_path) == OLD
    assert (tmp_path / MANIFEST).read_text() == broken


def test_a_file_of_the_owner_with_the_same_name_stops_the_writing(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_bytes(b"my own")
    for action in (compare, publish):
        with pytest.raises(OutputError, match=r"a\.txt.*not written by this program"):
            action(tmp_path, NEW)
    assert content(tmp_path) == {"a.txt": b"my own"}


@pytest.mark.parametrize("blocked", ["c.txt", "deep"])
def test_a_folder_for_a_file_or_a_file_for_a_folder_stops_the_writing(
    tmp_path: Path, blocked: str
) -> None:
    if blocked == "deep":
        (tmp_path / blocked).write_bytes(b"a file")
    else:
        (tmp_path / blocked).mkdir()
    with pytest.raises(OutputError, match=f"{blocked}.*in the way"):
        publish(tmp_path, OLD | NEW)
    assert not (tmp_path / "a.txt").exists()


@pytest.fixture
def cut_off(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder in which a run was cut off between two files."""
    publish(tmp_path, OLD)
    real = Path.replace

    def broken(self: Path, target: Path) -> Path:
        if target.name == "c.txt":
            raise OSError(5, "Input/output error")
        return real(self, target)

    with monkeypatch.context() as patched:
        patched.setattr(Path, "replace", broken)
        with pytest.raises(OutputError, match=r"some are old.*finishes what was begun"):
            publish(tmp_path, NEW)
    assert content(tmp_path) == {"a.txt": b"new a", "deep/b.txt": b"old b"}
    return tmp_path


def test_a_run_that_was_cut_off_between_two_files_can_be_done_again(cut_off: Path) -> None:
    publish(cut_off, NEW)
    assert content(cut_off) == NEW
    assert not (cut_off / STAGING).exists()


def test_the_next_run_finishes_what_was_cut_off_also_when_it_only_adds(cut_off: Path) -> None:
    publish(cut_off, {"d.txt": b"d"}, replaces=no_files)
    assert content(cut_off) == NEW | {"d.txt": b"d"}
    publish(cut_off, {})
    assert content(cut_off) == {}


def test_a_dry_run_refuses_a_folder_that_is_between_two_sets(cut_off: Path) -> None:
    with pytest.raises(OutputError, match=r"some files are old.*Run make again"):
        compare(cut_off, NEW)


@pytest.mark.parametrize("lost", [STAGING, f"{STAGING}/c.txt", f"{STAGING}/{MANIFEST}"])
def test_when_the_new_files_are_lost_only_a_whole_set_is_taken(cut_off: Path, lost: str) -> None:
    path = cut_off / lost
    if path.is_dir():
        shutil.rmtree(path)
    else:
        path.unlink()
    before = content(cut_off)
    with pytest.raises(OutputError, match=r"some files are old.*all of it"):
        publish(cut_off, {"d.txt": b"d"}, replaces=no_files)
    assert content(cut_off) == before
    publish(cut_off, NEW)
    assert content(cut_off) == NEW
    compare(cut_off, NEW)


def test_a_second_run_is_refused_while_the_first_writes(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    with alone_in(tmp_path), pytest.raises(OutputError, match="another run of this program"):
        publish(tmp_path, NEW)
    assert content(tmp_path) == OLD
    publish(tmp_path, NEW)
    assert content(tmp_path) == NEW


def test_a_lock_that_a_dead_process_left_locks_nobody_out(tmp_path: Path) -> None:
    taken = f"""
import os, signal
from pathlib import Path
from cleatwright.workshop.ledger.one_at_a_time import alone_in
with alone_in(Path({str(tmp_path)!r})):
    os.kill(os.getpid(), signal.SIGKILL)
"""
    died = subprocess.run([sys.executable, "-c", taken], check=False)  # noqa: S603 - our own
    assert died.returncode == -signal.SIGKILL
    assert (tmp_path / LOCK_NAME).exists()
    publish(tmp_path, NEW)
    assert content(tmp_path) == NEW


def test_a_failure_leaves_no_new_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(publishing.os, "fsync", full)
    with pytest.raises(OutputError):
        publish(tmp_path / "out", OLD)
    assert not (tmp_path / "out").exists()


def test_a_command_never_removes_the_set_of_another(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    for action in (compare, publish):
        with pytest.raises(OutputError, match=r"make: a workshop's files.*Choose another folder"):
            action(tmp_path, NEW, kind="cards")
        with pytest.raises(OutputError, match="files of another command"):
            action(tmp_path, NEW, kind="remake", replaces=no_files)
    assert content(tmp_path) == OLD
    publish(tmp_path, {})
    publish(tmp_path, NEW, kind="cards")
    with pytest.raises(OutputError, match="measuring cards"):
        publish(tmp_path, OLD)
    publish(tmp_path, NEW, kind="cards")
    assert content(tmp_path) == NEW


def test_a_set_that_names_no_kind_is_that_of_make_and_may_be_added_to(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    (tmp_path / MANIFEST).write_text('{"files": ["a.txt", "deep/b.txt"]}')
    with pytest.raises(OutputError, match="files of another command"):
        publish(tmp_path, NEW, kind="series")
    publish(tmp_path, {"d.txt": b"d"}, kind="remake", replaces=no_files)
    assert content(tmp_path) == OLD | {"d.txt": b"d"}
    publish(tmp_path, NEW)
    assert content(tmp_path) == NEW
    with pytest.raises(OutputError, match="files of another command"):
        publish(tmp_path, OLD, kind="remake", replaces=no_files)


def test_what_was_cut_off_is_finished_by_its_own_command_alone(cut_off: Path) -> None:
    before = content(cut_off)
    with pytest.raises(OutputError, match="files of another command"):
        publish(cut_off, NEW, kind="cards")
    assert content(cut_off) == before
