"""The cutting problem in whole numbers, its material bound, and a first plan by first fit."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import permutations

from cleatwright.timber.boards import Piece, Stock, units_down, units_up

Bin = tuple[int, tuple[int, ...]]
"""The index of a board type and the sizes cut from it, largest first."""

MOST_ORDERS = 24


@dataclass(frozen=True)
class CuttingProblem:
    """Sizes to be cut from bins.

    A piece counts with one kerf added, and so does a board: n pieces need only
    n - 1 cuts between them. All sizes are divided by their common divisor.

    Args:
        sizes: Distinct sizes, largest first.
        demands: How many of each size.
        capacities: Capacity of each board type.
        costs: Length of each board type, divided by the common divisor ``cost_unit``.
        limits: How many boards of each type there are at most.
        cost_unit: The unit of ``costs`` in tenths of a millimetre.
    """

    sizes: tuple[int, ...]
    demands: tuple[int, ...]
    capacities: tuple[int, ...]
    costs: tuple[int, ...]
    limits: tuple[int, ...]
    cost_unit: int

    @property
    def items(self) -> tuple[int, ...]:
        """Return every size as often as it is wanted, largest first."""
        return tuple(s for s, d in zip(self.sizes, self.demands, strict=True) for _ in range(d))

    def cost(self, bins: Sequence[Bin]) -> int:
        """Return the total length of the bins in cost units."""
        return sum(self.costs[kind] for kind, _ in bins)


def pose_problem(
    pieces: Sequence[Piece], stocks: Sequence[Stock], kerf_mm: float
) -> tuple[CuttingProblem, int]:
    """Return the problem and its unit of size in tenths of a millimetre."""
    kerf = units_up(kerf_mm)
    wanted = [units_up(p.length_mm) + kerf for p in pieces]
    unit = math.gcd(*wanted)
    sizes = sorted({w // unit for w in wanted}, reverse=True)
    lengths = [units_down(s.length_mm) for s in stocks]
    cost_unit = math.gcd(*lengths)
    return CuttingProblem(
        sizes=tuple(sizes),
        demands=tuple(sum(1 for w in wanted if w // unit == s) for s in sizes),
        capacities=tuple((length + kerf) // unit for length in lengths),
        costs=tuple(length // cost_unit for length in lengths),
        limits=tuple(min(len(pieces), s.count or len(pieces)) for s in stocks),
        cost_unit=cost_unit,
    ), unit


def fewest_boards(problem: CuttingProblem, cost: int) -> int:
    """Return the fewest boards whose lengths sum to ``cost``, which must be the cost of a plan."""
    best: dict[int, int] = {0: 0}
    for price, limit in zip(problem.costs, problem.limits, strict=True):
        reached = dict(best)
        for total, count in best.items():
            for more in range(1, min(limit, (cost - total) // price) + 1):
                there = total + more * price
                reached[there] = min(count + more, reached.get(there, count + more))
        best = reached
    return best[cost]


def material_bound(problem: CuttingProblem, most: int) -> int:
    """Return the least cost, up to ``most``, whose boards have room for the sum of all sizes.

    ``most`` is the cost of a known plan, or of all boards; ``most`` + 1 means there is none.
    """
    price, limit, capacity = problem.costs[-1], problem.limits[-1], problem.capacities[-1]
    best = most + 1
    for total, missing in _mixtures(problem, most, sum(problem.items)):
        more = max(0, -(-missing // capacity))
        if more <= limit:
            best = min(best, total + more * price)
    return best


def _mixtures(
    problem: CuttingProblem, most: int, missing: int, at: int = 0
) -> Iterator[tuple[int, int]]:
    """Yield the cost of each choice of all board types but the last, and what it lacks in room."""
    if at == len(problem.costs) - 1:
        yield (0, missing)
        return
    price, capacity = problem.costs[at], problem.capacities[at]
    enough = max(0, -(-missing // capacity))
    for count in range(min(problem.limits[at], most // price, enough) + 1):
        spent = count * price
        for total, left in _mixtures(problem, most - spent, missing - count * capacity, at + 1):
            yield (spent + total, left)


def first_plan(problem: CuttingProblem) -> tuple[Bin, ...] | None:
    """Return the best plan by first-fit decreasing over orders of the board types, or None.

    None means that the boards ran out, not that there is no plan.
    """
    best: tuple[Bin, ...] | None = None
    kinds = range(len(problem.costs))
    orders = [order for order, _ in zip(permutations(kinds), range(MOST_ORDERS), strict=False)]
    for order in orders:
        bins = _first_fit(problem, order)
        if bins is not None and (
            best is None or (problem.cost(bins), len(bins)) < (problem.cost(best), len(best))
        ):
            best = bins
    return best


def _first_fit(problem: CuttingProblem, order: tuple[int, ...]) -> tuple[Bin, ...] | None:
    left = list(problem.limits)
    kinds: list[int] = []
    loads: list[list[int]] = []
    for size in problem.items:
        place = next(
            (i for i, load in enumerate(loads) if sum(load) + size <= problem.capacities[kinds[i]]),
            None,
        )
        if place is not None:
            loads[place].append(size)
            continue
        kind = next((k for k in order if left[k] and problem.capacities[k] >= size), None)
        if kind is None:
            return None
        left[kind] -= 1
        kinds.append(kind)
        loads.append([size])
    cheap_first = sorted(range(len(left)), key=lambda k: (problem.costs[k], k))
    for i, load in enumerate(loads):
        smaller = next(
            k
            for k in cheap_first
            if k == kinds[i] or (left[k] and problem.capacities[k] >= sum(load))
        )
        if smaller != kinds[i]:
            left[kinds[i]] += 1
            left[smaller] -= 1
            kinds[i] = smaller
    return tuple((kind, tuple(load)) for kind, load in zip(kinds, loads, strict=True))
