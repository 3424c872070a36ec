"""Everything on paper about one panel: elevation, rails from the side, loads, drilling template."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from cleatwright.pack.drawing import elevation_file
from cleatwright.pack.rail_papers import load_map_files, section_files
from cleatwright.pack.template import template_files
from cleatwright.siting.panel_job import PanelJob

Writer = Callable[[], dict[str, bytes]]
"""Gives some files by their names."""


def panel_writers(job: PanelJob) -> tuple[Writer, ...]:
    """Return what gives the drawings of a panel by name, in the folder of the panel."""
    paper = job.setting.drawings
    writers = (
        partial(elevation_file, job, sheet=paper.sheet),
        partial(section_files, job),
        partial(load_map_files, job),
        partial(template_files, job, sheet=paper.template_sheet),
    )
    return tuple(partial(_in_folder, job, writer) for writer in writers)


def _in_folder(job: PanelJob, writer: Writer) -> dict[str, bytes]:
    return {name.replace("wall/", f"{job.folder}/", 1): data for name, data in writer().items()}
