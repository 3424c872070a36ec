"""The drilling template of a job: its rails at full size, to be printed and taped to the wall."""

from __future__ import annotations

from cleatwright.papers.drilling.template import template_pages
from cleatwright.papers.drilling.view import DrilledStud, DrillSizes, TemplateView
from cleatwright.papers.elevation.layout import AUTO
from cleatwright.papers.kit.paper import series
from cleatwright.papers.kit.svg_pdf import svg_pdf
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import failing_rails, loaded_rails
from cleatwright.siting.rails.screws import RAIL_SCREW_MM
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.pilot_holes import pilot_hole_mm
from cleatwright.standards.fasteners.wood_screws import countersink_mm


def template_files(job: PanelJob, *, sheet: str = AUTO) -> dict[str, bytes]:
    """Return the template as a PDF file by name; none when no rail is to be put up.

    Args:
        job: What was computed.
        sheet: Name of the paper; "auto" is A4, or Letter for a workshop in inches.

    Raises:
        UnknownNameError: There is no such sheet.
    """
    view = template_view(job)
    if not view.rails:
        return {}
    if sheet == AUTO:
        sheet = series(view.unit)[0]
    pages = template_pages(view, sheet=sheet)
    return {"wall/drilling-template.pdf": svg_pdf(pages, title=f"{view.title}: drilling template")}


def template_view(job: PanelJob) -> TemplateView:
    """Return what the template shows: the rails that do not hang yet."""
    wall = job.panel
    return TemplateView(
        title=job.title,
        rails=tuple(rail for rail in job.arrangement.rails if not rail.stays),
        fails=tuple(
            (name, job.words(text)) for name, text in failing_rails(loaded_rails(job)).items()
        ),
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
