"""Everything about a workshop, computed before any file is written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from cleatwright.kernels.mesh import MeshKernel
from cleatwright.services.building import BuiltPart
from cleatwright.services.carrier_papers import carrier_wood
from cleatwright.services.carrying import (
    Unit,
    build_units,
    plan_units,
    printed_parts,
    wooden_carriers,
)
from cleatwright.services.planning import PlannedHolder, plan
from cleatwright.services.production import Production, produce
from cleatwright.services.progress import Progress, Silent
from cleatwright.services.walls import Spot, arranged, crossings_of, spots_of, wall_item
from cleatwright.services.woodwork import Woodwork, woodwork
from cleatwright.wall.model import Arrangement, Item
from cleatwright.wall.rails import StudCrossing
from cleatwright.workshop.model import Workshop
from cleatwright.workshop.store import document_path, load


@dataclass(frozen=True)
class Job:
    """Everything that was computed for a workshop, before any file is written.

    ``planned`` and ``built`` are the holders, unit by unit; ``items`` are the units as the
    wall sees them, ``spots`` the place of every part by its key.
    """

    workshop: Workshop
    units: tuple[Unit, ...]
    planned: tuple[PlannedHolder, ...]
    built: tuple[BuiltPart, ...]
    items: tuple[Item, ...]
    arrangement: Arrangement
    spots: Mapping[str, Spot]
    crossings: tuple[StudCrossing, ...]
    woodwork: Woodwork
    production: Production
    kernel: MeshKernel


def compute(place: Path, *, progress: Progress | None = None) -> Job:
    """Return everything about a workshop, from its document to batches, and write nothing.

    Raises:
        CleatwrightError: The first thing that stands in the way.
    """
    progress = progress or Silent()
    workshop = load(place)
    kernel = MeshKernel()
    where = str(document_path(place))
    wanted = plan_units(
        workshop, plan(workshop, where=where, folder=document_path(place).parent), where=where
    )
    units = build_units(wanted, kernel, progress)
    planned = tuple(holder for unit in units for holder in unit.planned.holders)
    names = {unit.planned.key: unit.planned.name for unit in units}
    items = tuple(wall_item(unit, kernel) for unit in units)
    arrangement = arranged(workshop, items, where=where, names=names, progress=progress)
    return Job(
        workshop=workshop,
        units=units,
        planned=planned,
        built=tuple(made for unit in units for made in unit.holders),
        items=items,
        arrangement=arrangement,
        spots=spots_of(units, arrangement),
        crossings=crossings_of(workshop, arrangement),
        woodwork=woodwork(
            workshop, arrangement, where=where, carriers=carrier_wood(wooden_carriers(units))
        ),
        production=produce(workshop, printed_parts(units)),
        kernel=kernel,
    )
