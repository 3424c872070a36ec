"""What a thing is wanted near: an obstacle of its wall, such as a sink, that its tools name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import get_args

from cleatwright.base.errors import InputError
from cleatwright.base.place import TableStep, at
from cleatwright.design.carrying import Unit
from cleatwright.wall.model import Near, Use
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import MAIN, Panel

MOST_USED: tuple[Use, ...] = get_args(Use)


def near_of(unit: Unit, panel: Panel) -> Near | None:
    """Return what a unit is wanted near on its panel; where its tools differ, the most used says.

    Args:
        unit: What hangs.
        panel: Its panel.
    """
    tools = [tool for one in unit.planned.holders for tool in one.present]
    for tool in sorted(tools, key=lambda one: MOST_USED.index(one.use)):
        for one in panel.obstacles:
            if one.name == tool.near:
                return Near(one.name, one.x_mm + one.width_mm / 2)
    return None


def on_another_panel(workshop: Workshop, units: Iterable[Unit]) -> Iterator[InputError]:
    """Yield a fault for each tool that is wanted near what is on another panel than its own."""
    numbers = {tool.name: number for number, tool in enumerate(workshop.tools)}
    entries = {item.name: item.tool for item in workshop.single_tools}
    panels = {panel.name: panel for panel in workshop.surfaces()}
    for unit in units:
        panel = panels[unit.planned.panel]
        names = [one.name for one in panel.obstacles]
        where = "the wall" if panel.name == MAIN else f'the panel "{panel.name}"'
        for tool in (tool for one in unit.planned.holders for tool in one.present):
            if tool.near is not None and tool.near not in names:
                entry = entries[tool.name]
                yield InputError(
                    f'"{tool.name}" hangs on {where}, and what it is wanted near, "{tool.near}", '
                    "is not there",
                    place=at("tool", TableStep(numbers[entry], entry), "near"),
                    allowed=", ".join(names),
                    todo="Name an obstacle of its own wall, or let it hang on the other one",
                )
