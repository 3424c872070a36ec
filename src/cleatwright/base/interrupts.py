"""Holding back signals that ask to stop, over work that must not stop half-way."""

from __future__ import annotations

import signal
import threading
from collections.abc import Generator
from contextlib import contextmanager
from types import FrameType

STOPPING: tuple[signal.Signals, ...] = tuple(
    signal.Signals[name]
    for name in ("SIGINT", "SIGTERM", "SIGHUP")
    # not every system has all of them
    if name in signal.Signals.__members__
)
"""What a person, a closing terminal and a system that shuts down send."""


@contextmanager
def defer_interrupts() -> Generator[None]:
    """Hold back every signal that asks to stop until the block is done.

    Needed where files change places, and where native libraries load: some of them crash
    when they are interrupted while they set themselves up. A signal that is ignored stays so.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    caught: list[int] = []

    def remember(number: int, frame: FrameType | None) -> None:  # noqa: ARG001 - the signature of a handler
        caught.append(number)

    before = {number: signal.getsignal(number) for number in STOPPING}
    # a handler that is none of Python's own cannot be put back
    heard = [n for n, handler in before.items() if handler not in {None, signal.SIG_IGN}]
    for number in heard:
        signal.signal(number, remember)
    try:
        yield
    finally:
        for number in heard:
            signal.signal(number, before[number])
        if caught:
            signal.raise_signal(caught[0])
