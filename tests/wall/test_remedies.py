"""Advice for what is left over: against walls whose smallest change is known by arithmetic."""

import itertools
import random
import re
from collections.abc import Mapping
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cleatwright.base.lengths import IN_MM, LengthUnit
from cleatwright.base.said import in_mm
from cleatwright.base.units import length_mm
from cleatwright.wall.arrange import arrange
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.explaining.offers import Means
from cleatwright.wall.explaining.remedies import by_name, find_help
from cleatwright.wall.explaining.trials import Trials
from cleatwright.wall.model import (
    Arrangement,
    Box,
    HeightBounds,
    Item,
    LeftOver,
    Place,
    RailRule,
    Scores,
    WallSpace,
)
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile
from cleatwright.wall.rails import cut_rails

# the walls of these tests are 120 mm high, where 80 mm is the one height for 40 up and 80 down
RULE = RailRule(Profile(80.0, 18.0, 45.0), 50.0, step_mm=40.0)


def finished(
    space: WallSpace,
    items: tuple[Item, ...],
    *,
    rule: RailRule = RULE,
    others: Mapping[str, WallProblem] | None = None,
) -> Arrangement:
    found = arrange(WallProblem(space, rule, items), rounds=100)
    return find_help(WallProblem(space, rule, items), found, means=Means(others or {}))


def helped(
    space: WallSpace,
    items: tuple[Item, ...],
    *,
    rule: RailRule = RULE,
    others: Mapping[str, WallProblem] | None = None,
) -> tuple[LeftOver, ...]:
    return finished(space, items, rule=rule, others=others).left_over


def test_two_plates_of_300_mm_on_500_mm_need_100_mm_more() -> None:
    items = (
        Item("a", 300.0, 40.0, 80.0, fixed=(0.0, 80.0)),
        Item("b", 300.0, 40.0, 80.0),
    )
    (left,) = helped(WallSpace(500.0, 120.0), items)
    assert left.key == "b"
    assert left.reason == (
        '"b" finds no free place beside those whose places are fixed; it would without "a".'
    )
    assert "a wall 100 mm wider (width at least 600 mm)" in IN_MM.all(left.helps)
    assert '"a" left out' in IN_MM.all(left.helps)
    # 120 mm more would do but for the rails: 80 + 50 mm apart is 40 mm steps at 80 and 240 mm
    assert "a wall 160 mm higher (height at least 280 mm)" in IN_MM.all(left.helps)
    assert helped(WallSpace(500.0, 120.0), items[:1]) == ()


def test_height_that_is_missing_is_named_to_ten_millimetres() -> None:
    """One above the other: 80 down and 40 up twice are 240 mm, with rails at 80 and 200 mm."""
    items = tuple(Item(key, 300.0, 40.0, 80.0) for key in "ab")
    rule = replace(RULE, min_gap_mm=40.0)
    (left,) = helped(WallSpace(400.0, 190.0), items, rule=rule)
    assert "a wall 50 mm higher (height at least 240 mm)" in IN_MM.all(left.helps)
    assert "a wall 200 mm wider (width at least 600 mm)" in IN_MM.all(left.helps)


def test_a_step_of_25_mm_and_a_place_by_hand_meet_the_one_height_that_fits() -> None:
    """Rails at multiples of 50 mm miss 75 mm."""
    items = (Item("a", 100.0, 25.0, 75.0),)
    (left,) = helped(WallSpace(200.0, 100.0), items, rule=RailRule(Profile(60.0, 18.0, 45.0), 50.0))
    assert in_mm(left.reason) == (
        '"a" finds no place at a rail height in steps of 50 mm, but it would at one between them.'
    )
    assert left.helps[0] == 'place = { x = "0 mm", z = "75 mm" } in the table of "a"'
    # a document has no step of the rail heights
    assert not any("step" in words for words in left.helps)


def test_a_place_beside_something_is_typed_on_the_side_that_is_free() -> None:
    """From 100.3 to 102 mm there is room; 3-15/16 in are 100.01 mm and 3-31/32 in 100.81 mm."""
    box = Box("pipe", 0.0, 0.0, 100.3, 100.0)
    problem = WallProblem(
        WallSpace(202.0, 100.0, obstacles=(box,)),
        RailRule(Profile(60.0, 18.0, 45.0), 50.0, end_room_mm=0.0),
        (Item("a", 100.0, 25.0, 75.0),),
    )
    found = arrange(problem, rounds=100)
    (left,) = find_help(problem, found, means=Means(unit="in")).left_over
    (line,) = [words for words in left.helps if words.startswith("place = ")]
    x, z = re.findall(r'"([^"]+)"', line)[:2]
    assert x == "3-31/32 in"
    assert arrange(changed(line, problem, "a")).left_over == ()
    assert length_mm(z) == pytest.approx(75.0, abs=0.5)


