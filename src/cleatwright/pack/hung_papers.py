"""Whether what would be made now is what was made and hangs: parts and rails with their places."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from pydantic import BaseModel, ValidationError

from cleatwright.base.errors import OutputError, StorageError
from cleatwright.base.place import InFile
from cleatwright.design.carrying import part_names
from cleatwright.pack.job import Job
from cleatwright.pack.report_rows import rail_rows
from cleatwright.papers.report_model import RailRow
from cleatwright.workshop.document.reading import read_limited

REPORT = "report.json"
MOST_BYTES = 100_000_000
Made = Counter[tuple[str | float, ...]]
"""Marks, panels and places of parts; panels, names, places, profiles and studs of rails."""


class _At(BaseModel):
    panel: str
    x_mm: float
    z_mm: float


class _Part(BaseModel):
    mark: str
    place: _At


class _Rail(BaseModel):
    panel: str
    name: str
    z_top_mm: float
    x0_mm: float
    x1_mm: float
    thickness_mm: float
    height_mm: float
    bevel_deg: float
    studs_mm: tuple[float, ...]


class _Papers(BaseModel):
    holders: tuple[_Part, ...]
    carriers: tuple[_Part, ...]
    rails: tuple[_Rail, ...]


def papers_of(out: Path) -> Made:
    """Return what was made by the report of it.

    Raises:
        OutputError: There is no report, or none that can be read.
        StorageError: The file cannot be read.
    """
    path = out / REPORT
    try:
        papers = _Papers.model_validate_json(read_limited(path, most_bytes=MOST_BYTES))
    except FileNotFoundError:
        raise OutputError(
            "there is no report of a workshop that was made",
            place=InFile(str(path)),
            todo="Make the workshop, hang everything by its drawing, and then say so",
        ) from None
    except OSError as error:
        raise StorageError(
            f"The file cannot be read: {error.strerror}", place=InFile(str(path))
        ) from error
    except ValidationError as error:
        raise OutputError(
            f"the report cannot be read: {error.errors()[0]['msg']}",
            place=InFile(str(path)),
            todo="Make the workshop again",
        ) from None
    parts = (*papers.holders, *papers.carriers)
    made: Made = Counter(
        (part.mark, part.place.panel, part.place.x_mm, part.place.z_mm) for part in parts
    )
    made.update(_row(rail) for rail in papers.rails)
    return made


def papers_of_job(job: Job) -> Made:
    """Return what a job would make, as ``papers_of`` tells it."""
    names = part_names(job.units)
    made: Made = Counter(
        (names[key][1].mark, panel.panel.name, spot.place.x_mm, spot.place.z_mm)
        for panel in job.panels
        for key, spot in panel.spots.items()
    )
    made.update(_row(rail) for panel in job.panels for rail in rail_rows(panel))
    return made


def _row(rail: _Rail | RailRow) -> tuple[str | float, ...]:
    return (
        rail.panel,
        rail.name,
        rail.z_top_mm,
        rail.x0_mm,
        rail.x1_mm,
        rail.height_mm,
        rail.thickness_mm,
        rail.bevel_deg,
        *rail.studs_mm,
    )
