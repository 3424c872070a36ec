"""From a workshop to recipes: which tools share which holder, and how each is made."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial
from pathlib import Path
from types import MappingProxyType

from cleatwright.base.errors import CleatwrightError, MeasureError, NoHolderError
from cleatwright.base.gathering import equal_once, noted, refuse, under
from cleatwright.base.place import Path as Steps
from cleatwright.base.place import at
from cleatwright.base.stages.run import Run
from cleatwright.design.choice import FamilyGroup, Manner, Misfit, choice_key, families_for
from cleatwright.design.empty_seats import LeftSeats, in_empty_seats, seats_refused
from cleatwright.design.equipment import OwnedTool, owned_what_can_be
from cleatwright.design.filling import Choice, HolderTrial, groups_on_bed
from cleatwright.design.hang import Hang, Pairs, hang_of, hang_on, unknown_tables
from cleatwright.design.identities import Remembered, identified, numbered
from cleatwright.design.params import checked_params
from cleatwright.design.planned import (
    Earlier,
    Planned,
    PlannedHolder,
    most_frequent,
    name_of,
    named_apart,
    seated,
)
from cleatwright.design.shared_recipe import SharedRecipe
from cleatwright.holders.choosing import WhyFamily, candidates
from cleatwright.holders.family import Family
from cleatwright.holders.registry import family
from cleatwright.workshop.document.entries import Holder
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, holder_path, tool_paths
from cleatwright.workshop.document.reading import NO_FILES
from cleatwright.workshop.document.surfaces import MAIN
from cleatwright.workshop.ledger.last_made import LastMade

FAULTS = "things stand in the way"


NO_PARAMS: Mapping[str, float] = MappingProxyType({})
_Wanted = tuple[Choice, Sequence[OwnedTool]]
NOTHING_EARLIER = Earlier()


def plan(
    workshop: Workshop,
    *,
    folder: Path | None = None,
    drawings: Mapping[str, bytes] = NO_FILES,
    earlier: Earlier = NOTHING_EARLIER,
    run: Run | None = None,
) -> tuple[PlannedHolder, ...]:
    """Return every holder of the workshop, the owner's own choices first.

    Args:
        workshop: The workshop.
        folder: The folder of the workshop, in which outlines lie; None when it has none.
        drawings: Drawings by their paths that shall be put into the folder.
        earlier: What earlier times left.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        NoHolderError: A tool that no family can hold, with the reason of each family.
        BedError: A holder that no printer can make.
        InputError: A choice that cannot be.

    Several of them come as one error, which lists them.
    """
    planned = plan_what_can_be(workshop, folder=folder, drawings=drawings, earlier=earlier, run=run)
    refuse(planned.faults, FAULTS)
    return planned.holders


def plan_what_can_be(
    workshop: Workshop,
    *,
    folder: Path | None = None,
    drawings: Mapping[str, bytes] = NO_FILES,
    earlier: Earlier = NOTHING_EARLIER,
    misfits: tuple[Misfit, ...] = (),
    run: Run | None = None,
) -> Planned:
    """Return the holders that can be made, and every fault of the others.

    Args:
        workshop: The workshop.
        folder: As in ``plan``.
        drawings: As in ``plan``.
        earlier: As in ``plan``.
        misfits: Families that are not taken for some tools, where the owner leaves it open.
        run: As in ``plan``.

    Raises:
        InputError: There is no printer, no filament or no tool, on which everything depends.
    """
    run = run or Run()
    faults = list(unknown_tables(workshop))
    owned, unread = owned_what_can_be(workshop, folder=folder, new=drawings, run=run)
    faults += unread
    equipped = len(faults)
    for equipment in (workshop.printer, workshop.filament):
        with noted(faults):
            equipment()
    if len(faults) > equipped:
        refuse(faults, FAULTS)
    owned = in_empty_seats(
        workshop, identified(owned, earlier.made, there=earlier.there), earlier, run=run
    )
    left = LeftSeats.of(owned, earlier, run=run)
    again = Remembered.of(
        owned, LastMade() if earlier.regroup else earlier.made, there=earlier.there
    )
    tools = {tool.name: tool for tool in owned}
    wanted: list[_Wanted] = []
    without: set[str] = set()
    for holder in workshop.holders:
        items = workshop.items_of(holder)
        group = [tools[item.name] for item in items if item.name in tools]
        before = len(faults)
        with noted(faults):
            request = partial(_FamilyRequest, again=again, misfits=misfits)
            wanted += _owner_choices(workshop, holder, group, faults, request=request, run=run)
        if len(faults) > before or len(group) < len(items):
            without.add(holder.carrier or "")
    for panel in workshop.surfaces():
        free = [i for i in workshop.free_items() if (i.panel or MAIN) == panel.name]
        with noted(faults):
            some = [tools[i.name] for i in free if i.name in tools]
            if some:
                shared = SharedRecipe(workshop, hang_on(workshop, panel.name), None)
                request = _FamilyRequest(shared, again, misfits)
                wanted += _automatic(request, some, faults, run)
    holders: list[PlannedHolder] = []
    for choice, group in wanted:
        before = len(faults)
        with noted(faults):
            groups = groups_on_bed(workshop, choice, group, faults, run)
            holders += [_planned(choice, left.beside(choice, one, run), run) for one in groups]
        if len(faults) > before:
            without.add(choice.hang.carrier)
    holders = _unit_by_unit(holders)
    numbers = numbered(
        [frozenset(one.shared_by) for one in holders], earlier.made, hangs=earlier.hangs
    )
    holders = [replace(one, number=n) for one, n in zip(holders, numbers, strict=True)]
    if left.gone:
        why_not = seats_refused(workshop, owned, earlier, run=run)
        holders = [replace(one, refused=one.told_of_empty(why_not)) for one in holders]
    return Planned(
        named_apart(holders),
        equal_once(faults, [tool.name for tool in workshop.tools if tool.count > 1]),
        frozenset(without - {""}),
    )


def _unit_by_unit(holders: Sequence[PlannedHolder]) -> list[PlannedHolder]:
    """Return holders so that those of one carrier follow each other."""
    units: dict[tuple[str, int], list[PlannedHolder]] = {}
    for place, one in enumerate(holders):
        carrier = one.hang.carrier
        units.setdefault((carrier, 0 if carrier else place), []).append(one)
    return [one for members in units.values() for one in members]


@dataclass(frozen=True)
class _FamilyRequest:
    """How holders of some tools shall be, and what is known again of the last time."""

    recipe: SharedRecipe
    again: Remembered
    misfits: tuple[Misfit, ...]

    @property
    def hang(self) -> Hang:
        """Return how they hang."""
        return self.recipe.hang

    def choice(
        self,
        bundle: FamilyGroup,
        params: tuple[tuple[str, float], ...] = (),
        *,
        together: bool = False,
    ) -> Choice:
        """Return what is decided for a bundle of tools."""
        hang, family = self.hang, bundle.family
        return Choice(
            family=family,
            whys=bundle.whys,
            params=params,
            recipe=self.recipe,
            together=together,
            shared=self.again.sharing(hang.panel, hang.carrier, family.name),
            there=self.again.there,
            chosen_by=self.chosen_by,
        )

    @cached_property
    def chosen_by(self) -> str:
        """The content key of all but the tools that families are chosen by."""
        return choice_key(self.recipe)

    def families(
        self,
        tools: Sequence[OwnedTool],
        run: Run,
        *,
        params: Mapping[str, float] = NO_PARAMS,
        together: bool = False,
    ) -> tuple[list[FamilyGroup], list[NoHolderError]]:
        """Return the tools by the family that suits them best, and what none holds."""
        trial = HolderTrial(self.recipe, params, together)
        manner = Manner(self.recipe, trial, self.misfits)
        return families_for(manner, tools, made=self.again.families(self.chosen_by), run=run)


def _owner_choices(
    workshop: Workshop,
    holder: Holder,
    group: Sequence[OwnedTool],
    faults: list[CleatwrightError],
    *,
    request: Callable[[SharedRecipe], _FamilyRequest],
    run: Run,
) -> list[_Wanted]:
    """Return what the owner asks for in one table; tools that nothing holds are noted."""
    here, before = holder_path(workshop, holder), len(faults)
    chosen = None
    with noted(faults):
        if holder.family:
            chosen = family(holder.family, place=at(*here, "family"))
            _params(chosen, holder.params.as_dict(), here)
            for tool in group:
                with noted(faults):
                    _require_held(workshop, chosen, tool, here)
    asked = request(SharedRecipe(workshop, hang_of(workshop, holder), holder.fit))
    hang = asked.hang
    if len(faults) > before or not group:
        return []
    fixed_alone = hang.fixed is not None and not hang.carrier
    together = bool(holder.tools) or fixed_alone
    if fixed_alone and not holder.tools:
        # the place is that of the holder that is there already; what is new hangs elsewhere
        there = [tool for tool in group if tool.name in asked.again.there]
        new = [tool for tool in group if there and tool.name not in asked.again.there]
        free = SharedRecipe(workshop, replace(hang, fixed=None), holder.fit)
        parts = [(asked, there or group, together), (request(free), new, False)]
    else:
        parts = [(asked, group, together)]
    return [
        one
        for each, some, alone in parts
        if some
        for one in _chosen(each, some, holder, faults, together=alone, family=chosen, run=run)
    ]


def _chosen(
    asked: _FamilyRequest,
    group: Sequence[OwnedTool],
    holder: Holder,
    faults: list[CleatwrightError],
    *,
    together: bool,
    family: Family | None,
    run: Run,
) -> list[_Wanted]:
    """Return what the owner asks for some tools of one table."""
    workshop = asked.recipe.workshop
    here, params = holder_path(workshop, holder), holder.params.as_dict()
    if family is not None:
        whys = tuple((tool.name, WhyFamily("owner", family.name)) for tool in group)
        bundles = [FamilyGroup(family, tuple(group), whys)]
    else:
        bundles, unheld = asked.families(group, run, params=params, together=together)
        faults += unheld
    if together and len(bundles) > 1:
        raise MeasureError(
            "tools that need different families cannot share one holder: "
            + ", ".join(sorted(bundle.family.name for bundle in bundles)),
            place=first_of(here, (*here, "place"), *tool_paths(workshop, [t.name for t in group])),
            todo="Give the tools of each family a [[holder]] of their own",
        )
    return [
        (
            asked.choice(bundle, _params(bundle.family, params, here), together=together),
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
            f'the family "{chosen.name}" cannot hold "{tool.name}": {reason}',
            place=first_of(here, (*here, "family"), *tool_paths(workshop, [tool.name])),
            allowed=", ".join(f.name for f in candidates(tool.body)) or "no family",
            todo="Leave the family out, and one is chosen",
        )


def _automatic(
    request: _FamilyRequest, free: Sequence[OwnedTool], faults: list[CleatwrightError], run: Run
) -> list[_Wanted]:
    bundles, unheld = request.families(free, run)
    faults += unheld
    return [(request.choice(one), one.tools) for one in bundles]


def _planned(choice: Choice, tools: tuple[OwnedTool, ...], run: Run) -> PlannedHolder:
    present = [tool for tool in tools if not tool.gone]
    groups = sorted({tool.group for tool in present if tool.group})
    recipe = choice.recipe_of(tools, run)
    return PlannedHolder(
        number=0,
        name=name_of(present, groups),
        tools=seated(tools, recipe, run),
        recipe=recipe,
        why=dict(choice.whys)[present[0].name],
        use=most_frequent(present),
        group=groups[0] if len(groups) == 1 else "",
        hang=choice.hang,
        shared_by=tuple(tool.identity for tool in tools),
        chosen_by=choice.chosen_by,
    )