def test_a_place_between_the_heights_is_named_where_another_first_has_to_move() -> None:
    """One is 100 of 200 mm wide and hangs in the middle; the other is, too, and fits 70 mm up only.

    Beside each other they fill the wall.
    """
    items = (
        Item("a", 100.0, 20.0, 100.0, hangs_at=(50.0, 100.0)),
        Item("b", 100.0, 50.0, 70.0),
    )
    space, rule = WallSpace(200.0, 120.0), RailRule(Profile(60.0, 18.0, 45.0), 50.0)
    (left,) = helped(space, items, rule=rule)
    assert left.key == "b"
    assert re.fullmatch(
        r'place = \{ x = "(0|100) mm", z = "70 mm" \} in the table of "b"', left.helps[0]
    )


def test_no_place_is_named_for_what_has_no_table_of_its_own() -> None:
    items = (Item("a", 100.0, 25.0, 75.0),)
    space, rule = WallSpace(200.0, 100.0), RailRule(Profile(60.0, 18.0, 45.0), 50.0)
    found = arrange(WallProblem(space, rule, items), rounds=100)
    (left,) = find_help(WallProblem(space, rule, items), found, means=Means(tables={})).left_over
    assert not any("place = " in words for words in left.helps)
    named = Means(tables={"a": 'the [[holder]] with "saws"'})
    (left,) = find_help(WallProblem(space, rule, items), found, means=named).left_over
    assert left.helps[0] == 'place = { x = "0 mm", z = "75 mm" } in the [[holder]] with "saws"'


def test_a_fixed_holder_in_the_middle_is_the_one_to_free() -> None:
    """100 mm fixed in the middle of 500 mm leave 200 mm at each side for a plate of 300 mm."""
    items = (
        Item("middle", 100.0, 40.0, 80.0, fixed=(200.0, 80.0)),
        Item("long", 300.0, 40.0, 80.0),
    )
    (left,) = helped(WallSpace(500.0, 120.0), items)
    assert left.helps[0] == 'the place of "middle" no longer fixed'


def test_the_order_of_a_group_may_be_what_is_in_the_way() -> None:
    """The first of the group is fixed at the right edge, where the second cannot follow it."""
    items = (
        Item("one", 100.0, 40.0, 80.0, group="g", rank=1, fixed=(400.0, 80.0)),
        Item("two", 100.0, 40.0, 80.0, group="g", rank=2),
    )
    (left,) = helped(WallSpace(500.0, 120.0), items)
    assert left.helps[0] == 'the group "g" in any order'


def test_another_panel_is_named_only_when_it_has_room() -> None:
    items = (Item("a", 300.0, 40.0, 80.0), Item("b", 300.0, 40.0, 80.0))
    full = WallProblem(WallSpace(500.0, 120.0), RULE, (Item("c", 300.0, 40.0, 80.0),))
    roomy = WallProblem(WallSpace(600.0, 120.0), RULE, (Item("c", 300.0, 40.0, 80.0),))
    (left,) = helped(WallSpace(500.0, 120.0), items, others={"door": full, "side": roomy})
    assert 'a move to the panel "side"' in IN_MM.all(left.helps)
    assert not any("door" in words for words in left.helps)


def test_the_seldom_used_one_is_left_out_before_the_one_of_every_day() -> None:
    items = (
        Item("saw", 250.0, 40.0, 80.0, use="daily", fixed=(0.0, 80.0)),
        Item("punch", 250.0, 40.0, 80.0, use="seldom", fixed=(250.0, 80.0)),
        Item("new", 250.0, 40.0, 80.0, use="daily"),
    )
    (left,) = helped(WallSpace(500.0, 120.0), items)
    assert '"punch" left out' in IN_MM.all(left.helps)
    assert '"saw" left out' not in IN_MM.all(left.helps)


