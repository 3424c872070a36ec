"""Everything about a workshop, computed before any file is written."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from cleatwright.kernels.mesh import MeshKernel
from cleatwright.services.building import BuiltPart, build
from cleatwright.services.planning import PlannedHolder, plan
from cleatwright.services.production import Production, produce
from cleatwright.services.progress import Progress, Silent, tracked
from cleatwright.services.walls import arranged, wall_item
from cleatwright.services.woodwork import Woodwork, woodwork
from cleatwright.wall.model import Arrangement, Item
from cleatwright.workshop.model import Workshop
from cleatwright.workshop.store import document_path, load


@dataclass(frozen=True)
class Job:
    """Everything that was computed for a workshop, before any file is written."""

    workshop: Workshop
    planned: tuple[PlannedHolder, ...]
    built: tuple[BuiltPart, ...]
    items: tuple[Item, ...]
    arrangement: Arrangement
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
    planned = plan(workshop, where=where)
    built = tuple(
        build(holder.recipe, kernel) for holder in tracked(planned, "building holders", progress)
    )
    pairs = zip(planned, built, strict=True)
    names = {holder.key: holder.name for holder in planned}
    items = tuple(wall_item(holder, made, kernel) for holder, made in pairs)
    arrangement = arranged(workshop, items, where=where, names=names, progress=progress)
    work = woodwork(workshop, arrangement, where=where)
    production = produce(workshop, planned, built)
    return Job(workshop, planned, built, items, arrangement, work, production, kernel)
