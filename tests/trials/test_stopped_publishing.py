"""A run that is stopped at any moment leaves one set, or one that the next run finishes."""

import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from cleatwright.base.errors import OutputError
from cleatwright.project.publishing import STAGING, compare, no_files, publish

SIGNALS = (signal.SIGKILL, signal.SIGTERM, signal.SIGHUP, signal.SIGINT)
Rounds = Callable[[], Iterator[random.Random]]
Start = Callable[..., subprocess.Popen[str]]


def labels(folder: Path) -> set[bytes]:
    """Return what the files of the set hold; one thing when it is one set."""
    return {
        path.read_bytes()
        for path in folder.rglob("*.txt")
        if path.relative_to(folder).parts[0] != STAGING
    }


def is_between(folder: Path) -> bool:
    try:
        compare(folder, {})
    except OutputError as error:
        return "some files are old" in str(error)
    return False


def test_a_stopped_run_leaves_one_set_or_says_that_it_is_between_two(
    tmp_path: Path, rounds: Rounds, child: Start
) -> None:
    for number, chance in enumerate(rounds()):
        folder = tmp_path / f"{number}"
        folder.mkdir()
        running = child("publishing_child.py", folder, "a")
        time.sleep(chance.uniform(0, 0.1))
        how = chance.choice(SIGNALS)
        running.send_signal(how)
        running.communicate()
        between = is_between(folder)
        assert how == signal.SIGKILL or not between
        if between:
            publish(folder, {}, replaces=no_files)
        assert len(labels(folder)) == 1
        compare(folder, {})


def test_a_run_that_is_killed_between_any_two_moves_is_finished_by_the_next(
    tmp_path: Path, rounds: Rounds
) -> None:
    for number, chance in enumerate(rounds()):
        folder = tmp_path / f"{number}"
        publish(folder, {f"{k}.txt": b"old" for k in range(8)})
        killed = f"""
import os, signal
from pathlib import Path
from cleatwright.project.publishing import publish
real, left = Path.replace, [{chance.randrange(13)}]
def replace(self, target):
    if not left[0]:
        os.kill(os.getpid(), signal.SIGKILL)
    left[0] -= 1
    return real(self, target)
Path.replace = replace
publish(Path({str(folder)!r}), {{f"{{k}}.txt": b"new" for k in range(3, 12)}})
"""
        subprocess.run([sys.executable, "-c", killed], check=False)  # noqa: S603 - our own
        if is_between(folder):
            publish(folder, {}, replaces=no_files)
            assert sorted(path.name for path in folder.glob("*.txt")) == sorted(
                f"{k}.txt" for k in range(3, 12)
            )
        assert len(labels(folder)) == 1