def test_two_are_left_out_where_one_is_not_enough() -> None:
    """Five of 100 mm fill the wall; one of 200 mm needs the room of two beside each other."""
    items = (
        *(
            Item(f"h{k}", 100.0, 40.0, 80.0, use=use, fixed=(100.0 * k, 80.0))
            for k, use in enumerate(("seldom", "daily", "seldom", "weekly", "daily"))
        ),
        Item("wide", 200.0, 40.0, 80.0),
    )
    (left,) = helped(WallSpace(500.0, 120.0), items)
    out = [words for words in left.helps if words.endswith("left out")]
    # of the pairs side by side only this one has none that is used daily
    assert out == ['"h2" and "h3" left out']


@pytest.mark.parametrize("seed", range(3))
def test_a_perfect_wall_takes_one_more_when_it_is_wider_by_its_width(seed: int) -> None:
    """Two rows cut at random fill 600 × 600 mm; one more of 70 mm needs 70 mm, or one to go."""
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    items = [Item("more", 70.0, 50.0, 250.0, rail_depth_mm=70.0)]
    for row, z in enumerate((250.0, 550.0)):
        cuts = sorted({0, 600, *(r.randrange(80, 521, 80) for _ in range(3))})
        items += [
            Item(f"r{row}-{k}", float(b - a), 50.0, 250.0, rail_depth_mm=70.0, fixed=(float(a), z))
            for k, (a, b) in enumerate(itertools.pairwise(cuts))
        ]
    rule = replace(RULE, step_mm=50.0)
    (left,) = helped(WallSpace(600.0, 600.0, 700.0), tuple(items), rule=rule)
    assert left.key == "more"
    assert "a wall 70 mm wider (width at least 670 mm)" in IN_MM.all(left.helps)
    out = [words for words in left.helps if words.endswith("left out")]
    # every one is at least 80 mm wide, so that the smallest single one makes room
    narrow = min(items[1:], key=lambda item: (item.width_mm, item.key))
    assert out == [f'"{narrow.key}" left out']


def fits(space: WallSpace, rule: RailRule, items: tuple[Item, ...]) -> bool:
    """Return whether any of all places in steps of 50 mm breaks no rule."""
    known = {item.key: item for item in items}
    spots = [
        [
            Place(item.key, float(x), float(z))
            for x in range(0, int(space.width_mm - item.width_mm) + 1, 50)
            for z in range(int(item.down_mm), int(space.height_mm - item.up_mm) + 1, 50)
        ]
        for item in items
    ]
    return any(
        not conflicts(
            WallProblem(space, rule, items),
            Arrangement(
                places,
                cut_rails(WallProblem(space, rule, tuple(known.values())), places),
                Scores(0, 0, 0, 0, 0),
            ),
        )
        for places in itertools.product(*spots)
    )


def three_items(seed: int) -> tuple[Item, ...]:
    """Return items all of whose measures are multiples of 50 mm."""
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    return tuple(
        Item(
            f"h{k}",
            width_mm=r.choice((50.0, 100.0, 150.0)),
            up_mm=50.0,
            down_mm=r.choice((50.0, 100.0)),
            on_rail=r.random() > 0.3,
            rail_depth_mm=50.0,
        )
        for k in range(3)
    )


def test_the_smallest_growth_is_the_one_of_exhaustive_search() -> None:
    """Every measure is a multiple of 50 mm, so that nothing but multiples of 50 mm can help."""
    rule = RailRule(Profile(50.0, 18.0, 45.0), 50.0, end_room_mm=0.0)
    space = WallSpace(200.0, 150.0)
    seen: list[float] = []
    both = 0
    for seed in range(12):
        items = three_items(seed)
        found = finished(space, items, rule=rule)
        left = found.left_over
        assert bool(left) != fits(space, rule, items)
        if len(left) > 1:
            # one of them finds a place with less than what both need
            more = re.search(r"a wall (\d+) mm (wider|higher)", in_mm(found.finish))
            assert more
            side = {"wider": "width_mm", "higher": "height_mm"}[more[2]]
            now = getattr(space, side)
            least = next(
                n
                for n in range(50, 401, 50)
                if fits(replace(space, **{side: now + n}), rule, items)
            )
            assert float(more[1]) == least
            both += 1
        if len(left) != 1:
            continue
        for side, now in (("width_mm", 200.0), ("height_mm", 150.0)):
            least = next(
                more
                for more in range(50, 401, 50)
                if fits(replace(space, **{side: now + more}), rule, items)
            )
            word = {"width_mm": "wider", "height_mm": "higher"}[side]
            key = side.removesuffix("_mm")
            words = f"a wall {least} mm {word} ({key} at least {now + least:g} mm)"
            assert words in IN_MM.all(left[0].helps)
            seen.append(least)
    assert both
    assert len(seen) >= 8
    assert len(set(seen)) > 1


