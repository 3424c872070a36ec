"""What of the score is whose: by hand for small walls, and adding up for any."""

from dataclasses import fields, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.lengths import IN_MM
from cleatwright.base.said import in_mm
from cleatwright.wall import score
from cleatwright.wall.arrange import arrange
from cleatwright.wall.explaining.explain import explain, shares_of
from cleatwright.wall.model import (
    Arrangement,
    Box,
    Item,
    Place,
    RailRule,
    Scores,
    WallSpace,
)
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.studs import studs_at

RULE = RailRule(Profile(80.0, 18.0, 45.0), 50.0)
BAND = ReachBand(1000.0, 1400.0, 500.0, 1900.0, easy_x_mm=600.0)


def hung(
    space: WallSpace, items: tuple[Item, ...], places: tuple[Place, ...], rule: RailRule = RULE
) -> Arrangement:
    """Return the arrangement of given places."""
    return score.hung(WallProblem(space, rule, items, BAND), places)


ITEMS = st.builds(
    lambda key, width, up, down, mass, on_rail, use, group, side, home: Item(
        key,
        width_mm=width,
        up_mm=up,
        down_mm=down,
        mass_kg=mass,
        on_rail=on_rail,
        use=use,
        group=group,
        side_left_mm=side,
        hangs_at=home,
        rail_depth_mm=60.0,
    ),
    st.integers(0, 10**6).map(str),
    st.floats(20.0, 300.0),
    st.floats(10.0, 100.0),
    st.floats(10.0, 250.0),
    st.floats(0.0, 6.0),
    st.booleans(),
    st.sampled_from(("daily", "weekly", "seldom")),
    st.sampled_from(("", "cutting", "measuring")),
    st.sampled_from((0.0, 7.3)),
    st.none() | st.tuples(st.floats(0.0, 900.0), st.sampled_from((300.0, 412.5))),
)


@settings(deadline=None, max_examples=40)
@given(
    st.lists(ITEMS, max_size=10, unique_by=lambda item: item.key),
    st.floats(300.0, 1600.0),
    st.booleans(),
    st.sampled_from((0.0, 6.5)),
    st.sampled_from((240.0, 1e4)),
)
def test_every_part_of_the_score_is_somebodys_or_nobodys(
    items: list[Item], width: float, kept: bool, edge: float, longest: float
) -> None:
    space = WallSpace(
        width,
        900.0,
        700.0,
        obstacles=(Box("socket", width * 0.4, 300.0, 77.7, 63.1),),
        studs=studs_at(60.0, width / 2, width - 60.0),
        kept_rails=(Rail(9, 800.0, width * 0.1, width * 0.6, RULE.profile, state="document"),)
        if kept
        else (),
    )
    rule = replace(RULE, edge_above_mm=edge, longest_mm=longest, merge_mm=100.0)
    found = arrange(WallProblem(space, rule, tuple(items), BAND), rounds=3)
    told = explain(WallProblem(space, rule, tuple(items), BAND), found)
    shares = shares_of(WallProblem(space, rule, tuple(items)), found)
    spare = {name: owned[""] for name, owned in shares.items()}
    assert [one.key for one in told] == [place.key for place in found.places]
    for part in fields(Scores):
        own = sum(getattr(one.costs, part.name) for one in told) + spare.get(part.name, 0.0)
        assert own == pytest.approx(getattr(found.scores, part.name), abs=1e-6)
    total = sum(one.costs.total for one in told) + sum(spare.values())
    assert total == pytest.approx(found.scores.total, abs=1e-6)


def test_a_holder_alone_owns_the_whole_score() -> None:
    """2 kg, 230 mm above the band: 10 × 23 + 3 × 2 × 63, a rail of 200 and 0.5 × 14."""
    item = Item("saw", 100.0, 50.0, 100.0, mass_kg=2.0, use="daily", group="saws")
    space = WallSpace(1200.0, 1000.0, 700.0)
    (one,) = explain(
        WallProblem(space, RULE, (item,), BAND), hung(space, (item,), (Place("saw", 250.0, 930.0),))
    )
    assert (one.height_mm, one.outside_mm, one.beyond_mm) == (1630.0, 230.0, 0.0)
    assert one.costs == Scores(
        reach=230.0,
        raised_mass=378.0,
        rail_count=200.0,
        rail_length=7.0,
        groups=10.0,
        # 300 mm beside the better hand, a twentieth of the weight of its use: 0.05 × 10 × 30
        sideways=15.0,
    )
    assert IN_MM.all(one.sentences) == (
        "Its 2 kg hang 630 mm above the lower edge of the easy reach.",
        "It is taken 230 mm above the easy reach.",
        "It is the only one on a rail 1630 mm above the floor.",
        # a group of one has no box that another place would make smaller
        "Its middle is 300 mm left of the better hand.",
    )


@pytest.mark.parametrize(("above_mm", "told"), [(0.25, False), (0.75, True)])
def test_what_nobody_measures_is_not_told(above_mm: float, told: bool) -> None:
    """9 kg a quarter of a millimetre above the lower edge cost a tenth of a point and more."""
    item = Item("anvil", 100.0, 50.0, 100.0, mass_kg=9.0, use="daily")
    space = WallSpace(1200.0, 1000.0, 700.0)
    place = Place("anvil", 250.0, BAND.low_mm - 700.0 + above_mm)
    (one,) = explain(WallProblem(space, RULE, (item,), BAND), hung(space, (item,), (place,)))
    assert one.costs.raised_mass >= 0.05
    assert any("lower edge of the easy reach" in line for line in one.sentences) == told


