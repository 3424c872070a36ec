"""The standard streams: never missing, never broken by a sign, and emptied before the end."""

from __future__ import annotations

import contextlib
import io
import os
import sys
from typing import TextIO

from cleatwright.base.errors import StorageError


def prepare() -> None:
    """Let a stream that lacks a sign show its number, and one that is closed take everything."""
    if sys.stdout is None:  # pyright: ignore[reportUnnecessaryComparison] - closed by the shell
        sys.stdout = _nowhere()
    if sys.stderr is None:  # pyright: ignore[reportUnnecessaryComparison] - closed by the shell
        sys.stderr = _nowhere()
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def flush_answer() -> None:
    """Write out what waits on standard output.

    Raises:
        BrokenPipeError: Nobody reads any more.
        StorageError: It cannot be written.
    """
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise StorageError(
            f"The answer cannot be written: {error.strerror or error}",
            where="standard output",
            todo="Send it somewhere else, or make room; files of the command are written",
        ) from error


def give_up() -> None:
    """Let go of what cannot be written, so that the interpreter does not fail over it later."""
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except (OSError, ValueError):
            with contextlib.suppress(OSError, ValueError):
                os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _nowhere() -> TextIO:
    return open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123 - as long as the program runs
