"""What moves, what stays, and in which order to move it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations, permutations

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from cleatwright.base.errors import WallError
from cleatwright.base.said import in_mm
from cleatwright.wall.model import Place
from cleatwright.wall.moving.moves import HungItem, Move, moves
from cleatwright.wall.moving.order import ChangeStep, Rect, ordered

SIDE = 100.0
CELLS = 4


def hanging(
    key: str, x_mm: float, z_mm: float, *, panel: str = "wall", mark: str = "A"
) -> HungItem:
    return HungItem(Place(key, x_mm, z_mm), f"Holder {key}", panel, mark)


def only(before: HungItem | None, after: HungItem | None) -> Move:
    (move,) = moves([before] if before else [], [after] if after else [])
    return move


@pytest.mark.parametrize(
    ("right", "up", "told"),
    [
        (120.0, 50.0, "moves 120 mm to the right and 50 mm up"),
        (-120.0, -50.0, "moves 120 mm to the left and 50 mm down"),
        (0.0, -50.0, "moves 50 mm down"),
        (120.4, 0.5, "moves 120 mm to the right"),
        (0.6, 0.0, "moves 1 mm to the right"),
        (0.5, -0.5, "stays where it hangs"),
        (0.0, 0.0, "stays where it hangs"),
    ],
)
def test_a_move_is_told_in_words_for_a_person_who_faces_the_wall(
    right: float, up: float, told: str
) -> None:
    move = only(hanging("1", 200.0, 700.0), hanging("1", 200.0 + right, 700.0 + up))
    assert in_mm(move.sentence) == f'"Holder 1" {told}.'


def test_new_things_things_that_come_off_and_other_parts_are_told() -> None:
    here = hanging("1", 200.0, 700.0)
    assert in_mm(only(None, here).sentence) == (
        '"Holder 1" is new: its left edge 200 mm from the left edge of the wall, '
        "its hang height 700 mm above its lower edge."
    )
    assert only(here, None).sentence == '"Holder 1" comes off the wall.'
    assert only(hanging("1", 0, 0, panel="lid"), None).sentence == (
        '"Holder 1" comes off the panel "lid".'
    )
    renewed = only(here, hanging("1", 200.0, 700.0, mark="B"))
    assert renewed.what == "stays"
    assert renewed.sentence == '"Holder 1" stays where it hangs, as a new part.'
    other = only(here, hanging("1", 200.0, 700.0, panel="lid"))
    assert other.sentence == '"Holder 1" moves from the wall to the panel "lid".'


def test_two_things_of_one_key_and_a_thing_that_never_hangs_are_refused() -> None:
    with pytest.raises(WallError, match="two holders have the key"):
        moves([hanging("1", 0, 0), hanging("1", 5, 5)], [])
    with pytest.raises(WallError, match="neither before nor after"):
        Move("1", "Holder", None, None)


@given(st.permutations([hanging(str(k), 10.0 * k, 5.0 * k) for k in range(6)]))
@settings(max_examples=20, deadline=None)
def test_the_order_in_which_things_are_given_does_not_matter(shuffled: list[HungItem]) -> None:
    told = moves(shuffled[:4], reversed(shuffled[2:]))
    assert told == moves(sorted(shuffled[:4], key=str), sorted(shuffled[2:], key=str))
    assert [move.key for move in told] == sorted(move.key for move in told)


# a grid of cells is a wall on which every arrangement is sound


def at(cell: float, panel: str = "wall", *, key: str, mark: str = "A") -> HungItem:
    return hanging(key, cell * SIDE, 0.0, panel=panel, mark=mark)


def room(thing: HungItem) -> Rect:
    return thing.place.x_mm, thing.place.x_mm + SIDE, 0.0, SIDE


def rooms(things: Sequence[HungItem]) -> dict[str, Rect]:
    return {thing.place.key: room(thing) for thing in things}


def steps_of(before: Sequence[HungItem], after: Sequence[HungItem]) -> tuple[ChangeStep, ...]:
    return ordered(moves(before, after), before=rooms(before), after=rooms(after))


def replay(
    before: Sequence[HungItem], after: Sequence[HungItem], steps: Sequence[ChangeStep]
) -> None:
    """Do the steps one by one with another library's rectangles; nothing may ever overlap."""
    wall = {one.place.key: one for one in before}
    then = {one.place.key: one for one in after}
    for step in steps:
        key = step.move.key
        if step.action in {"take down", "move"}:
            del wall[key]
        if step.action in {"move", "hang"}:
            assert key not in wall
            target = then[key]
            for other in wall.values():
                if other.panel == target.panel:
                    a, b = (box(x0, z0, x1, z1) for x0, x1, z0, z1 in (room(target), room(other)))
                    assert a.intersection(b).area == 0.0, step.sentence
            wall[key] = target
    assert wall == then


def dependencies(before: Sequence[HungItem], after: Sequence[HungItem]) -> nx.DiGraph:
    """Return who must go before whom among the same parts that change their place."""
    now = {one.place.key: one for one in before}
    moving = [
        (now[one.place.key], one)
        for one in after
        if one.place.key in now
        and now[one.place.key].mark == one.mark
        and now[one.place.key] != one
    ]
    graph = nx.DiGraph()
    graph.add_nodes_from(one.place.key for _, one in moving)
    for old, _ in moving:
        for _, new in moving:
            if old.place.key != new.place.key and old.panel == new.panel:
                a, b = room(old), room(new)
                if min(a[1], b[1]) > max(a[0], b[0]):
                    graph.add_edge(old.place.key, new.place.key)
    return graph


