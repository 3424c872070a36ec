"""Joining two tables of flags quickly, in whole words of 64 flags and in one thread.

A matrix product would do the same, but its threads get in each other's way on a busy machine.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Bools = NDArray[np.bool_]

WORD = 64


def share_flag(rows: Bools, columns: Bools) -> Bools:
    """Return which pairs have a flag in common, array ``(rows, columns)``.

    Args:
        rows: Flags, array ``(rows, n)``.
        columns: Flags, array ``(columns, n)``.

    >>> share_flag(np.array([[True, False]]), np.array([[True, True], [False, True]])).tolist()
    [[True, False]]
    """
    ours, theirs = _words(rows), _words(columns)
    met = np.zeros((len(rows), len(columns)), dtype=np.bool_)
    for k in range(ours.shape[1]):
        met |= (ours[:, k, None] & theirs[:, k]) != 0
    return met


def _words(flags: Bools) -> NDArray[np.uint64]:
    count, length = flags.shape
    padded = np.zeros((count, -(-length // WORD) * WORD), dtype=np.bool_)
    padded[:, :length] = flags
    return np.packbits(padded, axis=1).view(np.uint64)
