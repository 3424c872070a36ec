"""No traceback reaches a person: whatever goes wrong is one sentence, or one line of JSON."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import IO, Any

import pytest

from cleatwright.jobs import checking

PROGRAM = (sys.executable, "-m", "cleatwright")


def heard(
    *arguments: object,
    stdout: IO[str] | int = subprocess.PIPE,
    stderr: IO[str] | int = subprocess.PIPE,
) -> subprocess.Popen[str]:
    """Start the program so that it listens to Ctrl-C, also below a shell that does not."""
    return subprocess.Popen(  # noqa: S603 - our own program
        [*PROGRAM, *map(str, arguments)],
        text=True,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # noqa: PLW1509 - one thread
        stdout=stdout,
        stderr=stderr,
    )


def listens(running: subprocess.Popen[str]) -> bool:
    """Return whether the program has come so far that it catches a wish to stop."""
    status = Path(f"/proc/{running.pid}/status").read_text("utf-8")
    (caught,) = (line.split()[1] for line in status.splitlines() if line.startswith("SigCgt"))
    return bool(int(caught, 16) >> (signal.SIGTERM - 1) & 1)


@pytest.mark.parametrize("as_json", [False, True])
@pytest.mark.parametrize(
    ("error", "code", "says"),
    [
        (PermissionError(13, "Permission denied", "/a/b"), 5, "/a/b: The system refused: Perm"),
        (OSError(36, "File name too long", "x" * 300), 5, "File name too long"),
        (EOFError("Ran out of input"), 1, "has a fault: EOFError Ran out of input"),
        (ValueError("odd\x1b[31m\nvalue"), 1, r"has a fault: ValueError odd\x1b[31m value"),
        (RecursionError("too deep"), 1, "has a fault: RecursionError too deep"),
        (MemoryError(), 1, "not enough memory"),
    ],
)
def test_what_nobody_foresaw_is_one_sentence(
    cli: Any,
    shed: Path,
    monkeypatch: pytest.MonkeyPatch,
    error: Exception,
    code: int,
    says: str,
    *,
    as_json: bool,
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise error

    monkeypatch.setenv("XDG_STATE_HOME", str(shed / "state"))
    monkeypatch.setattr(checking, "check_workshop", broken)
    ran = cli("check", shed, *["--json"] * as_json)
    assert (ran.code, ran.out) == (code, "")
    assert ran.err.count("\n") == 1
    assert says in (f"{ran.error['where']}: {ran.error['given']}" if as_json else ran.err)
    kept = sorted((shed / "state").rglob("fault-*.txt"))
    if says.startswith("has a fault"):
        (path,) = kept
        assert path.name in ran.err
        text = path.read_text("utf-8")
        assert type(error).__name__ in text
        assert f"cleatwright check {shed}" in text
    else:
        assert kept == []


def test_a_fault_is_told_where_no_report_of_it_can_be_kept(
    cli: Any, shed: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ValueError

    (shed / "state").write_text("", "utf-8")
    monkeypatch.setenv("XDG_STATE_HOME", str(shed / "state"))
    monkeypatch.setattr(checking, "check_workshop", broken)
    ran = cli("check", shed, "--json")
    assert ran.code == 1
    assert ran.error["todo"].startswith("Report it to its makers with the command")


@pytest.mark.parametrize(
    "command",
    [("check",), ("make",), ("hung",), ("hung", "--show"), ("remake", "0000000")],
    ids=" ".join,
)
def test_a_name_of_300_letters_is_told(cli: Any, command: tuple[str, ...]) -> None:
    ran = cli(command[0], "x" * 300, *command[1:], "--json")
    assert ran.code in {2, 5}
    assert ran.error["given"]


def test_an_output_folder_with_a_name_of_300_letters_is_told(cli: Any, shed: Path) -> None:
    ran = cli("cards", "--kinds", "can", "--out", shed / ("x" * 300), "--json")
    assert ran.code == 5
    assert "File name too long" in ran.error["given"]


def test_a_pipe_in_the_place_of_a_file_is_told_and_never_read(cli: Any, shed: Path) -> None:
    pipe = shed / "pipe.csv"
    os.mkfifo(pipe)
    for command in (("check", pipe), ("import", shed, pipe), ("receive", shed, pipe)):
        ran = cli(*command, "--json")
        assert ran.code in {2, 5}
        assert "no ordinary file" in ran.error["given"]


@pytest.mark.parametrize("command", [("list", "mounts"), ("list", "mounts", "--json")])
def test_an_answer_that_cannot_be_written_is_told(command: tuple[str, ...]) -> None:
    """The device /dev/full takes nothing: every write says that the disk is full."""
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        running = heard(*command, stdout=full)
        err = running.communicate()[1]
        assert running.returncode == 5
        assert err.count("\n") == 1
        assert "No space left on device" in err
        running = heard(*command, stdout=full, stderr=full)
        running.communicate()
        assert running.returncode == 5


def test_whose_reader_goes_away_ends_as_a_shell_knows_it_and_says_nothing() -> None:
    """128 and the number of SIGPIPE, by the manual of bash; 1 would be a fault of the program."""
    running = heard("list", "families", "--json")
    assert running.stdout is not None
    running.stdout.close()
    assert running.stderr is not None
    assert running.stderr.read() == ""
    running.wait()
    running.stderr.close()
    assert running.returncode == 141


@pytest.mark.parametrize(
    ("wait_s", "number"),
    [(0.0, signal.SIGINT), (0.2, signal.SIGTERM), (0.6, signal.SIGHUP), (1.2, signal.SIGINT)],
)
def test_whoever_asks_twice_to_stop_is_told_once(
    shed: Path, wait_s: float, number: signal.Signals
) -> None:
    """A wish that comes when all is made already changes nothing: the answer is whole."""
    running = heard("make", shed, "--json")
    while not listens(running):
        time.sleep(0.002)
    time.sleep(wait_s)
    running.send_signal(number)
    time.sleep(0.05)
    running.send_signal(number)
    out, err = running.communicate()
    if wait_s and running.returncode == 0:
        assert json.loads(out)["holders"]
        assert err == ""
        return
    assert (running.returncode, out) == (130, "")
    assert err.count("\n") == 1
    told = json.loads(err)["error"]
    assert told["code"] == "cancelled"
    by = "as you asked" if number == signal.SIGINT else f"from outside ({number.name})"
    assert told["given"].startswith(f"stopped {by}; every folder")


LEAVES_LATE = """
import atexit, os, signal, sys
from cleatwright.cli.main import run
atexit.register(lambda: os.kill(os.getpid(), signal.SIGINT))
sys.argv = ["cleatwright", "list", "mounts", "--json"]
run()
"""


def test_a_wish_to_stop_while_the_program_leaves_makes_no_failure() -> None:
    running = subprocess.run(  # noqa: S603 - our own program
        [sys.executable, "-c", LEAVES_LATE], capture_output=True, text=True, check=False
    )
    assert (running.returncode, running.stderr) == (0, "")
    assert json.loads(running.stdout)
