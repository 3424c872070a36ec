"""Which tools of one family share a holder, as far as the bed allows, and its recipe."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from cleatwright.base.errors import BedError, CleatwrightError, DesignError, InputError
from cleatwright.base.place import InDocument, TableStep
from cleatwright.base.stages.run import Run
from cleatwright.design.bed_fit import fits_bed, usable_mm
from cleatwright.design.choice import OnBed
from cleatwright.design.describing import DESCRIBED
from cleatwright.design.equipment import (
    OwnedTool,
    fit_of,
    material_recipe,
    mount_settings,
    printer_recipe,
)
from cleatwright.design.hang import Hang
from cleatwright.design.params import checked_params
from cleatwright.design.recipe import Recipe
from cleatwright.holders.family import Family
from cleatwright.holders.grouping import GroupEntry, group_tools
from cleatwright.parts.mirror import turned
from cleatwright.workshop.document.entries import FitName
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, holder_path, tool_paths
from cleatwright.workshop.document.references import chosen as chosen_of


@dataclass(frozen=True)
class Choice:
    """What is decided for a bundle of tools before they are grouped.

    Args:
        family: The family that holds them.
        whys: The name of each tool, and why this family.
        params: What the owner asks of the family, sorted.
        hang: How their holders hang.
        fit: The class of fit of their holder, or None.
        together: Whether all go into one holder.
        shared: The names of tools that shared a holder when it was last made.
        chosen_by: The content key of all but the tools that the family was chosen by.
    """

    family: Family
    whys: tuple[tuple[str, str], ...]
    params: tuple[tuple[str, float], ...]
    hang: Hang
    fit: FitName | None
    together: bool
    shared: tuple[tuple[str, ...], ...] = ()
    chosen_by: str = ""


def bed_trial(
    workshop: Workshop,
    hang: Hang,
    params: Mapping[str, float],
    *,
    fit: FitName | None,
    together: bool,
    run: Run,
) -> OnBed:
    """Return the test whether tools fit on the bed in a family: each alone, or all together."""

    def on_bed(chosen: Family, tools: Sequence[OwnedTool]) -> bool:
        try:
            wanted = checked_params("holder family", chosen.name, chosen.params, params)
            choice = Choice(chosen, (), wanted, hang, fit, together=together)
            parts = [tools] if together else [[tool] for tool in tools]
            shaped = [run.need(DESCRIBED, recipe_of(workshop, choice, part)) for part in parts]
        except (InputError, DesignError):
            # another fault than the bed, which is said where the holder is planned
            return True
        return all(fits_bed(part.bounds_mm, workshop.printer()) for part in shaped)

    return on_bed


def groups_on_bed(
    workshop: Workshop,
    choice: Choice,
    tools: Sequence[OwnedTool],
    faults: list[CleatwrightError],
    run: Run,
) -> list[tuple[OwnedTool, ...]]:
    """Return the groups that fit on the bed; what cannot be made says for which tools."""
    try:
        groups = _grouped(workshop, choice, tools, run)
    except DesignError as error:
        names = [tool.name for tool in tools]
        said = error.located(f"{choice.family.name} for {', '.join(names)}")
        raise said.at(_at_odds(workshop, choice, names)) from error
    faults += [_larger(workshop, choice, group, run) for group, fits in groups if not fits]
    return [group for group, fits in groups if fits]


def _at_odds(workshop: Workshop, choice: Choice, names: Sequence[str]) -> InDocument:
    """Return the place of a fault for which tools, family and parameters may be the reason."""
    items = {item.name: item for item in workshop.items()}
    holder = next(
        (
            one
            for one in workshop.holders
            if any(item.name in names for item in chosen_of(one, tuple(items.values())))
        ),
        None,
    )
    tools = tool_paths(workshop, names)
    if holder is None:
        return first_of(*tools)
    here = holder_path(workshop, holder)
    keys = [(*here, "params", name) for name, _ in choice.params]
    named = [(*here, "family")] if holder.family else []
    return first_of(here, *named, *keys, *tools)


def _grouped(
    workshop: Workshop, choice: Choice, tools: Sequence[OwnedTool], run: Run
) -> list[tuple[tuple[OwnedTool, ...], bool]]:
    """Return the tools of each holder, and whether it fits on the bed."""
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
    fits = _bed_test(workshop, choice, members, run)
    groups = group_tools(entries, fits=fits, together=choice.together, shared=choice.shared)
    return [(members(names), fits(names)) for names in groups]


def _bed_test(
    workshop: Workshop,
    choice: Choice,
    members: Callable[[Sequence[str]], tuple[OwnedTool, ...]],
    run: Run,
) -> Callable[[tuple[str, ...]], bool]:
    @cache
    def fits(names: tuple[str, ...]) -> bool:
        part = run.need(DESCRIBED, recipe_of(workshop, choice, members(names)))
        return fits_bed(part.bounds_mm, workshop.printer())

    return fits


def _larger(workshop: Workshop, choice: Choice, tools: Sequence[OwnedTool], run: Run) -> BedError:
    """Return the error for a holder that is larger than the bed."""
    part = run.need(DESCRIBED, recipe_of(workshop, choice, tools))
    low, high = part.bounds_mm
    size = " x ".join(f"{b - a:.0f}" for a, b in zip(low, high, strict=True))
    room = " x ".join(f"{side:g}" for side in usable_mm(workshop.printer()))
    one = len(tools) == 1
    at_odds = _at_odds(workshop, choice, [tool.name for tool in tools])
    bed = ("printer", TableStep(None, workshop.printer().name), "bed")
    return BedError(
        f"the {choice.family.name} for {', '.join(t.name for t in tools)} is {size} mm",
        place=first_of(*at_odds.paths, bed),
        allowed=f"in any pose at most {room} mm, the bed of the printer "
        f"{workshop.printer().name} without its edge, and its height",
        todo="Choose another family or a larger printer"
        if one
        else "Let fewer of these tools share the holder, or use a larger printer",
    )


def recipe_of(workshop: Workshop, choice: Choice, tools: Sequence[OwnedTool]) -> Recipe:
    """Return how the holder for tools is made."""
    hang = choice.hang
    settings = mount_settings(workshop, hang.panel)
    return Recipe(
        family=choice.family.name,
        params=dict(choice.params),
        seats=turned([tool.seat(fit_of(workshop, tool.fit or choice.fit)) for tool in tools]),
        mount=choice.hang.holder_mount,
        mount_settings=settings.as_dict(screwed=hang.screwed and not hang.on_carrier),
        mount_params={} if choice.hang.on_carrier else dict(choice.hang.mount_params),
        joint=choice.hang.joint,
        joint_params=dict(choice.hang.joint_params),
        printer=printer_recipe(workshop),
        material=material_recipe(workshop),
        hand_room_mm=workshop.defaults.hand_room_mm,
    )
