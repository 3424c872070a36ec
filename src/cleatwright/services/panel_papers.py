"""Everything on paper about one panel: elevation, rails from the side, loads, drilling template."""

from __future__ import annotations

from cleatwright.services.drawing import elevation_file
from cleatwright.services.panel_job import PanelJob
from cleatwright.services.rail_papers import rail_files
from cleatwright.services.template import template_files


def panel_files(job: PanelJob) -> dict[str, bytes]:
    """Return the drawings of a panel by name, in the folder of the panel."""
    paper = job.workshop.drawings
    files = elevation_file(job, sheet=paper.sheet)
    files |= rail_files(job)
    files |= template_files(job, sheet=paper.template_sheet)
    return {name.replace("wall/", f"{job.folder}/", 1): data for name, data in files.items()}
