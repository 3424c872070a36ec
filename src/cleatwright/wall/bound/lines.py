"""Horizontal lines across the wall, what covers them, and how much of them is free."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from cleatwright.wall.bound.choices import Bools, Choices, Floats
from cleatwright.wall.model import WallSpace
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
        free_mm: Width of each line beside its obstacles, array ``(lines,)``.
    """

    covers: Bools
    width_mm: Floats
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
    return HeightLines(
        covers=(low < middle[:, None]) & (high > middle[:, None]),
        width_mm=np.array([item.whole_width_mm for item in items])[found.item],
        free_mm=np.array([_free_mm(space, z) for z in middle.tolist()], dtype=np.float64),
    )


def _free_mm(space: WallSpace, z_mm: float) -> float:
    """Return the width of a line less its obstacles, of which two may lie over each other."""
    free, reached = space.width_mm, 0.0
    for box in sorted(space.obstacles, key=lambda b: b.x_mm):
        if box.z_mm < z_mm < box.top_mm:
            free -= max(min(box.right_mm, space.width_mm) - max(box.x_mm, reached), 0.0)
            reached = max(reached, box.right_mm)
    return free
