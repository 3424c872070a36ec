"""A plan on given boards by emptying a few of them and filling them again.

What does not fit yet waits beside the boards. A refill is kept when no more
length waits than before, until nothing waits or the rounds are used up. The
choices come from a generator with a fixed seed, so the same input gives the same plan.
"""

from __future__ import annotations

import random

from cleatwright.timber.cutting_problem import Bin, CuttingProblem
from cleatwright.timber.full_boards import board_choices, fullest

ROUNDS = 800
MOST_REFILLED = 10
EMPTIED = 3


def refill_boards(
    problem: CuttingProblem, *, least_cost: int, most_cost: int
) -> tuple[Bin, ...] | None:
    """Return the cheapest plan that refilling finds within a range of costs, or None."""
    choices = board_choices(problem, least_cost=least_cost, most_cost=most_cost)
    for choice in choices[:MOST_REFILLED]:
        kinds = [k for k, n in enumerate(choice) for _ in range(n)]
        bins = _refill(problem, kinds)
        if bins is not None:
            return bins
    return None


def _refill(problem: CuttingProblem, kinds: list[int]) -> tuple[Bin, ...] | None:
    dice = random.Random(len(problem.items))  # noqa: S311 - repeatable choices, no secret
    rooms = [problem.capacities[kind] for kind in kinds]
    loads: list[list[int]] = [[] for _ in kinds]
    waiting = list(problem.items)
    for number in range(ROUNDS):
        if not waiting:
            break
        emptied = (
            list(range(len(kinds)))
            if number == 0
            else dice.sample(range(len(kinds)), min(EMPTIED, len(kinds)))
        )
        pool = sorted([*waiting, *(s for at in emptied for s in loads[at])], reverse=True)
        filled: list[list[int]] = []
        for at in emptied:
            # now and then the fullest filling is not forced to hold the largest piece
            taken = fullest(pool, rooms[at], largest_in=number == 0 or dice.random() < 0.8)
            gone = set(taken)
            filled.append([pool[i] for i in taken])
            pool = [size for i, size in enumerate(pool) if i not in gone]
        if sum(pool) <= sum(waiting):
            waiting = pool
            for at, load in zip(emptied, filled, strict=True):
                loads[at] = load
    if waiting or not all(loads):
        return None
    return tuple((kind, tuple(load)) for kind, load in zip(kinds, loads, strict=True))
