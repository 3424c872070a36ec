"""Rails reach for studs; a rail turns on a single one (common practice, no source)."""

import math
from dataclasses import replace

import pytest

from cleatwright.wall.arrange import arrange
from cleatwright.wall.model import Box, Item, Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.rails import cut_rails
from cleatwright.wall.studs import END_MM, StudPlace, screw_x, studs_at

RULE = RailRule(Profile(70.0, 18.0, 45.0), min_gap_mm=60.0)
STUDS = (400.0, 800.0, 1200.0, 1600.0)


def rails(
    x_mm: float, *, studs: tuple[float, ...] = STUDS, obstacles: tuple[Box, ...] = ()
) -> tuple[Rail, ...]:
    space = WallSpace(2000.0, 1000.0, studs=studs_at(*studs), obstacles=obstacles)
    items = (Item("a", width_mm=100.0, up_mm=50.0, down_mm=80.0),)
    return cut_rails(WallProblem(space, RULE, items), [Place("a", x_mm, 500.0)])


@pytest.mark.parametrize("x_mm", [0.0, 350.0, 550.0, 1000.0, 1900.0])
def test_a_short_rail_is_lengthened_to_two_studs(x_mm: float) -> None:
    (run,) = rails(x_mm)
    assert len(run.studs_mm) == 2
    assert run.x0_mm <= x_mm
    assert run.x1_mm >= x_mm + 100.0


def test_the_nearest_pair_of_studs_is_taken() -> None:
    """A plate from 550 to 650 lies between 400 and 800: 400 mm of rail and END at both ends."""
    (run,) = rails(550.0)
    assert (run.x0_mm, run.x1_mm) == (400.0 - END_MM, 800.0 + END_MM)


def test_an_obstacle_stops_the_rail_short() -> None:
    window = Box("window", 700.0, 300.0, 200.0, 400.0)
    (run,) = rails(550.0, obstacles=(window,))
    assert run.x1_mm <= 700.0
    assert run.studs_mm == (400.0,)


def test_without_studs_a_rail_only_gets_its_end_room() -> None:
    (run,) = rails(550.0, studs=())
    assert (run.x0_mm, run.x1_mm) == (550.0 - RULE.end_room_mm, 650.0 + RULE.end_room_mm)


def test_a_rail_longer_than_every_board_is_parted_between_plates_with_two_studs_each() -> None:
    """Plates of 300 mm at 0, 320, ... on boards of 1000 mm: no part is longer, no plate is cut."""
    space = WallSpace(
        width_mm=2600.0, height_mm=800.0, studs=studs_at(*(float(x) for x in range(100, 2600, 300)))
    )
    rule = RailRule(Profile(70.0, 18.0, 45.0), min_gap_mm=60.0, longest_mm=1000.0)
    items = {f"{k}": Item(f"{k}", 300.0, 50.0, 100.0) for k in range(8)}
    places = [Place(key, 20.0 + 320.0 * k, 500.0) for k, key in enumerate(sorted(items))]
    runs = cut_rails(WallProblem(space, rule, tuple(items.values())), places)
    assert len(runs) == 3
    assert all(run.length_mm <= 1000.0 for run in runs)
    for place in places:
        inside = [r for r in runs if r.x0_mm <= place.x_mm and place.x_mm + 300.0 <= r.x1_mm]
        assert len(inside) == 1
    assert all(len(one.studs_mm) >= 2 for one in runs)
    whole = cut_rails(
        WallProblem(space, replace(rule, longest_mm=math.inf), tuple(items.values())), places
    )
    assert len(whole) == 1
    assert sum(r.length_mm for r in runs) == pytest.approx(whole[0].length_mm)


@pytest.mark.parametrize("x_mm", [0.0, 310.0, 550.0, 1000.0, 1335.0, 1900.0])
def test_screws_keep_ten_diameters_from_the_ends_of_their_rail(x_mm: float) -> None:
    """NDS Commentary, Table C12.1.5.7 (from memory): 10 d in bored holes, 50 mm for 5 mm screws."""
    (run,) = rails(x_mm)
    assert all(run.x0_mm + 50.0 <= x <= run.x1_mm - 50.0 for x in run.studs_mm)


@pytest.mark.parametrize(("x_mm", "end"), [(440.0, 850.0), (1250.0, 1650.0)])
def test_a_rail_that_ends_300_mm_before_a_further_stud_or_less_reaches_it(
    x_mm: float, end: float
) -> None:
    """Plates 560 mm wide end 181 and 191 mm before the near face of the next stud but one."""
    space = WallSpace(2000.0, 1000.0, studs=studs_at(400.0, 800.0, 1200.0, 1600.0, 1990.0))
    items = (Item("a", width_mm=160.0, up_mm=50.0, down_mm=80.0),)
    (run,) = cut_rails(WallProblem(space, RULE, items), [Place("a", x_mm, 500.0)])
    assert run.x1_mm == end


