"""What is written on each sheet of a drilling template."""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.base import said
from cleatwright.base.lengths import LengthUnit, Wording, show_length
from cleatwright.papers.drilling.plan import OVERLAP_MM, Spot, TemplatePlan
from cleatwright.papers.drilling.view import DrillSizes, TemplateView
from cleatwright.papers.elevation.legend import CAUTION, INK
from cleatwright.papers.kit.paper import PRINT_MARGIN_MM
from cleatwright.papers.kit.svg import Face, Point, Sheet, wrap
from cleatwright.papers.kit.tiling import Window
from cleatwright.wall.rail import Rail

TITLE, BODY = 4.0, 2.7
TITLE_STEP, STEP, GAP = 5.4, 3.7, 0.9


def draw_words(
    sheet: Sheet,
    view: TemplateView,
    rail: Rail,
    *,
    plan: TemplatePlan,
    spot: Spot,
    corner: Point,
) -> None:
    """Write heading, distances, holes and cautions below the rail, from an upper left corner."""
    x, y = corner
    # the estimate of widths is for a mean text; a line of broad letters needs some more
    width = 0.94 * (plan.paper.width_mm - PRINT_MARGIN_MM - x)
    sheet.layer("words")
    heading = plan.heading(view.title, rail, spot)
    for line in wrap(heading, size=1.1 * TITLE, width=width):
        y += TITLE_STEP
        sheet.text((x, y - 1.4), line, Face(TITLE, INK, bold=True), name="title")
    y += GAP
    blocks = (
        *((words, CAUTION) for words in _does_not_hold(view, rail)),
        *((words, INK) for words in facts(view, rail, plan=plan, spot=spot)),
        *((words, CAUTION) for words in (*_too_near(view, rail, spot[0]), *view.cautions)),
    )
    for words, colour in blocks:
        for line in wrap(words, size=BODY, width=width):
            y += STEP
            name = "caution" if colour == CAUTION else "fact"
            sheet.text((x, y - 1.0), line, Face(BODY, colour), name=name)
        y += GAP


def facts(view: TemplateView, rail: Rail, *, plan: TemplatePlan, spot: Spot) -> tuple[str, ...]:
    """Return the sentences about the rail, this sheet and the holes."""
    length, unit = view.length, view.unit
    window, band = spot
    whole = rail.length_mm
    first, last = max(window.start, 0.0), min(window.end, whole)
    above = f", {length(rail.z_top_mm + view.floor_gap_mm)} above the floor"
    screws = Wording(unit)(view.holes or _wood_holes(view.sizes))
    if not rail.to_drill_mm:
        screws = f"Rail {rail.name} meets no stud: it cannot be fixed here."
        if view.holes or not view.studs:
            screws = f"Rail {rail.name} has no room for what holds it: it cannot be fixed here."
    measures = (
        f"Rail {rail.name}: {length(whole)} {unit} long, {length(rail.height_mm)} high, from "
        f"{length(rail.x0_mm)} to {length(rail.x1_mm)} on the wall, measured from its left edge."
    )
    use = (
        "Tape it to the wall, its line set with a spirit level, and drill the pilot holes through "
        "the crosses. Taped to the front of the rail it shows the clear holes."
    )
    if view.holes:
        use = (
            "Tape it to the wall, its line set with a spirit level, and mark the middle of each "
            "cross with a punch; take it off before you drill. Taped to the front of the rail it "
            "shows the clear holes."
        )
    down = ""
    if len(plan.bands) > 1:
        end = min(band.end, rail.height_mm)
        down = f", {length(band.start)} to {length(end)} below its top edge"
    return (
        measures,
        f"Top edge: {length(rail.z_top_mm)} above the lower edge of the wall"
        + (above if view.floor_gap_mm else "")
        + ".",
        use,
        f"This sheet: {length(first)} to {length(last)} from the left end of the rail{down}.",
        *_neighbours(plan, unit),
        screws,
        *_off_joints(view, rail),
        "Print at 100 %, without fitting to the page, and measure the square before you use it.",
    )


def _off_joints(view: TemplateView, rail: Rail) -> Sequence[str]:
    """Return how far the crosses are from the bed joints of the wall, where that is known."""
    if view.courses is None or not rail.screws:
        return ()
    off = min(view.courses.off_mm(point.z_mm) for point in rail.screws)
    words = (
        f"By the courses of the document they lie {view.length(off)} {view.unit} off the middle of "
        "the nearest bed joint: look at the wall, and keep off the upright joints, too."
    )
    return (words,)


def _wood_holes(sizes: DrillSizes | None) -> str:
    if sizes is None:
        return "Cross in a circle: a wood screw; which one is not known yet."
    return (
        f"Cross in a circle: a wood screw {said.metric(sizes.screw_mm)}. In the {sizes.into} a "
        f"pilot hole of {said.mm(sizes.pilot_mm)}; in the rail a clear hole of "
        f"{said.mm(sizes.clear_mm)}, countersunk to {said.mm(sizes.head_mm)}."
    )


def _neighbours(plan: TemplatePlan, unit: LengthUnit) -> Sequence[str]:
    told: list[str] = []
    if plan.total > 1 or len(plan.bands) > 1:
        told.append(
            f"Neighbours lie {show_length(OVERLAP_MM, unit)} over each other, diamond on diamond "
            "of the same letter."
        )
    if plan.left_out:
        numbers = ", ".join(str(n) for n in plan.left_out)
        word = "Sheet" if len(plan.left_out) == 1 else "Sheets"
        told.append(f"{word} {numbers} left out: no screw there.")
        if min(plan.left_out) < plan.kept[-1].number:
            told.append("Place the sheet after what is left out by the distances on the wall.")
    return told


def _does_not_hold(view: TemplateView, rail: Rail) -> Sequence[str]:
    why = dict(view.fails).get(rail.name)
    if why is None:
        return ()
    return (
        f"Do not drill for rail {rail.name} yet: it does not hold.",
        f"{why} Change that and make the workshop again.",
    )


def _too_near(view: TemplateView, rail: Rail, window: Window) -> Sequence[str]:
    """Warn of screws on this sheet so near to an end that the rail may split there."""
    away = {
        x: round(min(x - rail.x0_mm, rail.x1_mm - x), 2)
        for x in rail.to_drill_mm
        if window.start <= x - rail.x0_mm <= window.end
    }
    told: list[str] = []
    close = [x for x, mm in away.items() if mm < view.least_end_mm]
    if close:
        told.append(
            f"Less than {view.length(view.least_end_mm)} {view.unit} of wood is left beyond the "
            f"screws at {_places(view, rail, close)}: the rail may split there. Cut it longer, and "
            "do not drill there as it is."
        )
    near = [x for x, mm in away.items() if view.least_end_mm <= mm < view.end_mm]
    if near:
        left = ", ".join(view.length(away[x]) for x in near)
        told.append(
            f"Only {left} {view.unit} of wood beyond the screws at {_places(view, rail, near)}, at "
            "the end of the wall: bore both holes first."
        )
    return told


def _places(view: TemplateView, rail: Rail, screws_mm: Sequence[float]) -> str:
    return ", ".join(view.length(x - rail.x0_mm) for x in screws_mm)
