"""A plan by filling one board after the other as full as possible.

For each total length that could be the least, and for each choice of boards of
that length, every board takes the subset of the remaining pieces that leaves it
the least slack. Source: the minimum bin slack heuristic of J. N. D. Gupta and
J. C. Ho, Production Planning and Control 10 (1999) 598-603 (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from cleatwright.timber.cutting_problem import Bin, CuttingProblem

MOST_CHOICES = 300
MOST_LISTED = 20_000
MOST_FILLINGS = 4_000
"""Choices times pieces: more pieces take longer to fill, so fewer choices are tried."""


def board_choices(
    problem: CuttingProblem, *, least_cost: int, most_cost: int
) -> tuple[tuple[int, ...], ...]:
    """Return how many boards of each type to try, cheapest first, then fewest boards.

    Choices without room for all pieces are left out; at most ``MOST_CHOICES`` are returned.
    """
    need = sum(problem.items)
    listed = islice(_counts(problem, least_cost, most_cost), MOST_LISTED)
    found: list[tuple[int, int, tuple[int, ...]]] = []
    for choice in listed:
        cost = sum(n * p for n, p in zip(choice, problem.costs, strict=True))
        room = sum(n * c for n, c in zip(choice, problem.capacities, strict=True))
        if room >= need:
            found.append((cost, sum(choice), choice))
    return tuple(choice for _, _, choice in sorted(found)[:MOST_CHOICES])


def _counts(
    problem: CuttingProblem, least: int, most: int, at: int = 0
) -> Iterator[tuple[int, ...]]:
    price = problem.costs[at]
    top = min(problem.limits[at], most // price)
    if at == len(problem.costs) - 1:
        yield from ((count,) for count in range(max(0, -(-least // price)), top + 1))
        return
    for count in range(top, -1, -1):
        spent = count * price
        for rest in _counts(problem, least - spent, most - spent, at + 1):
            yield (count, *rest)


def fill_boards(
    problem: CuttingProblem, *, least_cost: int, most_cost: int
) -> tuple[Bin, ...] | None:
    """Return the cheapest plan that filling finds within a range of costs, or None."""
    choices = board_choices(problem, least_cost=least_cost, most_cost=most_cost)
    for choice in choices[: max(1, MOST_FILLINGS // len(problem.items))]:
        kinds = [k for k, n in enumerate(choice) for _ in range(n)]
        for large_first in (False, True):
            ordered = sorted(kinds, key=lambda k: problem.capacities[k], reverse=large_first)
            for largest_in in (True, False):
                bins = _fill_all(problem, ordered, largest_in=largest_in)
                if bins is not None:
                    return bins
    return None


def gather_waste(problem: CuttingProblem, bins: tuple[Bin, ...]) -> tuple[Bin, ...]:
    """Return a plan on the same boards whose longest remainder is longer, or ``bins``.

    Each type of board in turn comes last, after all the others have been filled.
    """
    best = bins
    for last in sorted({kind for kind, _ in bins}):
        kinds = [kind for kind, _ in bins]
        kinds.remove(last)
        for largest_in in (True, False):
            other = _fill_all(problem, [*kinds, last], largest_in=largest_in)
            if other is not None and _longest_rest(problem, other) > _longest_rest(problem, best):
                best = other
    return best


def _longest_rest(problem: CuttingProblem, bins: tuple[Bin, ...]) -> int:
    return max(problem.capacities[kind] - sum(sizes) for kind, sizes in bins)


def _fill_all(
    problem: CuttingProblem, kinds: list[int], *, largest_in: bool
) -> tuple[Bin, ...] | None:
    left = list(problem.items)
    bins: list[Bin] = []
    for kind in kinds:
        if not left:
            return None  # a cheaper choice of boards would have done
        taken = fullest(left, problem.capacities[kind], largest_in=largest_in)
        if not taken:
            return None
        chosen = [left[i] for i in taken]
        gone = set(taken)
        left = [size for i, size in enumerate(left) if i not in gone]
        bins.append((kind, tuple(chosen)))
    return tuple(bins) if not left else None


def fullest(sizes: list[int], capacity: int, *, largest_in: bool) -> list[int]:
    """Return the indices of the subset of the largest sum within the capacity.

    Among equal sums the one with the largest pieces is taken. With ``largest_in``
    the largest piece that fits is always among them.
    """
    fitting = [i for i, size in enumerate(sizes) if size <= capacity]
    if not fitting:
        return []
    fixed = fitting[:1] if largest_in else []
    free = fitting[len(fixed) :]
    room = capacity - sum(sizes[i] for i in fixed)
    mask = (1 << (room + 1)) - 1
    # bit s of sums[j] says that the pieces from j on have a subset of sum s
    sums = [1] * (len(free) + 1)
    for j in range(len(free) - 1, -1, -1):
        sums[j] = (sums[j + 1] | sums[j + 1] << sizes[free[j]]) & mask
    target = sums[0].bit_length() - 1
    taken = list(fixed)
    for j, i in enumerate(free):
        if target >= sizes[i] and sums[j + 1] >> (target - sizes[i]) & 1:
            taken.append(i)
            target -= sizes[i]
    return taken
