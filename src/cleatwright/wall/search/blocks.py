"""What keeps an item from standing in a row: stretches of x that are taken."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from cleatwright.wall.search.compiled import compiled
from cleatwright.wall.search.state import State
from cleatwright.wall.search.tables import FAR, NONE, Ints, Tables


class Blocks(NamedTuple):
    """Where an item cannot stand in one row.

    Args:
        taken: The whole left edge of the item may not lie between the two, array ``(m, 2)``.
        used: How many of them are in use, an array of one number.
        tried: Room for the left edges that are tried.
        low: The least whole left edge.
        high: The largest.
    """

    taken: Ints
    used: Ints
    tried: Ints
    low: int
    high: int


@compiled
def room_for_blocks(t: Tables) -> tuple[Ints, Ints, Ints]:
    """Return the arrays that ``blocks_on_rail`` and ``blocks_flat`` fill."""
    most = 2 * len(t.items) + len(t.hot) + len(t.rails)
    tried = 2 * most + 2 * len(t.studs) + 16
    return (
        np.empty((most, 2), dtype=np.int64),
        np.zeros(1, dtype=np.int64),
        np.empty(tried, dtype=np.int64),
    )


@compiled
def blocks_on_rail(t: Tables, s: State, i: int, row: int, into: tuple[Ints, Ints, Ints]) -> Blocks:
    """Return what keeps item ``i`` from hanging in a row of rails."""
    taken, count, tried = into
    count[0] = 0
    z = t.rails[row].z
    _wholes(t, s, i, z, into)
    span = (s.hull[row, 0], s.hull[row, 1])
    from_x, to_x = t.rails[row].from_x, t.rails[row].to_x
    for j in range(len(s.stands)):
        if not s.stands[j] or (s.row[j] != NONE and s.z[j] == z):
            continue
        if s.bar[j, 2] < t.rails[row].high and s.bar[j, 3] > t.rails[row].low:
            from_x, to_x = _beside(from_x, to_x, span, (s.bar[j, 0], s.bar[j, 1]))
            _block(
                taken,
                count,
                s.bar[j, 0] - t.items[i].left - t.items[i].plate,
                s.bar[j, 1] - t.items[i].left,
            )
    for r in range(len(t.rails)):
        if s.hull[r, 0] == FAR or t.rails[r].z == z:
            continue
        low, high = t.rails[r].low, t.rails[r].high
        near = t.rails[row].low < high + t.rule[0].gap and t.rails[row].high > low - t.rule[0].gap
        # an item must not bear on a rail at another height
        if near:
            from_x, to_x = _beside(from_x, to_x, span, (s.hull[r, 0], s.hull[r, 1]))
        if near or (z - t.items[i].bear < high and z > low):
            _block(
                taken,
                count,
                s.hull[r, 0] - t.items[i].left - t.items[i].plate,
                s.hull[r, 1] - t.items[i].left,
            )
    low = max(0, from_x - t.items[i].left)
    high = min(t.rule[0].width - t.items[i].whole, to_x - t.items[i].left - t.items[i].plate)
    return Blocks(taken, count, tried, low, high)


@compiled
def blocks_flat(t: Tables, s: State, i: int, level: int, into: tuple[Ints, Ints, Ints]) -> Blocks:
    """Return what keeps item ``i`` from being screwed flat to the wall at a level."""
    taken, count, tried = into
    count[0] = 0
    z = t.levels[level]
    _wholes(t, s, i, z, into)
    for r in range(len(t.rails)):
        if s.hull[r, 0] == FAR:
            continue
        if z - t.items[i].down < t.rails[r].high and z + t.items[i].up > t.rails[r].low:
            _block(taken, count, s.hull[r, 0] - t.items[i].whole, s.hull[r, 1])
    return Blocks(taken, count, tried, 0, t.rule[0].width - t.items[i].whole)


@compiled
def _wholes(t: Tables, s: State, i: int, z: int, into: tuple[Ints, Ints, Ints]) -> None:
    """Add the other items and the obstacles that the whole rectangle would meet."""
    taken, count, _ = into
    z0, z1, whole = z - t.items[i].down, z + t.items[i].up, t.items[i].whole
    for j in range(len(s.stands)):
        if s.stands[j] and z0 < s.box[j, 3] and z1 > s.box[j, 2]:
            _block(taken, count, s.box[j, 0] - whole, s.box[j, 1])
    boxes = t.hot if t.items[i].cool else t.obstacles
    for k in range(len(boxes)):
        if z0 < boxes[k, 3] and z1 > boxes[k, 2]:
            _block(taken, count, boxes[k, 0] - whole, boxes[k, 1])


@compiled
def _beside(from_x: int, to_x: int, span: tuple[int, int], bar: tuple[int, int]) -> tuple[int, int]:
    """Return from where to where a rail may grow past which a bar stands."""
    # a rail that is not there yet lies on either side
    if span[0] < FAR:
        if bar[1] <= span[0]:
            from_x = max(from_x, bar[1])
        if bar[0] >= span[1]:
            to_x = min(to_x, bar[0])
    return from_x, to_x


@compiled
def _block(taken: Ints, count: Ints, low: int, high: int) -> None:
    taken[count[0], 0], taken[count[0], 1] = low, high
    count[0] += 1


@compiled
def is_free(blocks: Blocks, x: int) -> bool:
    """Return whether the whole left edge may lie at ``x``."""
    if x < blocks.low or x > blocks.high:
        return False
    free = True
    for k in range(blocks.used[0]):
        free = free and not blocks.taken[k, 0] < x < blocks.taken[k, 1]
    return free
