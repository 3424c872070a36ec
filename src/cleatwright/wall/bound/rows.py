"""What whole rows add to the relaxed wall: heights in use, and which of their pieces.

A row is laid from wall to wall, or to an obstacle, whatever hangs on it, so that each of its
pieces costs all its length. Rows lie at least a rail and a gap apart.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from cleatwright.wall.bound.choices import Choices, RailHeight
from cleatwright.wall.bound.program import Program
from cleatwright.wall.bound.rails import HEIGHT, Terms, add_kept, plates_of
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rows.laying import row
from cleatwright.wall.score import MM_PER_CM
from cleatwright.wall.tolerances import DIGITS, HAIR_MM


def add_rows(
    program: Program,
    found: Choices,
    heights: dict[float, RailHeight],
    *,
    problem: WallProblem,
) -> list[Terms]:
    """Add the rows, and return "a choice needs its height and a piece in use" (at most 0 each).

    Args:
        program: What they are added to.
        found: The choices.
        heights: Every height for rails by its hang height.
        problem: The wall and what hangs; its rule asks for rows.
    """
    items, weights = problem.items, problem.weights
    per_mm = weights.rail_length / MM_PER_CM
    needs: list[Terms] = []
    used: dict[float, int] = {}
    given = _given(problem)
    bare = problem.on(replace(problem.space, rows=()))
    apart = problem.rule.height_mm + problem.rule.min_gap_mm - HAIR_MM
    for z, height in heights.items():
        here = found.z_mm == z
        new = np.flatnonzero(here & found.rail).tolist()
        if new:
            used[z] = program.column(weights.rail, most=1.0, whole=HEIGHT)
            # a row so near one that has a given place may be parted by it
            parted = any(0.0 < abs(z - one) < apart for one in given)
            pieces = () if parted else row(bare, z)
            free = height.new if parted else ()
            columns = [
                (program.column(per_mm * (b - a), most=1.0, whole=HEIGHT), b - a) for a, b in pieces
            ]
            columns += [(program.column(0.0, most=1.0), b - a) for a, b in free]
            room = [(column, -(length + HAIR_MM)) for column, length in columns]
            program.row([*plates_of(items, found, new), *room], high=0.0)
            for column, _ in columns:
                program.row([(column, 1.0), (used[z], -1.0)], high=0.0)
            for c in new:
                width = items[int(found.item[c])].width_mm
                wide = [(one, -1.0) for one, length in columns if length >= width - HAIR_MM]
                needs += [[(c, 1.0), (used[z], -1.0)], [(c, 1.0), *wide]]
        add_kept(program, found, here, height, items)
    _keep_apart(program, {z: one for z, one in used.items() if z not in given}, apart)
    return needs


def _given(problem: WallProblem) -> set[float]:
    """Return the hang heights of rows behind what has a given place, or hangs."""
    places = ((item.fixed, item.hangs_at) for item in problem.items if item.on_rail)
    return {round(at[1], DIGITS) for both in places for at in both if at is not None}


def _keep_apart(program: Program, used: dict[float, int], apart_mm: float) -> None:
    """Let at most one height be in use of those that lie too near to each other."""
    for low in used:
        near = [one for z, one in used.items() if low <= z < low + apart_mm]
        if len(near) > 1:
            program.row([(one, 1.0) for one in near], high=1.0)
