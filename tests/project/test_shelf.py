"""What was found before, kept on disk: it only ever saves time."""

import sqlite3
from pathlib import Path

import pytest

from cleatwright.project import shelf as module
from cleatwright.project.shelf import DiskShelf, program_key, usual_shelf

KEY = ("stage", "input")


def filled(path: Path) -> None:
    shelf = DiskShelf(path)
    shelf.put(KEY, b"found")
    shelf.close()


def test_what_was_put_there_is_found_by_the_next_run(tmp_path: Path) -> None:
    filled(tmp_path / "deep" / "found.db")
    assert DiskShelf(tmp_path / "deep" / "found.db").get(KEY) == b"found"
    assert DiskShelf(tmp_path / "deep" / "found.db").get(("stage", "other")) is None


@pytest.mark.parametrize("damage", [b"", b"no database", b"SQLite format 3\x00" + b"\xff" * 5000])
def test_a_damaged_file_counts_as_empty_and_is_begun_anew(tmp_path: Path, damage: bytes) -> None:
    path = tmp_path / "found.db"
    path.write_bytes(damage)
    shelf = DiskShelf(path)
    assert shelf.get(KEY) is None
    shelf.put(KEY, b"again")
    assert shelf.get(KEY) == b"again"


def test_bytes_that_changed_on_the_disk_count_as_nothing(tmp_path: Path) -> None:
    path = tmp_path / "found.db"
    filled(path)
    with sqlite3.connect(path) as connection:
        connection.execute("UPDATE found SET data = ?", (b"fount",))
    assert DiskShelf(path).get(KEY) is None


def test_a_place_where_nothing_can_be_written_keeps_nothing_and_stops_nothing(
    tmp_path: Path,
) -> None:
    (tmp_path / "file").write_text("in the way", "utf-8")
    shelf = DiskShelf(tmp_path / "file" / "found.db")
    shelf.put(KEY, b"found")
    assert shelf.get(KEY) is None


def test_a_file_that_another_run_holds_stops_nothing(tmp_path: Path) -> None:
    path = tmp_path / "found.db"
    filled(path)
    other = sqlite3.connect(path, isolation_level=None)
    other.execute("BEGIN EXCLUSIVE")
    shelf = DiskShelf(path)
    shelf.put(("stage", "new"), b"more")
    other.execute("ROLLBACK")
    other.close()
    shelf.put(("stage", "new"), b"more")
    assert DiskShelf(path).get(KEY) == b"found"


def test_a_file_that_grew_too_large_is_begun_anew(tmp_path: Path) -> None:
    path = tmp_path / "found.db"
    filled(path)
    assert DiskShelf(path, most_bytes=100).get(KEY) is None


def test_another_program_has_a_file_of_its_own_and_old_ones_go(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    for version in "abcde":
        monkeypatch.setattr(module, "program_key", lambda version=version: version * 12)
        one = usual_shelf()
        one.put(KEY, version.encode())
        one.close()
    kept = sorted((tmp_path / "cleatwright").glob("found-*.db"))
    assert len(kept) <= module.MOST_KEPT
    assert usual_shelf().get(KEY) == b"e"


def test_the_key_of_the_program_is_the_same_each_time() -> None:
    assert program_key() == program_key()
