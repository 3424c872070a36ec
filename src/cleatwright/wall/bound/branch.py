"""Branching on whole columns, the cheapest open branch first, for a number of steps."""

from __future__ import annotations

import heapq
from typing import TYPE_CHECKING

import numpy as np

from cleatwright.wall.bound.program import Program
from cleatwright.wall.tolerances import SOLVER_SHARE

if TYPE_CHECKING:
    from scipy.optimize import OptimizeResult

# the solver's words
SOLVED, NO_SOLUTION = 0, 2

Pins = tuple[tuple[int, float], ...]


def branched(program: Program, first: OptimizeResult, *, steps: int) -> float:
    """Return the least cost of any open branch after ``steps`` of branching, each two programs.

    No solution with whole columns is cheaper. In each step the cheapest branch is parted by
    the whole column that is used most without being used wholly, of those that go first.

    Args:
        program: What is branched on; it is left as it is.
        first: Its result without pins.
        steps: How often a branch is parted at most, >= 0.
    """
    # the count keeps the order of equal costs, and results from being compared
    branches: list[tuple[float, int, Pins, OptimizeResult]] = [(float(first.fun), 0, (), first)]
    count = 0
    for _ in range(steps):
        if not branches:
            break
        cost, _, pins, result = branches[0]
        column = _parted(program, result)
        if column is None:
            break
        heapq.heappop(branches)
        for value in (1.0, 0.0):
            branch = (*pins, (column, value))
            trial = program.solve(pinned=branch)
            if trial.status == NO_SOLUTION:
                continue
            count += 1
            # a branch costs no less than what it was parted from, solved or not
            if trial.status == SOLVED:
                heapq.heappush(branches, (max(cost, float(trial.fun)), count, branch, trial))
            else:
                return cost
    return branches[0][0] if branches else float("inf")


def _parted(program: Program, result: OptimizeResult) -> int | None:
    """Return the column by which a result is parted; None where all whole columns are whole."""
    share = np.asarray(result.x, dtype=np.float64)
    order = np.array(program.whole)
    parted = np.where((order > 0) & (share < 1.0 - SOLVER_SHARE), share, 0.0)
    parts = parted >= SOLVER_SHARE
    if not parts.any():
        return None
    first = parts & (order == order[parts].min())
    return int(np.where(first, parted, 0.0).argmax())
