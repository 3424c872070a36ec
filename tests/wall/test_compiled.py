"""Compiled code is kept where caches belong, and damage to it costs time and nothing else."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numba
import pytest

from cleatwright.wall.search.chance import below, chance
from cleatwright.wall.search.kept_code import ENDING, MOST_KEPT, KeptCode, anything_in, kept_in

LIBRARY: Any = numba
Kept = Callable[[Path], Any]

USER = """
from cleatwright.wall.search import compiled


@compiled.entry
def add(a, b):
    return a + b


before = compiled.first_time()
print(compiled._FOLDER, before, add(2, 3), compiled.first_time())
"""


def add(a: int, b: int) -> int:
    return a + b


@pytest.fixture
def kept() -> Kept:
    """Return a callable that gives the sum of two numbers, compiled by way of a folder."""

    def make(folder: Path) -> Any:
        made = LIBRARY.njit(add)
        made._cache = KeptCode(add, folder)
        return made

    return make


def run(home: Path, **more: str) -> list[str]:
    """Return the folder, whether nothing was compiled, the sum, and whether nothing is now."""
    done = subprocess.run(  # noqa: S603 - our own interpreter and code
        [sys.executable, "-c", USER],
        env={**os.environ, "XDG_CACHE_HOME": str(home), **more},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stderr == ""
    return done.stdout.split()


def test_what_was_compiled_is_kept_in_the_folder_for_caches(tmp_path: Path) -> None:
    """The variable is that of the XDG Base Directory Specification, 0.8."""
    first, new, total, still_new = run(tmp_path)
    assert (new, total, still_new) == ("True", "5", "False")
    assert run(tmp_path) == [first, "False", "5", "False"]
    assert Path(first).parent == tmp_path / "cleatwright"


def test_without_room_it_is_compiled_in_each_run(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    assert run(tmp_path / "file") == ["None", "True", "5", "True"]


def test_other_code_has_another_folder_and_the_oldest_ones_go(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "home"))
    code = tmp_path / "code"
    code.mkdir()
    folders: list[Path] = []
    for number in range(MOST_KEPT + 2):
        (code / "a.py").write_text(f"A = {number}\n", "utf-8")
        folder = kept_in(code)
        assert folder is not None
        assert kept_in(code) == folder
        folders.append(folder)
        os.utime(folder, (number, number))
    assert len(set(folders)) == MOST_KEPT + 2
    assert {path for path in folders if path.exists()} == set(folders[-MOST_KEPT:])


def test_a_relative_folder_for_caches_is_passed_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As the XDG Base Directory Specification, 0.8, asks: all paths must be absolute."""
    here, home = tmp_path / "here", tmp_path / "home"
    here.mkdir()
    monkeypatch.chdir(here)
    monkeypatch.setenv("XDG_CACHE_HOME", "relative")
    monkeypatch.setenv("HOME", str(home))
    folder = kept_in(here)
    assert folder is not None
    assert folder.parent == home / ".cache" / "cleatwright"
    assert list(here.iterdir()) == []


def test_it_is_loaded_and_not_compiled_again(tmp_path: Path, kept: Kept) -> None:
    first, second = kept(tmp_path), kept(tmp_path)
    assert first(2, 3) == 5
    assert anything_in(tmp_path)
    assert second(2, 3) == 5
    assert (sum(first.stats.cache_hits.values()), sum(second.stats.cache_hits.values())) == (0, 1)


@pytest.mark.parametrize("damage", ["empty", "cut", "turned", "folder", "other types"])
def test_a_damaged_file_is_compiled_anew_and_mended(
    tmp_path: Path, kept: Kept, damage: str
) -> None:
    kept(tmp_path)(2, 3)
    (path,) = tmp_path.glob(f"*{ENDING}")
    whole = path.read_bytes()
    if damage == "empty":
        path.write_bytes(b"")
    elif damage == "cut":
        path.write_bytes(whole[: len(whole) // 2])
    elif damage == "turned":
        path.write_bytes(whole[:-100] + bytes([whole[-100] ^ 1]) + whole[-99:])
    elif damage == "folder":
        path.unlink()
        path.mkdir()
    else:
        kept(tmp_path)(2.0, 3.0)
        (other,) = set(tmp_path.glob(f"*{ENDING}")) - {path}
        path.write_bytes(other.read_bytes())
    again = kept(tmp_path)
    assert again(2, 3) == 5
    assert not sum(again.stats.cache_hits.values())
    if damage != "folder":
        mended = kept(tmp_path)
        assert mended(2, 3) == 5
        assert sum(mended.stats.cache_hits.values()) == 1


def test_a_full_disk_keeps_nothing_and_leaves_no_half_file(
    tmp_path: Path, kept: Kept, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(self: Path, target: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    assert kept(tmp_path)(2, 3) == 5
    assert list(tmp_path.iterdir()) == []


def test_what_has_no_way_in_for_the_interpreter_says_so() -> None:
    """Without the class of its own the library jumps to no address at all and the program ends."""
    with pytest.raises(TypeError, match="below is called by compiled code only"):
        below(chance(1), 5)
