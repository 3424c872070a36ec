"""Which tools share a holder: those of one group, in order of size, as many as fit."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from cleatwright.base.errors import InputError
from cleatwright.parts.tool import ToolBody

Fits = Callable[[Sequence[str]], bool]


@dataclass(frozen=True)
class GroupEntry:
    """One tool to be grouped.

    Args:
        name: A name that no other tool has.
        body: The tool.
        group: The group it belongs to, or "" for the tools that belong to none.
    """

    name: str
    body: ToolBody
    group: str = ""


def group_tools(
    entries: Sequence[GroupEntry], *, fits: Fits, together: bool = False
) -> tuple[tuple[str, ...], ...]:
    """Return the names of the tools of each holder, in the order of its seats.

    Within a group the tools are put in order of size, those of one size by name. A holder
    is filled until the next tool would no longer fit; then the tools are spread, so that
    the same number of holders is filled as evenly as can be. A tool that does not fit
    alone gets a holder of its own, which is for the caller to report.

    Args:
        entries: Tools that one family holds with the same parameters on the same mount.
        fits: Says whether a holder for these tools, in this order, can be made.
        together: Put all tools in one holder in the order given, whether it fits or not.

    Raises:
        InputError: Two tools have the same name.
    """
    names = [entry.name for entry in entries]
    doubles = sorted({name for name in names if names.count(name) > 1})
    if doubles:
        raise InputError(
            f"more than one tool is called {', '.join(doubles)}",
            todo="Give each tool a name of its own",
        )
    if together:
        return (tuple(names),) if names else ()
    groups: dict[str, list[GroupEntry]] = {}
    for entry in entries:
        groups.setdefault(entry.group, []).append(entry)
    holders: list[tuple[str, ...]] = []
    for members in groups.values():
        ordered = sorted(members, key=lambda entry: (entry.body.order_mm, entry.name))
        holders += _spread(tuple(entry.name for entry in ordered), fits)
    return tuple(holders)


def _spread(names: tuple[str, ...], fits: Fits) -> list[tuple[str, ...]]:
    @cache
    def usable(start: int, size: int) -> bool:
        return size == 1 or fits(names[start : start + size])

    count = len(_greedy(len(names), usable))
    short, longer = divmod(len(names), count)
    sizes = (short + 1,) * longer + (short,) * (count - longer)
    starts = [sum(sizes[:k]) for k in range(count)]
    if not all(usable(start, size) for start, size in zip(starts, sizes, strict=True)):
        sizes = _most_even(len(names), count, usable)
    return [names[sum(sizes[:k]) : sum(sizes[: k + 1])] for k in range(count)]


def _greedy(total: int, usable: Callable[[int, int], bool]) -> tuple[int, ...]:
    sizes: list[int] = []
    start = 0
    while start < total:
        size = 1
        while start + size < total and usable(start, size + 1):
            size += 1
        sizes.append(size)
        start += size
    return tuple(sizes)


def _most_even(total: int, count: int, usable: Callable[[int, int], bool]) -> tuple[int, ...]:
    """Return the usable sizes with the least sum of squares, larger holders first."""

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
    assert chosen is not None  # noqa: S101 - the greedy sizes are among those that are tried
    return chosen[1]
