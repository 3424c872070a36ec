"""What hangs, with its tools under the names that they have today."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from cleatwright.design.planned import PlannedHolder
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import LastMade

GONE = " (gone)"


def with_names_of_today(
    hung: WhatHangs, made: LastMade, holders: Iterable[PlannedHolder]
) -> WhatHangs:
    """Return what hangs with today's names of its tools.

    A tool that is no longer there keeps its name, and one whose name another has now says so.

    Args:
        hung: What hangs by the ledger, with the names of the last time.
        made: The tools of the last time.
        holders: What shall be made today.
    """
    today = {tool.identity: tool.name for one in holders for tool in one.tools}
    names: dict[str, str] = {}
    taken = set(today.values())
    for tool in made.tools:
        if tool.identity in today:
            names[tool.name] = today[tool.identity]
    for tool in made.tools:
        if tool.identity not in today:
            names[tool.name] = _free(tool.name, taken)
            taken.add(names[tool.name])
    entries = tuple(
        replace(one, tools=tuple(sorted(names.get(name, name) for name in one.tools)))
        for one in hung.holders
    )
    return replace(hung, holders=entries)


def _free(name: str, taken: set[str]) -> str:
    while name in taken:
        name += GONE
    return name
