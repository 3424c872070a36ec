"""A library that reads what others wrote, kept from writing on the terminal meanwhile."""

from __future__ import annotations

import logging
import warnings
from collections.abc import Generator
from contextlib import contextmanager


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
