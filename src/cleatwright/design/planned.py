"""Holders before they are built: their tools, their recipes, and their numbers and names."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from string import ascii_uppercase
from typing import get_args

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.describing import BODY, DESCRIBED
from cleatwright.design.equipment import OwnedTool
from cleatwright.design.hang import Hang
from cleatwright.design.identities import known_tool
from cleatwright.design.kept_parts import NO_PARTS, KeptPart
from cleatwright.design.recipe import Recipe
from cleatwright.holders.choosing import WhyFamily
from cleatwright.parts.mirror import turned
from cleatwright.parts.tool import ToolBody
from cleatwright.workshop.document.entries import Use
from cleatwright.workshop.ledger.last_made import KnownHolder, LastMade


@dataclass(frozen=True)
class PlannedHolder:
    """One holder before it is built.

    Args:
        number: Its number in all drawings, which it keeps from one making to the next.
        name: A name for people.
        tools: The tools that its seats were made for, in their order; those that are gone, too.
        recipe: How it is made.
        why: Why this family.
        use: The most frequent use of its tools.
        group: The group of its tools, or "".
        hang: How it hangs, by what mount and joint, on which carrier, in which fixed place.
        shared_by: The identities of these tools, in the order in which they were grouped.
        chosen_by: The content key of all but the tools that its family was chosen by.
        refused: Why new tools do not take its empty places, in sentences.
    """

    number: int
    name: str
    tools: tuple[OwnedTool, ...]
    recipe: Recipe
    why: WhyFamily
    use: Use
    group: str
    hang: Hang
    shared_by: tuple[str, ...] = ()
    chosen_by: str = ""
    refused: tuple[str, ...] = ()

    @property
    def key(self) -> str:
        """Return its key on the wall, which no other holder of the workshop has."""
        return f"{self.number:03d}"

    @property
    def present(self) -> tuple[OwnedTool, ...]:
        """Return the tools that it holds, at least one."""
        return tuple([tool for tool in self.tools if not tool.gone])

    @property
    def empty_for(self) -> tuple[str, ...]:
        """Return the names of the tools that are gone, whose seats are empty."""
        return tuple([tool.name for tool in self.tools if tool.gone])

    @property
    def load_kg(self) -> float:
        """Return the mass of the tools that it holds."""
        return sum(tool.body.mass_kg for tool in self.present)

    @property
    def emptiness(self) -> str:
        """Return for what it has empty places, and why new tools do not take them, or ""."""
        names = [f'"{name}"' for name in self.empty_for]
        if not names:
            return ""
        places = "an empty place" if len(names) == 1 else "empty places"
        told = f'Holder {self.number}, "{self.name}", has {places} for {", ".join(names)}.'
        return " ".join((told, *self.refused))

    def told_of_empty(self, told: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
        """Return what is told of its empty places, by the identities of who left them."""
        gone = [tool.identity for tool in self.tools if tool.gone]
        return tuple([text for identity in gone for text in told.get(identity, ())])

    @property
    def listed(self) -> tuple[str, ...]:
        """Return the names of its tools as a [[holder]] lists them: from left to right."""
        by_identity = {tool.identity: tool.name for tool in self.present}
        return tuple([by_identity[one] for one in self.shared_by if one in by_identity])

    @property
    def known(self) -> KnownHolder:
        """Return it as the ledger keeps it."""
        return KnownHolder(
            self.number,
            self.hang.panel,
            self.hang.carrier,
            self.recipe.family,
            self.chosen_by,
            self.shared_by,
        )


@dataclass(frozen=True)
class Earlier:
    """What earlier times left that a plan goes by.

    Args:
        made: The tools and holders of the last time.
        hangs: Whether something hangs, so that numbers are not given twice.
        regroup: Whether tools are grouped, and families chosen, as if nothing was made.
        there: The identities of tools whose holder is printed, or hangs: no new one joins it.
        parts: Of these holders the parts, by the numbers of the holders, as far as they are known.
    """

    made: LastMade = field(default_factory=LastMade)
    hangs: bool = False
    regroup: bool = False
    there: frozenset[str] = frozenset()
    parts: Mapping[int, KeptPart] = field(default_factory=lambda: NO_PARTS)


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


def last_made(holders: Sequence[PlannedHolder], earlier: LastMade) -> LastMade:
    """Return what the ledger keeps of holders that are made, by which they are known again.

    Args:
        holders: All of them, unit by unit.
        earlier: What it kept before.
    """
    owned = sorted((tool for one in holders for tool in one.tools), key=lambda tool: tool.position)
    known = tuple(sorted((one.known for one in holders), key=lambda one: one.number))
    highest = max([earlier.last_number, *(one.number for one in known)])
    return LastMade(tuple(known_tool(tool) for tool in owned), known, highest)


def most_frequent(tools: Sequence[OwnedTool]) -> Use:
    """Return how often the most used of the tools is used."""
    uses = {tool.use for tool in tools}
    return next(use for use in get_args(Use) if use in uses)


def seated(tools: Sequence[OwnedTool], recipe: Recipe, run: Run) -> tuple[OwnedTool, ...]:
    """Return the tools in the order of the seats; a family may seat them in its own order.

    Args:
        tools: The tools, as they were given for the recipe.
        recipe: The recipe of their holder.
        run: The run that keeps what was computed before.
    """
    return tuple([tools[place] for place in run.need(SEATED, recipe)])


def _seated(run: Run, recipe: Recipe) -> tuple[int, ...]:
    """Return for each seat the place of its tool among those that the recipe was made for."""
    waiting = dict(enumerate(run.need(BODY, seat) for seat in turned(recipe.seats)))
    found: list[int] = []
    for seat in run.need(DESCRIBED, recipe).seats:
        found.append(next(k for k, body in waiting.items() if _is_seated(body, seat.tool)))
        del waiting[found[-1]]
    return tuple(found)


def _recipe_key(recipe: Recipe) -> str:
    return recipe.key


SEATED = Stage("order of seats", _seated, _recipe_key)
"""From a recipe to the order in which its family seats the tools."""


def _is_seated(body: ToolBody, seated: ToolBody) -> bool:
    """Return True for one tool; what goes along, as a rod in a roll, is part of the envelope."""
    return replace(seated, envelope=body.envelope) == body


def name_of(tools: Sequence[OwnedTool], groups: Sequence[str]) -> str:
    """Return the name for people of a holder of tools that belong to these groups."""
    if len(tools) == 1:
        return tools[0].name
    if len(groups) == 1:
        return f"{groups[0]} ({len(tools)})"
    entries = {tool.unnumbered for tool in tools}
    if len(entries) == 1:
        return f"{entries.pop()} ({len(tools)})"
    between = len(tools) - 2
    count = f" ({len(tools)})" if between else ""
    return f"{tools[0].name} to {tools[-1].name}{count}"


def named_apart(holders: Sequence[PlannedHolder]) -> tuple[PlannedHolder, ...]:
    """Tell holders apart that would have one name, by letters in the order of their numbers."""
    often = Counter(holder.name for holder in holders)
    seen: Counter[str] = Counter()
    letters: dict[int, str] = {}
    for holder in sorted(holders, key=lambda one: one.number):
        seen[holder.name] += 1
        if often[holder.name] > 1:
            letters[holder.number] = f" {_letters(seen[holder.name])}"
    return tuple(
        replace(holder, name=holder.name + letters.get(holder.number, "")) for holder in holders
    )


def _letters(number: int) -> str:
    """Return A for 1, Z for 26, AA for 27."""
    letters = ""
    while number:
        number, digit = divmod(number - 1, len(ascii_uppercase))
        letters = ascii_uppercase[digit] + letters
    return letters
