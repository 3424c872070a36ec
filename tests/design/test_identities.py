"""A tool is known again though it was renamed, moved in the list or measured again.

The oracles are told by hand: who is who is known from how the list was changed.
"""

from __future__ import annotations

import pytest

from cleatwright.design.equipment import OwnedTool, all_owned
from cleatwright.design.identities import identified, known_tool, numbered
from cleatwright.workshop.document.store import checked
from cleatwright.workshop.ledger.last_made import KnownHolder, LastMade

HEAD = """schema = 1
name = "List"
units = "mm"

[wall]
width = 1000
height = 1000

[printer.p]
bed = [200, 200, 200]

[filament.f]
material = "PETG"
density = 1270
"""


def box(name: str, width: float, *, count: int = 1, kind: str = "box") -> str:
    sides = f"width = {width}, depth = 40, height = 30"
    if kind == "can":
        sides = f"diameter = {width}, height = 100"
    return (
        f'\n[[tool]]\nname = "{name}"\nkind = "{kind}"\ncount = {count}\nmeasures = {{ {sides} }}\n'
    )


def owned(*rows: str) -> tuple[OwnedTool, ...]:
    return all_owned(checked(HEAD + "".join(rows)))


def made(tools: tuple[OwnedTool, ...]) -> LastMade:
    return LastMade(tuple(known_tool(tool) for tool in tools))


def ids(*rows: str, last: LastMade) -> dict[str, str]:
    return {tool.name: tool.identity for tool in identified(owned(*rows), last)}


FIRST = (box("Tin", 80), box("Case", 120), box("Crate", 200))


@pytest.fixture
def last() -> LastMade:
    return made(identified(owned(*FIRST), LastMade()))


def known(last: LastMade) -> dict[str, str]:
    return {tool.name: tool.identity for tool in last.tools}


def test_two_people_with_the_same_list_have_the_same_identities(last: LastMade) -> None:
    assert ids(*FIRST, last=LastMade()) == known(last)
    assert len(set(known(last).values())) == 3


def test_another_order_changes_nothing(last: LastMade) -> None:
    assert ids(*FIRST[::-1], last=last) == known(last)


def test_a_renamed_tool_is_the_same_tool(last: LastMade) -> None:
    now = ids(box("Biscuit tin", 80), *FIRST[1:], last=last)
    assert now["Biscuit tin"] == known(last)["Tin"]


def test_a_tool_measured_again_is_the_same_tool(last: LastMade) -> None:
    assert ids(box("Tin", 140), *FIRST[1:], last=last) == known(last)


@pytest.mark.parametrize(("width", "same"), [(88.8, True), (89.5, False), (72.1, True)])
def test_renamed_and_measured_again_it_is_the_same_within_a_tenth(
    last: LastMade, width: float, *, same: bool
) -> None:
    """Of the larger of both: 88.8 - 80 is 9.9 % of 88.8, 89.5 - 80 is 10.6 % of 89.5."""
    now = ids(box("Biscuit tin", width), *FIRST[1:], last=last)
    assert (now["Biscuit tin"] == known(last)["Tin"]) is same


def test_a_new_tool_gets_an_identity_that_no_other_has(last: LastMade) -> None:
    now = ids(*FIRST, box("Cup", 30), last=last)
    assert len(set(now.values())) == 4
    assert known(last).items() <= now.items()


def test_a_thing_of_another_kind_is_another_thing(last: LastMade) -> None:
    now = ids(box("Tin", 80, kind="can"), *FIRST[1:], last=last)
    assert now["Tin"] not in known(last).values()


def test_names_that_were_mixed_up_change_places(last: LastMade) -> None:
    """Two names exchanged: the things on the wall, and what holds them, stay as they are."""
    now = ids(box("Case", 80), box("Tin", 120), box("Crate", 200), last=last)
    before = known(last)
    assert (now["Case"], now["Tin"]) == (before["Tin"], before["Case"])
    assert now["Crate"] == before["Crate"]


def test_of_equal_tools_each_is_known_again() -> None:
    five = identified(owned(box("Tin", 80, count=5)), LastMade())
    now = ids(box("Lid", 80, count=4), last=made(five))
    assert list(now.values()) == [tool.identity for tool in five[:4]]


def holder(number: int, *tools: str) -> KnownHolder:
    return KnownHolder(number, "wall", "", "shelf", "", tools)


HOLDERS = LastMade((), (holder(1, "a", "b"), holder(2, "c"), holder(5, "d", "e", "f")), 7)


def sets(*names: str) -> list[frozenset[str]]:
    return [frozenset(one) for one in names]


def test_a_holder_keeps_its_number_whatever_its_place() -> None:
    assert numbered(sets("def", "ab", "c"), HOLDERS, hangs=False) == (5, 1, 2)


def test_a_holder_that_gave_one_tool_and_took_another_keeps_its_number() -> None:
    assert numbered(sets("a", "bc", "defg"), HOLDERS, hangs=True) == (1, 2, 5)


def test_a_new_holder_fills_a_gap_before_anything_hangs_and_none_after() -> None:
    wanted = sets("ab", "c", "def", "x", "y", "z")
    assert numbered(wanted, HOLDERS, hangs=False) == (1, 2, 5, 3, 4, 6)
    assert numbered(wanted, HOLDERS, hangs=True) == (1, 2, 5, 8, 9, 10)


def test_of_two_halves_the_larger_keeps_the_number() -> None:
    assert numbered(sets("d", "ef"), HOLDERS, hangs=True) == (8, 5)


def test_without_a_last_time_they_are_numbered_in_order() -> None:
    assert numbered(sets("x", "y"), LastMade(), hangs=False) == (1, 2)
