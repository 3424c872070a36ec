"""From a workshop to recipes: which tools share which holder, and how each is made."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import get_args

from cleatwright.base.errors import (
    CleatwrightError,
    MeasureError,
)
from cleatwright.base.gathering import equal_once, noted, refuse, under
from cleatwright.base.place import Path as Steps
from cleatwright.base.place import at
from cleatwright.base.stages.run import Run
from cleatwright.design.choice import Bundle, families_for
from cleatwright.design.describing import DESCRIBED
from cleatwright.design.equipment import OwnedTool, all_owned
from cleatwright.design.filling import Choice, bed_trial, groups_on_bed, recipe_of
from cleatwright.design.hang import Hang, Pairs, hang_of, hang_on, require_known
from cleatwright.design.params import checked_params
from cleatwright.design.recipe import Recipe
from cleatwright.holders.choosing import candidates
from cleatwright.holders.family import Family
from cleatwright.holders.registry import family
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.tool import ToolBody
from cleatwright.workshop.document.entries import Holder, Use
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, holder_path, tool_paths
from cleatwright.workshop.document.reading import NO_FILES
from cleatwright.workshop.document.surfaces import MAIN

CHOSEN = "chosen by the owner"
# of one of several equal tools
_ENTRY_NUMBER = re.compile(r" #\d+$")
FAULTS = "things stand in the way"


@dataclass(frozen=True)
class PlannedHolder:
    """One holder before it is built.

    Args:
        key: A key that no other holder of the workshop has, in the order of the plan.
        name: A name for people.
        tools: Its tools, in the order of its seats.
        recipe: How it is made.
        why: Why this family.
        use: The most frequent use of its tools.
        group: The group of its tools, or "".
        hang: How it hangs, by what mount and joint, on which carrier, in which fixed place.
    """

    key: str
    name: str
    tools: tuple[OwnedTool, ...]
    recipe: Recipe
    why: str
    use: Use
    group: str
    hang: Hang


@dataclass(frozen=True)
class Planned:
    """What could be planned of a workshop, and what stands in the way of the rest.

    Args:
        holders: The holders that can be made.
        faults: One for each tool or holder that cannot.
        without: The carriers that lack a holder for it.
    """

    holders: tuple[PlannedHolder, ...]
    faults: tuple[CleatwrightError, ...]
    without: frozenset[str]


_Wanted = tuple[Choice, Sequence[OwnedTool]]


def plan(
    workshop: Workshop,
    *,
    folder: Path | None = None,
    drawings: Mapping[str, bytes] = NO_FILES,
    run: Run | None = None,
) -> tuple[PlannedHolder, ...]:
    """Return every holder of the workshop, the owner's own choices first.

    Args:
        workshop: The workshop.
        folder: The folder of the workshop, in which outlines lie; None when it has none.
        drawings: Drawings by their paths that shall be put into the folder.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        NoHolderError: A tool that no family can hold, with the reason of each family.
        BedError: A holder that no printer can make.
        InputError: A choice that cannot be.

    Several of them come as one error, which lists them.
    """
    planned = plan_what_can_be(workshop, folder=folder, drawings=drawings, run=run)
    refuse(planned.faults, FAULTS)
    return planned.holders


def plan_what_can_be(
    workshop: Workshop,
    *,
    folder: Path | None = None,
    drawings: Mapping[str, bytes] = NO_FILES,
    run: Run | None = None,
) -> Planned:
    """Return the holders that can be made, and every fault of the others.

    Args:
        workshop: The workshop.
        folder: As in ``plan``.
        drawings: As in ``plan``.
        run: As in ``plan``.

    Raises:
        InputError: Tools, printers or names that cannot be, on which everything depends.
    """
    run = run or Run()
    _require_equipment(workshop)
    require_known(workshop)
    owned = all_owned(workshop, folder=folder, new=drawings, run=run)
    tools = {tool.name: tool for tool in owned}
    wanted: list[_Wanted] = []
    faults: list[CleatwrightError] = []
    without: set[str] = set()
    for holder in workshop.holders:
        group = [tools[item.name] for item in workshop.items_of(holder)]
        before = len(faults)
        with noted(faults):
            wanted += _owner_choices(workshop, holder, group, faults, run)
        if len(faults) > before:
            without.add(holder.carrier or "")
    for panel in workshop.surfaces():
        free = [i for i in workshop.free_items() if (i.panel or MAIN) == panel.name]
        with noted(faults):
            some = [tools[i.name] for i in free]
            wanted += _automatic(workshop, some, panel.name, faults, run)
    holders: list[PlannedHolder] = []
    for choice, group in wanted:
        before = len(faults)
        with noted(faults):
            for members in groups_on_bed(workshop, choice, group, faults, run):
                holders.append(_planned(workshop, choice, members, len(holders) + 1, run))
        if len(faults) > before:
            without.add(choice.hang.carrier)
    equal = [tool.name for tool in workshop.tools if tool.count > 1]
    return Planned(_named_apart(holders), equal_once(faults, equal), frozenset(without - {""}))


def _require_equipment(workshop: Workshop) -> None:
    """Refuse a workshop that cannot print anything."""
    faults: list[CleatwrightError] = []
    for wanted in (workshop.printer, workshop.filament):
        with noted(faults):
            wanted()
    refuse(faults, "things are missing")


def _owner_choices(
    workshop: Workshop,
    holder: Holder,
    group: Sequence[OwnedTool],
    faults: list[CleatwrightError],
    run: Run,
) -> list[_Wanted]:
    """Return what the owner asks for in one table; tools that nothing holds are noted."""
    hang, here = hang_of(workshop, holder), holder_path(workshop, holder)
    fixed_alone = hang.fixed is not None and not hang.carrier
    together = bool(holder.tools) or fixed_alone
    params = holder.params.as_dict()
    if holder.family:
        chosen = family(holder.family, place=at(*here, "family"))
        before = len(faults)
        for tool in group:
            with noted(faults):
                _require_held(workshop, chosen, tool, here)
        if len(faults) > before:
            return []
        whys = tuple((tool.name, CHOSEN) for tool in group)
        bundles = [Bundle(chosen, tuple(group), whys)]
    else:
        on_bed = bed_trial(workshop, hang, params, fit=holder.fit, together=together, run=run)
        bundles, unheld = families_for(
            workshop, group, hang, fit=holder.fit, on_bed=on_bed, run=run
        )
        faults += unheld
    if fixed_alone and len(bundles) > 1:
        raise MeasureError(
            "tools that need different families cannot share one fixed place: "
            + ", ".join(sorted(bundle.family.name for bundle in bundles)),
            place=first_of(here, (*here, "place"), *tool_paths(workshop, [t.name for t in group])),
            todo="Give each family a [[holder]] and a place of its own",
        )
    return [
        (
            Choice(
                family=bundle.family,
                whys=bundle.whys,
                params=_params(bundle.family, params, here),
                hang=hang,
                fit=holder.fit,
                together=together,
            ),
            bundle.tools,
        )
        for bundle in bundles
    ]


def _params(chosen: Family, params: Mapping[str, float], here: Steps) -> Pairs:
    with under(*here, "params"):
        return checked_params("holder family", chosen.name, chosen.params, params)


def _require_held(workshop: Workshop, chosen: Family, tool: OwnedTool, here: Steps) -> None:
    reason = chosen.why_not(tool.body)
    if reason is not None:
        raise MeasureError(
            f'the family "{chosen.name}" cannot hold "{tool.name}": it {reason}',
            place=first_of(here, (*here, "family"), *tool_paths(workshop, [tool.name])),
            allowed=", ".join(f.name for f in candidates(tool.body)) or "no family",
            todo="Leave the family out, and one is chosen",
        )


def _automatic(
    workshop: Workshop,
    free: Sequence[OwnedTool],
    panel: str,
    faults: list[CleatwrightError],
    run: Run,
) -> list[_Wanted]:
    if not free:
        return []
    hang = hang_on(workshop, panel)
    on_bed = bed_trial(workshop, hang, {}, fit=None, together=False, run=run)
    bundles, unheld = families_for(workshop, free, hang, fit=None, on_bed=on_bed, run=run)
    faults += unheld
    return [
        (Choice(one.family, one.whys, (), hang, None, together=False), one.tools) for one in bundles
    ]


def _planned(
    workshop: Workshop, choice: Choice, tools: tuple[OwnedTool, ...], number: int, run: Run
) -> PlannedHolder:
    groups = sorted({tool.group for tool in tools if tool.group})
    recipe = recipe_of(workshop, choice, tools)
    return PlannedHolder(
        key=f"{number:03d}",
        name=_name(tools, groups),
        tools=_seated(tools, run.need(DESCRIBED, recipe)),
        recipe=recipe,
        why=dict(choice.whys)[tools[0].name],
        use=_most_frequent(tools),
        group=groups[0] if len(groups) == 1 else "",
        hang=choice.hang,
    )


def _most_frequent(tools: Sequence[OwnedTool]) -> Use:
    uses = {tool.use for tool in tools}
    return next(use for use in get_args(Use) if use in uses)


def _seated(tools: Sequence[OwnedTool], part: HolderPart) -> tuple[OwnedTool, ...]:
    """Return the tools in the order of the seats; a family may seat them in its own order."""
    waiting = list(tools)
    seated: list[OwnedTool] = []
    for seat in part.seats:
        tool = next(tool for tool in waiting if _is_seated(tool.body, seat.tool))
        waiting.remove(tool)
        seated.append(tool)
    return tuple(seated)


def _is_seated(body: ToolBody, seated: ToolBody) -> bool:
    """Return True for one tool; what goes along, as a rod in a roll, is part of the envelope."""
    return replace(seated, envelope=body.envelope) == body


def _name(tools: Sequence[OwnedTool], groups: Sequence[str]) -> str:
    if len(tools) == 1:
        return tools[0].name
    if len(groups) == 1:
        return f"{groups[0]} ({len(tools)})"
    entries = {_ENTRY_NUMBER.sub("", tool.name) for tool in tools}
    if len(entries) == 1:
        return f"{entries.pop()} ({len(tools)})"
    return f"{tools[0].name} to {tools[-1].name}"


def _named_apart(holders: Sequence[PlannedHolder]) -> tuple[PlannedHolder, ...]:
    """Number the holders that would have one name."""
    often = Counter(holder.name for holder in holders)
    seen: Counter[str] = Counter()
    named: list[PlannedHolder] = []
    for holder in holders:
        seen[holder.name] += 1
        suffix = f" {chr(64 + seen[holder.name])}" if often[holder.name] > 1 else ""
        named.append(replace(holder, name=holder.name + suffix))
    return tuple(named)
