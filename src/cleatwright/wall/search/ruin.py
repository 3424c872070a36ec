"""Which items are taken away in a round, and in which order they are put back.

Everything is done by plain loops over a few items: sorting and masks of the array library
take seconds to compile and gain nothing here.
"""

from __future__ import annotations

import numpy as np

from cleatwright.wall.search.chance import Chance, below, share
from cleatwright.wall.search.compiled import compiled, entry
from cleatwright.wall.search.state import State
from cleatwright.wall.search.tables import FAR, NONE, Floats, Ints, Tables

MOST_TAKEN = 8
AT_RANDOM, ONE_HEIGHT, ONE_GROUP, DEAREST, ONE_RAIL, TWO_PLACES = 0, 1, 2, 3, 4, 5
# all other numbers below: round one place
KINDS = 8
ORDERS = 4
LAST = 1e15


@compiled
def ruin(t: Tables, s: State, movable: Ints, luck: Chance) -> tuple[Ints, int]:
    """Return which items to take away, and a height of rails to close or FAR."""
    standing = which(s, movable, True)  # noqa: FBT003 - compiled code has no keywords only
    total = len(standing)
    if total == 0:
        return standing, FAR
    most = min(total, MOST_TAKEN)
    count = 1 + below(luck, most)
    kind = below(luck, KINDS)
    one = standing[below(luck, total)]
    closed = FAR
    rank = _random(luck, total)
    if kind == ONE_HEIGHT:
        count = min(most, _others_last(rank, _heights(s, standing), int(s.z[one])))
    elif kind == ONE_GROUP and t.items[one].group != NONE:
        count = min(most, _others_last(rank, _groups(t, standing), t.items[one].group))
    elif kind == DEAREST:
        for k in range(total):
            rank[k] *= -(s.paid[standing[k]] + 1)
    elif kind == TWO_PLACES:
        # what stands there may change places
        _nearest_first(s, one, standing[below(luck, total)], standing, rank)
    elif kind != AT_RANDOM:
        _nearest_first(s, one, one, standing, rank)
        if kind == ONE_RAIL and s.row[one] != NONE:
            closed = _thinnest(t, s, standing, luck)
            count += _on_rail_first(s, standing, rank, closed)
    return least(standing, rank, min(count, total)), closed


@compiled
def ruin_round(s: State, movable: Ints, one: int, luck: Chance) -> Ints:
    """Return which items round item ``one`` to take away."""
    standing = which(s, movable, True)  # noqa: FBT003 - compiled code has no keywords only
    rank = np.empty(len(standing), dtype=np.float64)
    _nearest_first(s, one, one, standing, rank)
    return least(standing, rank, min(1 + below(luck, MOST_TAKEN), len(standing)))


@compiled
def which(s: State, items: Ints, stand: bool) -> Ints:  # noqa: FBT001 - compiled code
    """Return those of the items that stand, or those that do not."""
    found = np.empty(len(items), dtype=np.int64)
    count = 0
    for i in items:
        if s.stands[i] == stand:
            found[count] = i
            count += 1
    return found[:count]


@compiled
def least(items: Ints, rank: Floats, count: int) -> Ints:
    """Return the ``count`` items of least rank, from the least, the first of equals first."""
    found = np.empty(count, dtype=np.int64)
    left = np.empty(len(rank), dtype=np.float64)
    for k in range(len(rank)):
        left[k] = rank[k]
    for n in range(count):
        best = 0
        for k in range(1, len(left)):
            if left[k] < left[best]:
                best = k
        found[n] = items[best]
        left[best] = np.inf
    return found


@compiled
def _random(luck: Chance, count: int) -> Floats:
    found = np.empty(count, dtype=np.float64)
    for k in range(count):
        found[k] = share(luck)
    return found


@compiled
def _heights(s: State, items: Ints) -> Ints:
    found = np.empty(len(items), dtype=np.int64)
    for k in range(len(items)):
        found[k] = s.z[items[k]]
    return found


@compiled
def _others_last(rank: Floats, values: Ints, wanted: int) -> int:
    """Rank those of another value last and return how many have the wanted one."""
    count = 0
    for k in range(len(rank)):
        if values[k] == wanted:
            count += 1
        else:
            rank[k] += LAST
    return count


@compiled
def _groups(t: Tables, items: Ints) -> Ints:
    found = np.empty(len(items), dtype=np.int64)
    for k in range(len(items)):
        found[k] = t.items[items[k]].group
    return found


@compiled
def _nearest_first(s: State, one: int, other: int, standing: Ints, rank: Floats) -> None:
    """Rank by how near to either of two items each is."""
    for k in range(len(standing)):
        j = standing[k]
        rank[k] = float(min(_apart(s, one, j), _apart(s, other, j)))


@compiled
def _apart(s: State, one: int, other: int) -> int:
    """Return twice how far apart the middles are, along the wall and up it together."""
    aside = s.box[other, 0] + s.box[other, 1] - s.box[one, 0] - s.box[one, 1]
    above = s.box[other, 2] + s.box[other, 3] - s.box[one, 2] - s.box[one, 3]
    return abs(aside) + abs(above)


@compiled
def _on_rail_first(s: State, standing: Ints, rank: Floats, z: int) -> int:
    """Rank what hangs on rails at a height first and return how many these are."""
    count = 0
    for k in range(len(standing)):
        if s.z[standing[k]] == z and s.row[standing[k]] != NONE:
            rank[k] -= LAST
            count += 1
    return count


@compiled
def _thinnest(t: Tables, s: State, standing: Ints, luck: Chance) -> int:
    """Return a height of rails with few items on it: the likeliest to be spared."""
    best, lowest = FAR, np.inf
    seen = FAR
    for r in range(len(t.rails)):
        z = t.rails[r].z
        if t.rails[r].kept or s.hull[r, 0] == FAR or z == seen:
            continue
        seen = z
        on = 0
        for j in standing:
            if s.z[j] == z and s.row[j] != NONE:
                on += 1
        worth = on * (0.3 + share(luck))
        if on > 0 and worth < lowest:
            best, lowest = z, worth
    return best


@compiled
def order_back(t: Tables, absent: Ints, taken: Ints, luck: Chance) -> Ints:
    """Return the absent items in the order in which they are put back."""
    kind = below(luck, ORDERS)
    rank = _random(luck, len(absent))
    # those that found no place before get the first choice half of the time
    second = share(luck) < 0.5
    for k in range(len(absent)):
        i = absent[k]
        tall = t.items[i].up + t.items[i].down
        if kind == 1:
            rank[k] = -tall * (1.0 + 0.3 * rank[k])
        elif kind == 2:
            rank[k] = t.items[i].group + 0.9 * rank[k]
        elif kind == 3:
            rank[k] = -float(t.items[i].whole) * tall * (1.0 + 0.3 * rank[k])
        for j in taken:
            if second and i == j:
                rank[k] += LAST
    order = least(absent, rank, len(absent))
    # ranked items go from either end, or the first one would always take the place of the last
    if share(luck) < 0.5:
        in_rank(t, order)
        return order
    order = order[::-1].copy()
    in_rank(t, order)
    return order[::-1].copy()


@entry
def in_rank(t: Tables, order: Ints) -> None:
    """Let the ranked items of each group change turns among themselves, from left to right."""
    for a in range(len(order)):
        for b in range(a + 1, len(order)):
            one, other = t.items[order[a]], t.items[order[b]]
            if NONE in (one.rank, other.rank) or one.group != other.group:
                continue
            if other.rank < one.rank:
                order[a], order[b] = order[b], order[a]
