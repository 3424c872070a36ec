"""Which tools share a holder: those of one group, in order of size, as many as fit."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Collection, Hashable, Sequence
from dataclasses import dataclass
from functools import cache

from cleatwright.base.errors import InputError
from cleatwright.parts.tool import ToolBody

Fits = Callable[[tuple[str, ...]], bool]


@dataclass(frozen=True)
class GroupEntry:
    """One tool to be grouped.

    Args:
        name: A name that no other tool has.
        body: The tool.
        group: Only those of an equal one share a holder.
    """

    name: str
    body: ToolBody
    group: Hashable = ""


def group_tools(
    entries: Sequence[GroupEntry],
    *,
    fits: Fits,
    together: bool = False,
    shared: Sequence[tuple[str, ...]] = (),
    there: Collection[str] = frozenset(),
) -> tuple[tuple[str, ...], ...]:
    """Return the names of the tools of each holder, in the order of its seats.

    Within a group the tools are put in order of size, those of one size by name. A holder
    is filled until the next tool would no longer fit; then the tools are spread, so that
    the same number of holders is filled as evenly as can be. A tool that does not fit
    alone gets a holder of its own, which is for the caller to report.

    Tools that share a holder already stay in it as far as it can be made. A new one joins the
    holder of its group that is nearest to it in size and has room; the others get new holders.
    No new one joins a holder that is there already, because another part would have to be made;
    for the same reason its tools stay in it though they would share none any more.

    Args:
        entries: Tools that one family holds with the same parameters on the same mount.
        fits: Says whether a holder for these tools, in this order, can be made; one for fewer of
            them can be made too.
        together: Put all tools in one holder in the order given, whether it fits or not.
        shared: The names of tools that share a holder already, each name at most once; others
            than those of ``entries`` are passed over.
        there: The names of tools whose holder is printed, or hangs.

    Raises:
        InputError: Two tools have the same name.
    """
    names = [entry.name for entry in entries]
    doubles = sorted(name for name, often in Counter(names).items() if often > 1)
    if doubles:
        raise InputError(
            f"more than one tool is called {', '.join(doubles)}",
            todo="Give each tool a name of its own",
        )
    if together:
        return (tuple(names),) if names else ()
    groups: dict[Hashable, list[GroupEntry]] = {}
    stays = _groups_there(entries, shared, there)
    for entry in entries:
        groups.setdefault(stays.get(entry.name, entry.group), []).append(entry)
    holders: list[tuple[str, ...]] = []
    for members in groups.values():
        holders += _of_group(members, shared, fits, there)
    return tuple(holders)


def _groups_there(
    entries: Sequence[GroupEntry], shared: Sequence[tuple[str, ...]], there: Collection[str]
) -> dict[str, Hashable]:
    """Return the group of each tool in a holder that is there already: that of its first one."""
    groups = {entry.name: entry.group for entry in entries}
    found: dict[str, Hashable] = {}
    for names in shared:
        here = [name for name in names if name in groups]
        if any(name in there for name in here):
            found.update((name, groups[here[0]]) for name in here)
    return found


def _of_group(
    members: Sequence[GroupEntry],
    shared: Sequence[tuple[str, ...]],
    fits: Fits,
    there: Collection[str],
) -> list[tuple[str, ...]]:
    """Return the holders of one group, the smallest tools first."""
    sizes = {entry.name: entry.body.order_mm for entry in members}
    # tools of one size stay in the order in which they were
    ranks = {name: rank for rank, name in enumerate(name for names in shared for name in names)}

    def order(name: str) -> tuple[float, float, str]:
        return sizes[name], ranks.get(name, math.inf), name

    def mean_mm(names: tuple[str, ...]) -> float:
        return sum(sizes[name] for name in names) / len(names)

    holders: list[tuple[str, ...]] = []
    for names in shared:
        still = tuple(sorted((name for name in names if name in sizes), key=order))
        if still:
            holders += [still] if fits(still) else _spread(still, fits)
    seated = {name for names in holders for name in names}
    new: list[str] = []
    for name in sorted(sizes.keys() - seated, key=order):
        near = sorted(
            (k for k, names in enumerate(holders) if not any(one in there for one in names)),
            key=lambda k: (abs(mean_mm(holders[k]) - sizes[name]), order(holders[k][0])),
        )
        for k in near:
            joined = tuple(sorted((*holders[k], name), key=order))
            if fits(joined):
                holders[k] = joined
                break
        else:
            new.append(name)
    holders += _spread(tuple(new), fits) if new else []
    return sorted(holders, key=lambda names: (sizes[names[0]], names[0]))


def _spread(names: tuple[str, ...], fits: Fits) -> list[tuple[str, ...]]:
    @cache
    def usable(start: int, size: int) -> bool:
        return size == 1 or fits(names[start : start + size])

    filled = _greedy(len(names), usable)
    count = len(filled)
    short, longer = divmod(len(names), count)
    sizes = (short + 1,) * longer + (short,) * (count - longer)
    starts = [sum(sizes[:k]) for k in range(count)]
    if not all(usable(start, size) for start, size in zip(starts, sizes, strict=True)):
        sizes = _most_even(len(names), count, usable) or filled
    return [names[sum(sizes[:k]) : sum(sizes[: k + 1])] for k in range(count)]


def _greedy(total: int, usable: Callable[[int, int], bool]) -> tuple[int, ...]:
    """Return the sizes of holders that are each filled before the next one is begun."""
    sizes: list[int] = []
    start = 0
    while start < total:
        left = total - start
        # the last size that was usable, and the first that was not
        good, bad = 1, left + 1
        step = 2
        while step < bad:
            good, bad, step = (step, bad, 2 * step) if usable(start, step) else (good, step, step)
        while bad - good > 1:
            middle = (good + bad) // 2
            good, bad = (middle, bad) if usable(start, middle) else (good, middle)
        sizes.append(good)
        start += good
    return tuple(sizes)


def _most_even(
    total: int, count: int, usable: Callable[[int, int], bool]
) -> tuple[int, ...] | None:
    """Return the usable sizes with the least sum of squares, larger holders first.

    It is None where the walk through ever larger holders finds none.
    """

    @cache
    def best(start: int, left: int) -> tuple[int, tuple[int, ...]] | None:
        if left == 0:
            return (0, ()) if start == total else None
        found: tuple[int, tuple[int, ...]] | None = None
        for size in range(1, total - start - left + 2):
            if not usable(start, size):
                break
            rest = best(start + size, left - 1)
            if rest is not None and (found is None or size * size + rest[0] <= found[0]):
                found = (size * size + rest[0], (size, *rest[1]))
        return found

    chosen = best(0, count)
    return None if chosen is None else chosen[1]
