"""Arranging by best insertion, improved by taking items away and putting them back.

The search stops after a number of rounds and never by the clock, so that the
same input gives the same wall on any machine.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np

from cleatwright.wall.outcome import Outcome
from cleatwright.wall.problem import NONE, Ints, Problem
from cleatwright.wall.snug import touching_sides
from cleatwright.wall.state import State, cheapest, spots

Progress = Callable[[int, int], None]

# An item left off the wall must dwarf every placement cost.
ABSENT_COST = 1 << 44
WARMEST = 0.02
NOISE = 0.15
SNUG_SHARE = 0.7


@dataclass(frozen=True)
class Found:
    """A state with its cost, items left off included."""

    state: State
    cost: int


def construct(p: Problem, start: State) -> Found:
    """Return the best of several insertions in fixed orders."""
    free = np.flatnonzero(~start.stands)
    area = p.whole * (p.up + p.down)
    # the dearest to hang far from reach first, then the largest; items of a group in one go
    need = np.array([int(row.max(initial=0)) for row in p.unary], dtype=np.int64)
    orders = (
        np.lexsort((free, -area[free])),
        np.lexsort((free, -(p.up + p.down)[free])),
        np.lexsort((free, -p.whole[free])),
        np.lexsort((free, -area[free], p.group[free])),
        np.lexsort((free, -need[free])),
    )
    best: Found | None = None
    for order in orders:
        state = start.copy()
        _insert(p, state, _in_rank(p, free[order]), rng=None)
        found = Found(state, full_cost(p, state))
        if best is None or found.cost < best.cost:
            best = found
    assert best is not None  # noqa: S101 - the tuple of orders is not empty
    return best


def improve(
    p: Problem,
    found: Found,
    outcome: Outcome,
    *,
    pinned: Ints,
    seed: int,
    rounds: int,
    progress: Progress | None,
) -> Found:
    """Return the best state after ``rounds`` of ruin and recreate with falling temperature.

    The search goes by its own cost, which is quick; what is best is told by the true cost of
    the finished wall, whose rails are cut and meet studs or do not.
    """
    rng = np.random.default_rng(seed)
    movable = np.setdiff1d(np.arange(len(p.items)), pinned)
    now = best = found
    if not len(movable):
        return best
    least, true_cost = found.cost, _true_cost(outcome, found)
    scale = max(found.cost % ABSENT_COST, 1)
    for k in range(rounds):
        if progress is not None:
            progress(k, rounds)
        heat = scale * WARMEST * (1.0 - k / rounds) ** 2
        state = now.state.copy()
        taken, closed = _ruin(p, state, movable, rng)
        state.take(p, taken)
        absent = np.flatnonzero(~state.stands)
        # with everything on the wall the score leads, before that also the packing
        snug = bool(now.cost >= ABSENT_COST and rng.random() < SNUG_SHARE)
        order = _order(p, absent, taken, rng)
        _insert(p, state, order, rng=rng, closed=closed, snug=snug)
        trial = Found(state, full_cost(p, state))
        if trial.cost <= now.cost or rng.random() < math.exp((now.cost - trial.cost) / heat):
            now = trial
        if trial.cost < least:
            true = _true_cost(outcome, trial)
            if true < true_cost:
                best, true_cost, least = trial, true, trial.cost
    return best


def _true_cost(outcome: Outcome, found: Found) -> int:
    absent = found.cost // ABSENT_COST
    return absent * ABSENT_COST + outcome.cost(found.state)


def full_cost(p: Problem, state: State) -> int:
    """Return the cost with a penalty for each item that does not stand."""
    return state.cost(p) + ABSENT_COST * int((~state.stands).sum())


def _insert(
    p: Problem,
    state: State,
    order: Iterable[int],
    *,
    rng: np.random.Generator | None,
    closed: int = NONE,
    snug: bool = False,
) -> None:
    """Put the items in one after the other, each at its best spot at that moment."""
    for i in order:
        found = spots(p, state, i, closed=closed)
        if closed != NONE and not found.free.any():
            found = spots(p, state, i)
        worth = found.cost.astype(np.float64)
        if rng is not None:
            blur = rng.random(worth.shape)
            if snug:
                worth = blur - touching_sides(p, state, i, z=found.z, x=found.x)
            else:
                worth *= 1.0 + NOISE * blur
        spot = cheapest(p, i, found, worth)
        if spot is not None:
            state.put(p, i, spot)


def _ruin(p: Problem, s: State, movable: Ints, rng: np.random.Generator) -> tuple[Ints, int]:
    """Return which items to take away and the rail height to close, or -1."""
    standing = movable[s.stands[movable]]
    if not len(standing):
        return standing, NONE
    most = min(len(standing), 12)
    count = int(rng.integers(1, most + 1))
    kind = int(rng.integers(0, 6))
    one = int(rng.choice(standing))
    closed = NONE
    if kind == 0:
        taken = rng.choice(standing, size=count, replace=False)
    elif kind == 1:
        taken = standing[s.z[standing] == s.z[one]][:most]
    elif kind == 2 and p.group[one] != NONE:
        taken = standing[p.group[standing] == p.group[one]][:most]
    elif kind == 3:
        worth = (s.paid[standing] + 1) * rng.random(len(standing))
        taken = standing[np.argsort(-worth, kind="stable")[:count]]
    elif kind == 4 and s.row[one] != NONE:
        # a rail with few items is the likeliest to be spared; its neighbours make room
        heights, counts = np.unique(s.z[standing[s.row[standing] != NONE]], return_counts=True)
        closed = int(heights[(counts * (0.3 + rng.random(len(counts)))).argmin()])
        on = standing[(s.z[standing] == closed) & (s.row[standing] != NONE)]
        taken = np.union1d(on, _nearest(s, one, standing, count))
    else:
        taken = _nearest(s, one, standing, count)
    return taken, closed


def _nearest(s: State, one: int, standing: Ints, count: int) -> Ints:
    middle = s.box[standing].reshape(-1, 2, 2).sum(axis=2)
    apart = np.abs(middle - s.box[one].reshape(2, 2).sum(axis=1)).sum(axis=1)
    return standing[np.argsort(apart, kind="stable")[:count]]


def _order(p: Problem, absent: Ints, taken: Ints, rng: np.random.Generator) -> list[int]:
    area = (p.whole * (p.up + p.down))[absent].astype(np.float64)
    kind = int(rng.integers(0, 4))
    if kind == 0:
        rank = rng.random(len(absent))
    elif kind == 1:
        rank = -(p.up + p.down)[absent] * (1.0 + 0.3 * rng.random(len(absent)))
    elif kind == 2:
        rank = p.group[absent] + 0.9 * rng.random(len(absent))
    else:
        rank = -area * (1.0 + 0.3 * rng.random(len(absent)))
    # those that found no place before get the first choice half of the time
    second = np.isin(absent, taken) if rng.random() < 0.5 else np.zeros(len(absent), dtype=np.bool_)
    return _in_rank(p, absent[np.lexsort((absent, rank, second))])


def _in_rank(p: Problem, order: Ints) -> list[int]:
    """Return the order with the ranked items of each group from left to right."""
    ordered = order.copy()
    for group in np.unique(p.group[order[p.rank[order] != NONE]]):
        turns = np.flatnonzero((p.group[order] == group) & (p.rank[order] != NONE))
        ordered[turns] = order[turns][np.argsort(p.rank[order[turns]], kind="stable")]
    return ordered.tolist()
