"""A number of points below which no arrangement of the same items can lie.

The wall is relaxed until a general solver can prove its least cost. Each item hangs at one of the
heights that arranging tries. Where it hangs from left to right is forgotten; what stays is:

- on each horizontal line the stretches that items cover fit beside the obstacles;
- the box round a group is as wide as its members on any line, as high as their hang heights
  lie apart, and large enough for the area of its members;
- each rail height costs what a rail costs, and the rails at one height are as long as the
  plates on them, and long enough for two studs or as dear as a weak rail;
- rails that stay cost nothing and carry no more plates than they are long.

First an item may be shared out over several heights. Then rail heights are used as a whole or
not at all, by branching on them for a number of steps, never by the clock: fewer for a larger
wall, and none beyond some hundred items.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cleatwright.wall.bound.aside import aside_bound
from cleatwright.wall.bound.branch import NO_SOLUTION, branched
from cleatwright.wall.bound.choices import Bools, Floats, choices, rail_heights
from cleatwright.wall.bound.groups import add_groups
from cleatwright.wall.bound.lines import HeightLines, make_lines
from cleatwright.wall.bound.program import Program
from cleatwright.wall.bound.rails import Terms, add_rails
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.tolerances import BROKEN_SHARE, OVERFULL_MM, SAFE_POINTS, SOLVER_SHARE

if TYPE_CHECKING:
    from scipy.optimize import OptimizeResult

ROUNDS = 20
# so many steps of branching for the number of choices that take seconds
STEPS_FOR = ((400, 150), (1500, 60), (3500, 8))


@dataclass(frozen=True)
class Bound:
    """A proven lower bound.

    Args:
        value: Points; infinite when it is proven that not all items find a place.
        parts: Named numbers that add up to the value.
        proven: How it was proven, in a sentence.
    """

    value: float
    parts: tuple[tuple[str, float], ...]
    proven: str


def lower_bound(problem: WallProblem) -> Bound:
    """Return points that no arrangement in which every item hangs can undercut.

    It holds for every arrangement whose hang heights are among those that arranging tries: the
    heights of ``problem.tried_mm``, the rails that stay, and where items are fixed or hang already.
    The same problem always gives the same bound.
    """
    problem = problem.having(sorted(problem.items, key=lambda item: item.key))
    ordered = problem.items
    if not ordered:
        return Bound(0.0, (), "Nothing hangs.")
    found = choices(problem)
    if len(np.unique(found.item)) < len(ordered):
        return _impossible("An item has no height at which it fits on the wall by itself.")
    program = Program()
    for cost in found.cost.tolist():
        program.column(cost, most=1.0)
    for i in range(len(ordered)):
        terms = [(c, 1.0) for c in np.flatnonzero(found.item == i).tolist()]
        program.row(terms, low=1.0, high=1.0)
    needs = add_rails(program, found, rail_heights(problem), problem=problem)
    groups = add_groups(program, found, problem=problem)
    lines = make_lines(problem, found)
    shared = _solved(program, lines, groups=groups, needs=needs)
    if shared.status == NO_SOLUTION:
        return _impossible("The items do not fit on the wall even when they may be cut.")
    base = _safe(float(shared.fun))
    steps = next((steps for size, steps in STEPS_FOR if len(found.item) <= size), 0)
    least = branched(program, shared, steps=steps)
    if math.isinf(least):
        return _impossible("The items do not fit on the wall even when they may be cut.")
    whole = max(base, _safe(least))
    aside = aside_bound(problem)
    return Bound(
        value=whole + aside,
        parts=(
            ("items shared out over heights", base),
            ("rails used as a whole", whole - base),
            ("ways to the better hand", aside),
        ),
        proven=(
            f"By a linear program of {len(program.cost)} columns and {len(program.row_low)} rows, "
            f"with {f'up to {steps}' if steps else 'no'} steps of branching on the rail heights."
        ),
    )


def _impossible(why: str) -> Bound:
    return Bound(math.inf, (), why)


def _safe(value: float) -> float:
    """Return the solver's value less its tolerance."""
    return max(value - abs(value) * SOLVER_SHARE - SAFE_POINTS, 0.0)


def _solved(
    program: Program,
    lines: HeightLines,
    *,
    groups: Sequence[tuple[int, Bools]],
    needs: Sequence[Terms],
) -> OptimizeResult:
    """Return the result, after adding what it breaks of lines, groups and needs until nothing is.

    Any row may be left out: the bound is then lower, and still one.
    """
    count = lines.covers.shape[1]
    everything = np.ones(count, dtype=np.bool_)
    result = program.solve()
    left = list(needs)
    for _ in range(ROUNDS):
        if result.status == NO_SOLUTION:
            break
        rows = len(program.row_low)
        share: Floats = np.asarray(result.x, dtype=np.float64)
        for line in lines.too_full(share[:count]):
            program.row(lines.terms(line, everything), high=float(lines.free_mm[line]))
        for column, members in groups:
            loads = lines.loads(share[:count] * members)
            line = int(loads.argmax())
            if loads[line] > share[column] + OVERFULL_MM:
                program.row([*lines.terms(line, members), (column, -1.0)], high=0.0)
        still: list[Terms] = []
        for terms in left:
            if share[terms[0][0]] > share[terms[1][0]] + BROKEN_SHARE:
                program.row(terms, high=0.0)
            else:
                still.append(terms)
        left = still
        if len(program.row_low) == rows:
            break
        result = program.solve()
    return result
