"""The rails of a wall one below the other, to scale, with what hangs on them and what bears it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.papers.kit.drafting import BLUE, CAUTION, INK, PALE, arrow
from cleatwright.papers.kit.paper import SCALES, Paper, landscape, series
from cleatwright.papers.kit.svg import Face, Pen, Sheet, text_width, wrap
from cleatwright.papers.load_map.view import ArrowView, LoadMapView, StripView, StudView

MARGIN = 8.0
SIDE = 14.0
TEXT, NAME, TITLE = 2.5, 3.2, 4.6
LINE = 3.5
HEADING, ARROWS, STRIP_GAP = 6.5, 9.5, 6.0
LONGEST_LABEL = 40.0
LABEL_STEP = 3.5
BLOCK_WIDTH, LEAST_RAIL = 25.0, 4.8
BAR_WIDTH, BAR_HEIGHT = 20.0, 2.2
WOOD = "#EAD9BC"
FIRST_SCALE = 5


@dataclass(frozen=True)
class Plan:
    """A sheet, a scale and the heights of the strips on it, in paper millimetres."""

    paper: Paper
    scale: int
    heights: tuple[float, ...]
    notes: tuple[str, ...]

    @property
    def fits(self) -> bool:
        """Return True when all strips and words stand on the sheet."""
        return self.needed <= self.paper.height_mm

    @property
    def needed(self) -> float:
        """Return the height that everything takes."""
        head = TITLE * 1.6 + 2.0
        return 2 * MARGIN + head + sum(self.heights) + len(self.notes) * LINE + 4.0


def load_map_svg(view: LoadMapView) -> bytes:
    """Return the drawing; the same view always gives the same bytes.

    It takes the smallest sheet of ISO 216, or of ASME Y14.1 for inches, and the largest usual
    scale at which all rails fit and the words of neighbouring studs stay apart; where no sheet
    is large enough the largest is made higher.
    """
    plan = _plan(view)
    k = float(plan.scale)
    height = max(plan.paper.height_mm, plan.needed)
    sheet = Sheet(
        width=plan.paper.width_mm * k,
        height=height * k,
        scale=k,
        title=f"{view.title}: loads on the rails",
    )
    sheet.layer("paper")
    sheet.box((0.0, 0.0), (plan.paper.width_mm * k, height * k), Pen(fill="#FFFFFF"))
    y = MARGIN + TITLE
    sheet.layer("title")
    words = f"{view.title}: loads on the rails"
    sheet.text((MARGIN * k, y * k), words, Face(TITLE, INK, bold=True))
    y += TITLE * 0.6 + 2.0
    left = (plan.paper.width_mm - view.width_mm / k) / 2
    for strip, high in zip(view.strips, plan.heights, strict=True):
        _strip(sheet, view, strip, left=left, top=y)
        y += high
    sheet.layer("notes")
    sheet.line((MARGIN * k, y * k), ((plan.paper.width_mm - MARGIN) * k, y * k), Pen(PALE, 0.2))
    for n, line in enumerate(plan.notes, start=1):
        sheet.text((MARGIN * k, (y + n * LINE + 0.5) * k), line, Face(TEXT, INK))
    return sheet.to_bytes()


def _plan(view: LoadMapView) -> Plan:
    """Return the smallest sheet that fits, lying before standing; the last one tried if none."""
    plans: list[Plan] = []
    for name in series(view.unit):
        for paper in (landscape(name), landscape(name).turned):
            room = paper.width_mm - 2 * SIDE
            scales = [k for k in SCALES if k >= FIRST_SCALE and view.width_mm / k <= room]
            if scales:
                plans.append(_on(view, paper, scales[0]))
    legible = [plan for plan in plans if _legible(view, plan.scale)] or plans[-1:]
    return next((plan for plan in legible if plan.fits), legible[-1])


def _legible(view: LoadMapView, scale: int) -> bool:
    """Return True when words under studs stay apart and a rail is high enough for its screws."""
    rails = all(strip.height_mm / scale >= LEAST_RAIL for strip in view.strips)
    return rails and view.least_spacing_mm / scale >= BLOCK_WIDTH


def _on(view: LoadMapView, paper: Paper, scale: int) -> Plan:
    heights = tuple(_strip_height(strip, scale) for strip in view.strips)
    width = paper.width_mm - 2 * MARGIN
    return Plan(paper, scale, heights, _notes(view, paper, scale=scale, width=width))


def _label(one: ArrowView) -> str:
    """Return number, name and mass, the name cut where it is too long."""
    ends = (f"{one.number}  ", f"  {one.mass_kg:.2f} kg")
    name = one.name
    while name and text_width(f"{ends[0]}{name}…{ends[1]}", TEXT) > LONGEST_LABEL:
        name = name[:-1].rstrip()
    return f"{ends[0]}{name}{'' if name == one.name else '…'}{ends[1]}"


def _labels_height(strip: StripView) -> float:
    return max((text_width(_label(one), TEXT) for one in strip.arrows), default=0.0)


def _strip_height(strip: StripView, scale: int) -> float:
    lines = 2 + max((len(stud.screws) for stud in strip.studs), default=0)
    below = (lines + 2) * LINE + BAR_HEIGHT + 1.0
    return HEADING + _labels_height(strip) + ARROWS + strip.height_mm / scale + below + STRIP_GAP


def _strip(sheet: Sheet, view: LoadMapView, strip: StripView, *, left: float, top: float) -> None:
    """Draw one rail with everything about it; ``left`` and ``top`` in paper millimetres."""
    k = sheet.scale
    sheet.layer("strip")
    _heading(sheet, view, strip, y=top + NAME)
    labels_end = top + HEADING + _labels_height(strip)
    rail_top = labels_end + ARROWS
    foot = rail_top + strip.height_mm / k
    corner = (left * k + strip.x0_mm, rail_top * k)
    size = (strip.x1_mm - strip.x0_mm, strip.height_mm)
    sheet.box(corner, size, Pen(INK, 0.35, WOOD), name="rail")
    _arrows(sheet, strip, left=left, labels_end=labels_end, rail_top=rail_top)
    for stud in strip.studs:
        _stud(sheet, view, stud, x=left + stud.x_mm / k, rail=(rail_top, foot))
    if not strip.studs:
        words = "meets no stud: it carries nothing until it is fixed with qualified advice"
        # bold letters are wider than the estimate for plain ones
        last = view.width_mm + 2 * left * k - (MARGIN + 1.1 * text_width(words, TEXT)) * k
        at = (min(corner[0], last), (foot + 1.0 + LINE) * k)
        sheet.text(at, words, Face(TEXT, CAUTION, bold=True))


def _heading(sheet: Sheet, view: LoadMapView, strip: StripView, *, y: float) -> None:
    k = sheet.scale
    sheet.text((MARGIN * k, y * k), strip.name, Face(NAME, INK, bold=True))
    kept = "hangs already, its screws taken as those of the others; " if strip.stays else ""
    words = (
        f"{kept}top edge {view.length(strip.top_mm)} above the wall's lower edge, "
        f"{view.length(strip.top_mm + view.floor_gap_mm)} above the floor; "
        f"{view.length(strip.x1_mm - strip.x0_mm)} long; carries {strip.mass_kg:.2f} kg = "
        f"{strip.weight_n:.1f} N"
    )
    if strip.studs:
        words += f", its studs bear {strip.borne_n:.1f} N"
    x = MARGIN + text_width(strip.name, NAME) + 3.0
    sheet.text((x * k, y * k), words, Face(TEXT, INK))


def _arrows(
    sheet: Sheet, strip: StripView, *, left: float, labels_end: float, rail_top: float
) -> None:
    """Draw an arrow for each load, its label above it, moved aside where two would touch."""
    k = sheet.scale
    wanted = [left + one.x_mm / k for one in strip.arrows]
    for one, x, at in zip(strip.arrows, wanted, apart(wanted, step=LABEL_STEP), strict=True):
        foot, bend, head = rail_top * k, (rail_top - 6.5) * k, (labels_end + 1.0) * k
        sheet.line((at * k, head), (x * k, bend), Pen(CAUTION, 0.18))
        arrow(sheet, (x * k, bend), (x * k, foot), Pen(CAUTION, 0.5))
        place = ((at + 0.36 * TEXT) * k, labels_end * k)
        sheet.text(place, _label(one), Face(TEXT, INK), name="load", upright=True)


def apart(wanted: Sequence[float], *, step: float) -> tuple[float, ...]:
    """Return places at least ``step`` apart, in order, as near as can be to the wanted ones.

    Neighbours that would touch form a row whose middle is the mean of what they want.

    >>> apart((0.0, 1.0, 9.0), step=2.0)
    (-0.5, 1.5, 9.0)
    """
    rows: list[tuple[float, int]] = []
    for place in wanted:
        mean, count = place, 1
        while rows:
            before, many = rows[-1]
            if before + (many - 1) * step / 2 + step <= mean - (count - 1) * step / 2 + 1e-9:
                break
            rows.pop()
            mean = (before * many + mean * count) / (many + count)
            count += many
        rows.append((mean, count))
    return tuple(mean + (n - (count - 1) / 2) * step for mean, count in rows for n in range(count))


def _stud(
    sheet: Sheet, view: LoadMapView, stud: StudView, *, x: float, rail: tuple[float, float]
) -> None:
    """Draw a stud's line, its screws, and below it what they bear; ``x`` in paper millimetres."""
    k = sheet.scale
    top, foot = rail
    chain = Pen(PALE, 0.18, dash=(4.0, 1.0, 0.6, 1.0))
    sheet.line((x * k, (top - 2.0) * k), (x * k, (foot + 2.0) * k), chain)
    for screw in stud.screws:
        y = foot * k - screw.row_mm
        r = 0.7 * k
        sheet.circle((x * k, y), r, Pen(INK, 0.25, "#FFFFFF"))
        half = 0.6 * r
        sheet.lines(
            [((x * k - half, y), (x * k + half, y)), ((x * k, y - half), (x * k, y + half))],
            Pen(INK, 0.2),
        )
    worst = max((view.strength.share(screw) for screw in stud.screws), default=0.0)
    names = ("upper", "lower") if len(stud.screws) == 2 else ("screw",) * len(stud.screws)
    words = [
        f"stud x {view.length(stud.x_mm)}",
        f"lifts {-stud.weight_n:.0f} N"
        if stud.weight_n <= -0.5
        else f"bears {stud.weight_n:.0f} N",
        *(
            f"{name} {screw.shear_n:.0f} / {screw.withdrawal_n:.0f} N"
            for name, screw in zip(names, stud.screws, strict=True)
        ),
    ]
    y = foot + 1.0
    centred = Face(TEXT, INK, anchor="middle", halo=True)
    for line in words:
        y += LINE
        sheet.text((x * k, y * k), line, centred, name="stud")
    y += 1.4
    _bar(sheet, worst, x=x, y=y)
    used = "of what it may" if worst > 1.0 else "used"
    told = f"{100.0 * worst:.0f} % {used}" if math.isfinite(worst) else "carries nothing"
    colour = CAUTION if worst > 1.0 else INK
    at = (x * k, (y + BAR_HEIGHT + LINE) * k)
    sheet.text(
        at, told, Face(TEXT, colour, bold=worst > 1.0, anchor="middle", halo=True), name="share"
    )


