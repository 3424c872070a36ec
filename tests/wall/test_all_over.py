"""Screws of rails in a wall that takes them all over: where they may be and where not."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from cleatwright.wall.arrange import arrange
from cleatwright.wall.ground import AllOver, AllOverRule, Courses, WallOpening, end_mm
from cleatwright.wall.model import Item, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile
from cleatwright.wall.rails import weak

HAIR = 0.03
PROFILE = Profile(70.0, 18.0, 45.0)
RULE = AllOverRule(end_mm=60.0, least_mm=100.0, edge_mm=120.0)
SPANS = st.tuples(st.floats(0.0, 2900.0), st.floats(20.0, 2500.0)).map(
    lambda pair: (pair[0], min(3000.0, pair[0] + pair[1]))
)
OPENINGS = st.lists(
    st.tuples(st.floats(0.0, 2800.0), st.floats(50.0, 900.0)).map(
        lambda pair: WallOpening(pair[0], pair[0] + pair[1], 400.0, 900.0)
    ),
    max_size=3,
)


def ground(rule: AllOverRule) -> AllOver:
    return rule.ground(z_top_mm=700.0, height_mm=70.0, wall_mm=3000.0)


def test_screws_stay_ten_diameters_off_the_ends_of_a_rail_and_never_nearer_than_50_mm() -> None:
    """NDS Commentary, Table C12.1.5.7, and EN 1995-1-1, Table 8.6: 10 d (secondary sources)."""
    assert [end_mm(d) for d in (3.5, 5.0, 6.0, 10.0)] == [50.0, 50.0, 60.0, 100.0]


@settings(deadline=None, max_examples=150)
@given(SPANS, OPENINGS)
def test_every_screw_keeps_all_its_distances(
    span: tuple[float, float], openings: list[WallOpening]
) -> None:
    """To both ends of the rail, to the ends of the wall, to openings beside it, to each other."""
    found = ground(replace(RULE, openings=tuple(openings))).columns(span)
    for x in found:
        assert span[0] + RULE.end_mm - HAIR <= x <= span[1] - RULE.end_mm + HAIR
        assert RULE.edge_mm - HAIR <= x <= 3000.0 - RULE.edge_mm + HAIR
        for one in openings:
            beside = max(one.x0_mm - x, x - one.x1_mm)
            assert beside >= RULE.edge_mm - HAIR
    assert all(b - a >= RULE.least_mm - HAIR for a, b in pairwise(found))
    if not openings:
        assert all(b - a <= RULE.most_mm + HAIR for a, b in pairwise(found))


@settings(deadline=None, max_examples=100)
@given(SPANS, OPENINGS)
@example((0.0, 371.0), [WallOpening(241.0, 291.0, 400.0, 900.0)])
def test_a_rail_grows_until_it_is_held_and_no_further_than_its_room(
    span: tuple[float, float], openings: list[WallOpening]
) -> None:
    here = ground(replace(RULE, openings=tuple(openings)))
    room = (max(0.0, span[0] - 200.0), min(3000.0, span[1] + 200.0))
    longer = here.lengthened(span, room)
    assert room[0] - HAIR <= longer[0] <= span[0] + HAIR
    assert span[1] - HAIR <= longer[1] <= room[1] + HAIR
    # what the whole room holds, some rail in it holds
    if len(here.columns(room)) >= here.wanted:
        assert len(here.columns(longer)) >= here.wanted
    if len(here.columns(span)) >= here.wanted:
        assert longer == span


def test_a_short_rail_gets_three_anchors_in_the_middle_of_a_free_wall() -> None:
    """By hand: 60 + 100 + 100 + 60 = 320 mm, evenly about the middle of 1000 to 1080."""
    here = ground(RULE)
    longer = here.lengthened((1000.0, 1080.0), (0.0, 3000.0))
    assert longer == pytest.approx((880.0, 1200.0))
    assert here.columns(longer) == pytest.approx((940.0, 1040.0, 1140.0))


def test_an_opening_that_no_row_comes_near_hinders_no_screw() -> None:
    high = WallOpening(500.0, 2500.0, 1400.0, 1800.0)
    rail = (600.0, 1600.0)
    assert ground(replace(RULE, openings=(high,))).columns(rail) == ground(RULE).columns(rail)
    low = replace(high, z0_mm=750.0)
    assert ground(replace(RULE, openings=(low,))).columns(rail) == ()


@settings(deadline=None, max_examples=100)
@given(st.floats(70.0, 2000.0), st.floats(0.0, 300.0), st.floats(50.0, 250.0))
def test_a_line_of_anchors_keeps_off_the_bed_joints_as_far_as_the_rail_lets_it(
    top: float, joint: float, course: float
) -> None:
    """Tried out: no height between the same bounds is further off, unless it is inside a brick."""
    courses = Courses(joint, course)
    (share,) = replace(RULE, courses=courses).rows_at(z_top_mm=top, height_mm=70.0)
    off = courses.off_mm(top - 70.0 + 70.0 * share)
    assert 0.0 <= off <= course / 2 + HAIR
    lowest, highest = 1 / 3, 0.55
    tried = [
        courses.off_mm(top - 70.0 + 70.0 * (lowest + (highest - lowest) * k / 400))
        for k in range(401)
    ]
    assert lowest <= share <= highest
    assert off >= min(course / 4, max(tried)) - 0.5


def test_courses_by_hand() -> None:
    """Joints at 20, 95, ... 395: on one, in the middle of a brick, and below the first."""
    assert Courses(20.0, 75.0).off_mm(20.0 + 5 * 75.0) == pytest.approx(0.0)
    assert Courses(20.0, 75.0).off_mm(57.5) == pytest.approx(37.5)
    assert Courses(20.0, 75.0).off_mm(10.0) == pytest.approx(10.0)


@settings(deadline=None, max_examples=8)
@given(
    st.lists(st.floats(30.0, 300.0), min_size=1, max_size=5),
    st.floats(0.0, 250.0),
)
def test_an_arranged_wall_of_masonry_holds_every_rail_at_three_places(
    widths: list[float], edge: float
) -> None:
    assume(sum(widths) < 1500.0)
    items = tuple(Item(f"i{n}", width, 60.0, 120.0) for n, width in enumerate(widths))
    space = WallSpace(2400.0, 1200.0, all_over=replace(RULE, edge_mm=edge))
    problem = WallProblem(space, RailRule(PROFILE, 60.0), items)
    found = arrange(problem, rounds=40)
    assert weak(space, found.rails) == ()
    for rail in found.rails:
        assert len(rail.studs_mm) >= 3
        assert rail.rows == (0.5,)
        assert all(point.z_mm == pytest.approx(rail.z_top_mm - 35.0) for point in rail.screws)
