"""Between which heights a holder hangs safely, for the hands that take what is in it.

What is heavy or sharp is taken no higher than the shoulder, and a hot thing too; glass, and what
holds a liquid, no higher than the eyes: nobody sees what stands in it, or what drips. A tool of
3 kg or more hangs where the lifting equation lets two hands take it. The owner may lift the upper
bound of a tool and says why; the reason goes with the cautions.

Source: common practice, no source, but for the lifting equation and the measures of the body.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.base.place import TableStep, at
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.lifting import LEAST_KG, LiftTask, check_lifting
from cleatwright.design.carrying import Unit
from cleatwright.design.equipment import OwnedTool
from cleatwright.parts.holder import Seat
from cleatwright.siting.walls import reach_person
from cleatwright.standards.people.body_segments import segment_mm
from cleatwright.standards.table import Listed
from cleatwright.standards.tool_properties import ToolProperty
from cleatwright.statics.take_out import grip_z_mm
from cleatwright.wall.model import HeightBounds
from cleatwright.wall.reach import PersonReach
from cleatwright.workshop.document.entries import HeightWish, ToolItem
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import Panel

BELOW_SHOULDER: tuple[ToolProperty, ...] = ("heavy", "sharp", "hot")
BELOW_EYES: tuple[ToolProperty, ...] = ("glass", "liquid")
PRACTICE = Source(
    "no heavy or sharp thing above the shoulder, no glass or liquid above the eyes",
    "common practice, no source",
    Evidence.PRACTICE,
)
# the steps in which the heights of the lifting equation are looked through
STEP_MM = 10.0
VALUES = (Listed("Reach", "step of heights for lifting mm", STEP_MM, PRACTICE),)


@dataclass(frozen=True)
class Zone:
    """Between which heights above the floor the hand shall take a tool, and why."""

    low_mm: float = 0.0
    high_mm: float = math.inf
    low_why: str = ""
    high_why: str = ""

    def lowered_to(self, high_mm: float, why: str) -> Zone:
        """Return the zone with an upper bound that is no higher."""
        if high_mm >= self.high_mm:
            return self
        return Zone(self.low_mm, high_mm, self.low_why, why)

    def raised_to(self, low_mm: float, why: str) -> Zone:
        """Return the zone with a lower bound that is no lower."""
        if low_mm <= self.low_mm:
            return self
        return Zone(low_mm, self.high_mm, why, self.high_why)


class SafeHeights:
    """The safe heights of everything on one panel.

    Args:
        workshop: The document.
        panel: The panel.
    """

    def __init__(self, workshop: Workshop, panel: Panel) -> None:
        self._panel = panel
        self._person = reach_person(workshop.person)
        self._items = items_by_name(workshop)

    def bounds(self, unit: Unit) -> HeightBounds:
        """Return between which hang heights on the panel a unit hangs safely."""
        found, lifted = Zone(low_mm=-math.inf), list[tuple[float, str]]()
        contact = unit.outer.part.hanging.contact_z_mm
        for tool, seat, up_mm in _seats(unit):
            wish, hand = self._items[tool.name].heights, grip_z_mm(seat)
            usual = self._usual(tool, seat, unit, hand)
            # from the height of the hand above the floor to the hang height on the panel
            to_hang = contact - up_mm - hand - self._panel.floor_gap_mm
            zone = _wished(usual, wish, tool.name)
            found = found.lowered_to(zone.high_mm + to_hang, zone.high_why)
            if zone.low_why:
                found = found.raised_to(zone.low_mm + to_hang, zone.low_why)
            if wish.lifts(usual.high_mm):
                told = (
                    f"{tool.name} is taken from higher than the {said.mm(usual.high_mm, '.0f')} "
                    "above the floor that are usual for it, for its owner's reason: "
                    f"{wish.reason.rstrip('.')}."
                )
                lifted.append((usual.high_mm + to_hang, told))
        return HeightBounds(
            found.low_mm, found.high_mm, found.low_why, found.high_why, tuple(lifted)
        )

    def _usual(self, tool: OwnedTool, seat: Seat, unit: Unit, hand: float) -> Zone:
        zone = usual_zone(tool, self._person)
        if tool.body.mass_kg >= LEAST_KG:
            zone = self._lifting(zone, tool, seat, unit, hand)
        return zone

    def _lifting(self, zone: Zone, tool: OwnedTool, seat: Seat, unit: Unit, hand: float) -> Zone:
        """Return the zone narrowed to where two hands may take a heavy tool, if there is any."""
        out = max(0.0, unit.outer.part.hanging.stand_off_mm + seat.com_mm[1])
        top = min(zone.high_mm, 2.0 * self._person.stature_mm)
        # the hands of the equation are at the middle of its weight
        off = seat.com_mm[2] - hand
        good = [
            height
            for height in (k * STEP_MM for k in range(int(top / STEP_MM) + 1))
            if height + off >= 0.0 and self._may_lift(tool, height + off, out)
        ]
        if not good:
            return zone
        why = (
            f'"{tool.name}" ({tool.body.mass_kg:.1f} kg) is taken with two hands, by the lifting '
            f"equation between {said.mm(good[0], '.0f')} and {said.mm(good[-1], '.0f')} above the "
            "floor"
        )
        zone = zone.raised_to(good[0], why)
        return zone.lowered_to(good[-1], why) if good[-1] + STEP_MM <= top else zone

    def _may_lift(self, tool: OwnedTool, height_mm: float, out_mm: float) -> bool:
        task = LiftTask(tool.name, tool.body.mass_kg, height_mm, out_mm)
        check = check_lifting(
            task,
            bench_depth_mm=self._panel.bench_depth_mm,
            brought_to_mm=self._person.elbow_mm,
        )
        return check is None or check.holds


def usual_zone(tool: OwnedTool, person: PersonReach) -> Zone:
    """Return how high a tool is taken at the most, by what of it can hurt."""
    zone = Zone()
    eyes = segment_mm("eye height", stature_mm=person.stature_mm)
    for what, high, where in (
        (BELOW_SHOULDER, person.shoulder_mm, "shoulder"),
        (BELOW_EYES, eyes, "eyes"),
    ):
        found = [one for one in what if one in tool.properties]
        if found:
            why = (
                f'"{tool.name}" ({" and ".join(found)}) is taken no higher than the {where}, '
                f"{said.mm(high, '.0f')} above the floor"
            )
            zone = zone.lowered_to(high, why)
    return zone


def faulty_heights(workshop: Workshop, tools: Iterable[OwnedTool]) -> list[MeasureError]:
    """Return a fault for each tool whose wished heights cannot be, or are high without a reason."""
    items, person = items_by_name(workshop), reach_person(workshop.person)
    numbers = {one.name: number for number, one in enumerate(workshop.tools)}
    found: list[MeasureError] = []
    for tool in tools:
        item = items[tool.name]
        wish, usual = item.heights, usual_zone(tool, person)
        table = ("tool", TableStep(numbers[item.tool], item.tool))
        if wish.reason:
            continue
        if wish.highest_mm is not None and wish.highest_mm > usual.high_mm:
            found.append(
                MeasureError(
                    f'"{tool.name}" shall be taken from up to {said.mm(wish.highest_mm, ".0f")} '
                    f"above the floor, but {usual.high_why}",
                    place=at(*table, "highest_height"),
                    allowed=f"up to {said.most(usual.high_mm)}",
                    todo="Lower highest_height, or say in height_reason why it may hang so high",
                )
            )
        elif wish.lowest_mm is not None and wish.lowest_mm >= usual.high_mm:
            found.append(
                MeasureError(
                    f'"{tool.name}" shall be taken from no less than '
                    f"{said.mm(wish.lowest_mm, '.0f')} above the floor, but {usual.high_why}",
                    place=at(*table, "lowest_height"),
                    allowed=f"less than {said.most(usual.high_mm)}",
                    todo="Lower lowest_height, or write a highest_height above it, with a "
                    "height_reason why it may hang so high",
                )
            )
    return found


def items_by_name(workshop: Workshop) -> Mapping[str, ToolItem]:
    """Return the single tools of a document by their names."""
    return {item.name: item for item in workshop.items()}


def _seats(unit: Unit) -> Iterator[tuple[OwnedTool, Seat, float]]:
    """Yield each tool with its seat, and how far its holder lies above the frame of what hangs."""
    for planned, made, (_, _, up_mm) in zip(
        unit.planned.holders, unit.holders, unit.offsets_mm, strict=True
    ):
        for tool, seat in zip(planned.tools, made.part.seats, strict=True):
            yield tool, seat, up_mm


def _wished(zone: Zone, wish: HeightWish, name: str) -> Zone:
    if wish.highest_mm is not None:
        why = f'"{name}" has a highest_height of {said.mm(wish.highest_mm, ".0f")}'
        if wish.lifts(zone.high_mm):
            zone = Zone(zone.low_mm, math.inf, zone.low_why, "")
        zone = zone.lowered_to(wish.highest_mm, why)
    if wish.lowest_mm is not None:
        why = f'"{name}" has a lowest_height of {said.mm(wish.lowest_mm, ".0f")}'
        zone = zone.raised_to(wish.lowest_mm, why)
    return zone
