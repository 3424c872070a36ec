"""What hangs on the wall: holders in one piece, and carriers with their holders."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import get_args

from cleatwright.base import said
from cleatwright.base.errors import BedError, CleatwrightError, DesignError
from cleatwright.base.gathering import noted, refuse
from cleatwright.base.keys import fields_key
from cleatwright.base.numbers import ranges
from cleatwright.base.place import InDocument, TableStep
from cleatwright.base.place import Path as Steps
from cleatwright.base.progress import tracked
from cleatwright.base.stages.run import Run
from cleatwright.design.bed_fit import fits_bed, usable_mm
from cleatwright.design.building import PART, BuiltPart
from cleatwright.design.describing import DESCRIBED, carrier_offsets, fitting_recipes
from cleatwright.design.equipment import OwnedTool
from cleatwright.design.hang import Fixed, Hang
from cleatwright.design.planned import PlannedHolder
from cleatwright.design.planning import FAULTS
from cleatwright.design.recipe import CarrierRecipe
from cleatwright.design.shared_carrier import SharedCarrier
from cleatwright.kernels.mesh import MeshBody
from cleatwright.parts.mirror import turned
from cleatwright.shapes.rigid import Vector
from cleatwright.workshop.document.entries import Use
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import carrier_path, first_of, holder_path, tool_paths
from cleatwright.workshop.document.references import chosen


@dataclass(frozen=True)
class PlannedUnit:
    """What hangs on the wall as one piece.

    Args:
        key: Its key on the wall: that of its holder, or of its carrier.
        name: A name for people.
        holders: Its holders, from left to right for the reader.
        carrier: The recipe of the carrier, or None for a holder in one piece.
        use: The most frequent use of its tools.
        group: The group of its tools, or "".
        panel: The name of the panel on which it hangs.
        fixed: Its fixed place, if the owner gave one.
    """

    key: str
    name: str
    holders: tuple[PlannedHolder, ...]
    carrier: CarrierRecipe | None
    use: Use
    group: str
    panel: str
    fixed: Fixed

    @property
    def numbers(self) -> str:
        """Return the numbers of its holders in all drawings, such as "4" or "4-6, 9"."""
        return ranges(sorted(one.number for one in self.holders))

    @property
    def tools(self) -> tuple[OwnedTool, ...]:
        """Return the tools that it holds, holder by holder, in the order of the seats."""
        return tuple(tool for one in self.holders for tool in one.present)


@dataclass(frozen=True)
class Unit:
    """A planned unit, built: the part that hangs, and its holders with their places on it.

    ``outer`` is the carrier, or the holder itself when it has none; ``fittings`` are those of it,
    in its own order.
    """

    planned: PlannedUnit
    outer: BuiltPart
    holders: tuple[BuiltPart, ...]
    offsets_mm: tuple[Vector, ...]
    fittings: tuple[BuiltPart, ...] = ()

    @cached_property
    def content_key(self) -> str:
        """The content key of everything in it, names included."""
        return fields_key(self)

    @property
    def carrier(self) -> BuiltPart | None:
        """Return the carrier, if there is one."""
        return self.outer if self.planned.carrier is not None else None

    def fittings_by_key(self) -> Iterator[tuple[str, BuiltPart]]:
        """Yield its fittings, each with a key among all parts."""
        for number, made in enumerate(self.fittings, 1):
            yield f"{self.planned.key}f{number}", made

    def fitting_bodies(self) -> tuple[MeshBody, ...]:
        """Return its fittings where they sit, in the frame of what hangs."""
        poses = (one.pose for one in self.outer.part.fittings)
        return tuple(
            made.body.placed(pose) for made, pose in zip(self.fittings, poses, strict=True)
        )

    @property
    def holds(self) -> bool:
        """Return True when every check of every part of it holds."""
        return all(one.holds for one in (self.outer, *self.holders, *self.fittings))


def plan_units(
    workshop: Workshop, holders: Sequence[PlannedHolder], *, run: Run
) -> tuple[PlannedUnit, ...]:
    """Return what hangs on the wall, in the order of the first holder of each.

    Raises:
        MeasureError: Parameters of a carrier that cannot be.
        DesignError: A carrier that cannot take its holders.
        BedError: A carrier that no printer can make.
    """
    units, faults = units_what_can_be(workshop, holders, run=run)
    refuse(faults, FAULTS)
    return units


def units_what_can_be(
    workshop: Workshop, holders: Sequence[PlannedHolder], *, run: Run
) -> tuple[tuple[PlannedUnit, ...], tuple[CleatwrightError, ...]]:
    """Return what of ``plan_units`` can be made, and the faults of the other carriers."""
    together: dict[str, list[PlannedHolder]] = {}
    for holder in holders:
        shared = f"carrier {holder.hang.carrier}" if holder.hang.carrier else holder.key
        together.setdefault(shared, []).append(holder)
    faults: list[CleatwrightError] = []
    units: list[PlannedUnit] = []
    carriers: dict[Hang, SharedCarrier] = {}
    for members in together.values():
        hang = members[0].hang
        shared = carriers.setdefault(hang, SharedCarrier(workshop, hang))
        with noted(faults):
            units.append(_unit(shared, tuple(members), run=run))
    return tuple(units), tuple(faults)


def _unit(shared: SharedCarrier, members: tuple[PlannedHolder, ...], *, run: Run) -> PlannedUnit:
    first = members[0]
    hang, name = first.hang, first.hang.carrier or first.name
    carrier = _carrier(shared, members, run=run) if hang.on_carrier else None
    groups = {one.group for one in members}
    uses = {one.use for one in members}
    return PlannedUnit(
        key=f"{first.key}c" if carrier else first.key,
        name=name,
        holders=members,
        carrier=carrier,
        use=next(use for use in get_args(Use) if use in uses),
        group=groups.pop() if len(groups) == 1 else "",
        panel=hang.panel,
        fixed=hang.fixed,
    )


def _carrier(
    shared: SharedCarrier, members: tuple[PlannedHolder, ...], *, run: Run
) -> CarrierRecipe:
    workshop = shared.workshop
    recipe = shared.of(turned([one.recipe for one in members]), run=run)
    try:
        part = run.need(DESCRIBED, recipe)
    except DesignError as error:
        raise error.at(_made_by(workshop, members)) from error
    if recipe.made_of == "plastic" and not fits_bed(part.bounds_mm, workshop.printer()):
        low, high = part.bounds_mm
        size = said.sides(b - a for a, b in zip(low, high, strict=True))
        bed = ("printer", TableStep(None, workshop.printer().name), "bed")
        raise BedError(
            f"the carrier for {', '.join(one.name for one in members)} is {size}",
            place=first_of(*_made_by(workshop, members).paths, bed),
            allowed=f"at most {said.sides(usable_mm(workshop.printer()), '')} in any pose",
            todo="Hang fewer holders on one carrier, or use a larger printer",
        )
    return recipe


def unit_table(workshop: Workshop, members: Sequence[PlannedHolder]) -> Steps:
    """Return the table of the document that says how a unit hangs.

    It is that of its carrier, of its holder, or of a tool when the document says no more.
    """
    carrier = members[0].hang.carrier
    if carrier:
        return carrier_path(workshop, carrier)
    names = {tool.name for member in members for tool in member.tools}
    items = workshop.items()
    for holder in workshop.holders:
        if names & {item.name for item in chosen(holder, items)}:
            return holder_path(workshop, holder)
    return tool_paths(workshop, names)[0]


def _made_by(workshop: Workshop, members: Sequence[PlannedHolder]) -> InDocument:
    """Return what makes a carrier as it is: its parameters, its holders and their tools."""
    table = unit_table(workshop, members)
    paths = [table]
    if members[0].hang.carrier:
        described = workshop.carrier(members[0].hang.carrier)
        paths += ((*table, "params", name) for name in described.params.as_dict())
        paths += ((*table, key) for key in ("joint", "made_of"))
        paths += (
            holder_path(workshop, holder)
            for holder in workshop.holders
            if holder.carrier == described.name
        )
    return first_of(*paths, *tool_paths(workshop, [t.name for one in members for t in one.tools]))


def build_units(planned: Sequence[PlannedUnit], run: Run) -> tuple[Unit, ...]:
    """Return the units, every part of them built."""
    return tuple(_built(unit, run) for unit in tracked(planned, "building holders", run))


def _built(unit: PlannedUnit, run: Run) -> Unit:
    holders = tuple(run.need(PART, one.recipe) for one in unit.holders)
    if unit.carrier is None:
        fittings = _fittings(holders[0], run)
        return Unit(unit, holders[0], holders, ((0.0, 0.0, 0.0),), fittings)
    # the recipe names its holders by growing x, the unit from left to right
    outer = run.need(PART, unit.carrier)
    offsets = turned(carrier_offsets(unit.carrier, run=run))
    return Unit(unit, outer, holders, offsets, _fittings(outer, run))


def _fittings(outer: BuiltPart, run: Run) -> tuple[BuiltPart, ...]:
    return tuple(run.need(PART, recipe) for recipe in fitting_recipes(outer.hung_as, outer.part))


def part_names(units: Sequence[Unit]) -> Mapping[str, tuple[str, BuiltPart]]:
    """Return every part, printed or of wood, by a key, with its name for people."""
    found: dict[str, tuple[str, BuiltPart]] = {}
    for unit in units:
        for holder, made in zip(unit.planned.holders, unit.holders, strict=True):
            found[holder.key] = (holder.name, made)
        if unit.carrier is not None:
            found[unit.planned.key] = (f"Carrier of {unit.planned.name}", unit.carrier)
        for key, made in unit.fittings_by_key():
            found[key] = (f"{made.part.family.capitalize()} of {unit.planned.name}", made)
    return found


def printed_parts(units: Sequence[Unit]) -> Mapping[str, tuple[str, BuiltPart]]:
    """Return every part that is printed by a key, with its name for people."""
    return {key: (name, made) for key, (name, made) in part_names(units).items() if made.printed}


def wooden_carriers(
    units: Sequence[Unit], *, but: frozenset[str] = frozenset()
) -> tuple[tuple[str, BuiltPart], ...]:
    """Return every carrier that is made of wood, with its name for people.

    Args:
        units: What hangs.
        but: The keys of those that are left out.
    """
    return tuple(
        (name, made)
        for key, (name, made) in part_names(units).items()
        if not made.printed and key not in but
    )
