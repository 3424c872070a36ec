"""What happens to rails, told in words and put in the order of work among the holders."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from cleatwright.base.errors import WallError
from cleatwright.base.said import in_mm
from cleatwright.wall.model import Place
from cleatwright.wall.moving.moves import HungItem, moves
from cleatwright.wall.moving.order import ChangeStep, ordered
from cleatwright.wall.moving.rail_moves import RailMove, hung_on, rail_moves
from cleatwright.wall.moving.rail_order import RailWork
from cleatwright.wall.rail import Profile, Rail, Rect

HIGH = 70.0
# the room of a holder: 100 mm wide, 20 mm up and 80 mm down
WIDE, UP, DOWN = 100.0, 20.0, 80.0


def rail(number: int, z_mm: float, x0_mm: float, x1_mm: float, panel: str = "wall") -> Rail:
    return Rail(number, z_mm, x0_mm, x1_mm, Profile(HIGH, 18.0, 45.0), panel)


def holder(key: str, x_mm: float, z_mm: float, mark: str = "A") -> HungItem:
    return HungItem(Place(key, x_mm, z_mm), f"Holder {key}", mark=mark)


def room(one: HungItem) -> Rect:
    at = one.place
    return at.x_mm, at.x_mm + WIDE, at.z_mm - DOWN, at.z_mm + UP


def rooms(things: Sequence[HungItem]) -> dict[str, Rect]:
    return {one.place.key: room(one) for one in things}


def told(before: Sequence[Rail], after: Sequence[Rail]) -> list[str]:
    return [in_mm(one.sentence) for one in rail_moves(before, after)]


def steps_of(
    hung: tuple[Sequence[HungItem], Sequence[Rail]], then: tuple[Sequence[HungItem], Sequence[Rail]]
) -> tuple[ChangeStep, ...]:
    holders = moves(hung[0], then[0])
    rails = rail_moves(hung_on(hung[1], hung[0]), hung_on(then[1], then[0]))
    return ordered(holders, before=rooms(hung[0]), after=rooms(then[0]), rails=RailWork(rails))


def test_what_happens_to_rails_is_told_panel_by_panel_from_top_to_bottom() -> None:
    before = [
        rail(1, 900, 0, 800),
        rail(2, 600, 0, 800).down("the wall is lower now"),
        rail(3, 300, 0, 500),
        rail(4, 300, 0, 200, "lid"),
    ]
    after = [before[0], before[3], rail(5, 650, 40, 640)]
    assert told(before, after) == [
        "Rail R1 carries nothing; it may stay or come down.",
        (
            "Rail R5 is new: 600 mm long, its left end 40 mm from the left edge of the wall, its "
            "top edge 650 mm above its lower edge."
        ),
        "Rail R2 must come down: the wall is lower now.",
        "Rail R3 comes down.",
        'Rail R4 on the panel "lid" carries nothing; it may stay or come down.',
    ]


def test_a_rail_knows_whether_anything_hangs_on_it_now_and_then() -> None:
    one, other = rail(1, 900, 0, 800), rail(2, 600, 100, 800)
    now, then = (hung_on([one, other], [holder("1", *at)]) for at in ((200, 900), (100, 600)))
    up, low = rail_moves(now, then)
    assert (up.carried, up.carries, low.carried, low.carries) == (True, False, False, True)
    assert up.sentence == "Rail R1 carries nothing any more; it may stay or come down."
    assert low.sentence == "Rail R2 stays where it hangs."


def test_two_rails_of_one_name_and_one_that_never_hangs_are_refused() -> None:
    with pytest.raises(WallError, match="two rails are called R1"):
        told([rail(1, 900, 0, 800), rail(1, 300, 0, 800)], [])
    with pytest.raises(WallError, match="neither before nor after"):
        _ = RailMove(None, None).name


def test_a_new_rail_is_screwed_on_before_its_holder_is_hung() -> None:
    steps = steps_of(([], []), ([holder("1", 120, 600)], [rail(1, 600, 100, 300)]))
    assert [in_mm(step.sentence) for step in steps] == [
        (
            "Screw on rail R1: 200 mm long, its left end 100 mm from the left edge of the wall, "
            "its top edge 600 mm above its lower edge."
        ),
        (
            'Hang "Holder 1" (A): its left edge 120 mm from the left edge of the wall, its hang '
            "height 600 mm above its lower edge."
        ),
    ]


def test_a_rail_comes_down_after_what_hangs_on_it_and_before_a_rail_in_its_place() -> None:
    """Holder 1 moves to another rail, 2 stays where a shorter rail comes, and 3 comes off."""
    old, new, other = rail(1, 600, 0, 900), rail(3, 600, 0, 400), rail(2, 300, 0, 900)
    hung = [holder("1", 700, 600), holder("2", 100, 600), holder("3", 400, 600)]
    then = [holder("1", 700, 300), holder("2", 100, 600)]
    steps = steps_of((hung, [old, other]), (then, [new, other]))
    assert [(step.action, step.move.name) for step in steps] == [
        ("take down", "Holder 2"),
        ("take down", "Holder 3"),
        ("move", "Holder 1"),
        ("unscrew", "R1"),
        ("screw on", "R3"),
        ("hang", "Holder 2"),
    ]
    assert steps[0].sentence == 'First take down "Holder 2" (A): its rail is changed.'
    assert steps[3].sentence == "Unscrew rail R1: it comes down."


def test_what_hangs_before_a_rail_that_is_screwed_on_comes_off_for_the_while() -> None:
    """A holder at 600 mm hangs down to 520 mm, before a rail from 460 to 530 mm."""
    upper, lower = rail(1, 600, 0, 900), rail(2, 530, 1000, 1400)
    stays = [holder("1", 100, 600)]
    steps = steps_of((stays, [upper]), ([*stays, holder("2", 1100, 530)], [upper, lower]))
    assert "Meanwhile" not in steps[0].sentence
    below = rail(2, 530, 0, 400)
    steps = steps_of((stays, [upper]), ([*stays, holder("2", 250, 530)], [upper, below]))
    assert steps[0].sentence.endswith(
        'Meanwhile take off "Holder 1", in front of it; hang it back once the rail is on.'
    )


def test_what_moves_later_comes_off_for_the_while_too() -> None:
    """Holder 1 hangs down to 520 mm, before a rail from 480 to 550 mm that comes down.

    It moves on to R3, which lies where that rail was, so it cannot have left before.
    """
    upper, lower, new = (
        rail(1, 600, 0, 400),
        rail(2, 550, 0, 900),
        rail(3, 560, 600, 900),
    )
    hung, then = [holder("1", 100, 600)], [holder("1", 700, 560)]
    steps = steps_of((hung, [upper, lower]), (then, [upper, new]))
    assert [(step.action, step.move.name, step.meanwhile) for step in steps] == [
        ("unscrew", "R2", ("Holder 1",)),
        ("screw on", "R3", ()),
        ("move", "Holder 1", ()),
    ]


def test_what_has_moved_before_the_place_of_a_new_rail_comes_off_for_the_while() -> None:
    """R3 waits for R2 to come down, which waits for holder 1; it hangs down to 520 mm then."""
    upper, lower, new = (
        rail(1, 600, 600, 900),
        rail(2, 550, 0, 400),
        rail(3, 560, 300, 900),
    )
    hung, then = [holder("1", 100, 550)], [holder("1", 700, 600)]
    steps = steps_of((hung, [upper, lower]), (then, [upper, new]))
    assert [(step.action, step.move.name, step.meanwhile) for step in steps] == [
        ("move", "Holder 1", ()),
        ("unscrew", "R2", ()),
        ("screw on", "R3", ("Holder 1",)),
    ]


# a wall of rows 300 mm apart, each with four cells of 150 mm
ROWS, CELLS = 3, 4
CELL = st.tuples(st.integers(0, ROWS - 1), st.integers(0, CELLS - 1))


def of_cells(cells: Sequence[tuple[int, int]]) -> list[HungItem]:
    return [
        holder(str(key), 20.0 + 150.0 * cell, 300.0 * (row + 1))
        for key, (row, cell) in enumerate(cells)
    ]


def rails_of(things: Sequence[HungItem], first: int, *, cut: Sequence[bool]) -> list[Rail]:
    """Return a rail for each row with holders, in one piece or one for each holder."""
    found: list[Rail] = []
    for row in range(ROWS):
        z_mm = 300.0 * (row + 1)
        xs = sorted(one.place.x_mm for one in things if one.place.z_mm == z_mm)
        spans = [(x, x + WIDE) for x in xs]
        if spans and not cut[row]:
            spans = [(spans[0][0], spans[-1][1])]
        found += [rail(first + len(found) + n, z_mm, *s) for n, s in enumerate(spans)]
    return found


def replay(
    hung: tuple[Sequence[HungItem], Sequence[Rail]],
    then: tuple[Sequence[HungItem], Sequence[Rail]],
    steps: Sequence[ChangeStep],
) -> None:
    """Do the steps one by one with another library's rectangles; nothing may float or overlap."""
    holders = {one.place.key: one for one in hung[0]}
    wanted = {one.place.key: one for one in then[0]}
    rails = {one.name: one for one in hung[1]}
    new = {one.name: one for one in then[1]}
    for step in steps:
        key = step.move.key
        if step.action in {"take down", "move"}:
            del holders[key]
        if step.action in {"move", "hang"}:
            holders[key] = wanted[key]
        if step.action == "unscrew":
            del rails[step.move.name]
        if step.action == "screw on":
            rails[step.move.name] = new[step.move.name]
        strips = [box(o.x0_mm, o.z_top_mm - HIGH, o.x1_mm, o.z_top_mm) for o in rails.values()]
        for n, strip in enumerate(strips):
            assert all(strip.intersection(other).area < 1.0 for other in strips[:n])
        for one in holders.values():
            x, z = one.place.x_mm, one.place.z_mm
            assert any(
                r.z_top_mm == z and r.x0_mm <= x and x + WIDE <= r.x1_mm for r in rails.values()
            ), f"{one.name} hangs on nothing after {step.sentence}"
    assert holders == wanted
    assert set(rails) == set(new)


@settings(max_examples=300, deadline=None)
@given(
    before=st.lists(CELL, unique=True, max_size=6),
    after=st.lists(CELL, unique=True, max_size=6),
    cuts=st.lists(st.booleans(), min_size=2 * ROWS, max_size=2 * ROWS),
    keep=st.booleans(),
)
def test_at_every_step_everything_hangs_on_a_rail_and_no_rails_lie_on_each_other(
    before: list[tuple[int, int]],
    after: list[tuple[int, int]],
    cuts: list[bool],
    keep: bool,
) -> None:
    """All rails are changed, or those stay that are the same before and after."""
    hung, then = of_cells(before), of_cells(after)
    now, later = rails_of(hung, 1, cut=cuts[:ROWS]), rails_of(then, 11, cut=cuts[ROWS:])
    if keep:
        spans = {(o.z_top_mm, o.x0_mm, o.x1_mm): o for o in now}
        later = [spans.get((o.z_top_mm, o.x0_mm, o.x1_mm), o) for o in later]
    steps = steps_of((hung, now), (then, later))
    replay((hung, now), (then, later), steps)
