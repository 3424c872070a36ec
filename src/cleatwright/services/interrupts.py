"""Holding back Ctrl-C over work that must not stop half-way."""

from __future__ import annotations

import signal
import threading
from collections.abc import Generator
from contextlib import contextmanager
from types import FrameType


@contextmanager
def held_back() -> Generator[None]:
    """Hold back an interrupt until the block is done.

    Needed where files change places, and where native libraries load: some of them crash
    when they are interrupted while they set themselves up.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    caught: list[int] = []

    def remember(number: int, frame: FrameType | None) -> None:  # noqa: ARG001 - the signature of a handler
        caught.append(number)

    before = signal.signal(signal.SIGINT, remember)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        if caught:
            signal.raise_signal(signal.SIGINT)
