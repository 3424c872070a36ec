"""Which holder of a new plan is which of those that hang already."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from cleatwright.base.interrupts import defer_interrupts
from cleatwright.design.carrying import Unit
from cleatwright.wall.model import Place
from cleatwright.workshop.ledger.hung_entry import HungEntry


@dataclass(frozen=True)
class Wanted:
    """What shall hang, as far as it takes to know it again.

    Args:
        key: Its key on the wall.
        name: A name for people.
        panel: The panel on which it shall hang.
        mark: Mark of the part that hangs.
        tools: Names of its tools, sorted.
    """

    key: str
    name: str
    panel: str
    mark: str
    tools: tuple[str, ...]


def wanted_of(units: Sequence[Unit]) -> tuple[Wanted, ...]:
    """Return what it takes to know units again, in their order."""
    return tuple(
        Wanted(
            key=unit.planned.key,
            name=unit.planned.name,
            panel=unit.planned.holders[0].hang.panel,
            mark=unit.outer.mark,
            tools=tuple(
                sorted(tool.name for holder in unit.planned.holders for tool in holder.tools)
            ),
        )
        for unit in units
    )


def matched(entries: Iterable[HungEntry], wanted: Iterable[Wanted]) -> Mapping[str, HungEntry]:
    """Return for each thing that hangs already its entry, by the key of the new plan.

    The same part with the same tools is the same thing, also on another panel. Of the rest, on
    each panel, things are paired so that as many tools as possible stay in their holder. Where
    that leaves a choice, the pairs that differ in the fewest tools are taken, and then those with
    the same first tool by name. Each entry is used once; a thing without a tool
    in common with any entry is new. The order of the arguments does not matter.
    """
    old = sorted(entries, key=lambda one: (one.order, one.mark))
    new = sorted(wanted, key=lambda one: (one.panel, one.name, one.tools, one.mark, one.key))
    if not (old and new):
        return MappingProxyType({})
    with defer_interrupts():
        from scipy.optimize import linear_sum_assignment  # noqa: PLC0415 - loads on use
    likeness = _likeness(old, new)
    rows, columns = linear_sum_assignment(likeness, maximize=True)
    pairs = zip(rows.tolist(), columns.tolist(), strict=True)
    return MappingProxyType({new[j].key: old[i] for i, j in pairs if likeness[i, j] > 0})


def _likeness(old: list[HungEntry], new: list[Wanted]) -> np.ndarray[tuple[int, int]]:
    """Return how much each entry is like each wanted thing: whole numbers, 0 for not at all.

    One more of a stronger reason outweighs all weaker ones together.
    """
    tools = sum(len(one.tools) for one in (*old, *new))
    stranger = min(len(old), len(new)) + 1
    shared = stranger * (tools + 1)
    same = shared * (tools + 1)
    table = np.zeros((len(old), len(new)))
    for i, entry in enumerate(old):
        ours = frozenset(entry.tools)
        for j, thing in enumerate(new):
            common = len(ours.intersection(thing.tools))
            exact = (entry.mark, entry.tools) == (thing.mark, thing.tools)
            if not common or not (exact or entry.panel == thing.panel):
                continue
            apart = len(ours.symmetric_difference(thing.tools))
            first = entry.tools[0] == thing.tools[0]
            table[i, j] = same * exact + shared * common - stranger * apart + first
    return table


def remembered(entries: Iterable[HungEntry], units: Sequence[Unit]) -> Mapping[str, Place]:
    """Return where units of a new plan hang already, by their keys.

    A unit that is new, or that hangs on another panel now, is left out.
    """
    wanted = wanted_of(units)
    known = matched(entries, wanted)
    return MappingProxyType(
        {
            one.key: Place(one.key, known[one.key].x_mm, known[one.key].z_mm)
            for one in wanted
            if one.key in known and known[one.key].panel == one.panel
        }
    )


def marks_of(entries: Iterable[HungEntry], units: Sequence[Unit]) -> Mapping[str, str]:
    """Return the marks of the parts that hang in the place of units of a new plan, by key."""
    known = matched(entries, wanted_of(units))
    return MappingProxyType({key: entry.mark for key, entry in known.items()})
