"""What hangs as other wishes of its owner would have it, to try where it finds no place."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace

from cleatwright.design.carrying import Unit
from cleatwright.design.equipment import OwnedTool
from cleatwright.siting.beside import along_of, near_of
from cleatwright.siting.safe_heights import SafeHeights
from cleatwright.wall.explaining.offers import Variant
from cleatwright.wall.model import Item
from cleatwright.workshop.document.entries import NO_ALONG
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import Panel


def variants_of(
    workshop: Workshop, panel: Panel, hung: Iterable[tuple[Unit, Item]]
) -> Mapping[str, tuple[Variant, ...]]:
    """Return for each thing without a given place what it would be with other wishes, by its key.

    A tool that one grown-up takes another one may take, or each of several alone; a wish for a
    side of an obstacle or for a height may be left out. No bound of what is safe is lifted.

    Args:
        workshop: The document.
        panel: The panel.
        hung: What hangs on it, built, and as the wall sees it.
    """
    heights = SafeHeights(workshop, panel)
    return {
        item.key: (
            *_other_takers(heights, unit, item),
            *_anywhere(panel, unit, item),
            *_at_any_height(workshop, panel, unit, item),
        )
        for unit, item in hung
        if item.fixed is None
    }


def _tools(unit: Unit) -> list[OwnedTool]:
    return [tool for one in unit.planned.holders for tool in one.present]


def _named(tools: Iterable[OwnedTool]) -> str:
    """Return how tools are named after "for"."""
    return ", ".join(f'"{name}"' for name in dict.fromkeys(tool.unnumbered for tool in tools))


def _changed(unit: Unit, change: Callable[[OwnedTool], OwnedTool]) -> Unit:
    """Return a unit with its tools changed."""
    holders = tuple(
        replace(one, tools=tuple(change(tool) for tool in one.tools))
        for one in unit.planned.holders
    )
    return replace(unit, planned=replace(unit.planned, holders=holders))


def _other_takers(heights: SafeHeights, unit: Unit, item: Item) -> Iterator[Variant]:
    """Yield it taken by one grown-up alone."""
    people, tools = heights.reaches.people, _tools(unit)
    now = {one.name for one in people.takers_of_any(tools)}
    for one in people.everybody:
        if one.child or {one.name} == now or one.name not in heights.reaches.bands:
            continue
        other = _changed(unit, lambda tool, name=one.name: replace(tool, taken_by=(name,)))
        yield Variant(
            f"taken_by = {json.dumps([one.name], ensure_ascii=False)} for {_named(tools)}",
            replace(
                item,
                bounds=heights.bounds(other),
                taken=heights.reaches.taken(other.planned.tools),
            ),
            "taken by",
        )


def _anywhere(panel: Panel, unit: Unit, item: Item) -> Iterator[Variant]:
    """Yield it without the sides of obstacles on which it is wanted."""
    tools = [tool for tool in _tools(unit) if tool.along.left_of or tool.along.right_of]
    if not tools:
        return
    keys = dict.fromkeys(
        key for tool in tools for key, _ in tool.along.named if key in ("left_of", "right_of")
    )
    free = _changed(unit, lambda tool: replace(tool, along=replace(NO_ALONG, near=tool.along.near)))
    yield Variant(
        f"no {' and no '.join(keys)} for {_named(tools)}",
        replace(item, along=along_of(free, panel), near=near_of(free, panel)),
        "along",
    )


def _at_any_height(workshop: Workshop, panel: Panel, unit: Unit, item: Item) -> Iterator[Variant]:
    """Yield it without the heights at which its owner wants it, so that what is usual counts."""
    tools = [tool for tool in _tools(unit) if any(at is not None for at in tool.wished_mm)]
    if not tools:
        return
    words = ("lowest_height", "highest_height")
    keys = [
        key
        for number, key in enumerate(words)
        if any(tool.wished_mm[number] is not None for tool in tools)
    ]
    free = SafeHeights(workshop, panel, unwished=[tool.name for tool in tools])
    yield Variant(
        f"no {' and no '.join(keys)} for {_named(tools)}",
        replace(item, bounds=free.bounds(unit)),
        "heights",
    )
