"""What is written on each sheet of a drilling template."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.lengths import LengthUnit, Wording, show_length
from cleatwright.papers.drilling.plan import OVERLAP_MM, Spot, TemplatePlan, square_mm
from cleatwright.papers.drilling.view import Drilled, DrilledPlate, DrillSizes, TemplateView
from cleatwright.papers.elevation.legend import CAUTION, INK
from cleatwright.papers.kit.paper import PRINT_MARGIN_MM
from cleatwright.papers.kit.svg import Face, Sheet, wrap
from cleatwright.papers.kit.tiling import Window
from cleatwright.wall.rail import Rail

TITLE, BODY = 4.0, 2.7
TITLE_STEP, STEP, GAP = 5.4, 3.7, 0.9
# of letters below their line
FOOT = 1.0
# from the square to the words beside it
ASIDE_MM = 6.0


@dataclass(frozen=True)
class _Line:
    """A line of words: where it begins, from the left edge of the paper and below the rail."""

    words: str
    x_mm: float
    y_mm: float
    face: Face
    name: str


def draw_words(
    sheet: Sheet,
    view: TemplateView,
    rail: Drilled,
    *,
    plan: TemplatePlan,
    spot: Spot,
    top_mm: float,
) -> None:
    """Write heading, distances, holes and cautions below the rail.

    They stand beside the square, and go on below it.
    """
    sheet.layer("words")
    for one in _lines(view, rail, plan, spot):
        sheet.text((one.x_mm, top_mm + one.y_mm), one.words, one.face, name=one.name)


def words_mm(view: TemplateView, rail: Drilled, plan: TemplatePlan) -> float:
    """Return how high the words on the sheet with the most of them are."""
    return max(_lines(view, rail, plan, spot)[-1].y_mm + FOOT for spot in plan.spots)


def _lines(view: TemplateView, rail: Drilled, plan: TemplatePlan, spot: Spot) -> list[_Line]:
    heading = plan.heading(view.title, rail, spot)
    warned = (*_too_near(view, rail, spot[0]), *view.cautions)
    blocks = (
        (heading, Face(TITLE, INK, bold=True), "title"),
        *((words, Face(BODY, CAUTION), "caution") for words in _does_not_hold(view, rail)),
        *((words, Face(BODY, INK), "fact") for words in facts(view, rail, plan=plan, spot=spot)),
        *((words, Face(BODY, CAUTION), "caution") for words in warned),
    )
    side, right = square_mm(view.unit), plan.paper.width_mm - PRINT_MARGIN_MM
    found: list[_Line] = []
    y = 0.0
    for words, face, name in blocks:
        step, size = (TITLE_STEP, 1.1 * TITLE) if name == "title" else (STEP, BODY)
        rest = words
        while rest:
            beside = y < side + GAP
            x = PRINT_MARGIN_MM + (side + ASIDE_MM if beside else 0.0)
            # the estimate of widths is for a mean text; a line of broad letters needs some more
            line, *more = wrap(rest, size=size, width=0.94 * (right - x))
            y += step
            found.append(_Line(line, x, y - 0.27 * step, face, name))
            rest = " ".join(more)
        y += GAP
    return found


def facts(view: TemplateView, rail: Drilled, *, plan: TemplatePlan, spot: Spot) -> tuple[str, ...]:
    """Return the sentences about the rail, this sheet and the holes."""
    length, unit = view.length, view.unit
    window, band = spot
    whole = rail.length_mm
    first, last = max(window.start, 0.0), min(window.end, whole)
    above = f", {length(rail.z_top_mm + view.floor_gap_mm)} above the floor"
    screws = Wording(unit)(view.holes or _wood_holes(view.sizes))
    if isinstance(rail, DrilledPlate):
        screws = Wording(unit)(rail.holes)
    elif not rail.to_drill_mm:
        screws = f"Rail {rail.name} meets no stud: it cannot be fixed here."
        if view.holes or not view.studs:
            screws = f"Rail {rail.name} has no room for what holds it: it cannot be fixed here."
    name = f"Rail {rail.name}" if isinstance(rail, Rail) else f"Holder {rail.number}, {rail.name}"
    side = "long" if isinstance(rail, Rail) else "wide"
    measures = (
        f"{name}: {length(whole)} {unit} {side}, {length(rail.height_mm)} high, from "
        f"{length(rail.x0_mm)} to {length(rail.x1_mm)} on the wall, measured from its left edge."
    )
    use = (
        "Tape it to the wall, its line set with a spirit level, and drill the pilot holes through "
        "the crosses. Taped to the front of the rail it shows the clear holes."
    )
    if isinstance(rail, DrilledPlate):
        use = (
            "Tape it to the wall, its line set with a spirit level, and drill the pilot holes "
            "through the crosses; take it off, and screw the holder on through its own holes."
        )
    elif view.holes:
        use = (
            "Tape it to the wall, its line set with a spirit level, and mark the middle of each "
            "cross with a punch; take it off before you drill. Taped to the front of the rail it "
            "shows the clear holes."
        )
    itself, down = "the rail" if isinstance(rail, Rail) else "it", ""
    if len(plan.bands) > 1:
        end = min(band.end, rail.height_mm)
        down = f", {length(band.start)} to {length(end)} below its top edge"
    return (
        measures,
        f"Top edge: {length(rail.z_top_mm)} above the lower edge of the wall"
        + (above if view.floor_gap_mm else "")
        + ".",
        use,
        f"This sheet: {length(first)} to {length(last)} from the left end of {itself}{down}.",
        *_neighbours(plan, unit),
        screws,
        *_off_joints(view, rail),
        "Print at 100 %, without fitting to the page, and measure the square before you use it.",
    )


def _off_joints(view: TemplateView, rail: Drilled) -> Sequence[str]:
    """Return how far the crosses are from the bed joints of the wall, where that is known."""
    if view.courses is None or not rail.screws or isinstance(rail, DrilledPlate):
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


def _does_not_hold(view: TemplateView, rail: Drilled) -> Sequence[str]:
    if isinstance(rail, DrilledPlate):
        return (rail.fails,) if rail.fails else ()
    if rail.name not in view.fails:
        return ()
    words = (
        f"Do not drill for rail {rail.name} yet: it does not hold; the load map says why. Change "
        "that and make the workshop again."
    )
    return (words,)


def _too_near(view: TemplateView, rail: Drilled, window: Window) -> Sequence[str]:
    """Warn of screws on this sheet so near to an end that the rail may split there."""
    if isinstance(rail, DrilledPlate):
        return ()
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


def _places(view: TemplateView, rail: Drilled, screws_mm: Sequence[float]) -> str:
    return ", ".join(view.length(x - rail.x0_mm) for x in screws_mm)
