"""Horizontal lines across the wall, what covers them, and how much of them is free."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cleatwright.wall.bound.choices import Bools, Choices, Floats, Span
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.tolerances import HAIR_MM, OVERFULL_MM

# lines nearer to each other than so many breaks say nearly the same
APART = 4
LINES_A_ROUND = 15


@dataclass(frozen=True, eq=False)
class HeightLines:
    """One line between any two heights at which a rectangle can begin or end.

    Args:
        covers: Which choices cover which lines, array ``(lines, choices)``.
        width_mm: Whole width of each choice, array ``(choices,)``.
        spans_mm: Where each line is free beside its obstacles, from left to right.
        free_mm: How much of each line that is, array ``(lines,)``.
    """

    covers: Bools
    width_mm: Floats
    spans_mm: tuple[tuple[Span, ...], ...]
    free_mm: Floats

    def too_full(self, share: Floats) -> list[int]:
        """Return the fullest of the lines that are covered too much; ``share`` of each choice."""
        over = self.loads(share) - self.free_mm
        found: list[int] = []
        for k in np.argsort(-over, kind="stable").tolist():
            if over[k] < OVERFULL_MM or len(found) == LINES_A_ROUND:
                break
            if all(abs(k - other) >= APART for other in found):
                found.append(k)
        return found

    def loads(self, share: Floats) -> Floats:
        """Return how much of each line is covered, array ``(lines,)``."""
        used = np.flatnonzero(share > 0.0)
        return self.covers[:, used] @ (self.width_mm[used] * share[used])

    def terms(self, line: int, among: Bools) -> list[tuple[int, float]]:
        """Return column and width of each choice among those flagged that covers the line."""
        columns = np.flatnonzero(self.covers[line] & among)
        return list(zip(columns.tolist(), self.width_mm[columns].tolist(), strict=True))


def make_lines(problem: WallProblem, found: Choices) -> HeightLines:
    """Return the lines for the choices."""
    space, items = problem.space, problem.items
    low = found.z_mm - np.array([item.down_mm for item in items])[found.item]
    high = found.z_mm + np.array([item.up_mm for item in items])[found.item]
    edges = [z for box in space.obstacles for z in (box.z_mm, box.top_mm)]
    breaks = np.unique(np.concatenate((low, high, np.array(edges, dtype=np.float64))))
    # breaks a hair apart may be one and the same
    clear = np.diff(breaks) > HAIR_MM
    middle = ((breaks[1:] + breaks[:-1]) / 2)[clear]
    spans = tuple(
        beside(
            [(b.x_mm, b.right_mm) for b in space.obstacles if b.z_mm < z < b.top_mm], space.width_mm
        )
        for z in middle.tolist()
    )
    return HeightLines(
        covers=(low < middle[:, None]) & (high > middle[:, None]),
        width_mm=np.array([item.whole_width_mm for item in items])[found.item],
        spans_mm=spans,
        free_mm=np.array([sum(x1 - x0 for x0, x1 in line) for line in spans], dtype=np.float64),
    )


def beside(taken: Sequence[Span], width_mm: float) -> tuple[Span, ...]:
    """Return what spans leave free from 0 to a width; two of them may lie over each other.

    >>> beside([(10.0, 20.0), (15.0, 30.0)], 50.0)
    ((0.0, 10.0), (30.0, 50.0))
    """
    found: list[Span] = []
    reached = 0.0
    for x0, x1 in sorted(taken):
        if x0 > reached:
            found.append((reached, min(x0, width_mm)))
        reached = max(reached, x1)
    if reached < width_mm:
        found.append((reached, width_mm))
    return tuple(found)
