"""What rails add to the relaxed wall: heights in use, their lengths, and rails that stay."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from cleatwright.wall.bound.choices import Bools, Choices, RailHeight, Span
from cleatwright.wall.bound.program import Program
from cleatwright.wall.ground import PLACES_A_RAIL
from cleatwright.wall.model import Item
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.score import MM_PER_CM
from cleatwright.wall.studs import reaches_of
from cleatwright.wall.tolerances import HAIR_MM

# heights are parted before what hangs at them
HEIGHT, CHOICE = 1, 2
Terms = list[tuple[int, float]]


def add_rails(
    program: Program,
    found: Choices,
    heights: dict[float, RailHeight],
    *,
    problem: WallProblem,
) -> list[Terms]:
    """Add the rails, and return the rows "a choice needs its height in use" (each at most 0)."""
    items, weights = problem.items, problem.weights
    needs: list[Terms] = []
    per_mm = weights.rail_length / MM_PER_CM
    for z, height in heights.items():
        here = found.z_mm == z
        new = np.flatnonzero(here & found.rail).tolist()
        if new:
            plates = plates_of(items, found, new)
            shortest, weak = _least_rail(problem, height.new)
            used = program.column(weights.rail + weak, most=1.0, whole=HEIGHT)
            length = program.column(per_mm)
            program.row([*plates, (length, -1.0)], high=0.0)
            program.row([(used, shortest), (length, -1.0)], high=0.0)
            program.row([*plates, (used, -_room(height.new))], high=0.0)
            needs += [[(c, 1.0), (used, -1.0)] for c in new]
        add_kept(program, found, here, height, items)
    return needs


def add_kept(
    program: Program, found: Choices, here: Bools, height: RailHeight, items: Sequence[Item]
) -> None:
    """Add that the rails that stay at a height carry no more plates than they are long.

    Args:
        program: What it is added to.
        found: The choices.
        here: Which of them are at the height.
        height: The height.
        items: What hangs.
    """
    kept = np.flatnonzero(here & found.kept).tolist()
    if kept:
        program.row(plates_of(items, found, kept), high=_room(height.kept))


def _room(spans: Sequence[Span]) -> float:
    return sum(x1 - x0 + HAIR_MM for x0, x1 in spans)


def plates_of(items: Sequence[Item], found: Choices, columns: Sequence[int]) -> Terms:
    """Return the plates that lie beside each other: of all that reach below their hang height."""
    hung = ((c, items[int(found.item[c])]) for c in columns)
    return [(c, item.width_mm) for c, item in hung if item.down_mm > HAIR_MM]


def _least_rail(problem: WallProblem, spans: Sequence[Span]) -> tuple[float, float]:
    """Return the least length that meets two studs, and the points where none can."""
    space, weights = problem.space, problem.weights
    if not space.studs:
        return 0.0, 0.0
    lengths: list[float] = []
    reaches = [least for least, _ in reaches_of(space.studs, wall_mm=space.width_mm)]
    for x0, x1 in spans:
        here = [r for r in reaches if x0 - HAIR_MM <= r.from_mm and r.to_mm <= x1 + HAIR_MM]
        pairs = zip(here, here[PLACES_A_RAIL - 1 :], strict=False)
        lengths += [last.to_mm - first.from_mm for first, last in pairs]
    if not lengths:
        return 0.0, weights.weak_rail
    per_mm = weights.rail_length / MM_PER_CM
    # a rail that is shorter is a weak one
    return min(*lengths, weights.weak_rail / per_mm if per_mm else 0.0), 0.0
