"""Seats for new holders that become free when one or two of those that hang move."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from cleatwright.wall.adding.seats import seats_beside
from cleatwright.wall.model import Item, Place
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.score import hung

# so many pairs are tried; a search of the whole wall is faster than more
MOST_PAIRS = 120


def with_moves(
    problem: WallProblem, places: Sequence[Place], new: Sequence[Item]
) -> tuple[Place, ...] | None:
    """Return the places of all when one of those that hang moves, else when two do.

    Of the ways to move one thing, or two, that with the fewest points is taken. None when
    there is none.

    Args:
        problem: The wall and all that hangs or shall hang.
        places: Where the others hang.
        new: The new things.
    """
    may = [place.key for place in places if problem.known[place.key].fixed is None]
    ones = list(_ways(problem, places, new, [(key,) for key in may]))
    if ones:
        return min(ones, key=_points)[1]
    near = sorted(may, key=lambda key: (-problem.known[key].whole_width_mm, key))
    twos = list(_ways(problem, places, new, list(combinations(near, 2))[:MOST_PAIRS]))
    return min(twos, key=_points)[1] if twos else None


def _points(way: tuple[float, tuple[Place, ...]]) -> float:
    return way[0]


def _ways(
    problem: WallProblem,
    places: Sequence[Place],
    new: Sequence[Item],
    moved: Sequence[tuple[str, ...]],
) -> Iterator[tuple[float, tuple[Place, ...]]]:
    """Yield the points and the places of each way that gives everything a seat."""
    for keys in moved:
        rest = [place for place in places if place.key not in keys]
        first = seats_beside(problem, rest, new)
        found = first and seats_beside(problem, first, [problem.known[key] for key in keys])
        if found:
            yield hung(problem, found).scores.total, found
