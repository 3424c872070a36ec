"""Beside which obstacles of its wall, such as a sink, a thing is wanted: near, left or right."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import get_args

from cleatwright.base.errors import InputError
from cleatwright.base.place import TableStep, at
from cleatwright.design.carrying import Unit
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.remark import Remark
from cleatwright.siting.screws_behind import Zone, begins_of
from cleatwright.wall.conflicts import whole
from cleatwright.wall.model import ANYWHERE_ALONG, AlongBounds, Item, Near, Use
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
            if one.name == tool.along.near:
                return Near(one.name, one.x_mm + one.width_mm / 2)
    return None


def along_of(unit: Unit, panel: Panel) -> AlongBounds:
    """Return between which x a unit hangs on its panel, by edges of obstacles and by studs.

    Args:
        unit: What hangs.
        panel: Its panel.
    """
    wanted, begins = _wanted(unit, panel), begins_of(unit, panel)
    if not begins:
        return wanted
    return replace(wanted, words=(*wanted.words, "Its screws go into studs"), begins_mm=begins)


def _wanted(unit: Unit, panel: Panel) -> AlongBounds:
    """Return between which x its owner wants a unit, by the edges of obstacles."""
    tools = [tool for one in unit.planned.holders for tool in one.present]
    left = {tool.along.left_of for tool in tools}
    right = {tool.along.right_of for tool in tools}
    to = [one for one in panel.obstacles if one.name in left]
    since = [one for one in panel.obstacles if one.name in right]
    return AlongBounds(
        max((one.x_mm + one.width_mm for one in since), default=-math.inf),
        min((one.x_mm for one in to), default=math.inf),
        (
            *(f'It is wanted right of "{one.name}"' for one in since),
            *(f'It is wanted left of "{one.name}"' for one in to),
        ),
    )


def with_along(item: Item, along: AlongBounds) -> Item:
    """Return an item that keeps between bounds; a given place goes before them.

    What hangs beyond one already may stay there, and come nearer.

    Args:
        item: What hangs.
        along: Between which x it is wanted.
    """
    if item.fixed is not None:
        return replace(item, along=ANYWHERE_ALONG)
    if item.hangs_at is not None:
        left_mm = item.hangs_at[0] - item.side_left_mm
        along = replace(
            along,
            from_mm=min(along.from_mm, left_mm),
            to_mm=max(along.to_mm, left_mm + item.whole_width_mm),
            begins_mm=_with(along.begins_mm, item.hangs_at[0]),
        )
    return replace(item, along=along)


def _with(spans: tuple[Zone, ...], x_mm: float) -> tuple[Zone, ...]:
    """Return spans with a place where there may be none; none stay none."""
    if not spans or any(a <= x_mm <= b for a, b in spans):
        return spans
    return tuple(sorted((*spans, (x_mm, x_mm))))


def beyond_along(job: PanelJob) -> Iterator[Remark]:
    """Yield a remark for each unit that was given a place, or hangs, where it is not wanted."""
    for unit in job.units:
        key = unit.planned.key
        wanted = _wanted(unit, job.panel)
        x0, x1, _, _ = whole(job.problem.known[key], job.spots[key].place)
        if not wanted.hold(x0, x1):
            yield Remark(
                key,
                f'"{unit.planned.name}" does not hang where its tools are wanted: '
                + "; ".join(one[0].lower() + one[1:] for one in wanted.words),
                "give it another place, or mend left_of and right_of.",
            )


def on_another_panel(workshop: Workshop, units: Iterable[Unit]) -> Iterator[InputError]:
    """Yield a fault for each tool that is wanted beside what is on another panel than its own."""
    numbers = {tool.name: number for number, tool in enumerate(workshop.tools)}
    entries = {item.name: item.tool for item in workshop.single_tools}
    panels = {panel.name: panel for panel in workshop.surfaces()}
    for unit in units:
        panel = panels[unit.planned.panel]
        names = [one.name for one in panel.obstacles]
        where = "the wall" if panel.name == MAIN else f'the panel "{panel.name}"'
        for tool in (tool for one in unit.planned.holders for tool in one.present):
            for key, name in tool.along.named:
                if name in names:
                    continue
                entry = entries[tool.name]
                yield InputError(
                    f'"{tool.name}" hangs on {where}, and what it is wanted '
                    f'{key.replace("_", " ")}, "{name}", is not there',
                    place=at("tool", TableStep(numbers[entry], entry), key),
                    allowed=", ".join(names),
                    todo="Name an obstacle of its own wall, or let it hang on the other one",
                )
