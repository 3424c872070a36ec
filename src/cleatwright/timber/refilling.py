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
MOST_CHEAPEST = 6
MOST_HALVINGS = 8
EMPTIED = 3


def refill_boards(
    problem: CuttingProblem, *, least_cost: int, most_cost: int
) -> tuple[Bin, ...] | None:
    """Return the cheapest plan that refilling finds within a range of costs, or None.

    The cheapest choices of boards are tried first; then the range is halved again and again.
    """
    cheapest = board_choices(problem, least_cost=least_cost, most_cost=most_cost)
    for choice in cheapest[:MOST_CHEAPEST]:
        bins = _refill(problem, choice)
        if bins is not None:
            return bins
    best: tuple[Bin, ...] | None = None
    low, high = least_cost + 1, most_cost
    for _ in range(MOST_HALVINGS):
        middle = (low + high) // 2
        dearer = board_choices(problem, least_cost=middle, most_cost=high)
        bins = _refill(problem, dearer[0]) if dearer else None
        if bins is not None:
            best = bins
            high = problem.cost(bins) - 1
        else:
            low = middle + 1
        if low > high:
            break
    return best


def _refill(problem: CuttingProblem, choice: tuple[int, ...]) -> tuple[Bin, ...] | None:
    kinds = [k for k, n in enumerate(choice) for _ in range(n)]
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
