"""Whole rows shifted up and down with all that hangs on them, as long as that pays."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rows.laying import with_rows, without_empty
from cleatwright.wall.score import hung
from cleatwright.wall.tolerances import LEAST_POINTS, SAME_MM, SLACK_MM

STEPS = (1, -1, 2, -2)


def shifted(problem: WallProblem, found: Arrangement, *, given_mm: Iterable[float]) -> Arrangement:
    """Return an arrangement with each row at the best height that is free for all on it.

    Args:
        problem: The wall without rows.
        found: What hangs on rows.
        given_mm: Hang heights of rows that stay.
    """
    given, best = tuple(given_mm), found
    while True:
        better = next(_better(problem, best, given), None)
        if better is None:
            return best
        best = better


def _better(
    problem: WallProblem, found: Arrangement, given_mm: tuple[float, ...]
) -> Iterator[Arrangement]:
    edge, step = problem.rule.edge_above_mm, problem.rule.step_mm
    heights = sorted({rail.z_top_mm - edge for rail in found.rails if not rail.stays})
    for z in heights:
        if any(abs(z - one) <= SAME_MM for one in given_mm):
            continue
        for by in (step * count for count in STEPS):
            tried = _moved(problem, found, heights, (z, z + by))
            if tried is not None:
                yield tried


def _moved(
    problem: WallProblem, found: Arrangement, heights: list[float], move: tuple[float, float]
) -> Arrangement | None:
    """Return the arrangement with a row at another height; None where that is no better."""
    before, after = move
    apart_mm = problem.rule.height_mm + problem.rule.min_gap_mm - SLACK_MM
    if any(z != before and abs(after - z) < apart_mm for z in heights):
        return None
    keys = {
        key
        for rail in found.rails
        if not rail.stays and abs(rail.z_top_mm - problem.rule.edge_above_mm - before) <= SAME_MM
        for key in rail.carries
    }
    if any(not problem.known[key].may_hang_at(after) for key in keys):
        return None
    places = tuple(replace(one, z_mm=after) if one.key in keys else one for one in found.places)
    laid = with_rows(problem, [after if z == before else z for z in heights])
    tried = replace(hung(laid, places), left_over=found.left_over)
    if tried.scores.total >= found.scores.total - LEAST_POINTS or conflicts(laid, tried):
        return None
    return without_empty(laid, tried)
