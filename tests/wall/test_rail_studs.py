"""Rails reach for studs; a rail turns on a single one (common practice, no source)."""

import math
from dataclasses import replace

import pytest

from cleatwright.wall.model import Box, Item, Place, RailRule, WallSpace
from cleatwright.wall.rails import END_MM, cut_rails, stud_crossings

RULE = RailRule(thickness_mm=18.0, height_mm=70.0, min_gap_mm=60.0)
STUDS = (400.0, 800.0, 1200.0, 1600.0)


def rails(x_mm: float, *, studs: tuple[float, ...] = STUDS, obstacles: tuple[Box, ...] = ()):  # noqa: ANN201 - a pair of values
    space = WallSpace(2000.0, 1000.0, studs_mm=studs, obstacles=obstacles)
    items = {"a": Item("a", width_mm=100.0, up_mm=50.0, down_mm=80.0)}
    runs = cut_rails(space, RULE, items, [Place("a", x_mm, 500.0)])
    return runs, stud_crossings(space, runs, end_mm=END_MM)


@pytest.mark.parametrize("x_mm", [0.0, 350.0, 550.0, 1000.0, 1900.0])
def test_a_short_rail_is_lengthened_to_two_studs(x_mm: float) -> None:
    (run,), (crossing,) = rails(x_mm)
    assert len(crossing.studs_mm) == 2
    assert run.x0_mm <= x_mm
    assert run.x1_mm >= x_mm + 100.0


def test_the_nearest_pair_of_studs_is_taken() -> None:
    """A plate from 550 to 650 lies between 400 and 800: 420 mm of rail and END at both ends."""
    (run,), _ = rails(550.0)
    assert (run.x0_mm, run.x1_mm) == (400.0 - END_MM, 800.0 + END_MM)


def test_an_obstacle_stops_the_rail_short() -> None:
    window = Box("window", 700.0, 300.0, 200.0, 400.0)
    (run,), (crossing,) = rails(550.0, obstacles=(window,))
    assert run.x1_mm <= 700.0
    assert crossing.studs_mm == (400.0,)


def test_without_studs_a_rail_only_gets_its_end_room() -> None:
    (run,), _ = rails(550.0, studs=())
    assert (run.x0_mm, run.x1_mm) == (550.0 - RULE.end_room_mm, 650.0 + RULE.end_room_mm)


def test_a_rail_longer_than_every_board_is_parted_between_plates_with_two_studs_each() -> None:
    """Plates of 300 mm at 0, 320, ... on boards of 1000 mm: no part is longer, no plate is cut."""
    space = WallSpace(
        width_mm=2600.0, height_mm=800.0, studs_mm=tuple(float(x) for x in range(100, 2600, 300))
    )
    rule = RailRule(thickness_mm=18.0, height_mm=70.0, min_gap_mm=60.0, longest_mm=1000.0)
    items = {f"{k}": Item(f"{k}", 300.0, 50.0, 100.0) for k in range(8)}
    places = [Place(key, 20.0 + 320.0 * k, 500.0) for k, key in enumerate(sorted(items))]
    runs = cut_rails(space, rule, items, places)
    assert len(runs) == 3
    assert all(run.length_mm <= 1000.0 for run in runs)
    for place in places:
        inside = [r for r in runs if r.x0_mm <= place.x_mm and place.x_mm + 300.0 <= r.x1_mm]
        assert len(inside) == 1
    assert all(len(one.studs_mm) >= 2 for one in stud_crossings(space, runs))
    whole = cut_rails(space, replace(rule, longest_mm=math.inf), items, places)
    assert len(whole) == 1
    assert sum(r.length_mm for r in runs) == pytest.approx(whole[0].length_mm)
