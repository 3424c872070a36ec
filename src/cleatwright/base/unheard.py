"""Code of others, kept from writing on the terminal meanwhile."""

from __future__ import annotations

import contextlib
import logging
import os
import sys
import warnings
from collections.abc import Generator, Iterable
from contextlib import contextmanager
from typing import TextIO


@contextmanager
def unheard(logger: str) -> Generator[None]:
    """Drop what a library logs and warns of while the block runs; what counts, it raises.

    Its lines quote the file that it reads, and a terminal would obey what stands there.

    Args:
        logger: The name under which the library logs.
    """
    speaker = logging.getLogger(logger)
    speaker.addFilter(_nothing)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            yield
    finally:
        speaker.removeFilter(_nothing)


def _nothing(_record: logging.LogRecord) -> bool:
    return False


@contextmanager
def silenced() -> Generator[None]:
    """Let nothing that runs in the block write to the standard streams, by whatever way."""
    kept: dict[int, int] = {}
    with open(os.devnull, "w", encoding="utf-8") as nowhere:  # noqa: PTH123 - no place of its own
        streams = (sys.stdout, sys.stderr)
        _flush(streams)
        for number in (1, 2):
            # one may be closed
            with contextlib.suppress(OSError):
                kept[number] = os.dup(number)
                os.dup2(nowhere.fileno(), number)
        try:
            with contextlib.redirect_stdout(nowhere), contextlib.redirect_stderr(nowhere):
                yield
        finally:
            _flush(streams)
            for number, copy in kept.items():
                os.dup2(copy, number)
                os.close(copy)


def _flush(streams: Iterable[TextIO]) -> None:
    for stream in streams:
        with contextlib.suppress(OSError, ValueError):
            stream.flush()
