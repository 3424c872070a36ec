"""A rail that hangs stays, with its name, whatever is added to the wall or taken off it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import WallError
from cleatwright.base.stages.run import Run
from cleatwright.siting.arranging import ArrangingRequest, arranged, numbered_on
from cleatwright.siting.as_made import Start
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.keeping import KeptArrangement
from cleatwright.wall.model import Arrangement, Box, Item, Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.rails import last_number
from cleatwright.wall.studs import studs_at

RULE = RailRule(Profile(70.0, 18.0, 45.0), min_gap_mm=60.0)
SPACE = WallSpace(2400.0, 1200.0, 800.0, studs=studs_at(200.0, 800.0, 1400.0, 2000.0))
SOCKET = Box("socket", 1100.0, 300.0, 200.0, 200.0)


def asked(
    items: Sequence[Item], space: WallSpace = SPACE, rails: Sequence[Rail] = ()
) -> ArrangingRequest:
    return ArrangingRequest(WallProblem(space, RULE, tuple(items)), tuple(rails), rounds=60)


def after_hanging(
    kept: KeptArrangement, items: Sequence[Item], space: WallSpace = SPACE
) -> tuple[KeptArrangement, Arrangement]:
    """Return what is arranged when everything of an arrangement hangs, with names."""
    found = numbered_on(kept.arrangement, after=0)
    places = {place.key: (place.x_mm, place.z_mm) for place in found.places}
    rails = [replace(run, state="recorded", carries=()) for run in found.rails]
    hanging = [replace(item, hangs_at=places.get(item.key)) for item in items]
    then = arranged(Run(), asked(hanging, space, rails))
    after = last_number(rails)
    return then, numbered_on(then.arrangement, after=after)


def item(key: int, wide: float, up: float, down: float, *, on_rail: bool = True) -> Item:
    return Item(
        str(key),
        wide,
        up,
        down,
        mass_kg=0.5,
        side_left_mm=2.0,
        side_right_mm=2.0,
        on_rail=on_rail,
        rail_depth_mm=min(down, 60.0) if on_rail else 0.0,
    )


SIZE = st.tuples(
    st.floats(20.0, 240.0), st.floats(5.0, 120.0), st.floats(5.0, 180.0), st.integers(0, 5)
)


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)
@given(
    sizes=st.lists(SIZE, min_size=3, max_size=10),
    gone=st.integers(0, 2),
    new=st.lists(SIZE, max_size=3),
    studs=st.booleans(),
)
def test_one_tool_more_or_less_changes_no_rail_that_hangs(
    sizes: list[tuple[float, float, float, int]],
    gone: int,
    new: list[tuple[float, float, float, int]],
    studs: bool,
) -> None:
    space = replace(SPACE, obstacles=(SOCKET,), studs=SPACE.studs if studs else ())
    items = [
        item(key, wide, up, down, on_rail=kind > 0)
        for key, (wide, up, down, kind) in enumerate([*sizes, *new])
    ]
    first = arranged(Run(), asked(items[: len(sizes)], space))
    before = numbered_on(first.arrangement, after=0)
    assert [run.name for run in before.rails] == [f"R{n}" for n in range(1, len(before.rails) + 1)]
    then, after = after_hanging(first, items[gone:], space)
    stays = [run for run in after.rails if run.stays]
    added = [run for run in after.rails if not run.stays]
    assert then.down == ()
    bare = [replace(run, state="recorded", carries=()) for run in before.rails]
    assert [replace(run, carries=()) for run in stays] == bare
    assert [run.name for run in added] == [
        f"R{n}" for n in range(len(before.rails) + 1, len(after.rails) + 1)
    ]
    assert conflicts(WallProblem(then.space, RULE, tuple(items[gone:])), after) == ()
    # nothing moved either, and rails that stay cost nothing
    assert after.scores.moved == 0.0
    assert (after.scores.rail_count == 0.0) == (not added)


def test_a_rail_in_the_way_of_a_given_place_comes_down_and_the_others_stay() -> None:
    """A plate screwed on at (500, 600), 100 mm wide, 60 mm down, lies on the rail at 580 alone."""
    rails = [
        Rail(1, 900.0, 100.0, 900.0, RULE.profile, state="document"),
        Rail(2, 580.0, 100.0, 900.0, RULE.profile, state="document"),
        Rail(4, 300.0, 100.0, 900.0, RULE.profile, state="document"),
    ]
    plate = replace(item(7, 100.0, 20.0, 60.0, on_rail=False), fixed=(500.0, 600.0))
    kept = arranged(Run(), asked([plate, item(1, 90.0, 20.0, 60.0)], rails=rails))
    assert [(one.name, one.why) for one in kept.down] == [("R2", 'it stands in the way of "7"')]
    assert kept.space.kept_rails == (rails[0], rails[2])
    assert [run.name for run in kept.arrangement.rails] == ["R1", "R4"]
    assert kept.arrangement.scores.rail_count == 0.0


def test_a_rail_comes_down_only_where_something_would_find_no_place_otherwise() -> None:
    """What is 500 mm tall has no place on a wall 600 mm high with a bare rail in its middle."""
    space = WallSpace(700.0, 600.0, 900.0)
    rail = Rail(3, 300.0, 0.0, 650.0, RULE.profile, state="document")
    tall = item(1, 300.0, 250.0, 250.0, on_rail=False)
    small = item(2, 100.0, 20.0, 60.0)
    kept = arranged(Run(), asked([tall, small], space, [rail]))
    assert kept.down == (rail.down('it stands in the way of "1"'),)
    assert conflicts(WallProblem(kept.space, RULE, (tall, small)), kept.arrangement) == ()
    with pytest.raises(WallError, match='"1" finds no free place'):
        arranged(Run(), replace(asked([tall, small], space, [rail]), firm=True))
    shorter = replace(tall, up_mm=100.0, down_mm=100.0)
    kept = arranged(Run(), asked([shorter, small], space, [rail]))
    assert kept.down == ()
    assert [run.name for run in kept.arrangement.rails if run.stays] == ["R3"]


def test_what_fits_on_no_rail_that_hangs_gets_a_piece_beside_it_at_the_same_height() -> None:
    """On a wall with one height for rails, what is 500 mm wide hangs beside a rail of 400 mm."""
    space = WallSpace(1000.0, 175.0, 1000.0)
    rail = Rail(1, 150.0, 0.0, 400.0, RULE.profile, state="document")
    here = replace(item(1, 200.0, 20.0, 110.0), hangs_at=(10.0, 150.0))
    wide = item(2, 500.0, 20.0, 110.0)
    kept = arranged(Run(), asked([here, wide], space, [rail]))
    found = numbered_on(kept.arrangement, after=1)
    one, other = found.rails
    assert one == replace(rail, carries=("1",))
    assert (other.name, other.z_top_mm, other.stays) == ("R2", 150.0, False)
    assert 400.0 <= other.x0_mm <= other.x1_mm - 500.0
    assert (found.places[0].key, found.places[0].x_mm) == ("1", 10.0)
    assert conflicts(WallProblem(kept.space, RULE, (here, wide)), found) == ()


def test_when_nothing_helps_the_message_names_no_rail_of_the_ledger() -> None:
    space = WallSpace(700.0, 300.0, 900.0)
    rail = Rail(1, 200.0, 0.0, 650.0, RULE.profile, state="document")
    with pytest.raises(WallError, match='"1" needs 500 mm of height'):
        arranged(Run(), asked([item(1, 300.0, 250.0, 250.0)], space, [rail]))


def test_new_rails_are_numbered_on_after_all_that_hang() -> None:
    runs = (Rail(1, 900.3, 100.2, 899.7, RULE.profile), Rail(7, 500.0, 0.0, 300.0, RULE.profile))
    found = Arrangement((), runs)
    assert [run.name for run in numbered_on(found, after=4).rails] == ["R5", "R6"]
    kept = replace(found, rails=(replace(runs[0], number=3, state="recorded"), runs[1]))
    assert [run.name for run in numbered_on(kept, after=4).rails] == ["R3", "R5"]


def test_a_rail_that_was_set_aside_stays_only_where_a_new_one_would_lie() -> None:
    """A fixed plate at (500, 600) needs a rail there: the one that hangs, with its own screws."""
    plate = replace(item(1, 100.0, 20.0, 60.0), fixed=(500.0, 600.0))
    there = Rail(2, 600.0, 100.0, 2100.0, RULE.profile, studs_mm=(810.0, 1410.0), state="set aside")
    bare = replace(there, number=3, z_top_mm=200.0)
    short = replace(there, number=4, x1_mm=550.0)
    for rule in (RULE, replace(RULE, rows=True)):
        request = asked([plate])
        request = replace(request, problem=request.problem.ruled(rule), aside=(bare, there))
        kept = arranged(Run(), request)
        assert kept.arrangement.rails == (replace(there, state="recorded", carries=("1",)),)
        assert (kept.arrangement.scores.rail_count, kept.down) == (0.0, ())
        new = arranged(Run(), replace(request, aside=(bare, short))).arrangement
        assert [rail.stays for rail in new.rails] == [False]
        assert new.places == kept.arrangement.places


def test_rows_of_the_papers_go_where_places_that_were_given_since_leave_them_none() -> None:
    """Places at 640 mm leave no room for the row at 600 mm, on which all hung by the papers."""
    row = Rail(1, 600.0, 100.0, 2100.0, RULE.profile, studs_mm=(200.0, 800.0, 1400.0, 2000.0))
    items = [item(n, 100.0, 20.0, 60.0) for n in range(5)]
    made = tuple(Place(one.key, 150.0 + 200.0 * n, 600.0) for n, one in enumerate(items))
    given = tuple(replace(place, z_mm=640.0) for place in made)
    fixed = [replace(one, fixed=(at.x_mm, 640.0)) for one, at in zip(items, given, strict=True)]
    request = replace(asked(fixed), start=Start(made, rows=(row,)))
    request = replace(request, problem=request.problem.ruled(replace(RULE, rows=True)))
    assert arranged(Run(), request).arrangement.places == given
