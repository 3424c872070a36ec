"""The drilling template of a job: its rails at full size, to be printed and taped to the wall."""

from __future__ import annotations

from collections.abc import Iterator

from cleatwright.base import said
from cleatwright.base.stages.run import Run
from cleatwright.pack.output_file import OutputFile, as_pdf
from cleatwright.papers.drilling.template import TEMPLATE
from cleatwright.papers.drilling.view import DrilledStud, DrillSizes, TemplateView
from cleatwright.papers.elevation.layout import AUTO
from cleatwright.papers.kit.paper import series
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.demand import most_demanded, must_bear
from cleatwright.siting.rails.fastening import RailFastening, fastening_of
from cleatwright.siting.rails.ground import courses_of
from cleatwright.siting.rails.loading import LOADED, failing_rails, loaded_rails
from cleatwright.standards import cautions
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.pilot_holes import pilot_hole_mm
from cleatwright.standards.fasteners.wood_screws import countersink_mm
from cleatwright.standards.wall.masonry import at_the_drill
from cleatwright.wall.moving.moves import surface
from cleatwright.wall.studs import LEAST_END_MM

# ISO 273 has no hole for a screw of 4.5 mm: that of the next size
CLEAR_THREAD = {4.5: 5.0}


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
    fastening = fastening_of(job.setting.rail, wall)
    return TemplateView(
        title=job.title,
        rails=tuple(rail for rail in job.arrangement.rails if not rail.stays),
        fails=tuple(fails),
        studs=tuple(DrilledStud(stud.x_mm, stud.width_mm) for stud in wall.studs),
        sizes=_sizes(fastening),
        holes=_anchor_holes(fastening, job),
        courses=courses_of(wall),
        least_end_mm=LEAST_END_MM if wall.made_of == "studs" else fastening.end_mm,
        end_mm=fastening.end_mm,
        cautions=(
            cautions.PIPES,
            *at_the_drill(wall.made_of),
            *(() if wall.takes_anchors else (cautions.FIXING,)),
            cautions.DEFER,
        ),
        floor_gap_mm=wall.floor_gap_mm,
        unit=job.setting.units,
    )


def _sizes(fastening: RailFastening) -> DrillSizes | None:
    """Return the holes for a wood screw; None where it is an anchor, or no screw is known."""
    screw = fastening.screw_mm
    if screw is None or fastening.anchor is not None or fastening.carries.one == "anchor":
        return None
    return DrillSizes(
        screw_mm=screw,
        pilot_mm=pilot_hole_mm(screw),
        clear_mm=clearance_hole_mm(f"M{CLEAR_THREAD.get(screw, screw):g}", "medium"),
        head_mm=countersink_mm(screw),
        into="stud" if fastening.carries.place == "stud" else "wood",
    )


def _anchor_holes(fastening: RailFastening, job: PanelJob) -> str:
    """Return which holes an anchor wants, in sentences; "" for wood screws."""
    if fastening.carries.one != "anchor":
        return ""
    anchor, bears = fastening.anchor, must_bear(most_demanded(loaded_rails(job)))
    if anchor is None:
        return (
            "Cross in a circle: the middle of an anchor. Which one, and the hole for it, its own "
            f"papers say; the document names none yet. {bears}"
        )
    told = [
        f"{words} {said.mm(value)}"
        for words, value in (
            ("a hole of", anchor.hole_mm),
            ("deep at the least", anchor.hole_depth_mm),
            ("embedment", anchor.embedment_mm),
        )
        if value is not None
    ]
    hole = f"In the wall {', '.join(told)}." if told else "The hole in the wall is in its papers."
    rail = "In the rail a clear hole for its screw"
    if anchor.screw_mm is not None:
        rail += f" of {said.mm(anchor.screw_mm)}"
    head = f", sunk to {said.mm(anchor.head_mm)} for its head" if anchor.head_mm else ""
    return (
        f"Cross in a circle: the middle of an anchor{f' {anchor.name}' if anchor.name else ''}. "
        f"{hole} {rail}{head}. {bears}"
    )
