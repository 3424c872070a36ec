"""What stands round an item that looks for its spot, from left to right."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from cleatwright.wall.search.compiled import entry, lean
from cleatwright.wall.search.state import State
from cleatwright.wall.search.tables import FAR, NONE, Ints, Tables


class Around(NamedTuple):
    """What stands around an item that has no place yet, and room to work with it.

    Args:
        others: The items that stand, from left to right; those in use come first.
        open: The rows of rails in use.
        used: How many of both are in use, array ``(2,)``.
        taken: Between the two of a pair the whole left edge may not lie, array ``(m, 2)``.
        gaps: From where to where it may lie, array ``(m + 1, 2)``.
        bends: Left edges where the cost in a row bends.
        rows: The rows or levels in which the item may still have its best spot.
        lowest: What it costs at least in each of them.
        opened: What it costs there that there is a rail.
    """

    others: Ints
    open: Ints
    used: Ints
    taken: Ints
    gaps: Ints
    bends: Ints
    rows: Ints
    lowest: Ints
    opened: Ints


@entry
def around(t: Tables, s: State) -> Around:
    """Return what stands."""
    n, rows, turns = len(s.stands), len(s.weak), t.turns.shape[1]
    most = n + len(t.hot) + rows + len(t.barred)
    near = Around(
        np.empty(n, dtype=np.int64),
        np.empty(rows, dtype=np.int64),
        np.empty(2, dtype=np.int64),
        np.empty((most, 2), dtype=np.int64),
        np.empty((most + 1, 2), dtype=np.int64),
        np.empty(10 + 2 * len(t.studs), dtype=np.int64),
        np.empty(turns, dtype=np.int64),
        np.empty(turns, dtype=np.int64),
        np.empty(turns, dtype=np.int64),
    )
    near.used[0] = near.used[1] = 0
    for j in range(len(s.stands)):
        if s.stands[j]:
            _note(s, near, j)
    for r in range(len(s.weak)):
        if s.hull[r, 0] < FAR:
            near.open[near.used[1]] = r
            near.used[1] += 1
    return near


@lean
def comes(s: State, near: Around, j: int) -> None:
    """Note that one more item stands; its rail is laid anew before."""
    _note(s, near, j)
    if s.row[j] == NONE:
        return
    known = False
    for k in range(near.used[1]):
        known = known or near.open[k] == s.row[j]
    if not known:
        near.open[near.used[1]] = s.row[j]
        near.used[1] += 1


@lean
def goes(s: State, near: Around, j: int) -> None:
    """Note that an item no longer stands; its rail is laid anew before."""
    k = 0
    while near.others[k] != j:
        k += 1
    near.used[0] -= 1
    for m in range(k, near.used[0]):
        near.others[m] = near.others[m + 1]
    used = 0
    for k in range(near.used[1]):
        if s.hull[near.open[k], 0] < FAR:
            near.open[used] = near.open[k]
            used += 1
    near.used[1] = used


@lean
def _note(s: State, near: Around, j: int) -> None:
    k = near.used[0]
    while k > 0 and s.box[near.others[k - 1], 0] > s.box[j, 0]:
        near.others[k] = near.others[k - 1]
        k -= 1
    near.others[k] = j
    near.used[0] += 1
