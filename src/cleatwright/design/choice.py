"""Which family each tool gets when the owner leaves it open: like tools of a group alike."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import Protocol

from cleatwright.base.errors import NoHolderError
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.equipment import OwnedTool
from cleatwright.design.hang import Hang
from cleatwright.design.shared_recipe import SharedRecipe
from cleatwright.holders.choosing import Rating, ranked, reason, why_none
from cleatwright.holders.family import BuildContext, Family
from cleatwright.mounts.joints.registry import joint
from cleatwright.mounts.registry import mount
from cleatwright.parts.grips import Blade
from cleatwright.parts.holder import PrintPose
from cleatwright.parts.tool import FittedTool
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, tool_paths

NOTHING_MADE: Mapping[str, str] = MappingProxyType({})


class OnBed(Protocol):
    """Says whether the holders that a family makes for tools fit on the bed."""

    @property
    def key(self) -> str:
        """Return the content key of all that it goes by but the tools."""
        ...

    def __call__(self, chosen: Family, tools: Sequence[OwnedTool], run: Run) -> bool:
        """Return True when they fit."""
        ...


@dataclass(frozen=True)
class FamilyGroup:
    """Tools that one family shall hold, and for each by name why."""

    family: Family
    tools: tuple[OwnedTool, ...]
    whys: tuple[tuple[str, str], ...]


@dataclass(frozen=True, eq=False)
class Manner:
    """How holders shall be for which families are chosen.

    Args:
        recipe: What the recipes of the holders have in common.
        on_bed: Says whether holders fit on the bed.
    """

    recipe: SharedRecipe
    on_bed: OnBed

    @cached_property
    def key(self) -> str:
        """The content key of all but the tools that families are chosen by."""
        return content_key((choice_key(self.recipe), self.on_bed.key))

    @cached_property
    def context(self) -> BuildContext:
        """What a family must know of the outside."""
        return _context(self.recipe.workshop)

    @cached_property
    def poses(self) -> frozenset[PrintPose]:
        """The poses in which the back of a holder prints without support."""
        return _poses(self.recipe.hang)

    def ranked(self, tools: Sequence[OwnedTool], run: Run) -> tuple[Rating, ...]:
        """Return the families that can hold all the tools, the best first."""
        ordered = sorted(tools, key=lambda tool: (tool.body.order_mm, tool.name))
        alike = _Alike(
            tools=tuple([tool.fitted(self.recipe.fit_of(tool)) for tool in ordered]),
            keys=tuple([self.recipe.seat(tool).key for tool in ordered]),
            context=self.context,
            poses=self.poses,
            lifted=self.recipe.hang.lifted,
        )
        return run.need(RATED, alike)


def families_for(
    manner: Manner,
    tools: Sequence[OwnedTool],
    *,
    made: Mapping[str, str] = NOTHING_MADE,
    run: Run,
) -> tuple[list[FamilyGroup], list[NoHolderError]]:
    """Return the tools by the family that suits them best, with the reason, and what none holds.

    Tools of one kind and one group are held alike where a family can hold them all. A family
    whose holders are larger than the bed is passed over, but none that guards an edge for one
    that leaves it bare; where all are larger, the best is kept. What is made already stays in its
    family while that can hold it, and a new tool goes with others of its kind and group.

    Args:
        manner: How their holders shall be.
        tools: The tools.
        made: The family of each tool that is made already, by its name.
        run: The run that keeps what was computed before.
    """
    alike: dict[tuple[str, str], list[OwnedTool]] = {}
    for tool in tools:
        alike.setdefault((tool.body.kind, tool.group), []).append(tool)
    chosen: dict[str, list[tuple[OwnedTool, str]]] = {}
    families: dict[str, Family] = {}
    unheld: list[NoHolderError] = []
    for members in alike.values():
        already = tuple([made.get(tool.name, "") for tool in members])
        choices = run.need(CHOSEN, _Members(manner, tuple(members), already))
        for tool, (best, why) in zip(members, choices, strict=True):
            if best is None:
                none = why_none(
                    tool.body, lifted=manner.recipe.hang.lifted, measures=dict(tool.measures)
                )
                unheld.append(none.at(first_of(*tool_paths(manner.recipe.workshop, [tool.name]))))
            else:
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


_Chosen = tuple[tuple[Family | None, str], ...]


def _chosen(run: Run, given: _Members) -> _Chosen:
    manner, members = given.manner, given.tools
    made = {tool.name: name for tool, name in zip(members, given.made, strict=True) if name}

    def rated(some: Sequence[OwnedTool]) -> tuple[Rating, ...]:
        return manner.ranked(some, run)

    def on_bed(family: Family, some: Sequence[OwnedTool]) -> bool:
        return manner.on_bed(family, some, run)

    stay, rest = _staying(members, made, rated, on_bed)
    parts = [(rest, rated(rest))] if rest else []
    if rest and not parts[0][1]:
        parts = [([one], rated([one])) for one in rest]
    found: dict[str, tuple[Family | None, str]] = {tool.name: (one, w) for one, tool, w in stay}
    for some, ratings in parts:
        best, why = _best_on_bed(ratings, some, on_bed) if ratings else (None, "")
        found |= {tool.name: (best, why) for tool in some}
    # in the order of the document, whoever stayed
    return tuple([found[tool.name] for tool in members])


def _chosen_key(given: _Members) -> str:
    seat = given.manner.recipe.seat
    rows = zip(given.tools, given.made, strict=True)
    return content_key(
        (given.manner.key, tuple([(tool.name, seat(tool).key, made) for tool, made in rows]))
    )


CHOSEN = Stage("family of like tools", _chosen, _chosen_key)
"""From tools of one kind and group to the family of each with the reason, or None."""


MADE_SO = "its like are made so already"
_Held = tuple[Family, OwnedTool, str]
_Fits = Callable[[Family, Sequence[OwnedTool]], bool]


def _staying(
    members: Sequence[OwnedTool],
    made: Mapping[str, str],
    rated: Callable[[Sequence[OwnedTool]], tuple[Rating, ...]],
    on_bed: _Fits,
) -> tuple[list[_Held], list[OwnedTool]]:
    """Return tools that stay in the family of those of their kind that are made, and the rest."""
    stay: list[_Held] = []
    rest = list(members)

    def own(name: str, tools: Sequence[OwnedTool]) -> tuple[Family, str] | None:
        """Return the family with the reason for it, when it can hold all the tools."""
        ratings = rated(tools)
        found = next((one for one in ratings if one.family.name == name), None)
        if found is None or not on_bed(found.family, tools):
            return None
        first = ratings[0] is found
        return found.family, reason(ratings) if first else f"{found.words}; {MADE_SO}"

    def held(name: str, tools: Sequence[OwnedTool]) -> list[OwnedTool]:
        """Return all the tools when the family can hold them, else those that it can hold."""
        if tools and own(name, tools):
            return list(tools)
        return [tool for tool in tools if own(name, [tool])]

    for name in dict.fromkeys(made[tool.name] for tool in members if tool.name in made):
        kept = held(name, [tool for tool in rest if made.get(tool.name) == name])
        joined = held(name, [tool for tool in rest if tool.name not in made]) if kept else []
        gone = {tool.name for tool in (*kept, *joined)}
        inside = [tool for tool in rest if tool.name in gone]
        rest = [tool for tool in rest if tool.name not in gone]
        together = own(name, inside) if inside else None
        stay += [
            (chosen[0], tool, chosen[1])
            for tool in inside
            if (chosen := together or own(name, [tool]))
        ]
    return stay, rest


def _best_on_bed(
    ratings: Sequence[Rating], tools: Sequence[OwnedTool], on_bed: _Fits
) -> tuple[Family, str]:
    """Return the best family whose holders fit on the bed, else the best, and why."""
    best = ratings[0].family
    if on_bed(best, tools):
        return best, reason(ratings)
    edged = any(tool.body.grip(Blade) is not None for tool in tools)
    for rating in ratings[1:]:
        bared = edged and best.guards and not rating.family.guards
        if not bared and on_bed(rating.family, tools):
            return rating.family, f"{rating.words}; {best.name} would be too large for the bed"
    return best, reason(ratings)


@dataclass(frozen=True)
class _Alike:
    """Tools that shall be held alike, and what their holder must be fit for."""

    tools: tuple[FittedTool, ...]
    keys: tuple[str, ...]
    context: BuildContext
    poses: frozenset[PrintPose]
    lifted: bool


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
    return frozenset(mount(hang.mount).poses if interface is None else interface.poses)


def _rated(_: Run, alike: _Alike) -> tuple[Rating, ...]:
    return ranked(alike.tools, alike.context, prints=alike.poses.__contains__, lifted=alike.lifted)


def _alike_key(alike: _Alike) -> str:
    poses = tuple(sorted(alike.poses))
    return content_key((alike.keys, alike.context, poses, alike.lifted))


RATED = Stage("families", _rated, _alike_key)
"""From tools that shall be held alike to the families that can, the best first."""
