"""Seats for new holders that become free when one or two of those that hang move."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from cleatwright.wall.adding.seats import Seated, seats_beside
from cleatwright.wall.model import Item, Place
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.score import hung

# so many pairs are tried; a search of the whole wall is faster than more
MOST_PAIRS = 120


def with_moves(
    problem: WallProblem, places: Sequence[Place], new: Sequence[Item], *, in_rows: bool = False
) -> Seated | None:
    """Return the places of all when one of those that hang moves, else when two do.

    Of the ways to move one thing, or two, that with the fewest points is taken. None when
    there is none.

    Args:
        problem: The wall and all that hangs or shall hang.
        places: Where the others hang.
        new: The new things.
        in_rows: Whether new rails are whole rows.
    """
    may = [place.key for place in places if problem.known[place.key].fixed is None]
    near = sorted(may, key=lambda key: (-problem.known[key].whole_width_mm, key))
    for moved in ([(key,) for key in may], list(combinations(near, 2))[:MOST_PAIRS]):
        ways = [
            found
            for keys in moved
            if (found := _way(problem, places, new, moved=keys, in_rows=in_rows)) is not None
        ]
        if ways:
            return min(ways, key=lambda one: hung(problem.on(one.space), one.places).scores.total)
    return None


def _way(
    problem: WallProblem,
    places: Sequence[Place],
    new: Sequence[Item],
    *,
    moved: tuple[str, ...],
    in_rows: bool,
) -> Seated | None:
    """Return the places of all when some things move; None when one of them finds none."""
    rest = [place for place in places if place.key not in moved]
    first = seats_beside(problem, rest, new, in_rows=in_rows)
    if first is None:
        return None
    movers = [problem.known[key] for key in moved]
    return seats_beside(problem.on(first.space), first.places, movers, in_rows=first.in_rows)
