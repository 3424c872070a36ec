"""A long drawing cut into windows that overlap, one for each sheet."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.errors import MeasureError

SLACK = 1e-9


@dataclass(frozen=True)
class Window:
    """The stretch of the drawing that one sheet shows; ``number`` counts from 1."""

    number: int
    start: float
    end: float


def windows(start: float, end: float, *, room: float, overlap: float) -> tuple[Window, ...]:
    """Return windows of the width ``room`` that cover a stretch, each over the end of the last.

    The last window reaches past the end where the stretch is shorter than its sheets.

    Args:
        start: Where the stretch begins.
        end: Where it ends, > start.
        room: Width of one window, > overlap.
        overlap: By how much a window reaches into the next, >= 0.

    Raises:
        MeasureError: Nothing is left of a window but its overlap.

    >>> [(w.start, w.end) for w in windows(0.0, 250.0, room=100.0, overlap=10.0)]
    [(0.0, 100.0), (90.0, 190.0), (180.0, 280.0)]
    """
    if not room > overlap >= 0.0:
        raise MeasureError(
            f"sheets with {said.mm(room)} of room and {said.mm(overlap)} of overlap",
            where="sheets",
            todo="Choose a larger sheet",
        )
    step = room - overlap
    count = max(1, math.ceil((end - start - overlap) / step - SLACK))
    return tuple(Window(n + 1, start + n * step, start + n * step + room) for n in range(count))
