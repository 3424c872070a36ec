"""Places that are written into a document in inches hang together as they were found.

Oracle: the rules of the wall, asked of what a document says.
"""

from __future__ import annotations

import pytest

from cleatwright.base.units import length_mm
from cleatwright.siting.giving_places import exact_place, on_the_grid, on_the_grid_together
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement, Item, Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile
from cleatwright.wall.rails import cut_rails

RULE = RailRule(Profile(70.0, 18.0, 45.0), min_gap_mm=60.0)
PART_MM = 25.4 / 32


def walls(*widths_mm: float, wide_mm: float = 600.0) -> tuple[WallProblem, tuple[Place, ...]]:
    """Return a wall on which things hang side by side from x = 5 mm, each touching the next."""
    items = [Item(str(n), wide, 20.0, 60.0) for n, wide in enumerate(widths_mm)]
    lefts = [5.0 + sum(widths_mm[:n]) for n in range(len(items))]
    places = tuple(Place(item.key, x, 254.0) for item, x in zip(items, lefts, strict=True))
    return WallProblem(WallSpace(wide_mm, 500.0), RULE, tuple(items)), places


def wrong(problem: WallProblem, places: tuple[Place, ...]) -> tuple[str, ...]:
    return conflicts(problem, Arrangement(places, cut_rails(problem, places)))


@pytest.mark.parametrize("wide_mm", [600.0, 365.5])
def test_what_touches_its_neighbour_does_not_overlap_it_when_it_is_written(wide_mm: float) -> None:
    """Four things 90.1 mm wide on 365.5 mm have 0.1 mm to spare, less than 1/32 of an inch."""
    problem, places = walls(90.1, 90.1, 90.1, 90.1, wide_mm=wide_mm)
    assert wrong(problem, places) == ()
    assert wrong(problem, tuple(on_the_grid(one, "in") for one in places)) != ()
    found = on_the_grid_together(problem, places)
    said = [exact_place(one, "in") for one in found]
    read = tuple(
        Place(one.key, length_mm(line.x), length_mm(line.z))
        for one, line in zip(found, said, strict=True)
    )
    assert wrong(problem, read) == ()
    assert all(abs(a.x_mm - b.x_mm) < PART_MM for a, b in zip(read, places, strict=True))
    # a thing beside which there is room is said without decimals
    assert ("." in said[-1].x) == (wide_mm < 600.0)
