"""A partial arrangement during the search, and the best place for one more item in it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cleatwright.wall.bits import share_flag
from cleatwright.wall.problem import FAR, GRID, NONE, Bools, Ints, Problem
from cleatwright.wall.studding import grown, growth


@dataclass(frozen=True)
class Spot:
    """A place: whole left edge, hang height, rail row or -1, and what the item costs by itself."""

    x: int
    z: int
    row: int
    paid: int


@dataclass
class State:
    """Rectangles of the items that stand; those that do not are far away and inside out.

    Args:
        box: Whole rectangles x0, x1, z0, z1, array ``(n, 4)``.
        bar: What a rail at another height may not cross: for an item on a rail its
            plate down to where it bears, else its whole rectangle; array ``(n, 4)``.
        z: Hang heights, array ``(n,)``.
        row: Index of the rail row, or -1.
        stands: Which items stand.
        paid: What each standing item costs by itself, array ``(n,)``.
        hull: First and last x of the rail on each row, array ``(rows, 2)``: round its plates and,
            where there is room, on to two studs.
        weak: Which rows have a rail that meets fewer than two studs.
    """

    box: Ints
    bar: Ints
    z: Ints
    row: Ints
    stands: Bools
    paid: Ints
    hull: Ints
    weak: Bools

    @staticmethod
    def empty(p: Problem) -> State:
        """Return the state in which nothing stands."""
        n = len(p.items)
        nowhere = np.array([FAR, -FAR, FAR, -FAR], dtype=np.int64)
        return State(
            box=np.tile(nowhere, (n, 1)),
            bar=np.tile(nowhere, (n, 1)),
            z=np.zeros(n, dtype=np.int64),
            row=np.full(n, NONE, dtype=np.int64),
            stands=np.zeros(n, dtype=np.bool_),
            paid=np.zeros(n, dtype=np.int64),
            hull=_no_hull(p),
            weak=np.zeros(len(p.rails), dtype=np.bool_),
        )

    def copy(self) -> State:
        """Return a state that shares nothing with this one."""
        return State(
            self.box.copy(),
            self.bar.copy(),
            self.z.copy(),
            self.row.copy(),
            self.stands.copy(),
            self.paid.copy(),
            self.hull.copy(),
            self.weak.copy(),
        )

    def put(self, p: Problem, i: int, spot: Spot) -> None:
        """Let item ``i`` stand at the spot."""
        x, z, row = spot.x, spot.z, spot.row
        self.box[i] = x, x + p.whole[i], z - p.down[i], z + p.up[i]
        self.z[i], self.row[i], self.stands[i] = z, row, True
        self.paid[i] = spot.paid
        if row == NONE:
            self.bar[i] = self.box[i]
            return
        left = x + p.left[i]
        self.bar[i] = left, left + p.plate[i], z - p.bear[i], z
        self._lay(p, row)

    def take(self, p: Problem, which: Ints) -> None:
        """Take the items away."""
        rows = np.unique(self.row[which])
        self.box[which] = self.bar[which] = FAR, -FAR, FAR, -FAR
        self.stands[which] = False
        self.row[which] = NONE
        self.paid[which] = 0
        for row in rows[rows != NONE].tolist():
            self._lay(p, row)

    def _lay(self, p: Problem, row: int) -> None:
        """Lay the rail of a row round its plates, and on to two studs where there is room."""
        if p.rails.kept[row]:
            return
        on = self.bar[self.row == row]
        self.weak[row] = False
        if not len(on):
            self.hull[row] = FAR, -FAR
            return
        span = int(on[:, 0].min()), int(on[:, 1].max())
        longer = grown(p, span, self._room(p, row, span))
        self.weak[row] = longer is None
        self.hull[row] = longer or span

    def _room(self, p: Problem, row: int, span: tuple[int, int]) -> tuple[int, int]:
        """Return from where to where the rail of a row may reach."""
        r = p.rails
        bars = self.bar[(self.z != r.z[row]) | (self.row == NONE)]
        bars = bars[(bars[:, 2] < r.high[row]) & (bars[:, 3] > r.low[row])]
        near = np.abs(r.z - r.z[row]) < r.high[row] - r.low[row] + p.gap
        others = self.hull[near & (r.z != r.z[row])]
        first = np.concatenate((bars[:, 0], others[:, 0]))
        last = np.concatenate((bars[:, 1], others[:, 1]))
        return (
            int(last[last <= span[0]].max(initial=r.from_x[row])),
            int(first[first >= span[1]].min(initial=r.to_x[row])),
        )

    def cost(self, p: Problem) -> int:
        """Return the cost of what stands, in units of cost."""
        used = (self.hull[:, 0] < FAR) & ~p.rails.kept
        # a rail that an obstacle interrupts stays one rail
        heights = np.unique(p.rails.z[used])
        length = int((self.hull[used, 1] - self.hull[used, 0]).sum())
        total = p.rail_cost * len(heights) + p.length_cost * length
        total += p.weak_cost * int(self.weak.sum())
        total += int(self.paid.sum())
        for low_x, high_x, low_z, high_z in self.group_boxes(p):
            if low_x < FAR:
                total += p.group_cost * int(high_x - low_x + high_z - low_z)
        return total

    def group_boxes(self, p: Problem) -> Ints:
        """Return x0, x1, lowest and highest hang height of each group, array ``(groups, 4)``."""
        boxes = np.tile(np.array([FAR, -FAR, FAR, -FAR], dtype=np.int64), (p.group_count, 1))
        ours = np.flatnonzero(self.stands & (p.group != NONE))
        group = p.group[ours]
        np.minimum.at(boxes[:, 0], group, self.box[ours, 0])
        np.maximum.at(boxes[:, 1], group, self.box[ours, 1])
        np.minimum.at(boxes[:, 2], group, self.z[ours])
        np.maximum.at(boxes[:, 3], group, self.z[ours])
        return boxes


def _no_hull(p: Problem) -> Ints:
    nowhere = np.tile(np.array([FAR, -FAR], dtype=np.int64), (len(p.rails), 1))
    ends = np.column_stack((p.rails.from_x, p.rails.to_x))
    return np.where(p.rails.kept[:, None], ends, nowhere)


@dataclass(frozen=True, eq=False)
class Spots:
    """Every spot that was tried for one item: rows by candidates.

    Args:
        z: Hang height of each row.
        row: Index of each row.
        x: Left edges.
        own: What the item costs there by itself, array ``(rows, candidates)``.
        cost: What each spot adds to the cost, the same shape.
        free: Which spots break no rule, the same shape.
    """

    z: Ints
    row: Ints
    x: Ints
    own: Ints
    cost: Ints
    free: Bools


def spots(p: Problem, s: State, i: int, *, closed: int = NONE) -> Spots:
    """Return the spots for item ``i``; ``closed`` is a rail height not to use."""
    rows = p.rows_of(i)
    pick = p.usable[i]
    if closed != NONE and p.items[i].on_rail:
        pick = pick[rows.z[pick] != closed]
    x = _candidates(p, s, i)
    z = rows.z[pick]
    own = p.own_cost(i, rows=pick, x=x)
    obstacles = np.concatenate((s.box, p.obstacles_of(i)))
    hits = _meets(z - p.down[i], z + p.up[i], x, x + p.whole[i], obstacles)
    if p.rank[i] != NONE:
        hits |= _out_of_order(p, s, i, x)
    if p.items[i].on_rail:
        cost = own + _rail_cost(p, s, i, pick=pick, x=x, hits=hits)
    else:
        used = np.flatnonzero(s.hull[:, 0] < FAR)
        strips = np.column_stack((s.hull[used], p.rails.low[used], p.rails.high[used]))
        hits |= _meets(z - p.down[i], z + p.up[i], x, x + p.whole[i], strips)
        cost = own
    return Spots(z, pick, x, own, cost + _group_cost(p, s, i, z=z, x=x), ~hits)


def cheapest(p: Problem, i: int, found: Spots, worth: NDArray[np.float64]) -> Spot | None:
    """Return the free spot of least ``worth``, the first of equals, or None."""
    if not found.free.any():
        return None
    at = int(np.where(found.free, worth, np.inf).argmin())
    k, c = divmod(at, len(found.x))
    row = int(found.row[k])
    return Spot(
        x=int(found.x[c]),
        z=int(found.z[k]),
        row=row if p.items[i].on_rail else NONE,
        paid=int(np.broadcast_to(found.own, found.free.shape)[k, c]),
    )


def _candidates(p: Problem, s: State, i: int) -> Ints:
    """Return the left edges worth trying: against every edge, on the grid of the plate's left."""
    used = s.hull[s.hull[:, 0] < FAR]
    boxes = s.box[s.stands]
    mates = s.box[s.stands & (p.group == p.group[i])] if p.group[i] != NONE else boxes[:0]
    obstacles = p.obstacles_of(i)
    left, whole = int(p.left[i]), int(p.whole[i])
    edges = [0] if p.easy_x is None else [0, p.easy_x - left - int(p.plate[i]) // 2]
    starts = np.concatenate(
        (
            np.array(edges, dtype=np.int64),
            boxes[:, 1],
            obstacles[:, 1],
            used[:, 1] - left,
            p.rails.from_x[p.rails.kept] - left,
            mates[:, 0],
        )
    )
    ends = np.concatenate(
        (
            np.array([p.width], dtype=np.int64),
            boxes[:, 0],
            obstacles[:, 0],
            used[:, 0] - left + whole - int(p.plate[i]),
            p.rails.to_x[p.rails.kept] - left + whole - int(p.plate[i]),
            mates[:, 1],
        )
    )
    from_left = -(-(starts + left) // GRID) * GRID
    from_right = (ends - whole + left) // GRID * GRID
    home = p.home[i, :1] + left
    x = np.sort(np.concatenate((from_left, from_right, home))) - left
    new = np.ones(len(x), dtype=np.bool_)
    new[1:] = x[1:] != x[:-1]
    return x[new & (x >= 0) & (x + whole <= p.width)]


def _out_of_order(p: Problem, s: State, i: int, x: Ints) -> Bools:
    """Return which left edges are on the wrong side of a ranked item of the same group."""
    mates = s.stands & (p.group == p.group[i]) & (p.rank != NONE)
    edges = s.box[:, 0] + p.left
    here = x + p.left[i]
    after = edges[mates & (p.rank < p.rank[i])].max(initial=-FAR)
    before = edges[mates & (p.rank > p.rank[i])].min(initial=FAR)
    return (here <= after) | (here >= before)


def _meets(low: Ints, high: Ints, x0: Ints, x1: Ints, boxes: Ints) -> Bools:
    """Return which rows and candidates meet any box, array ``(rows, candidates)``."""
    tall = (low[:, None] < boxes[:, 3]) & (high[:, None] > boxes[:, 2])
    wide = (x0[:, None] < boxes[:, 1]) & (x1[:, None] > boxes[:, 0])
    return share_flag(tall, wide)


def _rail_cost(p: Problem, s: State, i: int, *, pick: Ints, x: Ints, hits: Bools) -> Ints:
    """Return the cost on each rail and mark in ``hits`` where a rail cannot be."""
    a = x + p.left[i]
    b = a + p.plate[i]
    r = p.rails
    z, low, high = r.z[pick], r.low[pick], r.high[pick]
    used = np.flatnonzero(s.hull[:, 0] < FAR)
    rails = np.column_stack((s.hull[used], r.low[used] - p.gap, r.high[used] + p.gap))
    bars = np.concatenate((s.bar, rails))
    height = np.concatenate((np.where(s.row == NONE, -FAR, s.z), r.z[used]))
    other = z[:, None] != height
    tall = (low[:, None] < bars[:, 3]) & (high[:, None] > bars[:, 2]) & other
    first, last = s.hull[pick, 0], s.hull[pick, 1]
    open_already = first < FAR
    # no bar crosses the rail as it is, so each lies to its left or to its right
    left_of = tall & (bars[:, 1] <= first[:, None])
    right_of = tall & (bars[:, 0] >= last[:, None])
    from_x = np.where(left_of, bars[:, 1], -FAR).max(axis=1, initial=-FAR)
    to_x = np.where(right_of, bars[:, 0], FAR).min(axis=1, initial=FAR)
    from_x = np.where(open_already, np.maximum(from_x, r.from_x[pick]), r.from_x[pick])
    to_x = np.where(open_already, np.minimum(to_x, r.to_x[pick]), r.to_x[pick])
    hits |= (a < from_x[:, None]) | (b > to_x[:, None])
    # the item itself must not bear on a rail at another height
    n = len(s.z)
    tall[:, n:] |= (
        ((z - p.bear[i])[:, None] < r.high[used]) & (z[:, None] > r.low[used]) & other[:, n:]
    )
    wide = (a[:, None] < bars[:, 1]) & (b[:, None] > bars[:, 0])
    hits |= share_flag(tall, wide)
    opened = np.where((z[:, None] == r.z[used[~r.kept[used]]]).any(axis=1), 0, p.rail_cost)
    opened = opened + np.where(r.weak[pick] & ~open_already, p.weak_cost, 0)
    then = np.maximum(last[:, None], b) - np.minimum(first[:, None], a)
    then[~open_already] += growth(p, a, b)
    now = np.where(open_already, last - first, 0)
    cost = opened[:, None] + p.length_cost * (then - now[:, None])
    return np.where(r.kept[pick][:, None], 0, cost)


def _group_cost(p: Problem, s: State, i: int, *, z: Ints, x: Ints) -> Ints:
    mates = s.stands & (p.group == p.group[i])
    if p.group[i] == NONE or not mates.any():
        return np.zeros((len(z), len(x)), dtype=np.int64)
    x0, x1 = s.box[mates, 0].min(), s.box[mates, 1].max()
    z0, z1 = s.z[mates].min(), s.z[mates].max()
    wide = np.maximum(x1, x + p.whole[i]) - np.minimum(x0, x) - (x1 - x0)
    tall = np.maximum(z1, z) - np.minimum(z0, z) - (z1 - z0)
    return p.group_cost * (tall[:, None] + wide)
