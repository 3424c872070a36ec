"""The seat for a usual holder of a panel: the median of each measure of those that hang there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from statistics import median

from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.siting.walls import DEPTH
from cleatwright.wall.model import HeightBounds, Item
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.tolerances import DIGITS


def seat_key(number: int) -> str:
    """Return what the seat of a number is called, on paper too.

    >>> seat_key(2)
    'reserved seat 2'
    """
    return f"reserved seat {number}"


def with_usual_seats(problem: WallProblem, count: int) -> WallProblem:
    """Return a wall on which seats for usual holders are to be kept free.

    None where nothing hangs on a rail. A seat out of reach is none.

    Args:
        problem: The wall and what hangs.
        count: How many, >= 0.
    """
    items = [item for item in problem.items if item.on_rail]
    if not (items and count):
        return problem.with_seats(())
    usual = _usual(problem, items)
    return problem.with_seats(replace(usual, key=seat_key(n)) for n in range(1, count + 1))


def _usual(problem: WallProblem, items: Sequence[Item]) -> Item:
    def middle(measure: Callable[[Item], float]) -> float:
        return round(median(measure(item) for item in items), DIGITS)

    return Item(
        key="",
        width_mm=middle(lambda one: one.width_mm),
        up_mm=middle(lambda one: one.up_mm),
        down_mm=middle(lambda one: one.down_mm),
        mass_kg=middle(lambda one: one.mass_kg),
        use="seldom",
        side_left_mm=middle(lambda one: one.side_left_mm),
        side_right_mm=middle(lambda one: one.side_right_mm),
        rail_depth_mm=middle(lambda one: one.rail_depth_mm),
        bounds=within_reach(problem),
        reserved=True,
    )


def within_reach(problem: WallProblem) -> HeightBounds:
    """Return between which hang heights a seat is reached."""
    band, gap_mm = problem.band, problem.space.floor_gap_mm
    why = "a seat that is kept free is one within reach"
    return HeightBounds(band.lowest_mm - gap_mm, band.highest_mm - gap_mm, why, why)


def usual_depth_mm(units: Sequence[Unit], run: Run) -> float:
    """Return how far a usual holder on a rail stands out of its wall with its tools.

    Args:
        units: What hangs on the panel; something of it on a rail.
        run: The run that keeps what was computed before.
    """
    return median(run.need(DEPTH, one) for one in units if one.outer.part.hanging.on_rail)
