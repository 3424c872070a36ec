"""Which family each tool gets when the owner leaves it open: like tools of a group alike."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

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

OnBed = Callable[[Family, Sequence[OwnedTool]], bool]
"""Says whether the holders that a family makes for tools fit on the bed."""


@dataclass(frozen=True)
class Bundle:
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
    run: Run,
) -> tuple[list[Bundle], list[NoHolderError]]:
    """Return the tools by the family that suits them best, with the reason, and what none holds.

    Tools of one kind and one group are held alike where a family can hold them all. A family
    whose holders are larger than the bed is passed over, but none that guards an edge for one
    that leaves it bare; where all are larger, the best is kept.
    """
    alike: dict[tuple[str, str], list[OwnedTool]] = {}
    for tool in tools:
        alike.setdefault((tool.body.kind, tool.group), []).append(tool)
    chosen: dict[str, list[tuple[OwnedTool, str]]] = {}
    families: dict[str, Family] = {}
    unheld: list[NoHolderError] = []
    for members in alike.values():
        rated = _ranked(workshop, members, hang, fit, run)
        parts = [(members, rated)]
        if not rated:
            parts = [([one], _ranked(workshop, [one], hang, fit, run)) for one in members]
        for some, ratings in parts:
            if not ratings:
                none = why_none(some[0].body, lifted=hang.lifted)
                unheld.append(none.at(first_of(*tool_paths(workshop, [some[0].name]))))
                continue
            best, why = _best_on_bed(ratings, some, on_bed)
            families[best.name] = best
            chosen.setdefault(best.name, []).extend((tool, why) for tool in some)
    return [
        Bundle(
            family=families[name],
            tools=tuple(tool for tool, _ in rows),
            whys=tuple((tool.name, why) for tool, why in rows),
        )
        for name, rows in chosen.items()
    ], unheld


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


def _ranked(
    workshop: Workshop, tools: Sequence[OwnedTool], hang: Hang, fit: FitName | None, run: Run
) -> tuple[Rating, ...]:
    ordered = sorted(tools, key=lambda tool: (tool.body.order_mm, tool.name))
    fits = [fit_of(workshop, tool.fit or fit) for tool in ordered]
    meeting = joint(hang.joint)
    alike = _Alike(
        tools=tuple(tool.fitted(one) for tool, one in zip(ordered, fits, strict=True)),
        keys=tuple(tool.seat(one).key for tool, one in zip(ordered, fits, strict=True)),
        context=BuildContext(
            plate_mm=workshop.defaults.plate_mm,
            line_mm=workshop.printer().line_mm,
            hand_room_mm=workshop.defaults.hand_room_mm,
            material=workshop.filament().material,
        ),
        poses=frozenset(mount(hang.mount).poses if meeting is None else meeting.poses),
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
