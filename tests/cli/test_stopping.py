"""A person who presses Ctrl-C gets one sentence and keeps what was there."""

import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from cleatwright.project.publishing import STAGING

PROGRAM = Path(sys.executable).parent / "cleatwright"
# only what has gone wrong takes as long, even on a machine with much else to do
PATIENCE_S = 600.0

Running = subprocess.Popen[str]


@contextmanager
def started(command: list[str]) -> Iterator[Running]:
    """Start the program, which never outlives the block."""
    with subprocess.Popen(  # noqa: S603 - our own program
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as running:
        try:
            yield running
        finally:
            running.kill()


def until(happened: Callable[[], bool], running: Running) -> None:
    """Wait until something has happened, while the program runs."""
    deadline = time.monotonic() + PATIENCE_S
    while not happened():
        assert running.poll() is None
        assert time.monotonic() < deadline
        time.sleep(0.005)


def loads_the_kernel(running: Running, _out: Path) -> None:
    maps = Path(f"/proc/{running.pid}/maps")
    until(lambda: "manifold3d" in maps.read_text(), running)


def builds(running: Running, out: Path) -> None:
    loads_the_kernel(running, out)
    time.sleep(1.5)


def writes(running: Running, out: Path) -> None:
    until((out / STAGING).exists, running)


@pytest.mark.usefixtures("interruptible")
def test_a_stopped_run_leaves_the_folder_as_it_was_or_complete(
    tmp_path: Path, examples: Path, shed: Path
) -> None:
    """What takes long is stopped while it builds; what is soon there, while it writes."""
    room, out = tmp_path / "room", tmp_path / "out"
    room.mkdir()
    shutil.copy(examples / "bicycle-room" / "workshop.toml", room)
    command = [str(PROGRAM), "make", "--out", str(out)]
    for moment, folder in ((loads_the_kernel, room), (builds, room), (writes, shed)):
        with started([*command, str(folder)]) as running:
            moment(running, out)
            running.send_signal(signal.SIGINT)
            said, told = running.communicate(timeout=PATIENCE_S)
        assert running.returncode == 130, (moment.__name__, told)
        assert said == ""
        assert told.startswith("Stopped ")
        assert told.count("\n") == 1
        assert not (out / STAGING).exists()
        assert not out.exists() or (out / "manifest.json").is_file()
    ran = subprocess.run(  # noqa: S603 - our own program
        [*command, str(shed)], capture_output=True, text=True, check=False
    )
    assert (ran.returncode, ran.stderr) == (0, "")
    assert (out / "report.json").is_file()


def test_no_bar_appears_in_a_pipe(shed: Path) -> None:
    ran = subprocess.run(  # noqa: S603 - our own program
        [str(PROGRAM), "make", str(shed)], capture_output=True, text=True, check=True
    )
    assert ran.stderr == ""
    assert "\x1b" not in ran.stdout
    assert "━" not in ran.stdout