def test_reach_counts_where_the_hand_takes_the_tools() -> None:
    """A hang height of 1630 mm, the hand 130 mm below it: 100 mm above the band of 1400 mm."""
    item = Item("saw", 100.0, 50.0, 100.0, use="daily", hand_up_mm=-130.0)
    space = WallSpace(1200.0, 1000.0, 700.0)
    problem = WallProblem(space, RULE, (item,), BAND)
    found = hung(space, (item,), (Place("saw", 250.0, 930.0),))
    (one,) = explain(problem, found)
    assert one.costs.reach == found.scores.reach == pytest.approx(100.0)
    assert (one.height_mm, one.outside_mm) == (1630.0, 100.0)
    assert "It is taken 100 mm above the easy reach." in [in_mm(line) for line in one.sentences]


def test_below_the_band_and_out_of_reach_is_told_in_words() -> None:
    item = Item("jack", 100.0, 50.0, 100.0)
    space = WallSpace(1200.0, 1000.0, 200.0)
    found = hung(space, (item,), (Place("jack", 550.0, 200.0),))
    (one,) = explain(WallProblem(space, RULE, (item,), BAND), found)
    assert (one.outside_mm, one.beyond_mm) == (-600.0, 100.0)
    assert in_mm(one.sentences[0]) == (
        "It is taken 600 mm below the easy reach, 100 mm of them where the hand does not reach "
        "at all."
    )


def test_a_rail_is_shared_by_heads_and_its_length_by_widths() -> None:
    """Plates of 100 and 300 mm side by side: 440 mm of rail, of which 110 and 330 mm."""
    items = (Item("a", 100.0, 50.0, 100.0), Item("b", 300.0, 50.0, 100.0))
    space = WallSpace(1200.0, 1000.0, 700.0)
    found = hung(space, items, (Place("a", 200.0, 500.0), Place("b", 300.0, 500.0)))
    a, b = explain(WallProblem(space, RULE, items, BAND), found)
    assert a.costs.rail_count == b.costs.rail_count == 100.0
    assert a.costs.rail_length == pytest.approx(0.5 * 11.0)
    assert b.costs.rail_length == pytest.approx(0.5 * 33.0)


def test_what_hangs_on_a_rail_that_stays_owns_no_rail() -> None:
    items = (Item("a", 100.0, 50.0, 100.0), Item("b", 100.0, 50.0, 100.0))
    space = WallSpace(
        1200.0,
        1000.0,
        700.0,
        kept_rails=(Rail(9, 500.0, 0.0, 300.0, RULE.profile, state="document"),),
    )
    found = hung(space, items, (Place("a", 100.0, 500.0), Place("b", 600.0, 500.0)))
    a, b = explain(WallProblem(space, RULE, items, BAND), found)
    assert (a.costs.rail_count, a.costs.rail_length) == (0.0, 0.0)
    assert (b.costs.rail_count, b.costs.rail_length) == (200.0, 7.0)


def test_the_middle_one_of_a_group_owns_nothing_of_its_box() -> None:
    """Three of 100 mm in a row: each end spares 100 mm, and nobody owns the middle 100 mm."""
    items = tuple(Item(key, 100.0, 50.0, 100.0, group="g") for key in "abc")
    space = WallSpace(1200.0, 1000.0, 700.0)
    places = tuple(Place(key, 100.0 * k, 500.0) for k, key in enumerate("abc"))
    found = hung(space, items, places)
    told = explain(WallProblem(space, RULE, items, BAND), found)
    assert [one.costs.groups for one in told] == pytest.approx([10.0, 0.0, 10.0])
    spare = shares_of(WallProblem(space, RULE, items), found)["groups"][""]
    assert spare == pytest.approx(10.0)
    assert found.scores.groups == pytest.approx(30.0)


def test_two_of_a_group_on_one_rail_are_told_their_box_and_no_rail_of_their_own() -> None:
    """Plates of 100 mm at 500 and 700 mm: without one the box is 200 mm narrower.

    At 60 mm from the better hand, 0.05 x 10 x 6 are 3 points: little, and told all the same.
    """
    items = tuple(Item(key, 100.0, 50.0, 100.0, use="daily", group="g") for key in "ab")
    space = WallSpace(1200.0, 1000.0, 700.0)
    places = (Place("a", 490.0, 500.0), Place("b", 690.0, 500.0))
    found = hung(space, items, places)
    for one, aside in zip(
        explain(WallProblem(space, RULE, items, BAND), found),
        ("60 mm left", "140 mm right"),
        strict=True,
    ):
        assert not any("only one on a rail" in line for line in one.sentences)
        assert IN_MM.all(one.sentences[:1]) == (
            'Without it the box round the group "g" is 200 mm smaller, width and height together.',
        )
        assert f"Its middle is {aside} of the better hand." in IN_MM.all(one.sentences)
