"""Sliding what hangs to one side, to open or to close gaps that no single item could."""

from __future__ import annotations

import numpy as np

from cleatwright.wall.search.around import Around, around, comes, goes
from cleatwright.wall.search.chance import Chance, below
from cleatwright.wall.search.compiled import compiled, lean
from cleatwright.wall.search.gaps import gaps_flat, gaps_on_rail
from cleatwright.wall.search.spots import mates_of, own_cost
from cleatwright.wall.search.state import State, lay_rail, put
from cleatwright.wall.search.tables import GRID, NONE, Bools, Ints, Tables

FURTHEST = 60


@compiled
def slide(t: Tables, s: State, movable: Ints, one: int, luck: Chance) -> None:
    """Slide the items on one side of item ``one``, at all heights or at its own.

    Each goes the same way, to the left or to the right, as far as it can and no further.
    """
    by = GRID * (1 + below(luck, FURTHEST))
    if below(luck, 2) == 0:
        by = -by
    free = _on_one_side(s, movable, one, luck)
    near = around(t, s)
    order = near.others[: near.used[0]].copy()
    # who goes first makes room for the next one
    for i in order[::-1] if by > 0 else order:
        if free[i]:
            _slide_one(t, s, near, i, by)


@compiled
def _on_one_side(s: State, movable: Ints, one: int, luck: Chance) -> Bools:
    """Return which items stand on one side of item ``one``, itself among them."""
    right, alone = below(luck, 2) == 0, below(luck, 2) == 0
    free = np.zeros(len(s.stands), dtype=np.bool_)
    there = s.box[one, 0] + s.box[one, 1]
    for i in movable:
        here = s.box[i, 0] + s.box[i, 1]
        beside = here >= there if right else here <= there
        free[i] = s.stands[i] and beside and (not alone or s.z[i] == s.z[one])
    return free


@lean
def _slide_one(t: Tables, s: State, near: Around, i: int, by: int) -> None:
    x, z, row, paid = s.box[i, 0], s.z[i], s.row[i], s.paid[i]
    s.stands[i] = False
    s.row[i] = NONE
    level = row
    if row != NONE:
        lay_rail(t, s, row)
        goes(s, near, i)
        gaps = gaps_on_rail(t, s, near, i, row)
    else:
        while level == NONE or t.levels[level] != z:
            level += 1
        goes(s, near, i)
        gaps = gaps_flat(t, s, near, i, level)
    to = _furthest(near, gaps, x, by)
    mates = mates_of(t, s, i)
    if to != x and mates.after < to + t.items[i].left < mates.before:
        x, paid = to, own_cost(t, i, level, (to, z))
    put(t, s, i, (x, z, row, paid))
    comes(s, near, i)


@lean
def _furthest(near: Around, gaps: int, x: int, by: int) -> int:
    """Return how far a left edge may go from ``x`` towards ``x + by``, in steps of the grid."""
    to = x
    for k in range(gaps):
        low, high = near.gaps[k, 0], near.gaps[k, 1]
        if low <= x <= high:
            to = max(x + by, x - (x - low) // GRID * GRID)
            if by > 0:
                to = min(x + by, x + (high - x) // GRID * GRID)
    return to
