"""The drilling template of a job: rails and what is screwed to the wall, at full size."""

from __future__ import annotations

from collections.abc import Iterator

from cleatwright.base import said
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.pack.output_file import OutputFile, as_pdf
from cleatwright.papers.drilling.template import TEMPLATE
from cleatwright.papers.drilling.view import (
    DrilledPlate,
    DrilledStud,
    DrillSizes,
    TemplateView,
)
from cleatwright.papers.elevation.layout import AUTO
from cleatwright.papers.kit.paper import series
from cleatwright.siting.assessing import ASSESSED
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.demand import most_demanded, must_bear
from cleatwright.siting.rails.fastening import RailFastening, fastening_of
from cleatwright.siting.rails.ground import courses_of
from cleatwright.siting.rails.loading import LOADED, failing_rails, loaded_rails
from cleatwright.siting.screws_behind import plate_screws
from cleatwright.standards import cautions
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.nds_screws import LEAST_PENETRATION
from cleatwright.standards.fasteners.pilot_holes import pilot_hole_mm
from cleatwright.standards.fasteners.wood_screws import countersink_mm
from cleatwright.standards.wall.masonry import at_the_drill
from cleatwright.wall.moving.moves import surface
from cleatwright.wall.score import stays_at
from cleatwright.wall.screws import ScrewPoint
from cleatwright.wall.studs import LEAST_END_MM

# ISO 273 has no hole for a screw of 4.5 mm: that of the next size
CLEAR_THREAD = {4.5: 5.0}


def template_files(job: PanelJob, run: Run) -> Iterator[OutputFile]:
    """Yield the template as a PDF file, or nothing when nothing is to be drilled for.

    Raises:
        UnknownNameError: There is no such sheet as the document asks for.
    """
    view, sheet = template_view(job, run), job.setting.drawings.template_sheet
    if sheet == AUTO:
        sheet = series(view.unit)[0]
    if view.drilled:
        yield as_pdf(
            f"{job.folder}/drilling-template.pdf",
            f"Drilling template for {surface(job.panel.name)}",
            lambda run: run.need(TEMPLATE, (view, sheet)),
            heading=f"{view.title}: drilling template",
        )


def template_view(job: PanelJob, run: Run) -> TemplateView:
    """Return what the template shows: rails, and what is screwed to the wall, if not there yet."""
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
        plates=tuple(sorted(_plates(job, run), key=lambda one: one.number)),
    )


def _plates(job: PanelJob, run: Run) -> Iterator[DrilledPlate]:
    """Yield what is screwed to the wall itself and does not hang where it shall."""
    remarks = run.need(ASSESSED, job).remarks
    beside = {one.about: one.sentence for one in remarks if one.beside_studs}
    for screws in plate_screws(job):
        unit = screws.unit
        place, item = job.spots[unit.planned.key].place, job.problem.known[unit.planned.key]
        if item.hangs_at is not None and stays_at(item.hangs_at, place):
            continue
        part = unit.outer.part
        low_mm, high_mm = (bound[2] - part.hanging.contact_z_mm for bound in part.bounds_mm)
        # what hangs on a rail and is only locked has its screws where they are above its edge
        top_mm = place.z_mm if not screws.lock else place.z_mm + high_mm
        fails = beside.get(unit.planned.key, "")
        number = min(one.number for one in unit.planned.holders)
        yield DrilledPlate(
            number=number,
            name=unit.planned.name,
            x0_mm=screws.x_mm,
            x1_mm=screws.x_mm + part.bounds_mm[1][0],
            z_top_mm=top_mm,
            height_mm=top_mm - (place.z_mm + low_mm),
            screws=tuple(
                ScrewPoint(column.x_mm, z) for column in screws.columns for z in column.rows_mm
            ),
            holes=_plate_holes(unit),
            fails=fails and f"Do not drill for it yet: {job.words(fails)}",
        )


def _plate_holes(unit: Unit) -> str:
    """Return which screws hold a plate on the wall, and the hole that each wants there."""
    for one in unit.outer.part.hardware:
        if one.stud_mm:
            pilot = pilot_hole_mm(one.stud_mm / LEAST_PENETRATION)
            return (
                f"Cross in a circle: a {one.name}. In the wood of the wall a pilot hole of "
                f"{said.mm(pilot)}, no deeper than its thread goes in."
            )
    return "Cross in a circle: a wood screw; the list of hardware says which."


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
