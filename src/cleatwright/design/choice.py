"""Which family each tool gets when the owner leaves it open: like tools of a group alike."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import Protocol

from cleatwright.base.errors import DesignError, NoHolderError
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.describing import FRONT
from cleatwright.design.equipment import OwnedTool
from cleatwright.design.figures import FIGURES, ToFigure
from cleatwright.design.hang import Hang
from cleatwright.design.shared_recipe import SharedRecipe
from cleatwright.holders.choosing import (
    Figures,
    PassedOver,
    Ranked,
    Rating,
    WhyFamily,
    choices,
    ranked,
    why_none,
)
from cleatwright.holders.family import BuildContext, Family
from cleatwright.mounts.joints.registry import joint
from cleatwright.mounts.registry import mount
from cleatwright.parts.grips import Blade
from cleatwright.parts.holder import PrintPose
from cleatwright.statics.take_out import resists
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, tool_paths

NOTHING_MADE: Mapping[str, str] = MappingProxyType({})
BARES = "it would leave the edge bare"
# so many tools of a group tell which family suits it
TRIED = 3


class Trial(Protocol):
    """Says why the holders that a family makes for tools cannot be."""

    @property
    def key(self) -> str:
        """Return the content key of all that it goes by but the tools."""
        ...

    def __call__(self, chosen: Family, tools: Sequence[OwnedTool], run: Run) -> str:
        """Return why they cannot be, in a clause, or "" when they can."""
        ...


@dataclass(frozen=True)
class Misfit:
    """A family that is not taken for some tools, since what was made of it did not do.

    Args:
        tools: The identities of the tools.
        family: The family.
        why: Why not, in a clause.
    """

    tools: frozenset[str]
    family: str
    why: str


@dataclass(frozen=True)
class FamilyGroup:
    """Tools that one family shall hold, and for each by name why."""

    family: Family
    tools: tuple[OwnedTool, ...]
    whys: tuple[tuple[str, WhyFamily], ...]


@dataclass(frozen=True, eq=False)
class Manner:
    """How holders shall be for which families are chosen.

    Args:
        recipe: What the recipes of the holders have in common.
        trial: Says why holders cannot be.
        misfits: Families that are not taken for some of the tools.
    """

    recipe: SharedRecipe
    trial: Trial
    misfits: tuple[Misfit, ...] = ()

    @cached_property
    def key(self) -> str:
        """The content key of all but the tools that families are chosen by."""
        return content_key(
            (choice_key(self.recipe), _figured_key(self.recipe), self.trial.key, self.misfits)
        )

    def ranked(self, tools: Sequence[OwnedTool], run: Run, *, together: bool = False) -> Ranked:
        """Return the families that can hold all the tools, the best first.

        Args:
            tools: The tools, of which a few tell for all where they need not share a holder.
            run: The run that keeps what was computed before.
            together: Whether one holder has to hold them all.
        """
        ordered = sorted(tools, key=lambda tool: (tool.body.order_mm, tool.name))
        shown = ordered if together else _spread(ordered)
        return run.need(RANKED, _Alike(self.recipe, tuple(shown), together))

    def against(self, tools: Sequence[OwnedTool]) -> tuple[PassedOver, ...]:
        """Return the families that are not taken for a tool."""
        found = {
            one.family: one.why
            for one in self.misfits
            if any(tool.identity in one.tools for tool in tools)
        }
        return tuple([PassedOver(name, why) for name, why in found.items()])


def _spread(tools: Sequence[OwnedTool]) -> list[OwnedTool]:
    """Return a few of many tools, the first and the last among them."""
    if len(tools) <= TRIED:
        return list(tools)
    return [tools[round(k * (len(tools) - 1) / (TRIED - 1))] for k in range(TRIED)]


def families_for(
    manner: Manner,
    tools: Sequence[OwnedTool],
    *,
    made: Mapping[str, str] = NOTHING_MADE,
    run: Run,
) -> tuple[list[FamilyGroup], list[NoHolderError]]:
    """Return the tools by the family that suits them best, with the reason, and what none holds.

    Tools of one kind and one group are held alike where a family can hold them all. A family
    whose holders are larger than the bed, or cannot bear what they must, is passed over, but none
    that guards an edge for one that leaves it bare; where all are, the best is kept. What is made
    already stays in its family while that can hold it, and a new tool goes with others of its
    kind and group.

    Args:
        manner: How their holders shall be.
        tools: The tools.
        made: The family of each tool that is made already, by its name.
        run: The run that keeps what was computed before.
    """
    alike: dict[tuple[object, ...], list[OwnedTool]] = {}
    for tool in tools:
        against = tuple(sorted(one.name for one in manner.against([tool])))
        alike.setdefault((tool.body.kind, tool.group, against), []).append(tool)
    chosen: dict[str, list[tuple[OwnedTool, WhyFamily]]] = {}
    families: dict[str, Family] = {}
    unheld: list[NoHolderError] = []
    for members in alike.values():
        already = tuple([made.get(tool.name, "") for tool in members])
        found = run.need(CHOSEN, _Members(manner, tuple(members), already))
        for tool, taken in zip(members, found, strict=True):
            if taken is None:
                none = why_none(
                    tool.body,
                    lifted=manner.recipe.hang.lifted,
                    weighed=tool.weighed_kg is not None,
                    measures=dict(tool.measures),
                )
                unheld.append(none.at(first_of(*tool_paths(manner.recipe.workshop, [tool.name]))))
            else:
                best, why = taken
                families[best.name] = best
                chosen.setdefault(best.name, []).append((tool, why))
    return [
        FamilyGroup(
            family=families[name],
            tools=tuple([tool for tool, _ in rows]),
            whys=tuple([(tool.name, why) for tool, why in rows]),
        )
        for name, rows in chosen.items()
    ], unheld


@dataclass(frozen=True)
class _Members:
    """Tools of one kind and group, and the family in which each was made before, or ""."""

    manner: Manner
    tools: tuple[OwnedTool, ...]
    made: tuple[str, ...]


Taken = tuple[Family, WhyFamily]
"""A family, and why it."""
_Chosen = tuple[Taken | None, ...]


def _chosen(run: Run, given: _Members) -> _Chosen:
    manner, members = given.manner, given.tools
    made = {tool.name: name for tool, name in zip(members, given.made, strict=True) if name}
    choosing = _Choosing(manner, run)
    stay, rest = choosing.staying(members, made)
    parts = [(rest, choosing.best(rest))] if rest else []
    if rest and parts[0][1] is None:
        parts = [([one], choosing.best([one])) for one in rest]
    found: dict[str, Taken | None] = {tool.name: taken for taken, tool in stay}
    for some, taken in parts:
        found |= {tool.name: taken for tool in some}
    # in the order of the document, whoever stayed
    return tuple([found[tool.name] for tool in members])


def _chosen_key(given: _Members) -> str:
    seat = given.manner.recipe.seat
    rows = zip(given.tools, given.made, strict=True)
    return content_key(
        (
            given.manner.key,
            tuple([(tool.name, tool.identity, seat(tool).key, made) for tool, made in rows]),
        )
    )


CHOSEN = Stage("family of like tools", _chosen, _chosen_key)
"""From tools of one kind and group to the family of each with the reason, or None."""


@dataclass(frozen=True, eq=False)
class _Choosing:
    """Chooses families in one manner."""

    manner: Manner
    run: Run

    def best(self, tools: Sequence[OwnedTool]) -> Taken | None:
        """Return the best family whose holders can be, else the best, and why; None for none."""
        able, against = self._able(tools)
        if len(able) <= 1:
            return _only(able[0], against) if able else None
        ratings, failed = self._rated(able, tools)
        if not ratings:
            # what stands in its way is said where its holder is planned
            return _only(able[0], against)
        best, passed = ratings[0].family, [*against, *failed]
        edged = any(tool.body.grip(Blade) is not None for tool in tools)
        for rating in ratings:
            bared = edged and best.guards and not rating.family.guards
            why = BARES if bared else self.manner.trial(rating.family, tools, self.run)
            if not why:
                others = tuple(one for one in passed if one.name != rating.name)
                return rating.family, WhyFamily("least", rating.name, ratings, others)
            passed.append(PassedOver(rating.name, why))
        return best, WhyFamily("least", best.name, ratings)

    def staying(
        self, members: Sequence[OwnedTool], made: Mapping[str, str]
    ) -> tuple[list[tuple[Taken, OwnedTool]], list[OwnedTool]]:
        """Return tools that stay in the family of those of their kind that are made, and others."""
        stay: list[tuple[Taken, OwnedTool]] = []
        rest = list(members)

        def held(name: str, tools: Sequence[OwnedTool]) -> list[OwnedTool]:
            """Return all the tools when the family can hold them, else those that it can hold."""
            if tools and self._own(name, tools):
                return list(tools)
            return [tool for tool in tools if self._own(name, [tool])]

        for name in dict.fromkeys(made[tool.name] for tool in members if tool.name in made):
            kept = held(name, [tool for tool in rest if made.get(tool.name) == name])
            joined = held(name, [tool for tool in rest if tool.name not in made]) if kept else []
            gone = {tool.name for tool in (*kept, *joined)}
            inside = [tool for tool in rest if tool.name in gone]
            rest = [tool for tool in rest if tool.name not in gone]
            together = self._own(name, inside) if inside else None
            stay += [
                (taken, tool) for tool in inside if (taken := together or self._own(name, [tool]))
            ]
        return stay, rest

    def _own(self, name: str, tools: Sequence[OwnedTool]) -> Taken | None:
        """Return the family with the reason for it, when it can hold all the tools."""
        able, against = self._able(tools)
        family = next((one for one in able if one.name == name), None)
        if family is None or len(able) == 1:
            return family and _only(family, against)
        ratings, failed = self._rated(able, tools)
        if name not in {one.name for one in ratings}:
            return None
        if self.manner.trial(family, tools, self.run):
            return None
        ground = "least" if ratings[0].name == name else "made"
        return family, WhyFamily(ground, name, ratings, (*against, *failed))

    def _able(
        self, tools: Sequence[OwnedTool]
    ) -> tuple[tuple[Family, ...], tuple[PassedOver, ...]]:
        """Return the families that can hold the tools and may, and those that did not do."""
        hang = self.manner.recipe.hang
        able = choices([tool.body for tool in tools])
        if hang.lifted:
            able = tuple(one for one in able if not self._pulled(one, tools))
        against = self.manner.against(tools)
        names = {one.name for one in against}
        left = tuple(one for one in able if one.name not in names)
        # one that did not do is still better than none
        return left or able, against

    def _pulled(self, family: Family, tools: Sequence[OwnedTool]) -> bool:
        recipe = self.manner.recipe.of(family.name, (), tools[:1], run=self.run)
        try:
            return any(resists(seat) for seat in self.run.need(FRONT, recipe).seats)
        except DesignError:
            return True

    def _rated(
        self, able: Sequence[Family], tools: Sequence[OwnedTool]
    ) -> tuple[tuple[Rating, ...], tuple[PassedOver, ...]]:
        """Return what is found of some families, the best first."""
        names, order = {one.name for one in able}, self.manner.ranked(tools, self.run)
        return (
            tuple(one for one in order.ratings if one.name in names),
            tuple(one for one in order.passed if one.name in names),
        )


def _only(family: Family, against: tuple[PassedOver, ...]) -> Taken:
    return family, WhyFamily("left" if against else "only", family.name, passed=against)


@dataclass(frozen=True, eq=False)
class _Alike:
    """Tools that shall be held alike, and how their holders shall be.

    Args:
        recipe: What the recipes of the holders have in common.
        tools: The tools.
        together: Whether one holder has to hold them all.
    """

    recipe: SharedRecipe
    tools: tuple[OwnedTool, ...]
    together: bool


def _ranked(run: Run, alike: _Alike) -> Ranked:
    printer = alike.recipe.workshop.printer()

    def of(family: Family, tools: Sequence[OwnedTool]) -> Figures:
        recipe = alike.recipe.of(family.name, (), tools, run=run)
        return run.need(FIGURES, ToFigure(recipe, printer))

    def figured(family: Family) -> Figures:
        try:
            return of(family, alike.tools)
        except DesignError:
            if alike.together or len(alike.tools) == 1:
                raise
            # too much for one holder may well go into several
            return of(family, alike.tools[:1])

    bodies = [tool.body for tool in alike.tools]
    return ranked(choices(bodies), bodies, figured=figured, lifted=alike.recipe.hang.lifted)


def _alike_key(alike: _Alike) -> str:
    keys = tuple([alike.recipe.seat(tool).key for tool in alike.tools])
    return content_key((_figured_key(alike.recipe), alike.recipe.hang.lifted, keys, alike.together))


RANKED = Stage("families", _ranked, _alike_key)
"""From tools that shall be held alike to the families that can, the best first."""


def _figured_key(recipe: SharedRecipe) -> str:
    return content_key((recipe.key, recipe.workshop.printer()))


def choice_key(recipe: SharedRecipe) -> str:
    """Return the content key of everything but the tools that a family is chosen by."""
    workshop, hang = recipe.workshop, recipe.hang
    printer, poses = workshop.printer(), tuple(sorted(_poses(hang)))
    bed = (printer.bed_mm, printer.edge_mm)
    return content_key(
        (_context(workshop), poses, hang.lifted, hang.mount, hang.joint, recipe.fit or "", bed)
    )


def _context(workshop: Workshop) -> BuildContext:
    return BuildContext(
        plate_mm=workshop.defaults.plate_mm,
        line_mm=workshop.printer().line_mm,
        hand_room_mm=workshop.defaults.hand_room_mm,
        material=workshop.filament().material,
    )


def _poses(hang: Hang) -> frozenset[PrintPose]:
    interface = joint(hang.joint)
    return frozenset(mount(hang.back_mount).poses if interface is None else interface.poses)
