"""Where the values from outside and the rules of choice come from, over all rooms."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator
from types import ModuleType
from typing import cast

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed, Table
from cleatwright.tools.material import MATERIALS
from cleatwright.workshop.document.sections import FitRules
from cleatwright.workshop.document.surfaces import Stud

UNSEEN = (Evidence.MEMORY, Evidence.PRACTICE)
PLAY = Source("play of the classes of fit", "until a coupon gives your own", Evidence.PRACTICE)
STUD = Source(
    "PS 20, nominal 2x4",
    "dressed thickness",
    Evidence.SECONDARY,
    "two public files of timber sizes",
)
ROOMS = (
    *("standards", "parts", "statics", "features", "tools", "holders", "mounts", "checks", "wall"),
    *("printing", "timber", "papers", "design", "siting", "pack", "project", "jobs"),
)
_PLAYS = FitRules()
VALUES = (
    *(
        Listed("Mass of tools", f"{one.name} kg/m3", one.density_kg_m3, one.source)
        for one in MATERIALS
    ),
    Listed("Default fit", "snug mm", _PLAYS.snug_mm, PLAY),
    Listed("Default fit", "easy mm", _PLAYS.easy_mm, PLAY),
    Listed("Default fit", "loose mm", _PLAYS.loose_mm, PLAY),
    Listed("Default stud", "width mm", Stud(x_mm=0.0).width_mm, STUD),
)


def source_rows(*, unseen: bool) -> tuple[tuple[str, str, str], ...]:
    """Return (table, value, source) for every value, or for those that nobody looked up.

    Rules that are an equation, or a demand without a number, come last, by room and module.
    """
    values = tuple(
        (entry.name, f"{entry.label}: {entry.value:g}", entry.source) for entry in all_values()
    )
    with_value = {source for _, _, source in values}
    rules = tuple(row for row in rule_sources() if row[2] not in with_value)
    return tuple(
        (table, value, str(source))
        for table, value, source in (*values, *rules)
        if not unseen or source.evidence in UNSEEN
    )


def all_values() -> tuple[Listed, ...]:
    """Return every cell of every table and every value beside a rule, room by room."""
    found: dict[Listed, None] = {}
    for _, module in _modules():
        for value in vars(module).values():
            if isinstance(value, Table):
                found |= dict.fromkeys(value.listed())
            elif isinstance(value, Listed):
                found[value] = None
            elif isinstance(value, tuple):
                members = cast("tuple[object, ...]", value)
                found |= {one: None for one in members if isinstance(one, Listed)}
    return tuple(found)


def rule_sources() -> tuple[tuple[str, str, Source], ...]:
    """Return (room, module, source) for every source that stands in the code."""
    found: dict[Source, tuple[str, str]] = {}
    for room, module in _modules():
        name = module.__name__.rpartition(".")[2].replace("_", " ")
        for value in vars(module).values():
            if isinstance(value, Source):
                found.setdefault(value, (room, name))
    return tuple((room, name, source) for source, (room, name) in found.items())


def _modules() -> Iterator[tuple[str, ModuleType]]:
    for room in ROOMS:
        package = importlib.import_module(f"cleatwright.{room}")
        for info in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            yield room, importlib.import_module(info.name)
