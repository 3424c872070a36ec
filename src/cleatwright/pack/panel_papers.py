"""Everything on paper about one panel: elevation, rails from the side, loads, drilling template."""

from __future__ import annotations

from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.pack.drawing import elevation_files
from cleatwright.pack.output_file import OutputFile
from cleatwright.pack.rail_papers import load_map_files, section_files
from cleatwright.pack.template import template_files
from cleatwright.siting.panel_job import PanelJob


def _panel_files(run: Run, job: PanelJob) -> tuple[OutputFile, ...]:
    return (
        *elevation_files(job, run),
        *section_files(job, run),
        *load_map_files(job, run),
        *template_files(job, run),
    )


PANEL_FILES = Stage("papers of a panel", _panel_files, content_key)
"""From an arranged panel to its papers, in the folder of the panel; none is drawn yet."""
