"""The best spot for one more item among those that stand."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from cleatwright.wall.search.blocks import (
    Blocks,
    blocks_flat,
    blocks_on_rail,
    is_free,
    room_for_blocks,
)
from cleatwright.wall.search.chance import Chance, share
from cleatwright.wall.search.compiled import compiled
from cleatwright.wall.search.snug import touching_sides
from cleatwright.wall.search.state import State, group_box
from cleatwright.wall.search.tables import FAR, GRID, NONE, Tables

NOISE = 0.15
# how spots are weighed against each other
BY_COST, BY_NOISY_COST, BY_TOUCH = 0, 1, 2

Spot = tuple[int, int, int, int]
"""Whole left edge, hang height, rail row or NONE, own cost; (FAR, 0, NONE, 0) is no spot."""


class Mates(NamedTuple):
    """The box round the group of an item, and the left edges between which its rank lies."""

    x0: int
    x1: int
    z0: int
    z1: int
    after: int
    before: int


@compiled
def best_spot(t: Tables, s: State, i: int, closed: int, way: int, luck: Chance) -> Spot:
    """Return the best free spot of item ``i``, or no spot.

    Args:
        t: The problem.
        s: What stands.
        i: The item, which does not stand.
        closed: A height of rails not to use, or FAR.
        way: How spots are weighed against each other.
        luck: Random numbers.
    """
    into = room_for_blocks(t)
    mates = _mates(t, s, i)
    on_rail = t.items[i].on_rail
    best: Spot = (FAR, 0, NONE, 0)
    least = np.inf
    for turn in range(t.turns.shape[1]):
        row = int(t.turns[i, turn])
        # noise only adds, so that what costs more by itself is never better
        if row == NONE or (way <= BY_NOISY_COST and t.unary[i, row] >= least):
            break
        opened = _opening_cost(t, s, i, row)
        z = t.rails[row].z if on_rail else t.levels[row]
        if z == closed or (way <= BY_NOISY_COST and t.unary[i, row] + opened >= least):
            continue
        blocks = blocks_on_rail(t, s, i, row, into) if on_rail else blocks_flat(t, s, i, row, into)
        worth, x, own = _best_in_row(t, s, i, (row, z, opened), mates, blocks, way, luck)
        if worth < least:
            least = worth
            best = (x, z, row if on_rail else NONE, own)
    return best


@compiled
def _best_in_row(
    t: Tables,
    s: State,
    i: int,
    there: tuple[int, int, int],
    mates: Mates,
    blocks: Blocks,
    way: int,
    luck: Chance,
) -> tuple[float, int, int]:
    """Return worth, whole left edge and own cost of the best spot in a row; infinite for none.

    ``there`` is the row, its hang height, and what it costs that there is a rail.
    """
    row, z, opened = there
    left = t.items[i].left
    best: tuple[float, int, int] = (np.inf, 0, 0)
    for k in range(_candidates(t, s, i, row, mates, blocks)):
        x = int(blocks.tried[k])
        if not is_free(blocks, x) or not mates.after < x + left < mates.before:
            continue
        own = _own_cost(t, i, row, (x, z))
        worth = _worth(t, s, i, (x, z, row, own + opened), mates, way, luck)
        if worth < best[0]:
            best = (worth, x, own)
    return best


@compiled
def spot_at(t: Tables, s: State, i: int, at: tuple[int, int]) -> Spot:
    """Return the spot of item ``i`` at a whole left edge and hang height, or no spot."""
    x, z = at
    mates = _mates(t, s, i)
    on_rail = t.items[i].on_rail
    into = room_for_blocks(t)
    for turn in range(t.turns.shape[1]):
        row = int(t.turns[i, turn])
        if row == NONE:
            break
        if z != (t.rails[row].z if on_rail else t.levels[row]):
            continue
        blocks = blocks_on_rail(t, s, i, row, into) if on_rail else blocks_flat(t, s, i, row, into)
        if is_free(blocks, x) and mates.after < x + t.items[i].left < mates.before:
            return x, z, row if on_rail else NONE, _own_cost(t, i, row, (x, z))
    none: Spot = (FAR, z, NONE, 0)
    return none


@compiled
def _worth(t: Tables, s: State, i: int, spot: Spot, mates: Mates, way: int, luck: Chance) -> float:
    x, z, row, own = spot
    if way == BY_TOUCH:
        return share(luck) - touching_sides(t, s, i, (x, z))
    cost = own + _group_cost(t, i, (x, z), mates)
    if t.items[i].on_rail:
        cost += _length_cost(t, s, i, row, x)
    if way == BY_NOISY_COST:
        return cost * (1.0 + NOISE * share(luck))
    return float(cost)


@compiled
def _mates(t: Tables, s: State, i: int) -> Mates:
    x0, x1, z0, z1 = group_box(t, s, t.items[i].group)
    after, before = -FAR, FAR
    if t.items[i].rank != NONE:
        for j in range(len(s.stands)):
            if s.stands[j] and t.items[j].group == t.items[i].group and t.items[j].rank != NONE:
                edge = s.box[j, 0] + t.items[j].left
                if t.items[j].rank < t.items[i].rank:
                    after = max(after, edge)
                if t.items[j].rank > t.items[i].rank:
                    before = min(before, edge)
    return Mates(x0, x1, z0, z1, after, before)


@compiled
def _candidates(t: Tables, s: State, i: int, row: int, mates: Mates, blocks: Blocks) -> int:
    """Write the left edges worth trying into ``blocks.tried`` and return how many there are."""
    xs = blocks.tried
    left, whole, plate = t.items[i].left, t.items[i].whole, t.items[i].plate
    count = 0
    for k in range(blocks.used[0]):
        xs[count] = _to_right(blocks.taken[k, 1], left)
        xs[count + 1] = _to_left(blocks.taken[k, 0], left)
        count += 2
    xs[count] = _to_right(blocks.low, left)
    xs[count + 1] = _to_left(blocks.high, left)
    xs[count + 2] = t.items[i].home_x
    count += 3
    if t.rule[0].easy_x < FAR:
        xs[count] = _to_right(t.rule[0].easy_x - left - plate // 2, left)
        count += 1
    if mates.x0 < FAR:
        xs[count] = _to_right(mates.x0, left)
        xs[count + 1] = _to_left(mates.x1 - whole, left)
        xs[count + 2] = _to_right(mates.x1, left)
        xs[count + 3] = _to_left(mates.x0 - whole, left)
        count += 4
    if mates.after > -FAR:
        xs[count] = _to_right(mates.after - left + 1, left)
        count += 1
    if not t.items[i].on_rail:
        return count
    if s.hull[row, 0] < FAR:
        xs[count] = _to_right(s.hull[row, 0] - left, left)
        xs[count + 1] = _to_left(s.hull[row, 1] - left - plate, left)
        xs[count + 2] = _to_right(s.hull[row, 1] - left, left)
        xs[count + 3] = _to_left(s.hull[row, 0] - left - plate, left)
        return count + 4
    for k in range(len(t.studs)):
        xs[count] = _to_right(t.studs[k] - t.rule[0].stud_end - left, left)
        xs[count + 1] = _to_left(t.studs[k] + t.rule[0].stud_end - left - plate, left)
        count += 2
    return count


@compiled
def _to_right(x: int, left: int) -> int:
    """Return the first whole left edge at or right of ``x`` whose plate begins on the grid."""
    return -(-(x + left) // GRID) * GRID - left


@compiled
def _to_left(x: int, left: int) -> int:
    return (x + left) // GRID * GRID - left


@compiled
def _own_cost(t: Tables, i: int, row: int, at: tuple[int, int]) -> int:
    cost = t.unary[i, row]
    if t.rule[0].easy_x < FAR:
        aside = abs(at[0] + t.items[i].left + t.items[i].plate // 2 - t.rule[0].easy_x)
        cost += int(np.rint(t.items[i].sideways * aside))
    if t.items[i].home_x < FAR and (at[0] != t.items[i].home_x or at[1] != t.items[i].home_z):
        cost += t.rule[0].moved_cost
    return cost


@compiled
def _group_cost(t: Tables, i: int, at: tuple[int, int], mates: Mates) -> int:
    if mates.x0 == FAR:
        return 0
    wide = max(mates.x1, at[0] + t.items[i].whole) - min(mates.x0, at[0]) - (mates.x1 - mates.x0)
    tall = max(mates.z1, at[1]) - min(mates.z0, at[1]) - (mates.z1 - mates.z0)
    return t.rule[0].group_cost * (wide + tall)


@compiled
def _opening_cost(t: Tables, s: State, i: int, row: int) -> int:
    """Return what it costs that there is a rail for item ``i``, 0 when there is one already."""
    if not t.items[i].on_rail or t.rails[row].kept or s.hull[row, 0] < FAR:
        return 0
    cost = int(t.rule[0].weak_cost) if t.rails[row].weak else 0
    for r in range(len(t.rails)):
        if t.rails[r].z == t.rails[row].z and s.hull[r, 0] < FAR and not t.rails[r].kept:
            return cost
    return cost + t.rule[0].rail_cost


@compiled
def _length_cost(t: Tables, s: State, i: int, row: int, x: int) -> int:
    """Return what the rail costs more by its length when item ``i`` hangs on it."""
    if t.rails[row].kept:
        return 0
    a = x + t.items[i].left
    b = a + t.items[i].plate
    if s.hull[row, 0] < FAR:
        first, last = s.hull[row, 0], s.hull[row, 1]
        return t.rule[0].length_cost * (max(last, b) - min(first, a) - (last - first))
    if t.rails[row].weak:
        return t.rule[0].length_cost * (b - a)
    return t.rule[0].length_cost * _with_studs(t, row, (a, b))


@compiled
def _with_studs(t: Tables, row: int, span: tuple[int, int]) -> int:
    """Return the length of a new rail on to two studs; what is in its way is not looked at."""
    if len(t.studs) == 0:
        return span[1] - span[0]
    length = FAR
    for k in range(len(t.studs) - 1):
        a, b = t.studs[k] - t.rule[0].stud_end, t.studs[k + 1] + t.rule[0].stud_end
        if a >= t.rails[row].from_x and b <= t.rails[row].to_x:
            length = min(length, max(b, span[1]) - min(a, span[0]))
    return length
