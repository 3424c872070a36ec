"""From what was computed to rows of holders and places."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from cleatwright.design.carrying import Unit
from cleatwright.jobs.rows import MadeRow, SpotRow
from cleatwright.pack.job import Job
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.walls import Spot
from cleatwright.wall.model import Scores


@dataclass(frozen=True)
class CostRow:
    """What the place of one holder, or of a carrier with its holders, costs.

    Args:
        numbers: The numbers of its holders in all drawings.
        name: A name for people.
        spot: Where it hangs.
        points: What that costs, by reason.
    """

    numbers: tuple[int, ...]
    name: str
    spot: SpotRow
    points: Scores


def made_rows(job: Job) -> tuple[MadeRow, ...]:
    """Return the holders of a job by their numbers."""
    rows: list[MadeRow] = []
    for unit in job.units:
        loaded = [one for one in unit.outer.standing if one.of_load]
        used, plate_used = (
            max((one.utilisation for one in loaded if one.by_design is sized), default=None)
            for sized in (False, True)
        )
        for planned, made in zip(unit.planned.holders, unit.holders, strict=True):
            spot = job.spots[planned.key]
            rows.append(
                MadeRow(
                    number=planned.number,
                    mark=made.mark,
                    name=planned.name,
                    family=made.part.family,
                    size_mm=made.body.facts.size_mm,
                    load_kg=planned.load_kg,
                    spot=_spot_row(spot, panel=unit.planned.panel, mount=planned.hang.mount),
                    used=used,
                    plate_used=plate_used,
                )
            )
    return tuple(sorted(rows, key=lambda row: row.number))


def place_rows(job: PanelJob, costs: Mapping[str, Scores]) -> tuple[CostRow, ...]:
    """Return the places of a panel by the numbers of their holders.

    Args:
        job: The panel.
        costs: What each place costs, by the key of what hangs there.
    """
    rows = (
        CostRow(
            numbers=tuple(sorted(one.number for one in unit.planned.holders)),
            name=unit.planned.name,
            spot=spot_of(job, unit),
            points=costs[unit.planned.key],
        )
        for unit in job.units
    )
    return tuple(sorted(rows, key=lambda row: row.numbers))


def spot_of(job: PanelJob, unit: Unit) -> SpotRow:
    """Return where a unit of a panel hangs."""
    mount = unit.planned.holders[0].hang.mount
    return _spot_row(job.spots[unit.planned.key], panel=job.panel.name, mount=mount)


def _spot_row(spot: Spot, *, panel: str, mount: str) -> SpotRow:
    rail = spot.rail.name if spot.rail else ""
    return SpotRow(panel, rail, mount, spot.place.x_mm, spot.place.z_mm)
