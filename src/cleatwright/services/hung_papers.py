"""Whether what would be made now is what was made and hangs: parts and rails with their places."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from pydantic import BaseModel, ValidationError

from cleatwright.base.errors import OutputError, StorageError
from cleatwright.services.carrying import part_names
from cleatwright.services.job import Job

REPORT = "report.json"
Made = Counter[tuple[str | float, ...]]
"""Marks and places of parts; panels, names, places and profiles of rails."""


class _At(BaseModel):
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
        papers = _Papers.model_validate_json(path.read_bytes())
    except FileNotFoundError:
        raise OutputError(
            "there is no report of a workshop that was made",
            where=str(path),
            todo="Make the workshop, hang everything by its drawing, and then say so",
        ) from None
    except OSError as error:
        raise StorageError(f"The file cannot be read: {error.strerror}", where=str(path)) from error
    except ValidationError as error:
        raise OutputError(
            f"the report cannot be read: {error.errors()[0]['msg']}",
            where=str(path),
            todo="Make the workshop again",
        ) from None
    parts = (*papers.holders, *papers.carriers)
    made: Made = Counter((part.mark, part.place.x_mm, part.place.z_mm) for part in parts)
    made.update(
        (
            rail.panel,
            rail.name,
            rail.z_top_mm,
            rail.x0_mm,
            rail.x1_mm,
            rail.height_mm,
            rail.thickness_mm,
            rail.bevel_deg,
        )
        for rail in papers.rails
    )
    return made


def papers_of_job(job: Job) -> Made:
    """Return what a job would make, as ``papers_of`` tells it."""
    spots = {key: job.spots[key].place for key in part_names(job.units)}
    made: Made = Counter(
        (made.mark, spots[key].x_mm, spots[key].z_mm)
        for key, (_, made) in part_names(job.units).items()
    )
    rules = job.workshop.rail
    made.update(
        (
            panel.panel.name,
            run.name,
            run.z_top_mm,
            run.x0_mm,
            run.x1_mm,
            rules.height_mm,
            rules.thickness_mm,
            rules.bevel_deg,
        )
        for panel in job.panels
        for run in panel.arrangement.rails
    )
    return made
