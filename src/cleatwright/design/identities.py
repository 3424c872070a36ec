"""Which tools and holders of a workshop are those of the last time it was made."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count
from types import MappingProxyType

import numpy as np

from cleatwright.base.interrupts import defer_interrupts
from cleatwright.base.keys import content_key
from cleatwright.design.equipment import OwnedTool
from cleatwright.workshop.ledger.last_made import KnownHolder, KnownTool, LastMade

NEAR_SHARE = 0.10
"""How far each measure of a renamed tool may be from what it was; measured on edits."""
IDENTITY_LENGTH = 16


def known_tool(tool: OwnedTool) -> KnownTool:
    """Return a tool as the ledger keeps it."""
    outline = "" if tool.outline is None else content_key(tool.outline)
    return KnownTool(
        tool.identity, tool.name, tool.body.kind, tool.measures, outline, gone=tool.gone
    )


def identified(
    tools: Sequence[OwnedTool], last: LastMade, *, there: frozenset[str] = frozenset()
) -> tuple[OwnedTool, ...]:
    """Return tools with their identities: those of the last time, else new ones.

    A tool that is all as it was is the same tool. Else it is known again by kind, measures and
    outline; else by its name and kind; else as the nearest of its kind of which each measure is
    within a tenth. Each of before is used once.

    Of a holder that is printed or hangs and keeps others of its tools nobody is known again as the
    nearest alone, nor who was gone already: what counts is the seat, for ``empty_seats`` to ask.

    Args:
        tools: The tools of today.
        last: What there was.
        there: The identities of tools whose holder is printed, or hangs.
    """
    now = {tool.name: known_tool(tool) for tool in tools}
    found: dict[str, str] = {}
    in_list = [one for one in last.tools if not one.gone]
    gone = [one for one in last.tools if one.gone]
    _find(found, now, in_list, (_unchanged, _same_measures, _same_name))
    # several of one holder may come back together
    left = _beside(found.values(), last)
    _find(found, now, _but(gone, left), (_unchanged, _same_measures))
    left = _beside(found.values(), last)
    _find(found, now, _but(in_list, there & left), (_near,))
    left = _beside(found.values(), last)
    _find(found, now, _but(gone, left), (_same_name, _near))
    used = {one.identity for one in last.tools}
    for name, one in now.items():
        if name not in found:
            found[name] = _new(one, used)
            used.add(found[name])
    return tuple(replace(tool, identity=found[tool.name]) for tool in tools)


_Pairs = Iterator[tuple[str, str]]
_Way = Callable[[Sequence[KnownTool], Sequence[KnownTool]], _Pairs]


def _beside(here: Collection[str], last: LastMade) -> frozenset[str]:
    """Return the identities of all tools that shared a holder with one that is here."""
    beside = (one.tools for one in last.holders if not set(one.tools).isdisjoint(here))
    return frozenset(tool for tools in beside for tool in tools)


def _but(known: Iterable[KnownTool], identities: frozenset[str]) -> list[KnownTool]:
    return [one for one in known if one.identity not in identities]


def _find(
    found: dict[str, str],
    now: Mapping[str, KnownTool],
    known: Iterable[KnownTool],
    ways: Iterable[_Way],
) -> None:
    """Add the identity of each tool that is one of those that are known, by its name."""
    taken = set(found.values())
    before = {one.identity: one for one in known if one.identity not in taken}
    for pairs in ways:
        rest = [one for name, one in now.items() if name not in found]
        for name, identity in pairs(rest, list(before.values())):
            if name not in found and identity in before:
                found[name] = identity
                del before[identity]


def _unchanged(now: Sequence[KnownTool], before: Sequence[KnownTool]) -> _Pairs:
    there = {(one.name, one.kind, one.measures, one.outline): one.identity for one in before}
    for one in now:
        known = (one.name, one.kind, one.measures, one.outline)
        if known in there:
            yield one.name, there[known]


def _same_name(now: Sequence[KnownTool], before: Sequence[KnownTool]) -> _Pairs:
    there = {(one.name, one.kind): one.identity for one in before}
    for one in now:
        if (one.name, one.kind) in there:
            yield one.name, there[one.name, one.kind]


def _same_measures(now: Sequence[KnownTool], before: Sequence[KnownTool]) -> _Pairs:
    there: dict[object, list[str]] = {}
    for one in before:
        there.setdefault((one.kind, one.measures, one.outline), []).append(one.identity)
    for one in now:
        left = there.get((one.kind, one.measures, one.outline), [])
        if left:
            yield one.name, left.pop(0)


def _near(now: Sequence[KnownTool], before: Sequence[KnownTool]) -> _Pairs:
    """Yield the nearest pairs first."""
    apart = [
        (distance, i, j)
        for i, one in enumerate(now)
        for j, other in enumerate(before)
        if (distance := _apart(one, other)) <= NEAR_SHARE
    ]
    for _, i, j in sorted(apart):
        yield now[i].name, before[j].identity


def _apart(one: KnownTool, other: KnownTool) -> float:
    """Return the largest share by which a measure differs; infinity for different things."""
    if one.kind != other.kind or [n for n, _ in one.measures] != [n for n, _ in other.measures]:
        return float("inf")
    pairs = zip(one.measures, other.measures, strict=True)
    return max(
        (abs(a - b) / max(abs(a), abs(b)) for (_, a), (_, b) in pairs if a != b), default=0.0
    )


def _new(tool: KnownTool, used: set[str]) -> str:
    for number in range(len(used) + 1):
        identity = content_key((tool.kind, tool.name, tool.measures, number))[:IDENTITY_LENGTH]
        if identity not in used:
            return identity
    raise AssertionError("more identities than tools")


@dataclass(frozen=True)
class Remembered:
    """What is known again of the last time, by the names that the tools have today.

    Args:
        last: What there was.
        names: The name of each tool of today by its identity.
        there: The names of the tools whose holder is printed, or hangs.
    """

    last: LastMade
    names: Mapping[str, str]
    there: frozenset[str] = frozenset()

    @classmethod
    def of(
        cls, tools: Iterable[OwnedTool], last: LastMade, *, there: frozenset[str] = frozenset()
    ) -> Remembered:
        """Return what is known again of tools with identities.

        Args:
            tools: The tools of today.
            last: What there was.
            there: The identities of tools whose holder is printed, or hangs.
        """
        names = {tool.identity: tool.name for tool in tools}
        known = frozenset(names[one] for one in there if one in names)
        return cls(last, MappingProxyType(names), known)

    def sharing(self, panel: str, carrier: str, family: str) -> tuple[tuple[str, ...], ...]:
        """Return the tools that shared a holder, by today's names; those that went are left out."""
        shared = (
            tuple(self.names[tool] for tool in one.tools if tool in self.names)
            for one in self.last.holders
            if (one.panel, one.carrier, one.family) == (panel, carrier, family)
        )
        return tuple(names for names in shared if names)

    def families(self, chosen_by: str) -> Mapping[str, str]:
        """Return the family of each tool that was chosen by the same as today, by its name."""
        return MappingProxyType(
            {
                self.names[tool]: one.family
                for one in self.last.holders
                for tool in one.tools
                if tool in self.names and one.chosen_by == chosen_by
            }
        )


