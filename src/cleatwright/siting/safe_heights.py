"""Between which heights a holder hangs safely, for the hands that take what is in it.

What is heavy or sharp is taken no higher than the shoulder, and a hot thing too; glass, and what
holds a liquid, no higher than the eyes: nobody sees what stands in it, or what drips. A tool of
3 kg or more hangs where the lifting equation lets two hands take it. Where several people share the
wall, all this is by the smallest of those who take a tool, and it hangs where all of them reach it;
what can hurt hangs out of the reach of the children who do not take it. The owner may lift the
upper bound of a tool, and that for children, and says why; the reason goes with the cautions.

Source: common practice, no source, but for the lifting equation and the measures of the body.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.base.place import TableStep, at
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.lifting import LEAST_KG, LiftTask, check_lifting
from cleatwright.design.carrying import Unit
from cleatwright.design.equipment import OwnedTool
from cleatwright.parts.holder import Seat
from cleatwright.siting.children import KeptOff, below_hand_mm, kept_off
from cleatwright.siting.people import KnownPerson, on_panel, people_of
from cleatwright.siting.zone import Zone
from cleatwright.standards.table import Listed
from cleatwright.standards.tool_properties import ToolProperty
from cleatwright.statics.take_out import grip_z_mm
from cleatwright.wall.model import HeightBounds
from cleatwright.workshop.document.entries import NO_WISH, ToolItem
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


class SafeHeights:
    """The safe heights of everything on one panel.

    Args:
        workshop: The document.
        panel: The panel.
        unwished: The names of tools of whose heights the owner's wishes do not count.

    Raises:
        WallError: The hand of one who takes something does not reach it over the bench.
    """

    def __init__(self, workshop: Workshop, panel: Panel, *, unwished: Collection[str] = ()) -> None:
        self._panel = panel
        self.reaches = on_panel(workshop, panel)
        self._wishes = {
            name: NO_WISH if name in unwished else item.heights
            for name, item in items_by_name(workshop).items()
        }

    def bounds(self, unit: Unit) -> HeightBounds:
        """Return between which hang heights on the panel a unit hangs safely."""
        found = Zone(low_mm=-math.inf)
        lifted, lowered = list[tuple[float, str]](), list[tuple[float, str]]()
        contact = unit.outer.part.hanging.contact_z_mm
        for tool, seat, up_mm in _seats(unit):
            wish, hand = self._wishes[tool.name], grip_z_mm(seat)
            usual = self._usual(tool)
            if tool.body.mass_kg >= LEAST_KG:
                usual = self._lifting(usual, tool, seat, unit, hand)
            # from the height of the hand above the floor to the hang height on the panel
            to_hang = contact - up_mm - hand - self._panel.floor_gap_mm
            zone = self._wished(usual, tool, seat)
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
            kept = self._kept_off(tool)
            if kept is not None and wish.lowers(least := self._least_mm(kept, seat)):
                told = (
                    f"{tool.name} ({' and '.join(kept.what)}) hangs within the reach of "
                    f"{kept.child}, for its owner's reason: {wish.reason.rstrip('.')}."
                )
                lowered.append((least + to_hang, told))
        return HeightBounds(
            found.low_mm,
            found.high_mm,
            found.low_why,
            found.high_why,
            tuple(lifted),
            tuple(lowered),
        )

    def zone(self, tool: OwnedTool, seat: Seat) -> Zone:
        """Return between which heights the hand shall take a seated tool, but for its lifting."""
        return self._wished(self._usual(tool), tool, seat)

    def _usual(self, tool: OwnedTool) -> Zone:
        people = self.reaches.people
        takers = people.takers(tool.taken_by)
        zone = usual_zone(tool, takers, named=people.several)
        # a step is good enough for what nobody names, and is seldom used
        if people.several and (tool.taken_by or tool.use != "seldom"):
            for one in takers:
                band, how = self.reaches.bands[one.name], f"hangs where {one.name} reaches it"
                up_to = f"{how}, up to {said.mm(band.highest_mm, '.0f')} above the floor"
                since = f"{how}, from {said.mm(band.lowest_mm, '.0f')} above the floor"
                zone = zone.lowered_to(band.highest_mm, f'"{tool.name}" {up_to}', up_to)
                zone = zone.raised_to(band.lowest_mm, f'"{tool.name}" {since}', since)
        return zone

    def _kept_off(self, tool: OwnedTool) -> KeptOff | None:
        """Return from which child a tool is kept on the panel, if from any."""
        if self._panel.locked.strip():
            return None
        return kept_off(tool, self.reaches.people.kept_off(tool.taken_by))

    def _least_mm(self, kept: KeptOff, seat: Seat) -> float:
        """Return how high the hand on a tool is at the least whose lowest point a child leaves."""
        return kept.touches_mm + below_hand_mm(seat, grip_z_mm(seat))

    def _wished(self, zone: Zone, tool: OwnedTool, seat: Seat) -> Zone:
        """Return a zone with what children leave, and what the owner wishes."""
        wish, kept = self._wishes[tool.name], self._kept_off(tool)
        if kept is not None and not wish.lowers(least := self._least_mm(kept, seat)):
            why = f'"{tool.name}" ({" and ".join(kept.what)}) {kept.by}'
            zone = zone.raised_to(least, why, kept.by)
        if wish.highest_mm is not None:
            by = f"has a highest_height of {said.mm(wish.highest_mm, '.0f')}"
            if wish.lifts(zone.high_mm):
                zone = zone.without_top
            zone = zone.lowered_to(wish.highest_mm, f'"{tool.name}" {by}', by)
        if wish.lowest_mm is not None:
            by = f"has a lowest_height of {said.mm(wish.lowest_mm, '.0f')}"
            zone = zone.raised_to(wish.lowest_mm, f'"{tool.name}" {by}', by)
        return zone

    def _lifting(self, zone: Zone, tool: OwnedTool, seat: Seat, unit: Unit, hand: float) -> Zone:
        """Return the zone narrowed to where two hands may take a heavy tool, if there is any."""
        # the equation is for people who stand
        takers = [one for one in self.reaches.people.takers(tool.taken_by) if not one.seated]
        if not takers:
            return zone
        out = max(0.0, unit.outer.part.hanging.stand_off_mm + seat.com_mm[1])
        top = min(zone.high_mm, 2.0 * max(one.reach.stature_mm for one in takers))
        # the hands of the equation are at the middle of its weight
        off = seat.com_mm[2] - hand
        good = [
            height
            for height in (k * STEP_MM for k in range(int(top / STEP_MM) + 1))
            if height + off >= 0.0
            and all(self._may_lift(tool, height + off, out, one) for one in takers)
        ]
        if not good:
            return zone
        why = (
            f'"{tool.name}" ({said.mass(tool.body.mass_kg, ".1f")}) is taken with two hands, '
            f"by the lifting equation between {said.mm(good[0], '.0f')} and "
            f"{said.mm(good[-1], '.0f')} above the floor"
        )
        zone = zone.raised_to(good[0], why)
        return zone.lowered_to(good[-1], why) if good[-1] + STEP_MM <= top else zone

    def _may_lift(self, tool: OwnedTool, height_mm: float, out_mm: float, by: KnownPerson) -> bool:
        task = LiftTask(tool.name, tool.body.mass_kg, height_mm, out_mm)
        check = check_lifting(
            task,
            bench_depth_mm=self._panel.bench_depth_mm,
            brought_to_mm=by.reach.elbow_mm,
        )
        return check is None or check.holds


def usual_zone(tool: OwnedTool, takers: Sequence[KnownPerson], *, named: bool = False) -> Zone:
    """Return how high a tool is taken at the most, by what of it can hurt.

    Args:
        tool: The tool.
        takers: Who takes it; the smallest counts.
        named: Whether the bound says whose shoulder or eyes it is by.
    """
    zone = Zone()
    for what, height_of, where in (
        (BELOW_SHOULDER, _shoulder_mm, "shoulder"),
        (BELOW_EYES, _eyes_mm, "eyes"),
    ):
        found = [one for one in what if one in tool.properties]
        if found:
            least = min(takers, key=height_of)
            whose = f" of {least.name}" if named else ""
            by = (
                f"is taken no higher than the {where}{whose}, "
                f"{said.mm(height_of(least), '.0f')} above the floor"
            )
            why = f'"{tool.name}" ({" and ".join(found)}) {by}'
            zone = zone.lowered_to(height_of(least), why, by)
    return zone


def _shoulder_mm(one: KnownPerson) -> float:
    return one.reach.shoulder_mm


def _eyes_mm(one: KnownPerson) -> float:
    return one.reach.eye_mm


def faulty_heights(workshop: Workshop, tools: Iterable[OwnedTool]) -> dict[str, MeasureError]:
    """Return a fault for each tool whose wished heights cannot be, or are high without a reason.

    They stand by the names of the tools.
    """
    items, people = items_by_name(workshop), people_of(workshop)
    numbers = {one.name: number for number, one in enumerate(workshop.tools)}
    found: dict[str, MeasureError] = {}
    for tool in tools:
        item = items[tool.name]
        takers = people.takers(tool.taken_by)
        wish, usual = item.heights, usual_zone(tool, takers, named=people.several)
        table = ("tool", TableStep(numbers[item.tool], item.tool))
        if wish.reason:
            continue
        if wish.highest_mm is not None and wish.highest_mm > usual.high_mm:
            found[tool.name] = MeasureError(
                f'"{tool.name}" shall be taken from up to {said.mm(wish.highest_mm, ".0f")} '
                f"above the floor, but {usual.high_why}",
                place=at(*table, "highest_height"),
                allowed=f"up to {said.most(usual.high_mm)}",
                todo="Lower highest_height, or say in height_reason why it may hang so high",
            )
        elif wish.lowest_mm is not None and wish.lowest_mm >= usual.high_mm:
            found[tool.name] = MeasureError(
                f'"{tool.name}" shall be taken from no less than '
                f"{said.mm(wish.lowest_mm, '.0f')} above the floor, but {usual.high_why}",
                place=at(*table, "lowest_height"),
                allowed=f"less than {said.most(usual.high_mm)}",
                todo="Lower lowest_height, or write a highest_height above it, with a "
                "height_reason why it may hang so high",
            )
    return found


def items_by_name(workshop: Workshop) -> Mapping[str, ToolItem]:
    """Return the single tools of a document by their names."""
    return {item.name: item for item in workshop.items()}


def _seats(unit: Unit) -> Iterator[tuple[OwnedTool, Seat, float]]:
    """Yield each tool that is there with its seat, and how far its holder lies up in what hangs."""
    for planned, made, (_, _, up_mm) in zip(
        unit.planned.holders, unit.holders, unit.offsets_mm, strict=True
    ):
        for tool, seat in zip(planned.tools, made.part.seats, strict=True):
            if not tool.gone:
                yield tool, seat, up_mm
