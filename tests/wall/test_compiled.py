"""Where compiled code is kept, tried in processes of their own."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import cleatwright.wall.search.compiled as module

USER = """
import compiled


@compiled.compiled
def add(a, b):
    return a + b


print(compiled._FOLDER, compiled.first_time(), add(2, 3), compiled.first_time())
"""


def run(script: Path, home: Path) -> list[str]:
    """Return the folder, the sum, and whether before and after it nothing was compiled yet."""
    done = subprocess.run(  # noqa: S603 - our own interpreter and code
        [sys.executable, str(script.with_name("user.py"))],
        env={**os.environ, "XDG_CACHE_HOME": str(home), "PYTHONDONTWRITEBYTECODE": "1"},
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout.split()


def copied(folder: Path) -> Path:
    """Return a copy of the module in a folder of its own, with a user beside it."""
    folder.mkdir()
    script = folder / "compiled.py"
    shutil.copy(str(module.__file__), script)
    script.with_name("user.py").write_text(USER, "utf-8")
    return script


def test_what_was_compiled_is_kept_beside_the_code_and_old_code_is_cleared(tmp_path: Path) -> None:
    script = copied(tmp_path / "code")
    first, new, total, still_new = run(script, tmp_path / "home")
    assert (new, total, still_new) == ("True", "5", "False")
    assert run(script, tmp_path / "home") == [first, "False", "5", "False"]
    assert Path(first).parent == script.parent / "__pycache__"
    script.write_text(script.read_text("utf-8") + "\n# changed\n", "utf-8")
    second, *_ = run(script, tmp_path / "home")
    assert second != first
    assert not Path(first).exists()


def test_without_room_beside_the_code_it_is_kept_in_the_folder_of_the_person(
    tmp_path: Path,
) -> None:
    script = copied(tmp_path / "code")
    # a file in place of the folder stands for a folder that nobody may write
    (script.parent / "__pycache__").write_text("", "utf-8")
    folder, _, total, _ = run(script, tmp_path / "home")
    assert total == "5"
    assert Path(folder).parent == tmp_path / "home" / "cleatwright"


def test_without_any_room_it_still_runs(tmp_path: Path) -> None:
    script = copied(tmp_path / "code")
    (script.parent / "__pycache__").write_text("", "utf-8")
    (tmp_path / "home").write_text("", "utf-8")
    assert run(script, tmp_path / "home") == ["None", "True", "5", "True"]
