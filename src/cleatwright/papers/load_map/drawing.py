"""The rails of a wall one below the other, to scale, with what hangs on them and what bears it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial

from cleatwright.papers.kit.drafting import BLUE, CAUTION, INK, PALE, arrow
from cleatwright.papers.kit.drawn import drawn_pages
from cleatwright.papers.kit.paper import Paper
from cleatwright.papers.kit.svg import Face, Pen, Sheet, text_width, wrap
from cleatwright.papers.load_map.plan import HEAD, MARGIN, SIDE, TITLE, Pages, RailStretch, pages_of
from cleatwright.papers.load_map.view import ArrowView, LoadedStud, LoadMapView

# nothing is written smaller than 8 points, which are 2.82 mm
TEXT, NAME = 2.85, 3.4
LINE = 4.0
ARROWS, STRIP_GAP = 9.5, 6.0
LONGEST_LABEL = 60.0
LABEL_STEP = 4.0
BAR_WIDTH, BAR_HEIGHT = 20.0, 2.2
WOOD = "#EAD9BC"


def load_map_pages(view: LoadMapView) -> tuple[bytes, ...]:
    """Return the pages as SVG files; the same view always gives the same bytes.

    They are A4, or Letter for inches, at the largest usual scale at which all rails fit; at a
    larger one, a rail on several pages, where the words of neighbouring studs would touch.
    """
    plan = _plan(view)
    return tuple(_page(view, plan, number) for number in range(1, len(plan.pages) + 1))


def load_map_count(view: LoadMapView) -> int:
    """Return on how many pages ``load_map_pages`` draws; nothing is drawn for it."""
    return len(_plan(view).pages)


LOAD_MAP = drawn_pages("load map", load_map_pages)
"""From the view of the rails with their loads to its pages."""


def _plan(view: LoadMapView) -> Pages:
    return pages_of(
        view, partial(_piece_height, view), lambda paper, k: _notes_height(view, paper, k)
    )


def _page(view: LoadMapView, plan: Pages, number: int) -> bytes:
    k, paper, count = float(plan.scale), plan.paper, len(plan.pages)
    words = f"{view.title}: loads on the rails"
    if count > 1:
        words += f", page {number} of {count}"
    size = (paper.width_mm * k, paper.height_mm * k)
    sheet = Sheet(width=size[0], height=size[1], scale=k, title=words)
    sheet.layer("paper")
    sheet.box((0.0, 0.0), size, Pen(fill="#FFFFFF"))
    sheet.layer("title")
    line, *_ = wrap(words, size=1.1 * TITLE, width=paper.width_mm - 2 * MARGIN)
    sheet.text((MARGIN * k, (MARGIN + TITLE) * k), line, Face(TITLE, INK, bold=True))
    y = HEAD
    for piece in plan.pages[number - 1]:
        _strip(sheet, view, piece, top=y, paper=paper)
        y += _piece_height(view, piece, plan.scale, paper)
    if number < count:
        return sheet.to_bytes()
    sheet.layer("notes")
    sheet.line((MARGIN * k, y * k), ((paper.width_mm - MARGIN) * k, y * k), Pen(PALE, 0.2))
    for n, line in enumerate(_notes(view, paper, scale=plan.scale), start=1):
        sheet.text((MARGIN * k, (y + n * LINE + 0.5) * k), line, Face(TEXT, INK))
    return sheet.to_bytes()


def _label(view: LoadMapView, one: ArrowView) -> tuple[str, ...]:
    """Return number, name and mass, in as many lines as the name takes."""
    words = f"{one.number}  {one.name}  {view.mass(one.mass_kg)}".strip()
    return wrap(words, size=TEXT, width=LONGEST_LABEL)


def _labels_height(view: LoadMapView, piece: RailStretch) -> float:
    lines = [line for one in piece.strip.arrows for line in _label(view, one)]
    return max((text_width(line, TEXT) for line in lines), default=0.0)


def _heading_height(piece: RailStretch, paper: Paper) -> float:
    warned = len(_warning(piece, paper)) * LINE
    return NAME + 4 * LINE + (LINE if piece.count > 1 else 0.0) + warned


def _warning(piece: RailStretch, paper: Paper) -> tuple[str, ...]:
    """Return the lines that say that a rail does not hold; none for one that does."""
    strip = piece.whole
    if not strip.fails:
        return ()
    words = f"{strip.rail.name} does not hold: {strip.fails}"
    return wrap(words, size=TEXT, width=paper.width_mm - 2 * MARGIN)


def _piece_height(view: LoadMapView, piece: RailStretch, scale: int, paper: Paper) -> float:
    lines = 2 + max((len(stud.screws) for stud in piece.strip.studs), default=0)
    below = (lines + 2) * LINE + BAR_HEIGHT + 1.0
    above = _heading_height(piece, paper) + _labels_height(view, piece) + ARROWS
    return above + piece.strip.rail.height_mm / scale + below + STRIP_GAP


def _strip(
    sheet: Sheet, view: LoadMapView, piece: RailStretch, *, top: float, paper: Paper
) -> None:
    """Draw what a page shows of one rail; ``top`` in paper millimetres."""
    k, strip = sheet.scale, piece.strip
    left = SIDE - piece.start_mm / k
    sheet.layer("strip")
    _heading(sheet, view, piece, top=top, paper=paper)
    labels_end = top + _heading_height(piece, paper) + _labels_height(view, piece)
    rail_top = labels_end + ARROWS
    foot = rail_top + strip.rail.height_mm / k
    corner = (SIDE * k, rail_top * k)
    size = (piece.end_mm - piece.start_mm, strip.rail.height_mm)
    sheet.box(corner, size, Pen(INK, 0.35, WOOD), name="rail")
    labels = [_label(view, one) for one in strip.arrows]
    heights = (labels_end, rail_top)
    _arrows(sheet, piece, labels, left=left, heights=heights, width=paper.width_mm)
    for stud in strip.studs:
        _stud(sheet, view, stud, x=left + stud.x_mm / k, rail=(rail_top, foot))
    if not piece.whole.studs:
        words = f"{view.nowhere}: it carries nothing until it is fixed with qualified advice"
        at = (corner[0], (foot + 1.0 + LINE) * k)
        sheet.text(at, words, Face(TEXT, CAUTION, bold=True))


def _heading(
    sheet: Sheet, view: LoadMapView, piece: RailStretch, *, top: float, paper: Paper
) -> None:
    k, strip, width = sheet.scale, piece.whole, paper.width_mm - 2 * MARGIN
    y = top + NAME
    sheet.text((MARGIN * k, y * k), strip.rail.name, Face(NAME, INK, bold=True))
    kept = "hangs already, its screws taken as those of the others; " if strip.rail.stays else ""
    seats = f" and {view.mass(strip.reserved_kg)} for seats kept free" if strip.reserved_kg else ""
    words = (
        f"{kept}top edge {view.length(strip.rail.z_top_mm)} above the wall's lower edge, "
        f"{view.length(strip.rail.z_top_mm + view.floor_gap_mm)} above the floor; "
        f"{view.length(strip.rail.length_mm)} long; carries {view.mass(strip.mass_kg)}{seats} = "
        f"{strip.weight_n:.1f} N, weighs {strip.own_n:.1f} N itself"
    )
    if strip.studs:
        words += f", its {view.place}s bear {strip.borne_n:.1f} N"
    share, asked = strip.most
    if asked:
        words += f". Asked most of one {view.one}, {100.0 * share:.0f} %: {asked}"
    lines = list(wrap(words, size=TEXT, width=width - text_width(strip.rail.name, NAME) - 3.0))
    if piece.count > 1:
        lines.append(
            f"part {piece.number} of {piece.count}: from "
            f"{view.length(piece.start_mm - strip.rail.x0_mm)} to "
            f"{view.length(piece.end_mm - strip.rail.x0_mm)} from its left end"
        )
    x = MARGIN + text_width(strip.rail.name, NAME) + 3.0
    for n, line in enumerate(lines):
        sheet.text((x * k, (y + n * LINE) * k), line, Face(TEXT, INK))
    face = Face(TEXT, CAUTION, bold=True)
    for n, line in enumerate(_warning(piece, paper), start=len(lines)):
        sheet.text((MARGIN * k, (y + n * LINE) * k), line, face, name="fails")


def _arrows(
    sheet: Sheet,
    piece: RailStretch,
    labels: Sequence[Sequence[str]],
    *,
    left: float,
    heights: tuple[float, float],
    width: float,
) -> None:
    """Draw an arrow for each load, its label above it, moved aside where two would touch."""
    k, (labels_end, rail_top) = sheet.scale, heights
    arrows = piece.strip.arrows
    wanted = [left + one.x_mm / k for one, lines in zip(arrows, labels, strict=True) for _ in lines]
    inside = (MARGIN + LABEL_STEP, width - MARGIN - LABEL_STEP)
    places = iter(within(apart(wanted, step=LABEL_STEP), step=LABEL_STEP, bounds=inside))
    for one, words in zip(arrows, labels, strict=True):
        x = left + one.x_mm / k
        lines = [(next(places), line) for line in words]
        at = sum(place for place, _ in lines) / len(lines)
        foot, bend, head = rail_top * k, (rail_top - 6.5) * k, (labels_end + 1.0) * k
        sheet.line((at * k, head), (x * k, bend), Pen(CAUTION, 0.18))
        arrow(sheet, (x * k, bend), (x * k, foot), Pen(CAUTION, 0.5))
        for place, line in lines:
            corner = ((place + 0.36 * TEXT) * k, labels_end * k)
            sheet.text(corner, line, Face(TEXT, INK), name="load", upright=True)


def within(
    places: Sequence[float], *, step: float, bounds: tuple[float, float]
) -> tuple[float, ...]:
    """Return places in order, moved as little as keeps them ``step`` apart between two bounds.

    >>> within((-3.0, 1.0, 9.0), step=2.0, bounds=(0.0, 8.0))
    (0.0, 2.0, 8.0)
    """
    moved = list(places)
    for n in range(len(moved)):
        moved[n] = max(moved[n], moved[n - 1] + step if n else bounds[0])
    for n in reversed(range(len(moved))):
        last = n == len(moved) - 1
        moved[n] = min(moved[n], bounds[1] if last else moved[n + 1] - step)
    return tuple(moved)


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
    sheet: Sheet, view: LoadMapView, stud: LoadedStud, *, x: float, rail: tuple[float, float]
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
    names = ("upper", "lower") if len(stud.screws) == 2 else (view.one,) * len(stud.screws)
    words = [
        f"{view.place if view.one == 'screw' else view.one} x {view.length(stud.x_mm)}",
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
    if view.strength is None:
        at = (x * k, (y + LINE) * k)
        face = Face(TEXT, CAUTION, bold=True, anchor="middle", halo=True)
        sheet.text(at, "not known", face, name="share")
        return
    worst = max((view.strength.share(screw) for screw in stud.screws), default=0.0)
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


def _notes_height(view: LoadMapView, paper: Paper, scale: int) -> float:
    return len(_notes(view, paper, scale=scale)) * LINE + 2.0


def _notes(view: LoadMapView, paper: Paper, *, scale: int) -> tuple[str, ...]:
    """Return the words at the foot of the sheet, in lines."""
    width = paper.width_mm - 2 * MARGIN
    words = (
        (
            f"Under each {view.place} stands what it bears when everything hangs, and what each "
            f"of its {view.one}s bears at worst: along the wall / out of the wall, whichever tools "
            "are away, with a hand that pulls at one holder. The rail counts as a beam in pieces "
            f"from {view.place} to {view.place} that turns about its lower edge. "
            f"{_of_the_bar(view)}"
        ),
        f"{view.assumed} {_may_carry(view)}".strip(),
        *view.cautions,
        f"Lengths along the rails and their heights are at 1:{scale}; sheet {paper.words}.",
    )
    return tuple(line for text in words for line in wrap(text, size=TEXT, width=width))


def _of_the_bar(view: LoadMapView) -> str:
    if view.strength is None:
        return (
            f"Nobody has said what one {view.one} may carry: hang nothing before its papers say "
            "that it bears these loads, and a person who leans on the rail as well."
        )
    return f"The bar is the share of what the more loaded {view.one} may carry."


def _may_carry(view: LoadMapView) -> str:
    if view.strength is None:
        return ""
    both = f"({view.rule}). Plasterboard alone carries nothing."
    if view.strength.together == "sum":
        both = "(the two shares add up to 1 at the most)."
    return (
        f"One may carry {view.strength.lateral_n:.0f} N along the wall and "
        f"{view.strength.withdrawal_n:.0f} N out of it, less for both together {both}"
    )
