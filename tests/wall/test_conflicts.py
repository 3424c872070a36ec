"""The verifier finds each kind of fault, one at a time, in a small wall made by hand."""

from dataclasses import replace

import pytest

from cleatwright.base.lengths import IN_MM
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import (
    Arrangement,
    Box,
    Item,
    LeftOver,
    Place,
    RailRule,
    Scores,
    WallSpace,
)
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail

NOTHING = Scores(0.0, 0.0, 0.0, 0.0, 0.0)
SPACE = WallSpace(1000.0, 800.0, obstacles=(Box("socket", 800.0, 300.0, 80.0, 80.0),))
RULE = RailRule(Profile(80.0, 18.0, 45.0), 50.0)
ITEMS = (
    Item("chisels", 200.0, 50.0, 150.0, rail_depth_mm=70.0),
    Item("pliers", 100.0, 50.0, 150.0, side_right_mm=20.0, rail_depth_mm=70.0),
    Item("vice", 150.0, 60.0, 60.0, on_rail=False),
    Item("saws", 150.0, 50.0, 200.0, rail_depth_mm=70.0, fixed=(500.0, 250.0)),
)
PLACES = (
    Place("chisels", 100.0, 600.0),
    Place("pliers", 300.0, 600.0),
    Place("saws", 500.0, 250.0),
    Place("vice", 50.0, 250.0),
)
RAILS = (Rail(1, 600.0, 80.0, 420.0, RULE.profile), Rail(2, 250.0, 480.0, 670.0, RULE.profile))
SOUND = Arrangement(PLACES, RAILS, NOTHING)


def moved(key: str, x: float, z: float) -> Arrangement:
    places = tuple(Place(key, x, z) if p.key == key else p for p in PLACES)
    return replace(SOUND, places=places)


def railed(*rails: Rail) -> Arrangement:
    return replace(SOUND, rails=rails)


def test_the_sound_wall_has_no_conflict() -> None:
    assert conflicts(WallProblem(SPACE, RULE, ITEMS), SOUND) == ()


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (moved("pliers", 290.0, 600.0), '"chisels" and "pliers" overlap'),
        (moved("vice", 50.0, 400.0), '"chisels" and "vice" overlap'),
        (moved("vice", 700.0, 350.0), 'overlaps the obstacle "socket"'),
        (moved("vice", -5.0, 250.0), "beyond the edge of the wall"),
        (moved("vice", 50.0, 50.0), "beyond the edge of the wall"),
        (moved("saws", 505.0, 250.0), "was moved from its fixed place"),
        (moved("chisels", 75.0, 600.0), "has no rail behind its whole plate"),
        (moved("chisels", 100.0, 605.0), "has no rail behind its whole plate"),
        # the plates of chisels and pliers reach from 100 to 400 mm
        (railed(replace(RAILS[0], x1_mm=399.0), RAILS[1]), '"pliers" has no rail behind'),
        (railed(replace(RAILS[0], x0_mm=101.0), RAILS[1]), '"chisels" has no rail behind'),
        (railed(RAILS[0], replace(RAILS[1], x0_mm=190.0)), "screwed flat"),
        (railed(RAILS[0], replace(RAILS[1], x1_mm=1001.0)), "R2 reaches beyond"),
        (
            railed(*RAILS, Rail(3, 320.0, 750.0, 850.0, RULE.profile)),
            'R3 crosses the obstacle "socket"',
        ),
        (railed(*RAILS, Rail(3, 700.0, 80.0, 200.0, RULE.profile)), "R1 and R3 are 20 mm apart"),
        (
            railed(*RAILS, Rail(3, 560.0, 150.0, 200.0, RULE.profile)),
            '"chisels" bears on its own rail',
        ),
        (replace(SOUND, places=PLACES[1:]), '"chisels" is named 0 times'),
        (replace(SOUND, left_over=(LeftOver("vice", "", ()),)), '"vice" is named 2 times'),
        (replace(SOUND, places=(*PLACES, Place("ghost", 0.0, 0.0))), "no such holder"),
    ],
)
def test_each_fault_is_named(wrong: Arrangement, words: str) -> None:
    found = IN_MM.all(conflicts(WallProblem(SPACE, RULE, ITEMS), wrong))
    assert any(words in sentence for sentence in found)


def test_touching_is_not_overlapping() -> None:
    assert conflicts(WallProblem(SPACE, RULE, ITEMS), moved("vice", 0.0, 390.0)) == ()