def test_help_is_told_by_name() -> None:
    items = (
        Item("12", 300.0, 40.0, 80.0, fixed=(0.0, 80.0)),
        Item("13", 300.0, 40.0, 80.0),
    )
    space = WallSpace(500.0, 120.0)
    found = find_help(
        WallProblem(space, RULE, items), arrange(WallProblem(space, RULE, items), rounds=5)
    )
    names = {"12": "saws", "13": "planes"}
    (left,) = found.left_over
    assert left.key == "13"
    assert by_name(left.reason, names).startswith('"planes"')
    assert '"saws" left out' in [by_name(words, names) for words in left.helps]


def test_where_many_wait_few_changes_are_proven_that_leave_somebody_over(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Six of 200 by 120 mm on a wall for one: 1000 mm of width take all five, 800 mm of height do.

    Rails are 130 mm apart or more, in steps of 40 mm: 80 + 5 · 160 + 40 mm are 920 mm. A seventh
    may hang nowhere, so that no change finishes the wall.
    """
    left_waiting: list[frozenset[str]] = []
    searched = Trials.helped

    def counted(self: Trials, case: WallProblem, *, full: bool = False) -> frozenset[str]:
        found = searched(self, case, full=full)
        if full:
            left_waiting.append(self.waiting - found)
        return found

    monkeypatch.setattr(Trials, "helped", counted)
    many = tuple(Item(f"h{k}", 200.0, 40.0, 80.0) for k in range(6))
    nowhere = Item("k", 200.0, 40.0, 80.0, bounds=HeightBounds(0.0, 10.0, "", "low"))
    found = finished(WallSpace(200.0, 120.0), (*many, nowhere))
    assert len(found.left_over) == 6
    assert [one.key for one in found.left_over if not one.helps] == ["k"]
    assert 1 <= sum(bool(waiting) for waiting in left_waiting) <= 3
    assert found.finished_by == ()
    assert found.finish.startswith("Each change helps only what it is told for")
    left_waiting.clear()
    found = finished(WallSpace(200.0, 120.0), many)
    assert in_mm(found.finish) == (
        "Everything finds a place with a wall 800 mm higher (height at least 920 mm)."
    )
    assert not any(left_waiting)


def test_two_that_need_a_change_each_are_told_both_changes_tried_together() -> None:
    """500 mm wide, 120 mm high: 100 mm fixed in the middle leave 200 mm at each side for 300 mm.

    The other needs 200 mm of height. Neither change helps the other one.
    """
    items = (
        Item("middle", 100.0, 40.0, 80.0, fixed=(200.0, 80.0)),
        Item("long", 300.0, 40.0, 80.0),
        Item("tall", 50.0, 120.0, 80.0),
    )
    space = WallSpace(500.0, 120.0)
    found = finished(space, items)
    assert {left.key for left in found.left_over} == {"long", "tall"}
    problem = WallProblem(space, RULE, items)
    assert found.finished_by
    for words in found.finished_by:
        problem = changed(words, problem, "")
    assert arrange(problem, first=True).left_over == ()


def test_what_waited_is_not_left_out_for_another() -> None:
    """Three of 300 mm that wait where one hangs: to leave one out helps nobody to a full wall."""
    items = tuple(Item(f"h{k}", 300.0, 40.0, 80.0) for k in range(4))
    found = finished(WallSpace(300.0, 120.0), items)
    waiting = {left.key for left in found.left_over}
    out = [words for words in found.finished_by if words.endswith("left out")]
    assert not waiting & set(re.findall(r'"([^"]*)"', " ".join(out)))


PLACE_WORDS = r'place = \{ x = "([^"]+)", z = "([^"]+)" \} in the table of "([^"]+)"'


def lower(case: WallProblem, more_mm: float, *, gap_mm: float, height_mm: float) -> WallProblem:
    """Return a wall with other measures and everything on it so much further up."""

    def up(at: tuple[float, float] | None) -> tuple[float, float] | None:
        return None if at is None else (at[0], at[1] + more_mm)

    space = case.space
    boxes = tuple(replace(one, z_mm=one.z_mm + more_mm) for one in space.obstacles)
    rails = tuple(replace(one, z_top_mm=one.z_top_mm + more_mm) for one in space.kept_rails)
    items = [
        replace(
            one,
            fixed=up(one.fixed),
            hangs_at=up(one.hangs_at),
            bounds=replace(
                one.bounds,
                lowest_mm=one.bounds.lowest_mm + more_mm,
                highest_mm=one.bounds.highest_mm + more_mm,
            ),
        )
        for one in case.items
    ]
    return case.having(items).on(
        replace(
            space,
            floor_gap_mm=gap_mm,
            height_mm=height_mm,
            obstacles=boxes,
            kept_rails=rails,
        )
    )


def changed(words: str, case: WallProblem, key: str) -> WallProblem:
    """Return what a piece of advice asks for, read from its words alone."""
    items = case.items
    quoted = re.findall(r'"([^"]*)"', words)
    if found := re.fullmatch(
        r"a wall \d+ mm (wider|higher) \(\w+ at least (\d+) mm\)", in_mm(words)
    ):
        side = {"wider": "width_mm", "higher": "height_mm"}[found[1]]
        return case.on(replace(case.space, **{side: float(found[2])}))
    if found := re.fullmatch(
        r"the wall begun (\d+) mm lower \(floor_gap (\d+) mm, height (\d+) mm, "
        r"each z on it (\d+) mm more\)",
        in_mm(words),
    ):
        assert found[1] == found[4]
        return lower(case, float(found[1]), gap_mm=float(found[2]), height_mm=float(found[3]))
    if words.endswith("in any order"):
        items = tuple(replace(i, rank=None) if i.group in quoted else i for i in items)
    elif words.endswith("no longer fixed"):
        items = tuple(replace(i, fixed=None) if i.key in quoted else i for i in items)
    elif words.endswith("left out"):
        items = tuple(i for i in items if i.key not in quoted)
    else:
        found = re.fullmatch(PLACE_WORDS, words)
        assert found is not None, words
        assert found[3] == key
        place = (length_mm(found[1]), length_mm(found[2]))
        items = tuple(replace(i, fixed=place) if i.key == key else i for i in items)
    return case.having(items)


@settings(deadline=None, max_examples=10)
@given(st.integers(0, 10**6), st.integers(3, 7), st.booleans(), st.sampled_from(["mm", "in"]))
def test_every_piece_of_advice_is_true(
    seed: int, count: int, socket: bool, unit: LengthUnit
) -> None:
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    items = tuple(
        Item(
            f"h{k}",
            width_mm=float(r.randrange(60, 260, 10)),
            up_mm=float(r.randrange(30, 80, 10)),
            down_mm=float(r.randrange(60, 180, 10)),
            use=r.choice(("daily", "weekly", "seldom")),
            group=r.choice(("", "g")),
            rank=r.choice((None, k)),
            on_rail=r.random() > 0.2,
            rail_depth_mm=60.0,
            fixed=(10.0, 200.0) if k == 0 and r.random() > 0.5 else None,
        )
        for k in range(count)
    )
    boxes = (Box("socket", 260.0, 140.0, 60.0, 60.0),) if socket else ()
    space = WallSpace(400.0, 330.0, 900.0, obstacles=boxes)
    assume(not (items[0].fixed and items[0].down_mm > 200.0))
    problem = WallProblem(space, RULE, items)
    before = arrange(problem)
    waiting = {left.key for left in before.left_over}
    assume(waiting)
    found = find_help(problem, before, means=Means(unit=unit))
    if found.finished_by and len(waiting) > 1:
        new = problem
        for words in sorted(found.finished_by, key=lambda one: "lower" in one):
            keys = re.findall(r'in the table of "([^"]*)"', words)
            new = changed(words, new, keys[0] if keys else "")
        assert arrange(new, first=True).left_over == ()
        out = " ".join(words for words in found.finished_by if words.endswith("left out"))
        assert not waiting & set(re.findall(r'"([^"]*)"', out))
    for left in found.left_over:
        assert len(left.helps) <= 6
        for words in left.helps:
            new = changed(words, problem, left.key)
            # more rounds would leave nothing over either
            after = arrange(new, first=True)
            assert conflicts(new, after) == ()
            still = {one.key for one in after.left_over}
            assert left.key not in still, words
            assert still <= waiting, words
