"""From a workshop to recipes: which tools share which holder, and how each is made."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import get_args

from cleatwright.base.errors import BedError, DesignError, InputError, MeasureError
from cleatwright.holders.choosing import candidates
from cleatwright.holders.family import Family
from cleatwright.holders.grouping import GroupEntry, group_tools
from cleatwright.holders.registry import family
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.tool import ToolBody
from cleatwright.services.bed_fit import fits_bed, usable_mm
from cleatwright.services.choice import Bundle, families_for
from cleatwright.services.describing import describe
from cleatwright.services.equipment import OwnedTool, all_owned, fit_of, mount_settings
from cleatwright.services.hang import Hang, hang_of, hang_on, require_known
from cleatwright.services.params import checked_params
from cleatwright.services.recipe import Recipe
from cleatwright.workshop.entries import FitName, Holder, Use
from cleatwright.workshop.model import Workshop
from cleatwright.workshop.reading import NO_FILES
from cleatwright.workshop.surfaces import MAIN

CHOSEN = "chosen by the owner"


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
class _Choice:
    """What is decided for a bundle of tools before they are grouped."""

    family: Family
    whys: tuple[tuple[str, str], ...]
    params: tuple[tuple[str, float], ...]
    hang: Hang
    fit: FitName | None
    together: bool


def plan(
    workshop: Workshop,
    *,
    where: str,
    folder: Path | None = None,
    drawings: Mapping[str, bytes] = NO_FILES,
) -> tuple[PlannedHolder, ...]:
    """Return every holder of the workshop, the owner's own choices first.

    Args:
        workshop: The workshop.
        where: The document, for messages.
        folder: The folder of the workshop, in which outlines lie; None when it has none.
        drawings: Drawings by their paths that shall be put into the folder.

    Raises:
        NoHolderError: A tool that no family can hold, with the reason of each family.
        BedError: A holder that no printer can make.
        InputError: A choice that cannot be.
    """
    _require_equipment(workshop, where=where)
    require_known(workshop, where=where)
    owned = all_owned(workshop, where=where, folder=folder, new=drawings)
    tools = {tool.name: tool for tool in owned}
    planned: list[tuple[_Choice, Sequence[OwnedTool]]] = []
    for number, holder in enumerate(workshop.holders, 1):
        group = [tools[item.name] for item in workshop.items_of(holder)]
        planned += _owner_choices(workshop, holder, group, where=f"{where}, holder number {number}")
    for panel in workshop.surfaces():
        free = [i for i in workshop.free_items() if (i.panel or MAIN) == panel.name]
        planned += _automatic(workshop, [tools[i.name] for i in free], panel.name, where=where)
    holders: list[PlannedHolder] = []
    for choice, group in planned:
        for members in _located(workshop, choice, group, where=where):
            holders.append(_planned(workshop, choice, members, len(holders) + 1))
    return _named_apart(holders)


def _require_equipment(workshop: Workshop, *, where: str) -> None:
    """Refuse a workshop that cannot print anything."""
    try:
        workshop.printer()
        workshop.filament()
    except InputError as error:
        raise error.located(where) from None


def _owner_choices(
    workshop: Workshop, holder: Holder, group: Sequence[OwnedTool], *, where: str
) -> list[tuple[_Choice, Sequence[OwnedTool]]]:
    hang = hang_of(workshop, holder, where=where)
    fixed_alone = hang.fixed is not None and not hang.carrier
    together = bool(holder.tools) or fixed_alone
    params = holder.params.as_dict()
    if holder.family:
        chosen = family(holder.family, where=where)
        for tool in group:
            _require_held(chosen, tool, where=where)
        whys = tuple((tool.name, CHOSEN) for tool in group)
        bundles = [Bundle(chosen, tuple(group), whys)]
    else:
        bundles = families_for(workshop, group, hang, fit=holder.fit)
    if fixed_alone and len(bundles) > 1:
        raise MeasureError(
            "tools that need different families cannot share one fixed place: "
            + ", ".join(sorted(bundle.family.name for bundle in bundles)),
            where=where,
            todo="Give each family a [[holder]] and a place of its own",
        )
    return [
        (
            _Choice(
                family=bundle.family,
                whys=bundle.whys,
                params=checked_params(
                    "holder family",
                    bundle.family.name,
                    bundle.family.params,
                    params,
                    where=f"{where}, params",
                ),
                hang=hang,
                fit=holder.fit,
                together=together,
            ),
            bundle.tools,
        )
        for bundle in bundles
    ]


def _require_held(chosen: Family, tool: OwnedTool, *, where: str) -> None:
    reason = chosen.why_not(tool.body)
    if reason is not None:
        raise MeasureError(
            f'the family "{chosen.name}" cannot hold "{tool.name}": it {reason}',
            where=where,
            allowed=", ".join(f.name for f in candidates(tool.body)) or "no family",
            todo="Leave the family out, and one is chosen",
        )


def _automatic(
    workshop: Workshop, free: Sequence[OwnedTool], panel: str, *, where: str
) -> list[tuple[_Choice, Sequence[OwnedTool]]]:
    if not free:
        return []
    hang = hang_on(workshop, panel, where=where)
    return [
        (_Choice(one.family, one.whys, (), hang, None, together=False), one.tools)
        for one in families_for(workshop, free, hang, fit=None)
    ]


def _located(
    workshop: Workshop, choice: _Choice, tools: Sequence[OwnedTool], *, where: str
) -> list[tuple[OwnedTool, ...]]:
    """Return the groups of ``_grouped``; what cannot be made says for which tools."""
    try:
        return _grouped(workshop, choice, tools, where=where)
    except DesignError as error:
        names = ", ".join(tool.name for tool in tools)
        raise error.located(f"{where}, {choice.family.name} for {names}") from error


def _grouped(
    workshop: Workshop, choice: _Choice, tools: Sequence[OwnedTool], *, where: str
) -> list[tuple[OwnedTool, ...]]:
    by_name = {tool.name: tool for tool in tools}

    def members(names: Sequence[str]) -> tuple[OwnedTool, ...]:
        return tuple(by_name[name] for name in names)

    entries = [
        GroupEntry(
            name=tool.name,
            body=tool.body,
            group="" if choice.together else tool.group,
        )
        for tool in tools
    ]
    fits = _bed_test(workshop, choice, members)
    groups = group_tools(entries, fits=fits, together=choice.together)
    for names in groups:
        if not fits(names):
            _refuse_bed(workshop, choice, members(names), where=where)
    return [members(names) for names in groups]


def _bed_test(
    workshop: Workshop,
    choice: _Choice,
    members: Callable[[Sequence[str]], tuple[OwnedTool, ...]],
) -> Callable[[Sequence[str]], bool]:
    def fits(names: Sequence[str]) -> bool:
        part = describe(_recipe(workshop, choice, members(names)))
        return fits_bed(part.bounds_mm, workshop.printer())

    return fits


def _refuse_bed(
    workshop: Workshop, choice: _Choice, tools: Sequence[OwnedTool], *, where: str
) -> None:
    part = describe(_recipe(workshop, choice, tools))
    low, high = part.bounds_mm
    size = " x ".join(f"{b - a:.0f}" for a, b in zip(low, high, strict=True))
    room = " x ".join(f"{side:g}" for side in usable_mm(workshop.printer()))
    one = len(tools) == 1
    raise BedError(
        f"the {choice.family.name} for {', '.join(t.name for t in tools)} is {size} mm",
        where=where,
        allowed=f"in any pose at most {room} mm, the bed of the printer "
        f"{workshop.printer().name} without its edge, and its height",
        todo="Choose another family or a larger printer"
        if one
        else "Let fewer of these tools share the holder, or use a larger printer",
    )


def _recipe(workshop: Workshop, choice: _Choice, tools: Sequence[OwnedTool]) -> Recipe:
    hang = choice.hang
    settings = mount_settings(workshop, hang.panel)
    return Recipe(
        family=choice.family.name,
        params=dict(choice.params),
        # x runs to the left for the reader, who then sees the first tool at the left
        seats=tuple(
            tool.seat(fit_of(workshop, tool.fit or choice.fit)) for tool in reversed(tools)
        ),
        mount=choice.hang.holder_mount,
        mount_settings=settings.as_dict(screwed=hang.screwed and not hang.on_carrier),
        mount_params={} if choice.hang.on_carrier else dict(choice.hang.mount_params),
        joint=choice.hang.joint,
        joint_params=dict(choice.hang.joint_params),
        line_mm=workshop.printer().line_mm,
        hand_room_mm=workshop.defaults.hand_room_mm,
    )


def _planned(
    workshop: Workshop, choice: _Choice, tools: tuple[OwnedTool, ...], number: int
) -> PlannedHolder:
    groups = sorted({tool.group for tool in tools if tool.group})
    recipe = _recipe(workshop, choice, tools)
    return PlannedHolder(
        key=f"{number:03d}",
        name=_name(tools, groups),
        tools=_seated(tools, describe(recipe)),
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
