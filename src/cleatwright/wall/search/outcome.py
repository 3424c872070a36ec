"""A state of the search as the person will find it: places, rails as they are cut, true score."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cleatwright.wall.model import Arrangement, Item, Place, ReservedSeat
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.score import hung, seats_cost, stays_at
from cleatwright.wall.search.state import State
from cleatwright.wall.search.tables import COST_UNIT, UNIT, Ints, Tables


@dataclass(frozen=True)
class Outcome:
    """Everything that turns a state into an arrangement.

    Args:
        tables: The problem in whole numbers: the items, then the seats that are to be kept free.
        problem: The same, the items in the order of their keys.
    """

    tables: Tables
    problem: WallProblem

    def finished(self, state: State) -> Arrangement:
        """Return what stands, with its rails and its score."""
        problem = self.problem
        seats = {one.key: one for one in problem.seats}
        all_places = places_of(self.tables, (*problem.items, *problem.seats), state)
        return hung(
            problem,
            [place for place in all_places if place.key not in seats],
            [ReservedSeat(seats[one.key], one) for one in all_places if one.key in seats],
        )

    def cost(self, state: State) -> int:
        """Return the true cost of what stands, in the units of the search."""
        found = self.finished(state)
        return round((found.scores.total + seats_cost(self.problem, found.seats)) * COST_UNIT)


def places_of(t: Tables, items: Sequence[Item], state: State) -> tuple[Place, ...]:
    """Return the places of what stands in the order of the items; given ones to the last digit."""
    standing = np.flatnonzero(state.stands)
    lefts: Ints = state.box[standing, 0] + t.items.left[standing]
    where = zip(standing.tolist(), lefts.tolist(), state.z[standing].tolist(), strict=True)
    return tuple(_place(items[i], x / UNIT, z / UNIT) for i, x, z in where)


def _place(item: Item, x_mm: float, z_mm: float) -> Place:
    """Return the place; where the item is fixed, or hangs already, to the last digit."""
    for given in (item.fixed, item.hangs_at):
        if given is not None and stays_at(given, Place(item.key, x_mm, z_mm)):
            return Place(item.key, *given)
    return Place(item.key, x_mm, z_mm)