def test_a_rail_that_ends_further_off_or_has_no_room_stays_short() -> None:
    """From 380 to 860 mm of rail the stud at 1200 mm is 321 mm away; a pipe stands before 1600."""
    space = WallSpace(2000.0, 1000.0, studs=studs_at(400.0, 800.0, 1200.0, 1600.0))
    items = (Item("a", width_mm=460.0, up_mm=50.0, down_mm=80.0),)
    (run,) = cut_rails(WallProblem(space, RULE, items), [Place("a", 380.0, 500.0)])
    assert (run.x0_mm, run.x1_mm) == (350.0, 860.0)
    items = (Item("a", width_mm=500.0, up_mm=50.0, down_mm=80.0),)
    pipe = Box("pipe", 1480.0, 0.0, 30.0, 1000.0)
    piped = replace(space, obstacles=(pipe,))
    (run,) = cut_rails(WallProblem(piped, RULE, items), [Place("a", 900.0, 500.0)])
    assert run.x1_mm == 1420.0


def test_a_rail_reaches_no_further_than_its_board_is_long() -> None:
    space = WallSpace(2000.0, 1000.0, studs=studs_at(400.0, 800.0, 1200.0, 1600.0))
    items = (Item("a", width_mm=600.0, up_mm=50.0, down_mm=80.0),)
    ends: list[tuple[float, float]] = []
    for longest in (900.0, 894.0, 700.0):
        rule = replace(RULE, longest_mm=longest)
        (run,) = cut_rails(WallProblem(space, rule, items), [Place("a", 400.0, 500.0)])
        ends.append((run.x0_mm, run.x1_mm))
    assert ends == [(350.0, 1250.0), (350.0, 1243.5), (350.0, 1020.0)]


def test_a_corner_stud_takes_screws_aside_of_its_middle() -> None:
    """38 mm wide at the end of the wall: 2.5 d of 5 mm screws to its edge leave 25.5 mm, above 5 d.

    NDS Commentary, Table C12.1.5.7 (from memory).
    """
    space = WallSpace(1000.0, 1000.0, studs=studs_at(19.0, 500.0, 981.0))
    items = (Item("a", width_mm=100.0, up_mm=50.0, down_mm=80.0),)
    (run,) = cut_rails(WallProblem(space, RULE, items), [Place("a", 100.0, 500.0)])
    assert run.x0_mm == 0.0
    assert run.studs_mm == (25.5, 500.0)
    (run,) = cut_rails(WallProblem(space, RULE, items), [Place("a", 800.0, 500.0)])
    assert run.x1_mm == 1000.0
    assert run.studs_mm == (500.0, 974.5)


@pytest.mark.parametrize(("begins", "x"), [(300.0, 400.0), (352.0, 402.0), (356.5, 406.5)])
def test_screws_go_aside_as_far_as_the_edge_of_the_stud_lets_them(begins: float, x: float) -> None:
    (stud,) = studs_at(400.0)
    assert screw_x(stud, (begins, 900.0), wall_mm=2000.0) == x
    assert screw_x(stud, (357.0, 900.0), wall_mm=2000.0) is None


def test_studs_that_are_nailed_together_are_one_place_for_screws_beside_their_joint() -> None:
    """Two uprights of 38 mm from 362 to 438 mm: screws go into the middle of one of the two."""
    double = StudPlace(((362.0, 400.0), (400.0, 438.0)))
    space = WallSpace(2000.0, 1000.0, studs=(double, *studs_at(800.0)))
    items = (Item("a", width_mm=100.0, up_mm=50.0, down_mm=80.0),)
    for x_mm in (0.0, 340.0, 365.0, 380.0, 600.0):
        (run,) = cut_rails(WallProblem(space, RULE, items), [Place("a", x_mm, 500.0)])
        first, second = run.studs_mm
        assert second == 800.0
        assert 12.5 <= first - 362.0 <= 25.5 or 12.5 <= first - 400.0 <= 25.5
        assert first - run.x0_mm >= 50.0


@pytest.mark.parametrize("seed", range(4))
def test_nothing_hangs_far_beyond_the_last_stud_that_a_rail_can_reach(seed: int) -> None:
    """The wall is twice as wide as its studs; there is room over them, and 300 mm beside them."""
    space = WallSpace(3000.0, 1600.0, 600.0, studs=studs_at(1200.0, 1800.0))
    items = tuple(Item(f"{k}", 150.0, 60.0, 120.0, use="daily") for k in range(12))
    found = arrange(WallProblem(space, RULE, items), seed=seed, rounds=60)
    assert not found.left_over
    assert min(place.x_mm for place in found.places) >= 1200.0 - 300.0
    assert max(place.x_mm + 150.0 for place in found.places) <= 1800.0 + 300.0


def test_what_was_put_far_beyond_the_last_stud_stays_there() -> None:
    space = WallSpace(3000.0, 1600.0, 600.0, studs=studs_at(1200.0, 1800.0))
    items = (Item("a", 150.0, 60.0, 120.0, fixed=(100.0, 500.0)), Item("b", 150.0, 60.0, 120.0))
    found = arrange(WallProblem(space, RULE, items), seed=0, rounds=60)
    assert not found.left_over
    assert {place.key: place.x_mm for place in found.places}["a"] == 100.0