def fewest(graph: nx.DiGraph) -> int:
    """Return by trying all sets how many must be taken down first."""
    nodes = sorted(graph)
    for count in range(len(nodes) + 1):
        for chosen in combinations(nodes, count):
            if nx.is_directed_acyclic_graph(graph.subgraph(set(nodes) - set(chosen))):
                return count
    raise AssertionError


@st.composite
def walls(draw: st.DrawFn) -> list[HungItem]:
    """Return some of eight things in cells of two panels, whose cells may be shifted by half."""
    shift = {panel: draw(st.sampled_from([0.0, 0.5])) for panel in ("lid", "wall")}
    cells = draw(st.permutations([(panel, cell) for panel in shift for cell in range(CELLS)]))
    keys = draw(st.sets(st.sampled_from("01234567"), min_size=4))
    return [
        at(cell + shift[panel], panel, key=key, mark=draw(st.sampled_from("AAAB")))
        for key, (panel, cell) in zip(sorted(keys), cells, strict=False)
    ]


@settings(max_examples=120, deadline=None)
@given(before=walls(), after=walls())
def test_each_place_is_free_when_its_turn_comes(
    before: list[HungItem], after: list[HungItem]
) -> None:
    steps = steps_of(before, after)
    replay(before, after, steps)
    rings = [
        step for step in steps if step.action == "take down" and step.sentence.startswith("First")
    ]
    assert len(rings) == fewest(dependencies(before, after))


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_a_chain_begins_at_its_free_end(order: tuple[int, ...]) -> None:
    """Each goes one cell to the right, so the rightmost goes first."""
    keys = [str(k) for k in order]
    before = [at(cell, key=key) for cell, key in enumerate(keys)]
    steps = steps_of(before, [at(cell + 1, key=key) for cell, key in enumerate(keys)])
    assert [(step.action, step.move.key) for step in steps] == [
        ("move", key) for key in reversed(keys)
    ]


def test_two_that_change_places_need_one_to_be_taken_down_first() -> None:
    steps = steps_of([at(0, key="1"), at(1, key="2")], [at(1, key="1"), at(0, key="2")])
    assert [step.action for step in steps] == ["take down", "move", "hang"]
    # either may be the one that is taken down
    down, moved = steps[0].move, steps[1].move
    assert isinstance(down, Move)
    assert isinstance(moved, Move)
    assert {down.key, moved.key} == {"1", "2"}
    assert steps[2].move == down
    way, x_mm = ("right", 100) if moved.key == "1" else ("left", 0)
    assert steps[0].sentence == f"First take down {down.now}, to make room."
    assert in_mm(steps[1].sentence) == (
        f"Move {moved.now} 100 mm to the {way}: its left edge {x_mm} mm from the left edge of "
        "the wall, its hang height 0 mm above its lower edge."
    )
    assert in_mm(steps[2].sentence).startswith(
        f"Hang {down.then}: its left edge {100 - x_mm} mm from"
    )


def test_what_comes_off_and_what_is_replaced_is_taken_down_before_anything_moves() -> None:
    before = [at(0, key="1"), at(1, key="2"), at(2, key="3")]
    after = [at(2, key="1"), at(1, key="2", mark="B"), at(3, key="4")]
    steps = steps_of(before, after)
    replay(before, after, steps)
    assert [in_mm(step.sentence).split(":")[0] for step in steps] == [
        'Take down "Holder 2" (A)',
        'Take down "Holder 3" (A)',
        'Move "Holder 1" (A) 200 mm to the right',
        'Hang "Holder 2" (B)',
        'Hang "Holder 4" (A)',
    ]


def test_nothing_is_to_do_when_all_stays() -> None:
    here = [at(k, key=str(k)) for k in range(4)]
    assert steps_of(here, here) == ()
    near = [replace(one, place=replace(one.place, x_mm=one.place.x_mm + 0.4)) for one in here]
    assert steps_of(here, near) == ()


def test_a_large_wall_in_great_disorder_is_put_in_order() -> None:
    count = 60
    rng = np.random.default_rng(5)
    before = [at(cell, key=f"{key:02d}") for cell, key in enumerate(rng.permutation(count))]
    after = [at(cell + 0.5, key=f"{key:02d}") for cell, key in enumerate(rng.permutation(count))]
    steps = steps_of(before, after)
    replay(before, after, steps)
    down = {step.move.key for step in steps if step.action == "take down"}
    graph = dependencies(before, after)
    assert not nx.is_directed_acyclic_graph(graph)
    # rings that share no holder need at least one each
    apart = 0
    left = graph.copy()
    while not nx.is_directed_acyclic_graph(left):
        left.remove_nodes_from([edge[0] for edge in nx.find_cycle(left)])
        apart += 1
    assert apart <= len(down) < count / 2


def test_an_arrangement_that_overlaps_at_its_end_and_an_unknown_room_are_refused() -> None:
    before, after = [at(0, key="1"), at(1, key="2")], [at(0, key="1"), at(0.5, key="2")]
    with pytest.raises(WallError, match='"Holder 1" and "Holder 2" would overlap'):
        steps_of(before, after)
    told = moves(before, [at(0, key="1"), at(2, key="2")])
    with pytest.raises(WallError, match='room that "Holder 2" takes is not known'):
        ordered(told, before=rooms(before), after=rooms(before[:1]))
    with pytest.raises(WallError, match='room that "Holder 2" takes is not known'):
        ordered(told, before={}, after=rooms(before))
