"""What groups add to the relaxed wall: the box round each."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from cleatwright.wall.bound.choices import Bools, Choices
from cleatwright.wall.bound.program import Program
from cleatwright.wall.model import Item
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.score import MM_PER_CM


def add_groups(
    program: Program, found: Choices, *, problem: WallProblem
) -> list[tuple[int, Bools]]:
    """Add the boxes, and return for each the column of its width and which choices are in it."""
    items, per_mm = problem.items, problem.weights.group / MM_PER_CM
    added: list[tuple[int, Bools]] = []
    for group in sorted({item.group for item in items if item.group}):
        members = [i for i, item in enumerate(items) if item.group == group]
        widest = max(items[i].whole_width_mm for i in members)
        width = program.column(per_mm, least=widest)
        low, high = program.column(-per_mm), program.column(per_mm)
        for i in members:
            of = np.flatnonzero(found.item == i)
            heights = list(zip(of.tolist(), (-found.z_mm[of]).tolist(), strict=True))
            program.row([(low, 1.0), *heights], high=0.0)
            program.row([(high, 1.0), *heights], low=0.0)
        least = least_box([items[i] for i in members])
        program.row([(width, 1.0), (high, 1.0), (low, -1.0)], low=least)
        added.append((width, np.isin(found.item, members)))
    return added


def least_box(members: Sequence[Item]) -> float:
    """Return the least width plus spread of hang heights that holds the area of the members.

    A box of width w round rectangles whose hang heights spread over s has the area
    w (s + up + down), with the largest ``up`` and the largest ``down``.

    >>> least_box([Item(key, 100.0, 40.0, 60.0) for key in "abcd"])  # two by two
    300.0
    """
    area = sum(m.whole_width_mm * (m.up_mm + m.down_mm) for m in members)
    tall = max(m.up_mm for m in members) + max(m.down_mm for m in members)
    widest = max(m.whole_width_mm for m in members)
    # least where both partial changes cancel, but never lower than one row, and never
    # so high that the widest member alone would set the width
    spread = max(min(math.sqrt(area), area / widest) - tall, 0.0)
    return spread + max(widest, area / (spread + tall))
