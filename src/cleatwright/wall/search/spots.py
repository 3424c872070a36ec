"""The best spot for one more item among those that stand."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from cleatwright.wall.search.around import Around
from cleatwright.wall.search.chance import Chance, share
from cleatwright.wall.search.compiled import lean, lean_entry
from cleatwright.wall.search.gaps import gaps_flat, gaps_on_rail, in_a_gap
from cleatwright.wall.search.snug import touching_sides
from cleatwright.wall.search.state import State, group_box, on_studs
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


@lean
def best_spot(
    t: Tables, s: State, near: Around, i: int, closed: int, way: int, luck: Chance, most: int
) -> Spot:
    """Return the best free spot of item ``i``, or no spot.

    Args:
        t: The problem.
        s: What stands.
        near: The same, from left to right.
        i: The item, which does not stand.
        closed: A height of rails not to use, or FAR.
        way: How spots are weighed against each other.
        luck: Random numbers.
        most: No spot that is sure to cost more is looked for.
    """
    mates = mates_of(t, s, i)
    on_rail = t.items[i].on_rail
    best: Spot = (FAR, 0, NONE, 0)
    least = np.inf
    rows = _lowest(t, s, near, i, closed, mates)
    while rows > 0:
        k = _cheapest(near, rows)
        row, lowest, opened = near.rows[k], near.lowest[k], near.opened[k]
        # noise only adds, so that what costs at least as much is never better
        if lowest > most or (way <= BY_NOISY_COST and lowest >= least):
            break
        rows -= 1
        near.rows[k], near.lowest[k], near.opened[k] = (
            near.rows[rows],
            near.lowest[rows],
            near.opened[rows],
        )
        if on_rail and _beside_rails(t, s, near, row) < t.items[i].plate:
            continue
        gaps = gaps_on_rail(t, s, near, i, row) if on_rail else gaps_flat(t, s, near, i, row)
        if gaps == 0:
            continue
        z = int(t.rails[row].z if on_rail else t.levels[row])
        there = (row, z, opened, gaps)
        worth, x, own = _best_in_row(t, s, near, i, there, mates, way, luck)
        if worth < least:
            least = worth
            best = (x, z, row if on_rail else NONE, own)
    return best


@lean
def _lowest(t: Tables, s: State, near: Around, i: int, closed: int, mates: Mates) -> int:
    """Write what item ``i`` costs at least in each of its rows and return how many there are."""
    on_rail = t.items[i].on_rail
    count = 0
    for turn in range(t.turns.shape[1]):
        row = int(t.turns[i, turn])
        if row == NONE:
            break
        z = t.rails[row].z if on_rail else t.levels[row]
        if z == closed:
            continue
        cost, opened = t.unary[i, row], 0
        if mates.x0 < FAR:
            wider = max(t.items[i].whole - (mates.x1 - mates.x0), 0)
            taller = max(mates.z1, z) - min(mates.z0, z) - (mates.z1 - mates.z0)
            cost += t.rule[0].group_cost * (wider + taller)
        if on_rail and s.hull[row, 0] == FAR:
            opened = _opening_cost(t, near, row)
            cost += opened + t.rule[0].length_cost * t.items[i].plate
        near.rows[count], near.lowest[count], near.opened[count] = row, cost, opened
        count += 1
    return count


@lean
def _cheapest(near: Around, rows: int) -> int:
    """Return the number of the row of least cost, the first one written of equals first."""
    best = 0
    for k in range(1, rows):
        if near.lowest[k] < near.lowest[best]:
            best = k
    return best


@lean
def _beside_rails(t: Tables, s: State, near: Around, row: int) -> int:
    """Return at most how long a new rail can be beside those that are too near to pass."""
    low, high = t.rails[row].low - t.rule[0].gap, t.rails[row].high + t.rule[0].gap
    from_x, to_x = t.rails[row].from_x, t.rails[row].to_x
    room = to_x - from_x
    for k in range(near.used[1]):
        r = near.open[k]
        if t.rails[r].z != t.rails[row].z and t.rails[r].low < high and t.rails[r].high > low:
            room = min(room, max(s.hull[r, 0] - from_x, to_x - s.hull[r, 1]))
    return room


@lean
def _best_in_row(
    t: Tables,
    s: State,
    near: Around,
    i: int,
    there: tuple[int, int, int, int],
    mates: Mates,
    way: int,
    luck: Chance,
) -> tuple[float, int, int]:
    """Return worth, whole left edge and own cost of the best spot in a row; infinite for none.

    ``there`` is the row, its hang height, what it costs that there is a rail, and how many gaps
    there are. What a spot costs bends only where the box of its group or its rail ends, or at
    the better hand: these and the ends of the gaps are tried.
    """
    row, z, opened, gaps = there
    left = t.items[i].left
    best: tuple[float, int, int] = (np.inf, 0, 0)
    bends = _bends(t, s, near, i, row, mates)
    for k in range(bends + 2 * gaps):
        if k < bends:
            x = int(near.bends[k])
            free = in_a_gap(near, gaps, x)
        else:
            gap, end = divmod(k - bends, 2)
            a, b = near.gaps[gap, 0], near.gaps[gap, 1]
            x = _to_left(b, left) if end else _to_right(a, left)
            free = a <= x <= b
        if not free or not mates.after < x + left < mates.before:
            continue
        own = own_cost(t, i, row, (x, z))
        worth = _worth(t, s, i, (x, z, row, own + opened), mates, way, luck)
        if worth < best[0]:
            best = (worth, x, own)
    return best


@lean_entry
def spot_at(t: Tables, s: State, near: Around, i: int, at: tuple[int, int]) -> Spot:
    """Return the spot of item ``i`` at a whole left edge and hang height, or no spot."""
    x, z = at
    mates = mates_of(t, s, i)
    on_rail = t.items[i].on_rail
    for turn in range(t.turns.shape[1]):
        row = int(t.turns[i, turn])
        if row == NONE:
            break
        if z != (t.rails[row].z if on_rail else t.levels[row]):
            continue
        gaps = gaps_on_rail(t, s, near, i, row) if on_rail else gaps_flat(t, s, near, i, row)
        if in_a_gap(near, gaps, x) and mates.after < x + t.items[i].left < mates.before:
            return x, z, row if on_rail else NONE, own_cost(t, i, row, (x, z))
    none: Spot = (FAR, z, NONE, 0)
    return none


@lean
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


@lean
def mates_of(t: Tables, s: State, i: int) -> Mates:
    """Return where the rest of the group of item ``i`` stands."""
    x0, x1, z0, z1 = group_box(t, s, t.items[i].group)
    after, before = -FAR, FAR
    group = t.items[i].group
    if group != NONE and t.items[i].rank != NONE:
        for k in range(t.starts[group], t.starts[group + 1]):
            j = t.members[k]
            if s.stands[j] and t.items[j].rank != NONE:
                edge = s.box[j, 0] + t.items[j].left
                if t.items[j].rank < t.items[i].rank:
                    after = max(after, edge)
                if t.items[j].rank > t.items[i].rank:
                    before = min(before, edge)
    return Mates(x0, x1, z0, z1, after, before)


@lean
def _bends(t: Tables, s: State, near: Around, i: int, row: int, mates: Mates) -> int:
    """Write the left edges at which the cost in a row bends and return how many there are."""
    xs = near.bends
    left, whole, plate = t.items[i].left, t.items[i].whole, t.items[i].plate
    count = 0
    if t.items[i].home_x < FAR:
        xs[count] = t.items[i].home_x
        count += 1
    if t.items[i].easy_x < FAR:
        xs[count] = _to_right(t.items[i].easy_x - left - plate // 2, left)
        count += 1
    if mates.x0 < FAR:
        xs[count] = _to_right(mates.x0, left)
        xs[count + 1] = _to_left(mates.x1 - whole, left)
        count += 2
    if mates.after > -FAR:
        xs[count] = _to_right(mates.after - left + 1, left)
        count += 1
    if mates.before < FAR:
        xs[count] = _to_left(mates.before - left - 1, left)
        count += 1
    if not t.items[i].on_rail:
        return count
    if t.items[i].over < FAR and t.rails[row].last_x < FAR:
        over = t.items[i].over
        xs[count] = _to_right(t.rails[row].first_x - over - left, left)
        xs[count + 1] = _to_left(t.rails[row].last_x + over - left - plate, left)
        count += 2
    if s.hull[row, 0] < FAR:
        xs[count] = _to_right(s.hull[row, 0] - left, left)
        xs[count + 1] = _to_left(s.hull[row, 1] - left - plate, left)
        return count + 2
    for k in range(len(t.studs)):
        xs[count] = _to_right(t.studs[k, 2] - left, left)
        xs[count + 1] = _to_left(t.studs[k, 3] - left - plate, left)
        count += 2
    return count


@lean
def _to_right(x: int, left: int) -> int:
    """Return the first whole left edge at or right of ``x`` whose plate begins on the grid."""
    return -(-(x + left) // GRID) * GRID - left


@lean
def _to_left(x: int, left: int) -> int:
    return (x + left) // GRID * GRID - left


@lean
def own_cost(t: Tables, i: int, row: int, at: tuple[int, int]) -> int:
    """Return what item ``i`` costs by itself at a whole left edge and hang height."""
    cost = t.unary[i, row]
    if t.items[i].easy_x < FAR:
        aside = abs(at[0] + t.items[i].left + t.items[i].plate // 2 - t.items[i].easy_x)
        cost += int(np.rint(t.items[i].sideways * aside))
    if t.items[i].home_x < FAR and (at[0] != t.items[i].home_x or at[1] != t.items[i].home_z):
        cost += t.rule[0].moved_cost
    if t.items[i].on_rail and t.items[i].over < FAR and t.rails[row].last_x < FAR:
        first, last = at[0] + t.items[i].left, at[0] + t.items[i].left + t.items[i].plate
        over = t.items[i].over
        if first < t.rails[row].first_x - over or last > t.rails[row].last_x + over:
            cost += t.rule[0].over_cost
    return cost


@lean
def _group_cost(t: Tables, i: int, at: tuple[int, int], mates: Mates) -> int:
    if mates.x0 == FAR:
        return 0
    wide = max(mates.x1, at[0] + t.items[i].whole) - min(mates.x0, at[0]) - (mates.x1 - mates.x0)
    tall = max(mates.z1, at[1]) - min(mates.z0, at[1]) - (mates.z1 - mates.z0)
    return t.rule[0].group_cost * (wide + tall)


@lean
def _opening_cost(t: Tables, near: Around, row: int) -> int:
    """Return what it costs that there is a rail in a row without one, but for its length."""
    cost = int(t.rule[0].weak_cost) if t.rails[row].weak else 0
    for k in range(near.used[1]):
        r = near.open[k]
        if t.rails[r].z == t.rails[row].z and not t.rails[r].kept:
            return cost
    return cost + t.rule[0].rail_cost


@lean
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


@lean
def _with_studs(t: Tables, row: int, span: tuple[int, int]) -> int:
    """Return the length of a new rail on to two studs; what is in its way is not looked at."""
    if len(t.studs) == 0:
        return span[1] - span[0]
    first, last = on_studs(t, span, (t.rails[row].from_x, t.rails[row].to_x))
    return last - first
