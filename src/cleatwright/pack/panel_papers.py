"""Everything on paper about one panel: elevation, rails from the side, loads, drilling template."""

from __future__ import annotations

from cleatwright.pack.drawing import elevation_file
from cleatwright.pack.rail_papers import rail_files
from cleatwright.pack.template import template_files
from cleatwright.siting.panel_job import PanelJob


def panel_files(job: PanelJob) -> dict[str, bytes]:
    """Return the drawings of a panel by name, in the folder of the panel."""
    paper = job.workshop.drawings
    files = elevation_file(job, sheet=paper.sheet)
    files |= rail_files(job)
    files |= template_files(job, sheet=paper.template_sheet)
    return {name.replace("wall/", f"{job.folder}/", 1): data for name, data in files.items()}
