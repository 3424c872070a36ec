"""Moving everything on one height to another one: what no taking away of a few would find."""

from __future__ import annotations

import numpy as np

from cleatwright.wall.search.around import around, comes
from cleatwright.wall.search.chance import Chance, below
from cleatwright.wall.search.compiled import compiled
from cleatwright.wall.search.spots import spot_at
from cleatwright.wall.search.state import State, put, take
from cleatwright.wall.search.tables import FAR, NONE, Bools, Ints, Tables

FURTHEST = 4


@compiled
def shift(t: Tables, s: State, movable: Ints, luck: Chance) -> Ints:
    """Move what hangs on one height up or down, at its place along the wall, where it can.

    What is in its way there is taken away, and so is what finds no place at the new height; two
    heights change places when both are in use. Return what was taken away and moved.
    """
    free = np.zeros(len(s.stands), dtype=np.bool_)
    for i in movable:
        free[i] = s.stands[i] and s.row[i] != NONE
    old = _height(s, free, luck)
    new = _other_height(t, old, luck)
    if FAR in (old, new):
        return movable[:0]
    moved = _on(s, free, old)
    aside = _in_the_way(t, s, free, moved, new)
    x = np.empty(len(s.stands), dtype=np.int64)
    for i in range(len(x)):
        x[i] = s.box[i, 0]
    swapped = np.zeros(len(s.stands), dtype=np.bool_)
    for i in aside:
        swapped[i] = s.z[i] == new
    taken = np.concatenate((moved, aside))
    take(t, s, taken)
    near = around(t, s)
    for k in range(len(taken)):
        i = taken[k]
        if k >= len(moved) and not swapped[i]:
            continue
        spot = spot_at(t, s, near, i, (int(x[i]), old if swapped[i] else new))
        if spot[0] != FAR:
            put(t, s, i, spot)
            comes(s, near, i)
    return taken


@compiled
def _height(s: State, free: Bools, luck: Chance) -> int:
    """Return the height of one of the items, or FAR."""
    count = 0
    for i in range(len(free)):
        count += int(free[i])
    if count == 0:
        return FAR
    turn = below(luck, count)
    for i in range(len(free)):
        if free[i]:
            if turn == 0:
                return s.z[i]
            turn -= 1
    return FAR


@compiled
def _other_height(t: Tables, old: int, luck: Chance) -> int:
    """Return a height of rails a few rows above or below, or FAR."""
    here, count = NONE, 0
    heights = np.empty(len(t.rails), dtype=np.int64)
    for r in range(len(t.rails)):
        z = t.rails[r].z
        if count == 0 or heights[count - 1] != z:
            heights[count] = z
            if z == old:
                here = count
            count += 1
    far = 1 + below(luck, FURTHEST)
    there = here + far if below(luck, 2) == 0 else here - far
    if here == NONE or there < 0 or there >= count:
        return FAR
    return heights[there]


@compiled
def _on(s: State, free: Bools, z: int) -> Ints:
    found = np.empty(len(free), dtype=np.int64)
    count = 0
    for i in range(len(free)):
        if free[i] and s.z[i] == z:
            found[count] = i
            count += 1
    return found[:count]


@compiled
def _in_the_way(t: Tables, s: State, free: Bools, moved: Ints, new: int) -> Ints:
    """Return what else stands where the moved items shall hang, or on rails too near."""
    found = np.empty(len(free), dtype=np.int64)
    count = 0
    apart = t.rails[0].high - t.rails[0].low + t.rule[0].gap
    for j in range(len(free)):
        if not free[j] or _is_in(moved, j):
            continue
        meets = s.row[j] != NONE and s.z[j] != new and abs(s.z[j] - new) < apart
        for i in moved:
            low, high = new - t.items[i].down, new + t.items[i].up
            beside = s.box[j, 0] < s.box[i, 1] and s.box[j, 1] > s.box[i, 0]
            meets = meets or (beside and s.box[j, 2] < high and s.box[j, 3] > low)
        if meets or s.z[j] == new:
            found[count] = j
            count += 1
    return found[:count]


@compiled
def _is_in(items: Ints, wanted: int) -> bool:
    found = False
    for i in items:
        found = found or i == wanted
    return found
