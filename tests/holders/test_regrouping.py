"""Tools that share a holder stay together; who comes or goes changes no holder but one.

The oracle is counting: which sets of tools are there before and after.
"""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from tests.holders.test_grouping import entries, entry, narrower

from cleatwright.holders.grouping import GroupEntry, group_tools

beds = st.floats(20.0, 200.0)


def widths(tools: list[GroupEntry]) -> dict[str, float]:
    return {tool.name: tool.body.order_mm for tool in tools}


@given(tools=entries, bed_mm=beds)
def test_what_shares_holders_is_grouped_the_same_again(
    tools: list[GroupEntry], bed_mm: float
) -> None:
    fits = narrower(widths(tools), bed_mm)
    first = group_tools(tools, fits=fits)
    assert group_tools(tools[::-1], fits=fits, shared=first) == first


@given(tools=entries, bed_mm=beds, size_mm=st.floats(1.0, 40.0))
def test_one_new_tool_joins_one_holder_or_gets_its_own(
    tools: list[GroupEntry], bed_mm: float, size_mm: float
) -> None:
    new = entry("new one", size_mm)
    fits = narrower(widths([*tools, new]), bed_mm)
    first = group_tools(tools, fits=fits)
    then = group_tools([*tools, new], fits=fits, shared=first)
    assert len(set(first) - set(then)) <= 1
    assert len(set(then) - set(first)) == 1
    assert sorted(name for names in then for name in names) == sorted(
        [*(tool.name for tool in tools), "new one"]
    )
    assert all(len(names) == 1 or fits(names) for names in then)
    # it goes without a holder of its own only if one has room
    alone = ("new one",) in then
    assert alone == (not any(fits((*names, "new one")) for names in first))


@given(tools=entries, bed_mm=beds, data=st.data())
def test_one_tool_that_goes_changes_its_own_holder_alone(
    tools: list[GroupEntry], bed_mm: float, data: st.DataObject
) -> None:
    gone = data.draw(st.sampled_from([tool.name for tool in tools]))
    left = [tool for tool in tools if tool.name != gone]
    fits = narrower(widths(tools), bed_mm)
    first = group_tools(tools, fits=fits)
    then = group_tools(left, fits=fits, shared=first)
    assert {names for names in first if gone not in names} <= set(then)
    assert len(then) <= len(first)


def test_a_new_tool_joins_the_nearest_in_size() -> None:
    tools = [entry(name, size) for name, size in (("a", 3.0), ("b", 4.0), ("y", 20.0), ("z", 22.0))]
    fits = narrower(dict.fromkeys("abxyz", 1.0), 3.0)
    shared = (("a", "b"), ("y", "z"))
    assert group_tools([*tools, entry("x", 18.0)], fits=fits, shared=shared) == (
        ("a", "b"),
        ("x", "y", "z"),
    )
    assert group_tools([*tools, entry("x", 6.0)], fits=fits, shared=shared) == (
        ("a", "b", "x"),
        ("y", "z"),
    )


def test_holders_that_no_longer_fit_are_parted() -> None:
    tools = [entry(letter) for letter in "abcd"]
    fits = narrower(dict.fromkeys("abcd", 1.0), 2.0)
    assert group_tools(tools, fits=fits, shared=(("a", "b", "c"), ("d",))) == (
        ("a", "b"),
        ("c",),
        ("d",),
    )
