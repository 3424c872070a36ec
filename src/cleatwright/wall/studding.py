"""How a rail becomes longer so that it meets two studs, in the whole numbers of the search."""

from __future__ import annotations

import numpy as np

from cleatwright.wall.problem import FAR, Ints, Problem
from cleatwright.wall.rails import STUDS_A_RAIL

PADDING = 4


def growth(p: Problem, first: Ints, last: Ints) -> Ints:
    """Return by how much rails from ``first`` to ``last`` grow at least, arrays of one shape.

    What may be in the way is not looked at.
    """
    if len(p.studs) == PADDING:
        return np.zeros_like(first)
    begin = np.searchsorted(p.studs, first + p.stud_end, side="left")
    end = np.maximum(np.searchsorted(p.studs, last - p.stud_end, side="right"), begin)
    left_one = first - p.studs[begin - 1] + p.stud_end
    right_one = p.studs[end] + p.stud_end - last
    left_two = first - p.studs[begin - 2] + p.stud_end
    right_two = p.studs[np.minimum(end + 1, len(p.studs) - 1)] + p.stud_end - last
    one = np.minimum(left_one, right_one)
    two = np.minimum(np.minimum(left_two, right_two), left_one + right_one)
    met = end - begin
    grown = np.where(met >= STUDS_A_RAIL, 0, np.where(met == 1, one, two))
    # a wall with a single stud offers no second one
    return np.where(grown < FAR // 2, grown, 0)


def grown(p: Problem, span: tuple[int, int], room: tuple[int, int]) -> tuple[int, int] | None:
    """Return the shortest span inside ``room`` round the span that meets two studs, or None."""
    if len(p.studs) == PADDING:
        return span
    within = p.studs[(p.studs >= room[0] + p.stud_end) & (p.studs <= room[1] - p.stud_end)]
    if len(within) < STUDS_A_RAIL:
        return None
    first = np.minimum(within[: 1 - STUDS_A_RAIL] - p.stud_end, span[0])
    last = np.maximum(within[STUDS_A_RAIL - 1 :] + p.stud_end, span[1])
    k = int((last - first).argmin())
    return int(first[k]), int(last[k])
