"""More room on a wall where a way out or a hand lacks it."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from cleatwright.siting.settling import with_room
from cleatwright.wall.model import Item
from cleatwright.wall.way_out import Direction, Hit, Sort, WayProof

ITEM = Item("pliers", 100.0, 50.0, 150.0, side_left_mm=5.0, side_right_mm=7.0)
ROOM = {"left": 5.0, "right": 7.0, "up": 50.0, "down": 150.0}
OTHER_SIDE = {"left": "right", "right": "left", "up": "down", "down": "up"}


def unit(key: str, holder: str, tool: str) -> Any:
    made = SimpleNamespace(key=holder, name=key, tools=(SimpleNamespace(name=tool),))
    return SimpleNamespace(planned=SimpleNamespace(key=key, holders=(made,)))


UNIT = unit("pliers", "h1", "Pliers")


def room(item: Item) -> dict[str, float]:
    return {
        "left": item.side_left_mm,
        "right": item.side_right_mm,
        "up": item.up_mm,
        "down": item.down_mm,
    }


def way(short_mm: float, direction: Direction, *, at_hand: bool) -> WayProof:
    hit = Hit("socket", "obstacle", 10.0, short_mm, direction)
    found = (None, hit) if at_hand else (hit, None)
    return WayProof("pliers", "pliers", "h1", 90.0, *found)


@pytest.mark.parametrize("at_hand", [True, False])
@pytest.mark.parametrize("direction", ["left", "right", "up", "down"])
def test_a_tool_that_has_to_shift_one_way_gets_room_at_its_other_side(
    direction: Direction, at_hand: bool
) -> None:
    """A neighbour 2.34 mm too near at the left asks for 2.4 mm more there, and for none else."""
    (wider,) = with_room((ITEM,), [UNIT], [way(2.34, direction, at_hand=at_hand)])
    more = {side: wide - ROOM[side] for side, wide in room(wider).items()}
    wanted = dict.fromkeys(ROOM, 0.0) | {OTHER_SIDE[direction]: 2.4}
    assert more == pytest.approx(wanted)


def test_of_two_that_lack_room_at_one_side_the_greater_lack_counts() -> None:
    ways = [way(1.0, "right", at_hand=False), way(3.0, "right", at_hand=True)]
    (wider,) = with_room((ITEM,), [UNIT], ways)
    assert wider.side_left_mm == pytest.approx(8.0)
    (wider,) = with_room((ITEM,), [UNIT], ways[::-1])
    assert wider.side_left_mm == pytest.approx(8.0)


def test_what_lacks_nothing_keeps_its_room() -> None:
    free = WayProof("pliers", "pliers", "h1", 90.0, None, None)
    assert with_room((ITEM,), [UNIT], [free]) == (ITEM,)


@pytest.mark.parametrize(("sort", "name"), [("holder", "cans"), ("tool", "Oil can")])
@pytest.mark.parametrize("direction", ["left", "right", "up", "down"])
def test_where_a_place_is_given_the_neighbour_makes_room(
    direction: Direction, sort: Sort, name: str
) -> None:
    """The tool cannot shift to the right, so what is at its left keeps off at its own right."""
    fixed, cans = replace(ITEM, fixed=(300.0, 500.0)), replace(ITEM, key="cans")
    hit = Hit(name, sort, 10.0, 2.34, direction)
    proof = WayProof("pliers", "pliers", "h1", 90.0, None, hit)
    units = [UNIT, unit("cans", "h2", "Oil can")]
    stays, wider = with_room((fixed, cans), units, [proof])
    assert stays == fixed
    more = {side: wide - ROOM[side] for side, wide in room(wider).items()}
    assert more == pytest.approx(dict.fromkeys(ROOM, 0.0) | {direction: 2.4})
