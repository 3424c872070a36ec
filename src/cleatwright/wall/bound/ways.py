"""What the ways to where things are wanted along the wall add to the relaxed wall.

Each choice gets a column for its way. What crosses a horizontal line lies beside each other there,
so its plates lie no nearer to the place than when they fill the line outwards from it, those with
the most points for each millimetre first. That least sum is a convex function of what crosses the
line, and each of its tangents is a row of the program:

    points      = sum over steps of density d of  d * F(widths of all at least as dense)
    F(w)        = the integral of the way over the nearest w of the line beside obstacles
    tangent     = F(w0) + F'(w0) (w - w0), with F'(w0) the way to the edge of what is filled
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from cleatwright.wall.bound.choices import Choices, Floats, Ints
from cleatwright.wall.bound.lines import HeightLines, beside
from cleatwright.wall.bound.program import Program
from cleatwright.wall.model import Item
from cleatwright.wall.problem import Aim, WallProblem
from cleatwright.wall.score import MM_PER_CM, sideways_cost
from cleatwright.wall.tolerances import BROKEN_POINTS, HAIR_MM

# about so many lines are looked at
LINES = 80
# tangents that are added at once: those that are broken most
TANGENTS_A_ROUND = 10


@dataclass(frozen=True, eq=False)
class Ways:
    """The columns of the ways, and what their tangents need.

    Args:
        columns: The column of the way of each choice; -1 for none, array ``(choices,)``.
        aims_mm: The places that things are wanted at.
        aim: Which of them, array ``(choices,)``; -1 for none.
        wide_mm: Twice the way from the middle of the plate to the nearer end of the whole.
        per_mm: Points for each millimetre of way.
    """

    columns: Ints
    aims_mm: tuple[float, ...]
    aim: Ints
    wide_mm: Floats
    per_mm: Floats

    def broken(
        self, lines: HeightLines, share: Floats
    ) -> list[tuple[list[tuple[int, float]], float]]:
        """Return tangents that a result breaks, the most broken first: terms, and their least.

        Args:
            lines: The lines.
            share: The columns of the result.
        """
        found: list[tuple[float, list[tuple[int, float]], float]] = []
        count = len(self.columns)
        for number, aim_mm in enumerate(self.aims_mm):
            of = self.aim == number
            for line in range(0, len(lines.free_mm), max(len(lines.free_mm) // LINES, 1)):
                across = np.flatnonzero(lines.covers[line] & of)
                if not len(across) or not (share[:count][across] > 0.0).any():
                    continue
                slopes, least = self._tangent(
                    across, share, FilledLine(aim_mm, lines.spans_mm[line])
                )
                ways = self.columns[across]
                short = slopes @ share[across] + least - share[ways].sum()
                if short > BROKEN_POINTS:
                    terms = [
                        *((int(c), 1.0) for c in ways),
                        *((int(c), -float(s)) for c, s in zip(across, slopes, strict=True)),
                    ]
                    found.append((float(short), terms, least))
        found.sort(key=lambda one: -one[0])
        return [(terms, least) for _, terms, least in found[:TANGENTS_A_ROUND]]

    def _tangent(self, across: Ints, share: Floats, filling: FilledLine) -> tuple[Floats, float]:
        """Return the slope for each choice across a line, and the height at none."""
        density = self.per_mm[across] / self.wide_mm[across]
        slopes, least = np.zeros(len(across)), 0.0
        below = 0.0
        for step in np.unique(density).tolist():
            dense = density >= step
            width = float(share[across][dense] @ self.wide_mm[across][dense])
            area, edge = filling.area_and_edge(width)
            slopes[dense] += (step - below) * edge * self.wide_mm[across][dense]
            least += (step - below) * (area - edge * width)
            below = step
        if filling.may_be_across:
            # the way of the plate across the place is shorter than that of its points, by so much
            least -= float((self.per_mm[across] * self.wide_mm[across]).max()) / 4
        return slopes, least


@dataclass(frozen=True)
class FilledLine:
    """A line that is filled outwards from a place.

    Args:
        aim_mm: The place.
        spans_mm: Where the line is free, from left to right.
    """

    aim_mm: float
    spans_mm: tuple[tuple[float, float], ...]

    @property
    def may_be_across(self) -> bool:
        """Tell whether something may lie on both sides of the place."""
        return any(x0 < self.aim_mm < x1 for x0, x1 in self.spans_mm)

    def area_and_edge(self, width_mm: float) -> tuple[float, float]:
        """Return the integral of the way over the nearest ``width_mm``, and the longest way there.

        >>> FilledLine(50.0, ((0.0, 200.0),)).area_and_edge(100.0)
        (2500.0, 50.0)
        >>> FilledLine(50.0, ((0.0, 200.0),)).area_and_edge(120.0)
        (3700.0, 70.0)
        """
        ways = [self._ways(*span) for span in self.spans_mm]
        pieces = sorted(one for both in ways for one in both)
        edges = sorted({way for piece in pieces for way in piece})
        area = filled = edge = 0.0
        for low, high in pairwise(edges):
            sides = sum(a <= low and high <= b for a, b in pieces)
            if not sides or filled >= width_mm:
                continue
            edge = min(high, low + (width_mm - filled) / sides)
            area += sides * (edge**2 - low**2) / 2
            filled += sides * (edge - low)
        return area, edge

    def _ways(self, x0_mm: float, x1_mm: float) -> list[tuple[float, float]]:
        """Return from where to where the ways to a span go, on one side or on both."""
        a, b = x0_mm - self.aim_mm, x1_mm - self.aim_mm
        if a >= 0.0:
            return [(a, b)]
        if b <= 0.0:
            return [(-b, -a)]
        return [(0.0, -a), (0.0, b)]


def _alone(problem: WallProblem, item: Item, z_mm: float) -> float:
    """Return what the way of an item costs at the least at a hang height, if all else were gone."""
    if item.fixed is not None:
        return sideways_cost(item, item.fixed[0], problem=problem)
    space, aim = problem.space, problem.aim_of(item)
    low, high = z_mm - item.down_mm + HAIR_MM, z_mm + item.up_mm - HAIR_MM
    taken = [(b.x_mm, b.right_mm) for b in space.obstacles if b.z_mm < high and b.top_mm > low]
    free = [
        (x0 + item.side_left_mm - HAIR_MM, x1 - item.whole_width_mm + item.side_left_mm + HAIR_MM)
        for x0, x1 in beside(taken, space.width_mm)
        if x1 - x0 >= item.whole_width_mm - HAIR_MM
    ]
    if aim is None or not free:
        return 0.0
    best = aim.x_mm - item.width_mm / 2
    places = (min(max(best, a), b) for a, b in free)
    return min(sideways_cost(item, x, problem=problem) for x in places)


def add_ways(program: Program, found: Choices, *, problem: WallProblem) -> Ways:
    """Add a column for the way of each choice that is wanted somewhere along the wall."""
    aims: list[Aim | None] = [problem.aim_of(item) for item in problem.items]
    places = sorted({one.x_mm for one in aims if one is not None})
    number = {None: -1, **{x: k for k, x in enumerate(places)}}
    of = [None if one is None else one.x_mm for one in aims]
    columns: list[int] = []
    for c, i in enumerate(map(int, found.item)):
        item = problem.items[i]
        if of[i] is None:
            columns.append(-1)
            continue
        columns.append(program.column(1.0))
        cost = _alone(problem, item, float(found.z_mm[c]))
        if cost > 0.0:
            program.row([(columns[-1], 1.0), (c, -cost)], low=0.0)
    # two that touch may lie over each other by less than a hair
    wide = [i.width_mm + 2 * min(i.side_left_mm, i.side_right_mm) - HAIR_MM for i in problem.items]
    per_mm = [0.0 if one is None else one.per_cm / MM_PER_CM for one in aims]
    return Ways(
        columns=np.array(columns, dtype=np.int64),
        aims_mm=tuple(places),
        aim=np.array([number[x] for x in of], dtype=np.int64)[found.item],
        wide_mm=np.array(wide, dtype=np.float64)[found.item],
        per_mm=np.array(per_mm, dtype=np.float64)[found.item],
    )