def _bar(sheet: Sheet, share: float, *, x: float, y: float) -> None:
    """Draw how much is used, from the left end of a frame, with a stroke at each quarter."""
    k = sheet.scale
    corner = ((x - BAR_WIDTH / 2) * k, y * k)
    sheet.box(corner, (BAR_WIDTH * k, BAR_HEIGHT * k), Pen(INK, 0.2, "#FFFFFF"))
    full = min(share, 1.0) * BAR_WIDTH
    sheet.box(
        corner, (full * k, BAR_HEIGHT * k), Pen(fill=BLUE if share <= 1.0 else CAUTION), name="bar"
    )
    quarters = [corner[0] + n * BAR_WIDTH / 4 * k for n in (1, 2, 3)]
    low = corner[1] + BAR_HEIGHT * k
    sheet.lines([((q, low - 0.7 * k), (q, low)) for q in quarters], Pen(PALE, 0.2))


def _notes(view: LoadMapView, paper: Paper, *, scale: int, width: float) -> tuple[str, ...]:
    """Return the words at the foot of the sheet, in lines."""
    words = (
        (
            "Under each stud stands what it bears when everything hangs, and what each of its "
            "screws bears at worst: along the wall / out of the wall, whichever tools are away, "
            "with a hand that pulls at one holder. The rail counts as a beam in pieces from stud "
            "to stud that turns about its lower edge. The bar is the share of what the more "
            "loaded screw may carry."
        ),
        (
            f"{view.assumed} One may carry {view.strength.lateral_n:.0f} N along the wall and "
            f"{view.strength.withdrawal_n:.0f} N out of it, less for both together (NDS 2018). "
            "Plasterboard alone carries nothing."
        ),
        *view.cautions,
        f"Lengths along the rails and their heights are at 1:{scale}; sheet {paper.words}.",
    )
    return tuple(line for text in words for line in wrap(text, size=TEXT, width=width))
