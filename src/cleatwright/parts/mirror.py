"""The one border between the frames of parts and what a person reads.

A part is laid out with x to the reader's left, so that with y out of the wall and z up its frame
is right-handed. Documents, drawings and places on a wall count x to the right. Whatever goes
from one to the other is turned round here, and nowhere else.

     reader      0 ──────────┬────────► x       right edge of a part, its own x = 0, lies at
                             │                  ``origin_mm`` for the reader
     part             x ◄────┴─ 0
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

Thing = TypeVar("Thing")


def to_reader(x_mm: float, *, origin_mm: float = 0.0) -> float:
    """Return the x for the reader of an x of a part.

    Args:
        x_mm: The x in the frame of the part, to the reader's left.
        origin_mm: Where the reader finds its x = 0: the width of the part when distances are
            counted from its left edge, 0 for the frame of a wall.

    >>> to_reader(30.0, origin_mm=100.0), to_reader(70.0, origin_mm=100.0)
    (70.0, 30.0)
    """
    return origin_mm - x_mm


def to_part(x_mm: float) -> float:
    """Return the x in the frame of a part of an x on the wall; undoes ``to_reader``."""
    return -x_mm


def turned(things: Sequence[Thing]) -> tuple[Thing, ...]:
    """Return what is listed by growing x of a part from left to right for the reader, or back."""
    return tuple(reversed(things))
