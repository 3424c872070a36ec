"""Which family each tool gets when the owner leaves it open: like tools of a group alike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.holders.choosing import Rating, ranked, reason, why_none
from cleatwright.holders.family import BuildContext, Family
from cleatwright.mounts.joints import joint
from cleatwright.mounts.registry import mount
from cleatwright.parts.holder import PrintPose
from cleatwright.services.equipment import OwnedTool, fit_of
from cleatwright.services.hang import Hang
from cleatwright.workshop.model import Workshop
from cleatwright.workshop.sections import FitName


@dataclass(frozen=True)
class Bundle:
    """Tools that one family shall hold, and for each by name why."""

    family: Family
    tools: tuple[OwnedTool, ...]
    whys: tuple[tuple[str, str], ...]


def families_for(
    workshop: Workshop, tools: Sequence[OwnedTool], hang: Hang, *, fit: FitName | None
) -> list[Bundle]:
    """Return the tools by the family that suits them best, with the reason.

    Tools of one kind and one group are held alike where a family can hold them all.

    Raises:
        NoHolderError: A tool that no family can hold.
    """
    alike: dict[tuple[str, str], list[OwnedTool]] = {}
    for tool in tools:
        alike.setdefault((tool.body.kind, tool.group), []).append(tool)
    chosen: dict[str, list[tuple[OwnedTool, Sequence[Rating]]]] = {}
    for members in alike.values():
        rated = _ranked(workshop, members, hang, fit)
        parts = [(members, rated)]
        if not rated:
            parts = [([one], _ranked(workshop, [one], hang, fit)) for one in members]
        for some, ratings in parts:
            if not ratings:
                raise why_none(some[0].body, name=some[0].name, lifted=hang.lifted)
            best = ratings[0].family
            chosen.setdefault(best.name, []).extend((tool, ratings) for tool in some)
    return [
        Bundle(
            family=rows[0][1][0].family,
            tools=tuple(tool for tool, _ in rows),
            whys=tuple((tool.name, reason(ratings)) for tool, ratings in rows),
        )
        for rows in chosen.values()
    ]


def _ranked(
    workshop: Workshop, tools: Sequence[OwnedTool], hang: Hang, fit: FitName | None
) -> tuple[Rating, ...]:
    ctx = BuildContext(
        plate_mm=workshop.defaults.plate_mm,
        line_mm=workshop.printer().line_mm,
        hand_room_mm=workshop.defaults.hand_room_mm,
    )
    ordered = sorted(tools, key=lambda tool: (tool.body.order_mm, tool.name))
    fitted = [tool.fitted(fit_of(workshop, tool.fit or fit)) for tool in ordered]
    meeting = joint(hang.joint)
    poses = mount(hang.mount).poses if meeting is None else meeting.poses

    def prints(pose: PrintPose) -> bool:
        return pose in poses

    return ranked(fitted, ctx, prints=prints, lifted=hang.lifted)
