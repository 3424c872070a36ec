"""Which family each tool gets when the owner leaves it open: like tools of a group alike."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from cleatwright.base.errors import NoHolderError
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.equipment import OwnedTool, fit_of
from cleatwright.design.hang import Hang
from cleatwright.holders.choosing import Rating, ranked, reason, why_none
from cleatwright.holders.family import BuildContext, Family
from cleatwright.mounts.joints.registry import joint
from cleatwright.mounts.registry import mount
from cleatwright.parts.grips import Blade
from cleatwright.parts.holder import PrintPose
from cleatwright.parts.tool import FittedTool
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, tool_paths
from cleatwright.workshop.document.sections import FitName

NOTHING_MADE: Mapping[str, str] = MappingProxyType({})
OnBed = Callable[[Family, Sequence[OwnedTool]], bool]
"""Says whether the holders that a family makes for tools fit on the bed."""


@dataclass(frozen=True)
class FamilyGroup:
    """Tools that one family shall hold, and for each by name why."""

    family: Family
    tools: tuple[OwnedTool, ...]
    whys: tuple[tuple[str, str], ...]


def families_for(
    workshop: Workshop,
    tools: Sequence[OwnedTool],
    hang: Hang,
    *,
    fit: FitName | None,
    on_bed: OnBed,
    made: Mapping[str, str] = NOTHING_MADE,
    run: Run,
) -> tuple[list[FamilyGroup], list[NoHolderError]]:
    """Return the tools by the family that suits them best, with the reason, and what none holds.

    Tools of one kind and one group are held alike where a family can hold them all. A family
    whose holders are larger than the bed is passed over, but none that guards an edge for one
    that leaves it bare; where all are larger, the best is kept. What is made already stays in its
    family while that can hold it, and a new tool goes with others of its kind and group.

    Args:
        workshop: The workshop.
        tools: The tools.
        hang: How their holders hang.
        fit: The class of fit of their holder, or None.
        on_bed: Says whether holders fit on the bed.
        made: The family of each tool that is made already, by its name.
        run: The run that keeps what was computed before.
    """
    alike: dict[tuple[str, str], list[OwnedTool]] = {}
    for tool in tools:
        alike.setdefault((tool.body.kind, tool.group), []).append(tool)
    chosen: dict[str, list[tuple[OwnedTool, str]]] = {}
    families: dict[str, Family] = {}
    unheld: list[NoHolderError] = []

    def rated(some: Sequence[OwnedTool]) -> tuple[Rating, ...]:
        return _ranked(workshop, some, hang, fit, run)

    for members in alike.values():
        stay, rest = _staying(members, made, rated, on_bed)
        parts = [(rest, rated(rest))] if rest else []
        if rest and not parts[0][1]:
            parts = [([one], rated([one])) for one in rest]
        for some, ratings in parts:
            if not ratings:
                none = why_none(some[0].body, lifted=hang.lifted)
                unheld.append(none.at(first_of(*tool_paths(workshop, [some[0].name]))))
                continue
            best, why = _best_on_bed(ratings, some, on_bed)
            stay += [(best, tool, why) for tool in some]
        # in the order of the document, whoever stayed
        place = {tool.name: k for k, tool in enumerate(members)}
        for best, tool, why in sorted(stay, key=lambda row: place[row[1].name]):
            families[best.name] = best
            chosen.setdefault(best.name, []).append((tool, why))
    return [
        FamilyGroup(
            family=families[name],
            tools=tuple(tool for tool, _ in rows),
            whys=tuple((tool.name, why) for tool, why in rows),
        )
        for name, rows in chosen.items()
    ], unheld


MADE_SO = "its like are made so already"
_Held = tuple[Family, OwnedTool, str]


def _staying(
    members: Sequence[OwnedTool],
    made: Mapping[str, str],
    rated: Callable[[Sequence[OwnedTool]], tuple[Rating, ...]],
    on_bed: OnBed,
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
    ratings: Sequence[Rating], tools: Sequence[OwnedTool], on_bed: OnBed
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


def choice_key(workshop: Workshop, hang: Hang, fit: FitName | None) -> str:
    """Return the content key of everything but the tools that a family is chosen by."""
    printer, poses = workshop.printer(), tuple(sorted(_poses(hang)))
    bed = (printer.bed_mm, printer.edge_mm)
    return content_key(
        (_context(workshop), poses, hang.lifted, hang.mount, hang.joint, fit or "", bed)
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


def _ranked(
    workshop: Workshop, tools: Sequence[OwnedTool], hang: Hang, fit: FitName | None, run: Run
) -> tuple[Rating, ...]:
    ordered = sorted(tools, key=lambda tool: (tool.body.order_mm, tool.name))
    fits = [fit_of(workshop, tool.fit or fit) for tool in ordered]
    alike = _Alike(
        tools=tuple(tool.fitted(one) for tool, one in zip(ordered, fits, strict=True)),
        keys=tuple(tool.seat(one).key for tool, one in zip(ordered, fits, strict=True)),
        context=_context(workshop),
        poses=_poses(hang),
        lifted=hang.lifted,
    )
    return run.need(RATED, alike)


def _rated(_: Run, alike: _Alike) -> tuple[Rating, ...]:
    return ranked(alike.tools, alike.context, prints=alike.poses.__contains__, lifted=alike.lifted)


def _alike_key(alike: _Alike) -> str:
    poses = tuple(sorted(alike.poses))
    return content_key((alike.keys, alike.context, poses, alike.lifted))


RATED = Stage("families", _rated, _alike_key)
"""From tools that shall be held alike to the families that can, the best first."""
