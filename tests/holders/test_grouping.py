"""Tools are shared out over holders in order of size, evenly, and over no more than needed."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import InputError
from cleatwright.holders.grouping import GroupEntry, group_tools
from cleatwright.parts.grips import ShaftEnd
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block

Fits = Callable[[Sequence[str]], bool]


def entry(name: str, size_mm: float = 1.0, group: str = "") -> GroupEntry:
    shaft = block(0.0, 0.0, 0.0, 1.0, 1.0, 50.0)
    grip = ShaftEnd(0.0, size_mm, 50.0)
    body = ToolBody("test", "x", (shaft,), 0.1, (0.0, 0.0, 25.0), (grip,), size_mm)
    return GroupEntry(name, body, group)


def at_most(count: int) -> Fits:
    return lambda names: len(names) <= count


def narrower(widths_mm: dict[str, float], bed_mm: float) -> Fits:
    return lambda names: sum(widths_mm[name] for name in names) <= bed_mm


entries = st.lists(
    st.builds(entry, st.text("abcdef", min_size=1, max_size=3), st.floats(1.0, 40.0)),
    min_size=1,
    max_size=24,
    unique_by=lambda one: one.name,
)


def _fewest(widths: Sequence[float], bed: float) -> int:
    """Return the least number of runs by filling each as far as it goes (textbook greedy)."""
    count, used = 1, 0.0
    for k, width in enumerate(widths):
        if k and used + width > bed:
            count, used = count + 1, 0.0
        used += width
    return count


def test_seven_tools_on_beds_of_six_become_four_and_three() -> None:
    groups = group_tools([entry(letter) for letter in "abcdefg"], fits=at_most(6))
    assert groups == (tuple("abcd"), tuple("efg"))


def test_sizes_come_in_order_and_equal_sizes_by_name() -> None:
    tools = [entry("d", 8.0), entry("b", 6.0), entry("c", 6.0), entry("a", 10.0)]
    assert group_tools(tools, fits=at_most(9)) == (("b", "c", "d", "a"),)


def test_tools_of_different_groups_never_share_a_holder() -> None:
    tools = [entry("a", group="vice"), entry("b"), entry("c", group="vice"), entry("d")]
    assert group_tools(tools, fits=at_most(9)) == (("a", "c"), ("b", "d"))


def test_a_tool_that_does_not_fit_alone_is_a_group_of_its_own() -> None:
    fits = narrower({"a": 10.0, "b": 300.0, "c": 10.0}, 200.0)
    tools = [entry("a", 1.0), entry("b", 2.0), entry("c", 3.0)]
    assert group_tools(tools, fits=fits) == (("a",), ("b",), ("c",))


def test_tools_that_belong_together_stay_so_in_the_order_given() -> None:
    tools = [entry("b", 9.0, "x"), entry("a", 3.0), entry("c", 5.0)]
    assert group_tools(tools, fits=at_most(1), together=True) == (("b", "a", "c"),)
    assert group_tools([], fits=at_most(1), together=True) == ()


def test_no_tools_make_no_holders() -> None:
    assert group_tools([], fits=at_most(1)) == ()


def test_two_tools_of_one_name_are_an_error() -> None:
    with pytest.raises(InputError, match="more than one tool is called a"):
        group_tools([entry("a"), entry("b"), entry("a")], fits=at_most(2))


def test_an_even_spread_that_does_not_fit_gives_way_to_the_most_even_one_that_does() -> None:
    """Two beds of 8 take 1 + 1 + 1 + 5 and 5; the even split into three and two would be 5 + 5."""
    widths = {"a": 1.0, "b": 1.0, "c": 1.0, "d": 5.0, "e": 5.0}
    tools = [entry(name, float(k)) for k, name in enumerate(widths)]
    assert group_tools(tools, fits=narrower(widths, 7.0)) == (("a", "b"), ("c", "d"), ("e",))
    assert group_tools(tools, fits=narrower(widths, 8.0)) == (("a", "b", "c", "d"), ("e",))


@settings(deadline=None, max_examples=60)
@given(tools=entries, bed=st.floats(40.0, 120.0))
def test_every_tool_comes_once_in_order_and_every_holder_fits(
    tools: list[GroupEntry], bed: float
) -> None:
    widths = {one.name: one.body.order_mm for one in tools}
    fits = narrower(widths, bed)
    groups = group_tools(tools, fits=fits)
    flat = [name for group in groups for name in group]
    assert flat == sorted(widths, key=lambda name: (widths[name], name))
    assert all(fits(group) for group in groups)
    assert len(groups) == _fewest([widths[name] for name in flat], bed)


@settings(deadline=None, max_examples=60)
@given(tools=entries, most=st.integers(1, 9))
def test_equal_tools_are_spread_as_evenly_as_whole_numbers_allow(
    tools: list[GroupEntry], most: int
) -> None:
    sizes = [len(group) for group in group_tools(tools, fits=at_most(most))]
    assert max(sizes) - min(sizes) <= 1
    assert sizes == sorted(sizes, reverse=True)
    assert len(sizes) == -(-len(tools) // most)


@settings(deadline=None, max_examples=60)
@given(data=st.data(), tools=entries)
def test_any_wish_of_the_caller_gives_each_tool_once_in_few_calls(
    data: st.DataObject, tools: list[GroupEntry]
) -> None:
    """The caller's test may be of any kind, even one that grows kinder with more tools."""
    answers: dict[tuple[str, ...], bool] = {}
    calls: list[tuple[str, ...]] = []

    def fits(names: Sequence[str]) -> bool:
        calls.append(tuple(names))
        return answers.setdefault(tuple(names), data.draw(st.booleans()))

    groups = group_tools(tools, fits=fits)
    assert sorted(name for group in groups for name in group) == sorted(t.name for t in tools)
    assert all(len(group) == 1 or answers[group] for group in groups)
    assert len(calls) == len(set(calls)), "no question is put twice, since each builds a holder"


def test_tools_in_a_holder_that_is_there_stay_in_it_though_they_would_share_none() -> None:
    tools = [entry("a", 5.0, group="low"), entry("b", 6.0, group="high"), entry("c", 7.0)]
    apart = group_tools(tools, fits=lambda _: True, shared=[("a", "b")])
    assert sorted(apart) == [("a",), ("b",), ("c",)]
    there = group_tools(tools, fits=lambda _: True, shared=[("a", "b")], there={"a"})
    assert sorted(there) == [("a", "b"), ("c",)]
