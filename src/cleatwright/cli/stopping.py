"""The first signal that asks to stop ends the command in order; later ones do not break it."""

from __future__ import annotations

import signal
import time
from types import FrameType

from cleatwright.base.interrupts import STOPPING

AGAIN_S = 1.0


class Stopping:
    """Turns a signal that asks to stop into an interrupt, and knows which one it was.

    A second one within a second of the first is the same wish: whoever is impatient presses twice,
    and what is being cleared away must not be cut off.
    """

    def __init__(self) -> None:
        self.number: int | None = None
        self._last_s = 0.0
        self._heard: tuple[signal.Signals, ...] = ()

    def __call__(self, number: int, _frame: FrameType | None) -> None:
        """Interrupt whatever the program does, as a handler of signals."""
        now_s = time.monotonic()
        if self.number is not None and now_s - self._last_s < AGAIN_S:
            return
        self.number = self.number or number
        self._last_s = now_s
        raise KeyboardInterrupt

    def begin(self) -> None:
        """Listen to every signal that asks to stop, but for those that are ignored."""
        self._heard = tuple(n for n in STOPPING if signal.getsignal(n) is not signal.SIG_IGN)
        for number in self._heard:
            signal.signal(number, self)

    def end(self) -> None:
        """Ignore the signals from now on: what there is to say is said, the process only leaves."""
        for number in self._heard:
            signal.signal(number, signal.SIG_IGN)
