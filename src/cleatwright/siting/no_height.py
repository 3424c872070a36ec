"""Tools for which people leave no height: one is too small for what another must not touch."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from cleatwright.base.errors import CleatwrightError, WallError
from cleatwright.base.place import Path, TableStep
from cleatwright.design.equipment import OwnedTool
from cleatwright.parts.holder import Seat
from cleatwright.siting.children import can_hurt, kept_off
from cleatwright.siting.people import people_of
from cleatwright.siting.safe_heights import BELOW_EYES, SafeHeights, items_by_name
from cleatwright.wall.explaining.explain import said_names
from cleatwright.wall.moving.moves import surface
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of

MOST_NAMED = 3


@dataclass(frozen=True)
class SeatedTool:
    """A tool in its seat on a panel, whose height is free."""

    tool: OwnedTool
    seat: Seat
    panel: str


def without_height(
    workshop: Workshop, heights: Mapping[str, SafeHeights], seated: Iterable[SeatedTool]
) -> list[CleatwrightError]:
    """Return a fault for each two bounds that leave some tools no height between them.

    Args:
        workshop: The document.
        heights: The safe heights of each panel, by its name.
        seated: The tools whose height is free.
    """
    if not people_of(workshop).several:
        # the safe heights of one person alone leave something
        return []
    found: defaultdict[tuple[str, str, str, str], list[OwnedTool]] = defaultdict(list)
    for one in seated:
        zone = heights[one.panel].zone(one.tool, one.seat)
        if zone.low_mm > zone.high_mm:
            kept = kept_off(one.tool, heights[one.panel].reaches.people.kept_off(one.tool.taken_by))
            child = kept.child if kept is not None and zone.low_by == kept.by else ""
            found[one.panel, zone.high_by, zone.low_by, child].append(one.tool)
    return [
        _fault(workshop, panel, tools, f"{high}, and {low}", child)
        for (panel, high, low, child), tools in found.items()
    ]


def _fault(
    workshop: Workshop, panel: str, tools: list[OwnedTool], why: str, child: str
) -> WallError:
    items = items_by_name(workshop)
    numbers = {one.name: number for number, one in enumerate(workshop.tools)}
    tables = dict.fromkeys(items[tool.name].tool for tool in tools)
    paths: list[Path] = [("tool", TableStep(numbers[name], name)) for name in tables]
    hurts: dict[str, None] = {
        what: None
        for tool in tools
        for what in (*can_hurt(tool), *BELOW_EYES)
        if what in tool.properties
    }
    names = [f'"{name}"' for name in tables]
    more = len(names) - MOST_NAMED
    if more > 1:
        names = [*names[:MOST_NAMED], f"{more} more"]
    what = f" ({' and '.join(hurts)})" if hurts else ""
    several = "each of them " if len(names) > 1 else "it "
    todo = "Mend the heights, or change taken_by"
    if child:
        todo = (
            f"Lock {surface(panel)} and say how in locked; or write in the tool the "
            "lowest_height or the highest_height that you allow, with a height_reason; or, where "
            f"an adult stands beside, name {child} in taken_by"
        )
    return WallError(
        f"There is no height on {surface(panel)} for {said_names(names)}{what}: {several}{why}",
        place=first_of(*paths, *((*path, "taken_by") for path in paths)),
        todo=todo,
    )
