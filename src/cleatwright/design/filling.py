"""Which tools of one family share a holder, as far as the bed allows, and its recipe."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from cleatwright.base import said
from cleatwright.base.errors import (
    BedError,
    CleatwrightError,
    DesignError,
    InputError,
    RailHoldError,
)
from cleatwright.base.keys import content_key
from cleatwright.base.place import InDocument, TableStep
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.bed_fit import usable_mm
from cleatwright.design.describing import DESCRIBED
from cleatwright.design.equipment import OwnedTool, Shares
from cleatwright.design.hang import Hang, Pairs
from cleatwright.design.params import checked_params
from cleatwright.design.recipe import Recipe
from cleatwright.design.shared_recipe import SharedRecipe
from cleatwright.holders.choosing import WhyFamily, as_clause
from cleatwright.holders.family import Family
from cleatwright.holders.grouping import GroupEntry, group_tools
from cleatwright.parts.holder import HolderPart
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, holder_path, tool_paths
from cleatwright.workshop.document.references import chosen as chosen_of

_Groups = tuple[tuple[tuple[str, ...], bool], ...]


@dataclass(frozen=True)
class Choice:
    """What is decided for a bundle of tools before they are grouped.

    Args:
        family: The family that holds them.
        whys: The name of each tool, and why this family.
        params: What the owner asks of the family, sorted.
        recipe: What else the recipes of their holders have in common.
        together: Whether all go into one holder.
        shared: The names of tools that shared a holder when it was last made.
        there: The names of tools whose holder is printed, or hangs.
        chosen_by: The content key of all but the tools that the family was chosen by.
    """

    family: Family
    whys: tuple[tuple[str, WhyFamily], ...]
    params: Pairs
    recipe: SharedRecipe
    together: bool
    shared: tuple[tuple[str, ...], ...] = ()
    there: frozenset[str] = frozenset()
    chosen_by: str = ""

    @property
    def hang(self) -> Hang:
        """Return how their holders hang."""
        return self.recipe.hang

    def described(self, tools: Sequence[OwnedTool], run: Run) -> HolderPart:
        """Return the part of the holder for tools.

        Raises:
            DesignError: It cannot be made.
        """
        return run.need(DESCRIBED, self.recipe_of(tools, run))

    def recipe_of(self, tools: Sequence[OwnedTool], run: Run) -> Recipe:
        """Return how the holder for tools is made."""
        return self.recipe.of(self.family.name, self.params, tools, run=run)


TOO_LARGE = "it would be too large for the bed"


@dataclass(frozen=True, eq=False)
class HolderTrial:
    """The test whether a family's holders for tools can be: each alone, or all together.

    They must bear what they hold, and fit on the bed.

    Args:
        recipe: What the recipes of their holders have in common.
        params: What the owner asks of the family.
        together: Whether all go into one holder.
    """

    recipe: SharedRecipe
    params: Mapping[str, float]
    together: bool

    @property
    def key(self) -> str:
        """Return the content key of all that it goes by but the tools."""
        return content_key((self.recipe.key, dict(self.params), self.together))

    def __call__(self, chosen: Family, tools: Sequence[OwnedTool], run: Run) -> str:
        """Return why the holders that a family makes for tools cannot be, in a clause, or ""."""
        try:
            asked = checked_params("holder family", chosen.name, chosen.params, self.params)
        except InputError:
            # it is said where the holder is planned
            return ""
        choice = Choice(chosen, (), asked, self.recipe, together=self.together)
        parts = [tools] if self.together else [[tool] for tool in tools]
        try:
            shaped = [choice.described(part, run) for part in parts]
        except DesignError as error:
            return as_clause(error.given)
        return "" if all(self.recipe.fits_bed(part) for part in shaped) else TOO_LARGE


def groups_on_bed(
    workshop: Workshop,
    choice: Choice,
    tools: Sequence[OwnedTool],
    faults: list[CleatwrightError],
    run: Run,
) -> list[tuple[OwnedTool, ...]]:
    """Return the groups that fit on the bed; what cannot be made says for which tools."""
    try:
        groups = run.need(GROUPED, (choice, tools))
    except DesignError as error:
        names = [tool.name for tool in tools]
        said = error.located(f"{choice.family.name} for {', '.join(names)}")
        raise said.at(_at_odds(workshop, choice, names)) from error
    by_name = {tool.name: tool for tool in tools}
    found = [(tuple([by_name[name] for name in names]), fits) for names, fits in groups]
    faults += [_larger(workshop, choice, group, run) for group, fits in found if not fits]
    return [group for group, fits in found if fits]


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


def _grouped(run: Run, given: tuple[Choice, Sequence[OwnedTool]]) -> _Groups:
    choice, tools = given
    by_name = {tool.name: tool for tool in tools}
    entries = [
        GroupEntry(
            name=tool.name,
            body=tool.body,
            group=Shares("") if choice.together else tool.shares,
        )
        for tool in tools
    ]

    @cache
    def fits(names: tuple[str, ...]) -> bool:
        try:
            part = choice.described([by_name[name] for name in names], run)
        except RailHoldError:
            if choice.together or len(names) == 1:
                raise
            # what is too much for one holder goes into several
            return False
        if not choice.recipe.fits_bed(part):
            return False
        # one tool is told of its own, and what hangs stays
        fixed = choice.together or len(names) == 1 or choice.there.issuperset(names)
        return fixed or choice.recipe.meets_studs(part)

    groups = group_tools(
        entries,
        fits=fits,
        together=choice.together,
        shared=choice.shared,
        there=choice.there,
    )
    return tuple((names, fits(names)) for names in groups)


def _grouped_key(given: tuple[Choice, Sequence[OwnedTool]]) -> str:
    choice, tools = given
    here = {tool.name for tool in tools}
    shared = (tuple([name for name in names if name in here]) for names in choice.shared)
    return content_key(
        (
            (choice.family.name, choice.params, choice.recipe.key, choice.together),
            tuple([names for names in shared if names]),
            choice.there & here,
            (choice.recipe.zones_mm, choice.recipe.panel_mm),
            tuple([(tool.name, tool.shares, choice.recipe.seat(tool).key) for tool in tools]),
        )
    )


GROUPED = Stage("groups of tools", _grouped, _grouped_key)
"""From tools of one family to the names of those that share a holder, and whether it fits."""


def _larger(workshop: Workshop, choice: Choice, tools: Sequence[OwnedTool], run: Run) -> BedError:
    """Return the error for a holder that is larger than the bed."""
    part = choice.described(tools, run)
    low, high = part.bounds_mm
    size = said.sides(b - a for a, b in zip(low, high, strict=True))
    room = said.sides(usable_mm(workshop.printer()), "")
    one = len(tools) == 1
    at_odds = _at_odds(workshop, choice, [tool.name for tool in tools])
    bed = ("printer", TableStep(None, workshop.printer().name), "bed")
    return BedError(
        f"the {choice.family.name} for {', '.join(t.name for t in tools)} is {size}",
        place=first_of(*at_odds.paths, bed),
        allowed=f"in any pose at most {room}, the bed of the printer "
        f'"{workshop.printer().name}" without its edge, and its height',
        todo="Choose another family or a larger printer"
        if one
        else "Let fewer of these tools share the holder, or use a larger printer",
    )
