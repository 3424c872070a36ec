"""The program ``cleatwright``."""

from __future__ import annotations

import contextlib
import gc
import os
import signal
import sys

from cleatwright.base.errors import Cancelled, CleatwrightError
from cleatwright.cli import streams
from cleatwright.cli.stopping import Stopping

NOBODY_READS = 128 + signal.SIGPIPE
"""As a shell tells of a program whose reader went away, such as ``yes | head -1``: 141."""
RING_LOOKS = 50_000
"""So many things more than before are made until rings of unused ones are looked for."""


def run() -> None:
    """Run the program and leave with its exit code."""
    # the library that checks documents would look for plug-ins of its own in every package, and
    # fails over one broken list of entry points
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    # a run lives for seconds and makes few rings; looking for them at the usual pace goes again and
    # again through all that was loaded
    gc.set_threshold(RING_LOOKS, 20, 20)
    stopping = Stopping()
    stopping.begin()
    streams.prepare()
    code = main(sys.argv[1:], stopping=stopping)
    if code == Cancelled.exit_code:
        # all is cleared away, and lanes of a search that still run are not waited for
        os._exit(code)
    # the answer is out whole: a wish to stop that comes now must not make it a failure
    stopping.end()
    sys.exit(code)


def main(arguments: list[str], *, stopping: Stopping | None = None) -> int:
    """Run one command and return its exit code.

    Whatever goes wrong is told in a sentence, or in JSON when the command asks for it.
    """
    stopping = stopping or Stopping()
    try:
        # what this needs takes a third of a second to load, in which a person may want to stop
        from cleatwright.cli.commands import answer  # noqa: PLC0415

        code = answer(arguments)
        streams.flush_answer()
    except BrokenPipeError:
        code = int(NOBODY_READS)
    except KeyboardInterrupt:
        stopping.end()
        error = _stopped(stopping)
        code = error.exit_code
        _print(error, as_json="--json" in arguments)
    except Exception as problem:  # noqa: BLE001 - no traceback reaches a person
        code = _reported(problem, arguments)
    streams.give_up()
    return code


def _reported(problem: Exception, arguments: list[str]) -> int:
    from cleatwright.cli import faults  # noqa: PLC0415 - when it is needed

    error = faults.reported(problem, arguments)
    _print(error, as_json="--json" in arguments)
    return error.exit_code


def _print(error: CleatwrightError, *, as_json: bool) -> None:
    from cleatwright.cli import show  # noqa: PLC0415 - when it is needed

    # where nothing can be written, the exit code must do
    with contextlib.suppress(OSError, ValueError):
        show.print_error(error, as_json=as_json)


def _stopped(stopping: Stopping) -> Cancelled:
    by = "as you asked"
    if stopping.number not in {None, signal.SIGINT}:
        by = f"from outside ({signal.Signals(stopping.number).name})"
    return Cancelled(
        f"stopped {by}; every folder holds its whole old set of files or its whole new one",
        todo="Run the same command again to go on",
    )
