"""Arranging by best insertion, improved by taking items away and putting them back.

The search stops after a number of rounds and never by the clock, so that the
same input gives the same wall on any machine.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from cleatwright.wall.arrange import Progress
from cleatwright.wall.search.around import around, comes
from cleatwright.wall.search.chance import Chance, below, chance, share
from cleatwright.wall.search.compiled import compiled, entry, lean, lean_entry
from cleatwright.wall.search.outcome import Outcome
from cleatwright.wall.search.ruin import in_rank, order_back, ruin, ruin_round, which
from cleatwright.wall.search.shift import shift
from cleatwright.wall.search.slide import slide
from cleatwright.wall.search.spots import BY_COST, BY_NOISY_COST, BY_TOUCH, best_spot
from cleatwright.wall.search.state import State, copied, copy_state, cost_of, put, take
from cleatwright.wall.search.tables import ABSENT_COST, FAR, NONE, Ints, Tables

NO_LIMIT = 1 << 62
WARMEST = 0.005
COOLED = 0.1
SNUG_SHARE = 0.7
# one round in so many moves a whole height
SHIFT_EVERY = 8
# and of the others one in so many slides items aside before some are taken away
SLIDE_EVERY = 4
# how often the finished wall is looked at, and the person hears of the progress; and rounds between
# two looks at the least
LOOKS, ROUNDS_A_LOOK = 50, 50
# a search that leaves something off ends when so many rounds found no place for one more: a share
# of all rounds, the less the more is off, and never fewer than the least
PATIENCE = ((1, 0.45), (3, 0.2))
LITTLE_PATIENCE, LEAST_PATIENCE = 0.1, 3_000
# searches side by side: a number of the program and not of the machine, for equal results
LANES = 2


@dataclass(frozen=True)
class Found:
    """A state with its cost, items left off included."""

    state: State
    cost: int


def construct(t: Tables, start: State) -> Found:
    """Return the best of several insertions in fixed orders."""
    free = np.flatnonzero(~start.stands).astype(np.int64)
    items = t.items
    tall: Ints = items.up + items.down
    area: Ints = items.whole * tall
    # the dearest to hang far from reach first, then the largest; items of a group in one go
    need = np.where(t.turns != NONE, np.take_along_axis(t.unary, t.turns, axis=1), 0).max(
        axis=1, initial=0
    )
    # what may be left off comes last
    last = items.absent[free] < ABSENT_COST
    orders = (
        np.lexsort((free, -area[free], last)),
        np.lexsort((free, -tall[free], last)),
        np.lexsort((free, -items.whole[free], last)),
        np.lexsort((free, -area[free], items.group[free], last)),
        np.lexsort((free, -need[free], last)),
    )
    found: list[Found] = []
    for order in orders:
        state = copied(start)
        turns = free[order]
        in_rank(t, turns)
        insert(t, state, turns, FAR, BY_COST, chance(0), NO_LIMIT)
        found.append(Found(state, full_cost(t, state)))
    return min(found, key=lambda one: one.cost)


def improve(
    t: Tables,
    found: Found,
    outcome: Outcome,
    *,
    pinned: Ints,
    seed: int,
    rounds: int,
    first: bool,
    progress: Progress | None,
) -> Found:
    """Return the best state after ``rounds`` of ruin and recreate with falling temperature.

    Several lanes search side by side, each with its own luck. Half way all go on from the best
    of them. A lane goes by the cost of the search, which is quick; what is best is told by the
    true cost of the finished wall, whose rails are cut and meet studs or do not. With ``first`` it
    ends where it is seen that nothing is left off; more rounds would leave nothing off either.
    Where something is left off for long it ends too: see ``patience``.
    """
    movable = np.setdiff1d(np.arange(len(t.items)), pinned).astype(np.int64)
    leader = _Leader(outcome, found, _true_cost(outcome, found))
    if (first and not leader.off) or not np.any(t.items.absent[movable] >= ABSENT_COST):
        return found
    lanes = [Lane.starting(t, found, seed=seed * LANES + n) for n in range(LANES)]
    heat = WARMEST * max(found.cost % ABSENT_COST, 1)
    looks = max(1, min(LOOKS, rounds // ROUNDS_A_LOOK))
    stops = sorted({rounds * k // looks for k in range(looks + 1)})
    with ThreadPoolExecutor(LANES) as pool:
        for begin, end in pairwise(stops):
            if leader.off and begin - leader.since >= patience(rounds, leader.off):
                break
            if progress is not None:
                progress(begin, rounds)
            turn = (begin, end, rounds)
            running = [pool.submit(lane.run, movable.copy(), turn, heat) for lane in lanes]
            leader.look([one.result() for one in running], end)
            if first and not leader.off:
                break
            if begin < rounds // 2 <= end:
                for lane in lanes:
                    lane.go_on_from(leader.best)
    return leader.best


@dataclass
class _Leader:
    """The best state by the true cost of the finished wall.

    Args:
        outcome: What knows that cost.
        best: The state.
        least: Its cost.
        since: How many rounds were done when less was left off for the last time.
    """

    outcome: Outcome
    best: Found
    least: int
    since: int = 0

    @property
    def off(self) -> int:
        """Return how many items it leaves off."""
        return self.least // ABSENT_COST

    def look(self, trials: Iterable[Found | None], rounds_done: int) -> None:
        """Take the best of some states if it is better."""
        off = self.off
        for trial in trials:
            # what leaves more off is no better whatever its rails cost, and to cut them takes time
            if trial is None or trial.cost // ABSENT_COST > off:
                continue
            true = _true_cost(self.outcome, trial)
            if true < self.least:
                self.best, self.least = trial, true
        if self.off < off:
            self.since = rounds_done


def patience(rounds: int, off: int) -> int:
    """Return how many rounds are made in vain for what is left off before a search ends.

    >>> patience(75_000, 1), patience(75_000, 4), patience(3_000, 1)
    (33750, 7500, 3000)
    """
    share = next((share for most, share in PATIENCE if off <= most), LITTLE_PATIENCE)
    return max(LEAST_PATIENCE, round(share * rounds))


@dataclass
class Lane:
    """One search: where it is, the best it saw by the cost of the search, and its luck.

    Its tables are its own, because lanes that count references to the same arrays wait for each
    other.
    """

    tables: Tables
    now: State
    best: State
    costs: Ints
    luck: Chance

    @staticmethod
    def starting(t: Tables, found: Found, *, seed: int) -> Lane:
        """Return a search that has not done a round."""
        costs = np.array([found.cost, found.cost], dtype=np.int64)
        own = Tables(*(table.copy() for table in t))
        return Lane(own, copied(found.state), copied(found.state), costs, chance(seed))

    def go_on_from(self, found: Found) -> None:
        """Let the search go on from a state."""
        self.now, self.best = (copied(found.state) for _ in range(2))
        self.costs[:] = full_cost(self.tables, found.state)

    def run(self, movable: Ints, turn: tuple[int, int, int], heat: float) -> Found | None:
        """Do some rounds and return the best state when it is a better one than before."""
        t, before = self.tables, int(self.costs[1])
        run_rounds(t, (self.now, self.best), self.costs, movable, self.luck, turn, heat)
        if self.costs[1] >= before:
            return None
        return Found(copied(self.best), int(self.costs[1]))


def _true_cost(outcome: Outcome, found: Found) -> int:
    absent = found.cost // ABSENT_COST
    return absent * ABSENT_COST + outcome.cost(found.state)


@lean_entry
def full_cost(t: Tables, s: State) -> int:
    """Return the cost with that of each item that does not stand."""
    absent = 0
    for i in range(len(s.stands)):
        if not s.stands[i]:
            absent += t.items[i].absent
    return cost_of(t, s) + absent


@entry
def insert(
    t: Tables, s: State, order: Ints, closed: int, way: int, luck: Chance, limit: int
) -> bool:
    """Put the items in one after the other, each at its best spot at that moment.

    Return False, with some of them left, as soon as the cost is sure to end above the limit.
    """
    near = around(t, s)
    # what may still be spent: the limit less what stands, and what the rest costs at least
    left = limit - _sure_cost(t, s)
    rest = 0
    for i in order:
        rest += _least_own(t, i)
    for i in order:
        rest -= _least_own(t, i)
        # what may be left off takes no spot that costs more than that
        most = min(left - rest, t.items[i].absent)
        spot = best_spot(t, s, near, i, closed, way, luck, most)
        if spot[0] == FAR and closed != FAR:
            # a number of its own, or the constant would be compiled in once more
            spot = best_spot(t, s, near, i, max(FAR, closed), way, luck, most)
        if spot[0] == FAR:
            limit -= t.items[i].absent
        else:
            put(t, s, i, spot)
            comes(s, near, i)
        left = limit - _sure_cost(t, s)
        if left < rest:
            return False
    return True


@lean
def _least_own(t: Tables, i: int) -> int:
    """Return what item ``i`` costs at least by itself, on the wall or left off."""
    return 0 if t.turns[i, 0] == NONE else min(t.unary[i, t.turns[i, 0]], t.items[i].absent)


@lean
def _sure_cost(t: Tables, s: State) -> int:
    """Return the cost that no further item can lower: a rail may yet grow to two studs."""
    cost = cost_of(t, s)
    for r in range(len(s.weak)):
        if s.weak[r]:
            cost -= t.rule[0].weak_cost
    return cost


@compiled
def _loosen(t: Tables, s: State, movable: Ints, luck: Chance) -> tuple[Ints, int]:
    """Take items away or move them; return those, and a height of rails to close or FAR."""
    if below(luck, SHIFT_EVERY) == 0:
        return shift(t, s, movable, luck), FAR
    one = movable[below(luck, len(movable))]
    if s.stands[one] and below(luck, SLIDE_EVERY) == 0:
        slide(t, s, movable, one, luck)
        taken, closed = ruin_round(s, movable, one, luck), FAR
    else:
        taken, closed = ruin(t, s, movable, luck)
    take(t, s, taken)
    return taken, closed


@entry
def run_rounds(
    t: Tables,
    states: tuple[State, State],
    costs: Ints,
    movable: Ints,
    luck: Chance,
    turn: tuple[int, int, int],
    heat: float,
) -> None:
    """Do the rounds from ``turn[0]`` to below ``turn[1]`` of ``turn[2]``.

    ``states`` and ``costs`` are those of now and of the best so far; both change in place.
    """
    now, best = states
    trial = State(
        np.empty_like(now.box),
        np.empty_like(now.bar),
        np.empty_like(now.z),
        np.empty_like(now.row),
        np.empty_like(now.stands),
        np.empty_like(now.paid),
        np.empty_like(now.hull),
        np.empty_like(now.weak),
    )
    for k in range(turn[0], turn[1]):
        copy_state(now, trial)
        taken, closed = _loosen(t, trial, movable, luck)
        absent = which(trial, movable, False)  # noqa: FBT003 - compiled code has no keywords
        # with everything on the wall the score leads, before that also the packing
        snug = costs[0] >= ABSENT_COST and share(luck) < SNUG_SHARE
        order = order_back(t, absent, taken, luck)
        # which cost will do is drawn beforehand, so that a bad trial ends early
        warmth = heat * COOLED ** (k / turn[2])
        limit = costs[0] + int(-warmth * math.log(1.0 - share(luck)))
        guide = BY_TOUCH if snug else BY_NOISY_COST
        if not insert(t, trial, order, closed, guide, luck, limit):
            continue
        cost = full_cost(t, trial)
        if cost <= limit:
            copy_state(trial, now)
            costs[0] = cost
        if cost < costs[1]:
            copy_state(trial, best)
            costs[1] = cost
