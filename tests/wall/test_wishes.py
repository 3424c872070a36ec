"""What a person asks of the wall: old rails, order, cool places, the better hand, few moves."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from cleatwright.base.errors import WallError
from cleatwright.wall.arrange import arrange
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Box, Item, Place, RailRule, Scores, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.rails import weak
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.score import score
from cleatwright.wall.studs import studs_at
from cleatwright.wall.weights import PREFERENCES, Wanted

RULE = RailRule(Profile(70.0, 18.0, 45.0), 60.0)
SPACE = WallSpace(1600.0, 900.0, 800.0)


def a_few(count: int, *, group: str = "", ranked: bool = False) -> tuple[Item, ...]:
    return tuple(
        Item(
            f"h{k}",
            90.0 + 10.0 * (k * 7 % 5),
            60.0,
            140.0 + 20.0 * (k * 3 % 4),
            mass_kg=0.5,
            group=group,
            rank=k if ranked else None,
            rail_depth_mm=60.0,
        )
        for k in range(count)
    )


def test_a_rail_that_hangs_already_is_used_and_costs_nothing() -> None:
    space = replace(
        SPACE, kept_rails=(Rail(9, 450.0, 100.0, 1100.0, RULE.profile, state="document"),)
    )
    items = a_few(6)
    result = arrange(WallProblem(space, RULE, items), rounds=100)
    assert conflicts(WallProblem(space, RULE, items), result) == ()
    assert {place.z_mm for place in result.places} == {450.0}
    assert [run.stays for run in result.rails] == [True]
    assert result.scores.rail_count == result.scores.rail_length == 0.0


def test_new_rails_keep_their_distance_from_one_that_stays() -> None:
    """The rail at 450 mm is too short for all: the next is at least 130 mm away (70 + 60)."""
    space = replace(
        SPACE, kept_rails=(Rail(9, 450.0, 100.0, 400.0, RULE.profile, state="document"),)
    )
    items = a_few(12)
    result = arrange(WallProblem(space, RULE, items), rounds=100)
    assert conflicts(WallProblem(space, RULE, items), result) == ()
    assert not result.left_over
    for run in result.rails:
        if not run.stays and run.x0_mm < 400.0 and run.x1_mm > 100.0:
            assert abs(run.z_top_mm - 450.0) >= 130.0


def test_a_rail_that_stays_outside_the_wall_is_named() -> None:
    space = replace(
        SPACE, kept_rails=(Rail(9, 450.0, 1000.0, 1700.0, RULE.profile, state="document"),)
    )
    with pytest.raises(WallError, match="R9"):
        arrange(WallProblem(space, RULE, ()), rounds=0)


def test_a_ranked_group_hangs_from_left_to_right() -> None:
    items = a_few(9, group="chisels", ranked=True)
    result = arrange(WallProblem(SPACE, RULE, items), rounds=150)
    assert not result.left_over
    edges = [place.x_mm for place in result.places]
    assert edges == sorted(edges)
    assert len(set(edges)) == len(edges)


def test_what_must_stay_cool_keeps_away_from_the_heater_and_nothing_else_does() -> None:
    heater = Box("heater", 600.0, 0.0, 400.0, 200.0, heat_mm=400.0)
    space = replace(SPACE, obstacles=(heater,))
    items = (*a_few(6), Item("cans", 150.0, 100.0, 200.0, keep_cool=True, rail_depth_mm=60.0))
    result = arrange(WallProblem(space, RULE, items), rounds=150)
    assert conflicts(WallProblem(space, RULE, items), result) == ()
    cans = next(place for place in result.places if place.key == "cans")
    assert cans.x_mm + 150.0 <= 200.0 or cans.x_mm >= 1400.0 or cans.z_mm - 200.0 >= 600.0


def test_the_better_hand_draws_daily_tools_to_its_side() -> None:
    items = tuple(replace(item, use="daily") for item in a_few(4))
    for easy_x in (300.0, 1300.0):
        band = ReachBand(1000.0, 1400.0, easy_x_mm=easy_x)
        places = arrange(WallProblem(SPACE, RULE, items, band), rounds=100).places
        middle = sum(place.x_mm + 50.0 for place in places) / len(places)
        assert abs(middle - easy_x) < 150.0


def test_nothing_moves_when_nothing_changed() -> None:
    items = a_few(10)
    first = arrange(WallProblem(SPACE, RULE, items), rounds=150)
    hung = {place.key: (place.x_mm, place.z_mm) for place in first.places}
    again = arrange(
        WallProblem(SPACE, RULE, tuple(replace(i, hangs_at=hung[i.key]) for i in items)),
        rounds=150,
        seed=5,
    )
    assert again.places == first.places
    assert again.scores.moved == 0.0


def test_one_more_holder_moves_few_of_the_others() -> None:
    items = a_few(10)
    hung = {
        p.key: (p.x_mm, p.z_mm) for p in arrange(WallProblem(SPACE, RULE, items), rounds=150).places
    }
    more = [*(replace(i, hangs_at=hung[i.key]) for i in items), Item("new", 120.0, 60.0, 200.0)]
    result = arrange(WallProblem(SPACE, RULE, tuple(more)), rounds=150)
    assert conflicts(WallProblem(SPACE, RULE, tuple(more)), result) == ()
    moved = [p for p in result.places if p.key in hung and (p.x_mm, p.z_mm) != hung[p.key]]
    assert len(moved) <= 2
    assert result.scores.moved == 100.0 * len(moved)


def test_nothing_that_hangs_moves_when_it_shall_hang_still() -> None:
    items = a_few(10)
    hung = {
        p.key: (p.x_mm, p.z_mm) for p in arrange(WallProblem(SPACE, RULE, items), rounds=0).places
    }
    more = [*(replace(i, hangs_at=hung[i.key]) for i in items), Item("new", 120.0, 60.0, 200.0)]
    result = arrange(WallProblem(SPACE, RULE, tuple(more)), rounds=300, still=True)
    assert conflicts(WallProblem(SPACE, RULE, tuple(more)), result) == ()
    assert {p.key: (p.x_mm, p.z_mm) for p in result.places if p.key in hung} == hung
    assert not result.left_over


def test_a_holder_whose_old_place_is_taken_by_a_new_socket_moves() -> None:
    item = Item("saw", 100.0, 50.0, 150.0, hangs_at=(123.4, 456.7), rail_depth_mm=60.0)
    space = replace(SPACE, obstacles=(Box("socket", 150.0, 400.0, 90.0, 90.0),))
    (place,) = arrange(WallProblem(space, RULE, (item,)), rounds=20).places
    assert (place.x_mm, place.z_mm) != (123.4, 456.7)
    (stays,) = arrange(WallProblem(SPACE, RULE, (item,)), rounds=0).places
    assert stays == Place("saw", 123.4, 456.7)


def test_rails_are_laid_so_that_they_meet_two_studs_where_the_wall_allows_it() -> None:
    """Beside the window at x 500 to 1100 mm only the right stretch holds two studs."""
    window = Box("window", 500.0, 100.0, 600.0, 700.0)
    space = replace(SPACE, obstacles=(window,), studs=studs_at(250.0, 800.0, 1200.0, 1500.0))
    result = arrange(WallProblem(space, RULE, a_few(4)), rounds=150)
    assert weak(space, result.rails) == ()
    assert result.scores.weak_rails == 0.0


def test_studs_that_no_rail_can_meet_twice_are_refused_with_their_places() -> None:
    space = replace(SPACE, studs=studs_at(400.0, 1595.0))
    with pytest.raises(WallError, match=r"400 and 1595 mm"):
        arrange(WallProblem(space, RULE, a_few(1)), rounds=0)
    # a plate that is screwed to the wall needs no rail
    screwed = replace(a_few(1)[0], on_rail=False)
    assert arrange(WallProblem(space, RULE, (screwed,)), rounds=0).places


def test_a_ranked_group_is_not_stuck_at_the_wrong_end_of_the_wall() -> None:
    """Three in order beside the better hand at the right: none pays for more than two widths."""
    items = tuple(
        Item(f"h{k}", 200.0, 60.0, 140.0, use="daily", group="g", rank=k, rail_depth_mm=60.0)
        for k in range(3)
    )
    band = ReachBand(1000.0, 1400.0, easy_x_mm=1400.0)
    result = arrange(WallProblem(SPACE, RULE, items, band), rounds=500)
    assert not result.left_over
    # side by side up to the right edge the middles are 1100, 1300 and 1500 mm from the left
    ways = 30.0 + 10.0 + 10.0
    assert result.scores.sideways <= 10.0 * 0.05 * ways + 1.0


@pytest.mark.parametrize(
    ("wanted", "less"),
    [
        ("timber", lambda scores: scores.rail_count + 7 * scores.rail_length),
        ("rails", lambda scores: scores.rail_count + scores.groups),
        ("heights", lambda scores: scores.raised_mass),
    ],
)
def test_what_weighs_more_is_no_more_than_as_usual(
    wanted: Wanted, less: Callable[[Scores], float]
) -> None:
    """Of two searches each is the better one by its own weights, counted in the usual points.

    Oracle: if a is the best by weights w and b the best by weights w + d, then d times the parts
    of b is no more than d times those of a (an exchange argument; both searches find the best of
    a wall so small).
    """
    usual = WallProblem(SPACE, RULE, a_few(5, group="g"))
    found = arrange(usual.weighed(PREFERENCES[wanted].weights), rounds=3000)
    plain = arrange(usual, rounds=3000)
    assert conflicts(usual, found) == ()
    assert less(score(usual, found)) <= less(score(usual, plain)) + 1e-6
    assert score(usual, plain).total <= score(usual, found).total + 1e-6
