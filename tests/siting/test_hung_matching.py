"""A holder that hangs is known again when the plan changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.keys import content_key, mark_from_key
from cleatwright.siting.hung.matching import Wanted, matched
from cleatwright.workshop.ledger.hung_entry import HungEntry

TOOLS = "ABCDEFGHIJ"


def entry(tools: str, *, panel: str = "wall", mark: str = "old") -> HungEntry:
    names = tuple(sorted(tools))
    return HungEntry(
        panel=panel,
        name=f"{names[0]} to {names[-1]}",
        x_mm=100.0,
        z_mm=700.0,
        mark=mark_from_key(content_key((names, mark))),
        tools=names,
        since="2024-05-01",
    )


def wanted(tools: str, *, key: str = "", panel: str = "wall", mark: str = "old") -> Wanted:
    like = entry(tools, panel=panel, mark=mark)
    return Wanted(key or tools, like.name, panel, like.mark, like.tools)


def pairs(entries: Sequence[HungEntry], things: Sequence[Wanted]) -> dict[str, str]:
    """Return the tools of the entry of each thing that is known again."""
    return {key: "".join(one.tools) for key, one in matched(entries, things).items()}


@st.composite
def parted(draw: st.DrawFn) -> list[str]:
    """Return some of the tools, shared among at most five holders."""
    homes = draw(st.lists(st.integers(-1, 4), min_size=len(TOOLS), max_size=len(TOOLS)))
    groups = [
        "".join(tool for tool, home in zip(TOOLS, homes, strict=True) if home == number)
        for number in range(5)
    ]
    return [group for group in groups if group]


@settings(max_examples=60, deadline=None)
@given(groups=parted(), mark=st.sampled_from(["old", "new"]), data=st.data())
def test_when_nothing_changed_each_is_itself(
    groups: list[str], mark: str, data: st.DataObject
) -> None:
    """Also when every part is made anew, as after a change of the rail."""
    things = data.draw(st.permutations([wanted(group, mark=mark) for group in groups]))
    assert pairs([entry(group) for group in groups], things) == {g: g for g in groups}


@settings(max_examples=100, deadline=None)
@given(old=parted(), new=parted(), data=st.data())
def test_the_order_of_entries_and_things_does_not_matter(
    old: list[str], new: list[str], data: st.DataObject
) -> None:
    panels = st.sampled_from(["wall", "lid"])
    entries = [entry(group, panel=data.draw(panels)) for group in old]
    things = [
        wanted(group, panel=data.draw(panels), mark=data.draw(st.sampled_from(["old", "new"])))
        for group in new
    ]
    found = matched(entries, things)
    shuffled = matched(data.draw(st.permutations(entries)), data.draw(st.permutations(things)))
    assert dict(found) == dict(shuffled)
    used = [one.identity for one in found.values()]
    assert len(used) == len(set(used))


@settings(max_examples=100, deadline=None)
@given(groups=parted().filter(bool), number=st.integers(0, 4), tool=st.sampled_from("KLM"))
def test_one_tool_more_or_less_leaves_each_holder_itself(
    groups: list[str], number: int, tool: str
) -> None:
    number %= len(groups)
    longer = [f"{g}{tool}" if k == number else g for k, g in enumerate(groups)]
    small, large = [entry(g) for g in groups], [entry(g) for g in longer]
    more = [
        wanted(g, key=str(k), mark="new" if k == number else "old") for k, g in enumerate(longer)
    ]
    less = [
        wanted(g, key=str(k), mark="new" if k == number else "old") for k, g in enumerate(groups)
    ]
    assert pairs(small, more) == {str(k): g for k, g in enumerate(groups)}
    assert pairs(large, less) == {str(k): "".join(sorted(g)) for k, g in enumerate(longer)}


@settings(max_examples=60, deadline=None)
@given(old=parted(), new=parted())
def test_no_other_pairing_keeps_more_tools_in_their_holder(old: list[str], new: list[str]) -> None:
    """Compared with the heaviest matching of a general graph library."""
    kept = sum(len({*a} & {*b}) for b, a in pairs([*map(entry, old)], [*map(wanted, new)]).items())
    graph = nx.Graph()
    for i, a in enumerate(old):
        for j, b in enumerate(new):
            if shared := len({*a} & {*b}):
                graph.add_edge(("old", i), ("new", j), weight=shared)
    heaviest = nx.max_weight_matching(graph)
    assert kept == sum(graph.edges[edge]["weight"] for edge in heaviest)


def test_a_thing_without_a_known_tool_is_new_and_an_entry_without_a_home_is_left() -> None:
    assert pairs([entry("AB"), entry("CD")], [wanted("AB"), wanted("EF")]) == {"AB": "AB"}
    assert pairs([], [wanted("AB")]) == {}
    assert pairs([entry("AB")], []) == {}


def test_the_larger_share_of_a_holder_that_is_parted_is_the_old_one() -> None:
    assert pairs([entry("ABCD")], [wanted("A"), wanted("BCD")]) == {"BCD": "ABCD"}
    assert pairs([entry("A"), entry("BCD")], [wanted("ABCD")]) == {"ABCD": "BCD"}


def test_of_equal_shares_the_one_with_fewer_strangers_is_the_old_one() -> None:
    assert pairs([entry("AB")], [wanted("AXYZ"), wanted("B")]) == {"B": "AB"}


def test_of_shares_that_are_equal_in_all_the_first_tool_by_name_decides() -> None:
    assert pairs([entry("AB")], [wanted("B"), wanted("A")]) == {"A": "AB"}
    assert pairs([entry("B"), entry("A")], [wanted("AB")]) == {"AB": "A"}


@pytest.mark.parametrize(("mark", "known"), [("old", {"AB": "AB"}), ("new", {})])
def test_on_another_panel_only_the_very_same_part_is_known_again(
    mark: str, known: dict[str, str]
) -> None:
    assert pairs([entry("AB", panel="lid")], [wanted("AB", mark=mark)]) == known


def test_the_same_part_with_the_same_tools_comes_before_any_share() -> None:
    """Entries that share tools cannot come from a ledger, yet the first rule stands."""
    same = entry("A", mark="x")
    larger = replace(entry("ABC"), panel="wall")
    things = [wanted("A", mark="x"), wanted("ABD")]
    assert pairs([larger, same], things) == {"A": "A", "ABD": "ABC"}
    assert pairs([larger, same], things[:1]) == {"A": "A"}
