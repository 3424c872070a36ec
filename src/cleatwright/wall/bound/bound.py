"""A number of points below which no arrangement of the same items can lie.

The wall is relaxed until a general solver can prove its least cost. Each item hangs at one of the
heights that arranging tries. Where it hangs from left to right is forgotten; what stays is:

- on each horizontal line the stretches that items cover fit beside the obstacles;
- the box round a group is as wide as its members on any line, as high as their hang heights
  lie apart, and large enough for the area of its members;
- each rail height costs what a rail costs, and the rails at one height are as long as the
  plates on them, and long enough for two studs or as dear as a weak rail; a row is as long as the
  wall lets it be, and lies a rail and a gap off the next;
- what is wanted at a place along the wall lies no nearer to it than what it shares a line with lets
  it;
- rails that stay cost nothing and carry no more plates than they are long.

First an item may be shared out over several heights. Then rail heights are used as a whole or
not at all, and after them items, by branching for a number of steps, never by the clock: fewer for
a larger wall, and none beyond some hundred items.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from cleatwright.wall.bound.branch import NO_SOLUTION, branched
from cleatwright.wall.bound.choices import Bools, Floats, choices, rail_heights
from cleatwright.wall.bound.groups import add_groups
from cleatwright.wall.bound.lines import HeightLines, make_lines
from cleatwright.wall.bound.program import Program
from cleatwright.wall.bound.rails import CHOICE, Terms, add_rails
from cleatwright.wall.bound.rows import add_rows
from cleatwright.wall.bound.ways import Ways, add_ways
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.tolerances import BROKEN_SHARE, OVERFULL_MM, SAFE_POINTS, SOLVER_SHARE

if TYPE_CHECKING:
    from scipy.optimize import OptimizeResult

# what a result breaks is added for so many rounds for the number of columns, or for a few
ROUNDS_FOR, ROUNDS = ((10_000, 20), (30_000, 8)), 4
# so many steps of branching for the number of columns that take seconds
STEPS_FOR = ((400, 150), (1000, 90), (1500, 60), (3500, 8))


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
        program.column(cost, most=1.0, whole=CHOICE)
    for i in range(len(ordered)):
        terms = [(c, 1.0) for c in np.flatnonzero(found.item == i).tolist()]
        program.row(terms, low=1.0, high=1.0)
    # rows are there when rows were chosen; else rails are cut to what hangs on them
    add = add_rows if problem.space.rows else add_rails
    needs = add(program, found, rail_heights(problem), problem=problem)
    groups = add_groups(program, found, problem=problem)
    lines, ways = make_lines(problem, found), add_ways(program, found, problem=problem)
    cuts = _Cuts(program, lines, groups, ways, list(needs))
    shared = _solved(program, cuts)
    if shared.status == NO_SOLUTION:
        return _impossible("The items do not fit on the wall even when they may be cut.")
    base = _safe(float(shared.fun))
    steps = next((steps for size, steps in STEPS_FOR if len(program.cost) <= size), 0)
    least = branched(program, shared, steps=steps)
    if math.isinf(least):
        return _impossible("The items do not fit on the wall even when they may be cut.")
    whole = max(base, _safe(least))
    return Bound(
        value=whole,
        parts=(
            ("items shared out over heights", base),
            ("rails and items used as a whole", whole - base),
        ),
        proven=(
            f"By a linear program of {len(program.cost)} columns and {len(program.row_low)} rows, "
            f"with {f'up to {steps}' if steps else 'no'} steps of branching on heights and items."
        ),
    )


def _impossible(why: str) -> Bound:
    return Bound(math.inf, (), why)


def _safe(value: float) -> float:
    """Return the solver's value less its tolerance."""
    return max(value - abs(value) * SOLVER_SHARE - SAFE_POINTS, 0.0)


@dataclass
class _Cuts:
    """Rows that are added to a program only where a result breaks them.

    Any of them may be left out: the bound is then lower, and still one.

    Args:
        program: The program.
        lines: Its lines, each too full or not.
        groups: The column of the width of each group, and its choices.
        ways: The ways along the wall.
        needs: What a choice needs, as far as it is not added yet.
    """

    program: Program
    lines: HeightLines
    groups: Sequence[tuple[int, Bools]]
    ways: Ways
    needs: list[Terms]

    def add(self, result: OptimizeResult) -> bool:
        """Add what a result breaks, and return whether anything is."""
        program, lines = self.program, self.lines
        rows, count = len(program.row_low), lines.covers.shape[1]
        everything = np.ones(count, dtype=np.bool_)
        share: Floats = np.asarray(result.x, dtype=np.float64)
        for line in lines.too_full(share[:count]):
            program.row(lines.terms(line, everything), high=float(lines.free_mm[line]))
        for column, members in self.groups:
            loads = lines.loads(share[:count] * members)
            line = int(loads.argmax())
            if loads[line] > share[column] + OVERFULL_MM:
                program.row([*lines.terms(line, members), (column, -1.0)], high=0.0)
        still: list[Terms] = []
        for terms in self.needs:
            if sum(factor * share[column] for column, factor in terms) > BROKEN_SHARE:
                program.row(terms, high=0.0)
            else:
                still.append(terms)
        self.needs = still
        for terms, least in self.ways.broken(lines, share):
            program.row(terms, low=least)
        return len(program.row_low) > rows


def _solved(program: Program, cuts: _Cuts) -> OptimizeResult:
    """Return the result, after adding what it breaks until nothing is."""
    result = program.solve()
    rounds = next((rounds for size, rounds in ROUNDS_FOR if len(program.cost) <= size), ROUNDS)
    for _ in range(rounds):
        if result.status == NO_SOLUTION or not cuts.add(result):
            break
        result = program.solve()
    return result