def numbered(holders: Sequence[frozenset[str]], last: LastMade, *, hangs: bool) -> tuple[int, ...]:
    """Return the number of each holder in all drawings.

    A holder that has tools of one of before has its number; of several that would, the one with
    the most of them and the fewest others. A new holder takes the first free number; once
    something hangs, one that no holder ever had, so that the papers by which it hangs stay true.

    Args:
        holders: The identities of the tools of each holder, at least one.
        last: What was made the last time.
        hangs: Whether something hangs.
    """
    known = dict(_known_again(holders, last.holders))
    taken = set(known.values())
    free = (n for n in count(last.last_number + 1 if hangs else 1) if n not in taken)
    return tuple(known[k] if k in known else next(free) for k in range(len(holders)))


def _known_again(
    holders: Sequence[frozenset[str]], before: Sequence[KnownHolder]
) -> Iterator[tuple[int, int]]:
    """Yield the place of each holder that there was, and its number."""
    if not (holders and before):
        return
    with defer_interrupts():
        from scipy.optimize import linear_sum_assignment  # noqa: PLC0415 - loads on use
    most = 1 + sum(map(len, holders)) + sum(len(one.tools) for one in before)
    likeness = np.zeros((len(before), len(holders)))
    for i, one in enumerate(before):
        for j, tools in enumerate(holders):
            common = len(tools.intersection(one.tools))
            if common:
                # one more in common outweighs every difference
                likeness[i, j] = common * most - len(tools.symmetric_difference(one.tools))
    rows, columns = linear_sum_assignment(likeness, maximize=True)
    for i, j in zip(rows.tolist(), columns.tolist(), strict=True):
        if likeness[i, j] > 0:
            yield j, before[i].number
