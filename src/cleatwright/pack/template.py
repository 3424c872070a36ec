"""The drilling template of a job: its rails at full size, to be printed and taped to the wall."""

from __future__ import annotations

from collections.abc import Iterator

from cleatwright.base.stages.run import Run
from cleatwright.pack.output_file import OutputFile, as_pdf
from cleatwright.papers.drilling.template import TEMPLATE
from cleatwright.papers.drilling.view import DrilledStud, DrillSizes, TemplateView
from cleatwright.papers.elevation.layout import AUTO
from cleatwright.papers.kit.paper import series
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import LOADED, failing_rails
from cleatwright.siting.rails.screws import RAIL_SCREW_MM
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.pilot_holes import pilot_hole_mm
from cleatwright.standards.fasteners.wood_screws import countersink_mm
from cleatwright.wall.moving.moves import surface


def template_files(job: PanelJob, run: Run) -> Iterator[OutputFile]:
    """Yield the template as a PDF file, or nothing when no rail is to be put up.

    Raises:
        UnknownNameError: There is no such sheet as the document asks for.
    """
    view, sheet = template_view(job, run), job.setting.drawings.template_sheet
    if sheet == AUTO:
        sheet = series(view.unit)[0]
    if view.rails:
        yield as_pdf(
            f"{job.folder}/drilling-template.pdf",
            f"Drilling template for {surface(job.panel.name)}",
            lambda run: run.need(TEMPLATE, (view, sheet)),
            heading=f"{view.title}: drilling template",
        )


def template_view(job: PanelJob, run: Run) -> TemplateView:
    """Return what the template shows: the rails that do not hang yet."""
    wall, fails = job.panel, failing_rails(run.need(LOADED, job))
    return TemplateView(
        title=job.title,
        rails=tuple(rail for rail in job.arrangement.rails if not rail.stays),
        fails=tuple((name, job.words(text)) for name, text in fails.items()),
        studs=tuple(DrilledStud(stud.x_mm, stud.width_mm) for stud in wall.studs),
        sizes=DrillSizes(
            screw_mm=RAIL_SCREW_MM,
            pilot_mm=pilot_hole_mm(RAIL_SCREW_MM),
            clear_mm=clearance_hole_mm(f"M{RAIL_SCREW_MM:g}", "medium"),
            head_mm=countersink_mm(RAIL_SCREW_MM),
        ),
        floor_gap_mm=wall.floor_gap_mm,
        unit=job.setting.units,
    )
