"""Beds for the browser: what lies on each, and how it is seen."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from pydantic import Field

from cleatwright.base.factors import G_PER_KG
from cleatwright.base.lengths import length_words, show_area
from cleatwright.jobs.since_made import PartChange, SinceMade
from cleatwright.pack.bed_picture import HEIGHT_PX, WIDTH_PX, SeenBed
from cleatwright.pack.job import Job
from cleatwright.pack.partfiles import part_file_names
from cleatwright.pack.production import PlannedBatch
from cleatwright.web.rows.row import Row

Spot = tuple[float, float]
NEEDS_SUPPORT_MM2 = 0.005
State = Literal["new", "again", "as it was", "gone"]


class BedPartRow(Row):
    """One part on a bed; ``at`` is the place of its balloon in the picture."""

    label: str
    number: int | None
    name: str
    mark: str
    grams: float
    height: str
    support: str
    walls: int
    state: State
    at: Spot
    files: tuple[str, ...]


class BedRow(Row):
    """One bed, and the picture of it."""

    number: int
    name: str
    file: str
    made_as: str = Field(description="the file of the last making with the same parts, or none")
    printer: str
    parts: tuple[BedPartRow, ...]
    grams: float
    height: str
    picture: str
    size: Spot
    outline: tuple[Spot, ...]
    grid: tuple[tuple[Spot, Spot], ...]


def bed_rows(job: Job, beds: tuple[SeenBed, ...], since: SinceMade) -> tuple[BedRow, ...]:
    """Return the beds.

    Args:
        job: Everything that was computed.
        beds: What is seen of each of its batches.
        since: What became of each part since the last time.
    """
    changes = {one.mark: one for one in since.parts if one.what != "gone"}
    return tuple(
        _bed(job, number, batch, bed, changes, made_as=since.made_as(batch.marks))
        for number, (batch, bed) in enumerate(zip(job.production.batches, beds, strict=True), 1)
    )


def _bed(
    job: Job,
    number: int,
    batch: PlannedBatch,
    bed: SeenBed,
    changes: Mapping[str, PartChange],
    *,
    made_as: str,
) -> BedRow:
    unit = job.workshop.units
    labels = labels_of(job)
    printed = [one for one in job.production.by_key.values() if one.batch == batch.name]
    waiting = {one.key: one for one in printed}
    parts: list[BedPartRow] = []
    for mark, spot in zip(batch.marks, bed.tops_px, strict=True):
        key = next(one for one in waiting if job.parts[one][1].mark == mark)
        how = waiting.pop(key)
        name, made = job.parts[key]
        label, holder = labels[key]
        change = changes.get(mark)
        parts.append(
            BedPartRow(
                label=label,
                number=holder,
                name=name,
                mark=mark,
                grams=how.mass_kg * G_PER_KG,
                height=length_words(how.height_mm, unit, decimals=0),
                support=show_area(how.overhang_mm2, unit)
                if how.overhang_mm2 > NEEDS_SUPPORT_MM2
                else "",
                walls=how.walls.count,
                state="new" if change is None else change.what,
                at=spot,
                files=part_file_names(made)[:2],
            )
        )
    high = max((one.height_mm for one in printed), default=0.0)
    return BedRow(
        number=number,
        name=batch.name,
        file=batch.file,
        made_as=made_as,
        printer=batch.printer,
        parts=tuple(parts),
        grams=sum(one.mass_kg for one in printed) * G_PER_KG,
        height=length_words(high, unit, decimals=0),
        picture=bed.key[:16],
        size=(float(WIDTH_PX), float(HEIGHT_PX)),
        outline=bed.outline_px,
        grid=bed.grid_px,
    )


def labels_of(job: Job) -> dict[str, tuple[str, int | None]]:
    """Return by key what stands in the balloon of a part, and the number of its holder.

    It is that number, with a letter for a carrier, and with a second number for hangers and bolts.
    """
    labels: dict[str, tuple[str, int | None]] = {
        one.key: (str(one.number), one.number) for one in job.planned
    }
    for unit in job.units:
        if unit.carrier is not None:
            labels[unit.planned.key] = (f"C{unit.planned.holders[0].number}", None)
        outer, number = labels[unit.planned.key]
        for at, (key, _) in enumerate(unit.fittings_by_key(), 1):
            labels[key] = (f"{outer}.{at}", number)
    return labels
