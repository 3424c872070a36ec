"""A drilling template: each rail at full size on sheets, with its screws and the studs behind.

The sheets are SVG drawings at 1:1; ``svg_pdf`` makes one file of them.
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import DesignError
from cleatwright.base.stages.stage import Stage
from cleatwright.papers.drilling.plan import (
    ABOVE_MM,
    BELOW_MM,
    OVERLAP_MM,
    Spot,
    TemplatePlan,
    plan_sheets,
    square_mm,
)
from cleatwright.papers.drilling.view import Drilled, TemplateView, called
from cleatwright.papers.drilling.words import draw_words, words_mm
from cleatwright.papers.elevation.legend import BLUE, INK, PALE
from cleatwright.papers.elevation.view import letter
from cleatwright.papers.kit.drawn import Pages, drawn_pages
from cleatwright.papers.kit.paper import PRINT_MARGIN_MM
from cleatwright.papers.kit.svg import Anchor, Face, Pen, Sheet, text_width
from cleatwright.papers.kit.tiling import Window
from cleatwright.wall.rail import Rail
from cleatwright.wall.screws import ScrewPoint
from cleatwright.wall.tolerances import SLACK_MM

CIRCLE_MM = 4.0
# the mark in the middle of a cross where the hole itself is not drilled through the paper
MARKED_MM = 2.0
CROSS_MM = 6.0
MARK_MM = 2.5
# from the side of a sheet to the marks that it shares with the sheet below it
ASIDE_MM = 30.0
TEXT = 2.6
STEP = 3.3
OUTLINE = Pen(INK, 0.35)
LEVEL = Pen(BLUE, 0.25, dash=(6.0, 1.5))
STUD = Pen(PALE, 0.18, dash=(2.0, 1.0))
MIDDLE = Pen(PALE, 0.18, dash=(6.0, 1.2, 0.8, 1.2))


@dataclass(frozen=True)
class _Frame:
    """One sheet of one rail: ``x`` and ``z`` are those of the wall."""

    sheet: Sheet
    view: TemplateView
    rail: Drilled
    plan: TemplatePlan
    spot: Spot

    @property
    def window(self) -> Window:
        return self.spot[0]

    @property
    def band(self) -> Window:
        return self.spot[1]

    @property
    def is_lowest(self) -> bool:
        return self.band.number == len(self.plan.bands)

    @property
    def top(self) -> float:
        return PRINT_MARGIN_MM + ABOVE_MM

    @property
    def bottom(self) -> float:
        return self.top + min(self.band.end, self.rail.height_mm) - self.band.start

    @property
    def right(self) -> float:
        return self.plan.paper.width_mm - PRINT_MARGIN_MM

    def x(self, x_mm: float) -> float:
        """Return where a place of the wall lies across the paper."""
        return PRINT_MARGIN_MM + (x_mm - self.rail.x0_mm) - self.window.start

    def y(self, z_mm: float) -> float:
        """Return where a height of the wall lies on the paper, from above."""
        return self.top + self.rail.z_top_mm - z_mm - self.band.start

    def shows(self, x_mm: float) -> bool:
        """Return True when a place of the wall lies inside the window."""
        return self.window.start <= x_mm - self.rail.x0_mm <= self.window.end

    def has(self, down_mm: float) -> bool:
        """Return True when a place so far below the top edge is best seen in this row."""
        band, half = self.band, OVERLAP_MM / 2
        first = 0.0 if band.number == 1 else band.start + half
        last = self.rail.height_mm if self.is_lowest else band.end - half
        return first <= down_mm <= last


def template_pages(view: TemplateView, *, sheet: str = "A4") -> tuple[bytes, ...]:
    """Return the sheets of all rails and plates as SVG files, each from left to right.

    Args:
        view: What is drawn.
        sheet: Name of the paper.

    Raises:
        UnknownNameError: There is no such sheet.
    """
    pages: list[bytes] = []
    for rail in view.drilled:
        plan = template_plan(view, rail, sheet=sheet)
        pages += [_page(view, rail, plan, spot) for spot in plan.spots]
    return tuple(pages)


def template_plan(view: TemplateView, rail: Drilled, *, sheet: str) -> TemplatePlan:
    """Return the sheets of a rail with room for their words, upright ones where that takes it.

    Raises:
        UnknownNameError: There is no such sheet.
        DesignError: The words are longer than a sheet: no caution is left out.
    """
    plan = plan_sheets(rail, sheet=sheet, unit=view.unit)
    while (wanted := words_mm(view, rail, plan)) > plan.below_mm + SLACK_MM:
        before, plan = plan, plan_sheets(rail, sheet=sheet, unit=view.unit, words_mm=wanted)
        if plan == before:
            raise DesignError(
                f"the words of {called(rail)} find no room on the sheets of its template",
                where="drilling template",
                todo="Choose a larger template_sheet",
            )
    return plan


TEMPLATE: Stage[tuple[TemplateView, str], Pages] = drawn_pages(
    "drilling template", lambda given: template_pages(given[0], sheet=given[1])
)
"""From the rails to be put up, and the name of the paper, to the sheets of the template."""


def _page(view: TemplateView, rail: Drilled, plan: TemplatePlan, spot: Spot) -> bytes:
    width, height = plan.paper.width_mm, plan.paper.height_mm
    title = plan.heading(view.title, rail, spot)
    sheet = Sheet(width=width, height=height, scale=1.0, title=title)
    sheet.layer("paper")
    sheet.box((0.0, 0.0), (width, height), Pen(fill="#FFFFFF"))
    frame = _Frame(sheet, view, rail, plan, spot)
    _studs(frame)
    _outline(frame)
    _marks(frame)
    _screws(frame)
    side = square_mm(view.unit)
    corner = (PRINT_MARGIN_MM, frame.bottom + BELOW_MM)
    sheet.layer("square")
    sheet.box(corner, (side, side), Pen(INK, 0.25), name="square")
    told = f"{view.length(side)} {view.unit}"
    words = (f"Measure this square: {told} each way.", "If it is not, print again at 100 %.")
    for n, line in enumerate(words):
        at = (corner[0] + side / 2, corner[1] + side / 2 + n * STEP)
        sheet.text(at, line, Face(TEXT, INK, anchor="middle"), name="square-words")
    draw_words(sheet, view, rail, plan=plan, spot=spot, top_mm=corner[1])
    return sheet.to_bytes()


def _studs(frame: _Frame) -> None:
    frame.sheet.layer("studs")
    y0, y1 = frame.top - 3.0, frame.bottom + 2.0
    for stud in sorted(frame.view.studs, key=lambda s: s.x_mm):
        half = stud.width_mm / 2
        for x, pen in ((stud.x_mm - half, STUD), (stud.x_mm, MIDDLE), (stud.x_mm + half, STUD)):
            if frame.shows(x):
                frame.sheet.line((frame.x(x), y0), (frame.x(x), y1), pen)
        if frame.shows(stud.x_mm):
            length = frame.view.length
            words = f"stud {length(stud.x_mm)}, {length(stud.width_mm)} wide"
            room = text_width(words, TEXT) / 2
            clear = OVERLAP_MM + 2.0 + room
            x = min(max(frame.x(stud.x_mm), PRINT_MARGIN_MM + clear), frame.right - clear)
            face = Face(TEXT, PALE, anchor="middle", halo=True)
            frame.sheet.text((x, frame.bottom + 5.4), words, face, name="stud")


def _outline(frame: _Frame) -> None:
    """Draw the rail as far as the sheet shows it, and the level line past its ends."""
    sheet, rail, window = frame.sheet, frame.rail, frame.window
    left = max(frame.x(rail.x0_mm), PRINT_MARGIN_MM)
    right = min(frame.x(rail.x1_mm), frame.right)
    sheet.layer("rail")
    first = frame.band.number == 1
    edges = ((frame.top, "top", first), (frame.bottom, "bottom", frame.is_lowest))
    for y, name, shown in edges:
        if shown:
            sheet.polyline(((left, y), (right, y)), OUTLINE, name=f"rail-{name}")
    for x in (rail.x0_mm, rail.x1_mm):
        if frame.shows(x):
            ends = ((frame.x(x), frame.top), (frame.x(x), frame.bottom))
            sheet.polyline(ends, OUTLINE, name="rail-end")
    sheet.line((PRINT_MARGIN_MM, frame.top), (frame.right, frame.top), LEVEL)
    name = rail.name if isinstance(rail, Rail) else called(rail)
    words = f"level line = top edge of {name}"
    if not first:
        words = f"level line, {frame.view.length(frame.band.start)} below the top edge of {name}"
    at = (PRINT_MARGIN_MM + OVERLAP_MM + 4.0, frame.top - 4.0)
    sheet.text(at, words, Face(TEXT, BLUE, halo=True), name="level")
    cut = Pen(PALE, 0.13, dash=(1.0, 1.0))
    for x, outer in ((PRINT_MARGIN_MM, 1), (frame.right, frame.plan.total)):
        if window.number != outer:
            sheet.line((x, PRINT_MARGIN_MM), (x, frame.bottom + BELOW_MM - 1.0), cut)
    if not frame.is_lowest:
        sheet.line((PRINT_MARGIN_MM, frame.bottom), (frame.right, frame.bottom), cut)


def _marks(frame: _Frame) -> None:
    """Draw what must lie on each other where two sheets meet, with the letter of the meeting."""
    frame.sheet.layer("register")
    number, row, half = frame.window.number, frame.band.number, OVERLAP_MM / 2
    beside = ((PRINT_MARGIN_MM + half, number - 1), (frame.right - half, number))
    for x, meeting in beside:
        if 1 <= meeting < frame.plan.total:
            for y in (frame.top - 5.5, frame.bottom + 5.0):
                _mark(frame, x, y, letter(meeting - 1) + (str(row) if row > 1 else ""))
    above = ((frame.top + half, row - 1), (frame.bottom - half, row))
    for y, meeting in above:
        if 1 <= meeting < len(frame.plan.bands):
            for x in (PRINT_MARGIN_MM + ASIDE_MM, frame.right - ASIDE_MM):
                _mark(frame, x, y, f"{number}{letter(meeting - 1).lower()}")


def _mark(frame: _Frame, x: float, y: float, words: str) -> None:
    r = MARK_MM
    diamond = ((x - r, y), (x, y - r), (x + r, y), (x, y + r))
    frame.sheet.polyline(diamond, Pen(BLUE, 0.18), closed=True, name="register")
    frame.sheet.lines([((x - r, y), (x + r, y)), ((x, y - r), (x, y + r))], Pen(BLUE, 0.13))
    face = Face(TEXT, BLUE, bold=True)
    frame.sheet.text((x + 1.8, y - 1.2), words, face, name="meeting")


def _screws(frame: _Frame) -> None:
    sheet, rail = frame.sheet, frame.rail
    sheet.layer("screws")
    pilot = frame.view.sizes.pilot_mm if frame.view.sizes else MARKED_MM
    shown = [
        point
        for point in rail.screws
        if frame.shows(point.x_mm) and frame.has(rail.z_top_mm - point.z_mm)
    ]
    told = [(point, _screw_words(frame, point)) for point in shown]
    for point, words in told:
        # the lines of a stud break off where words stand
        y = frame.y(point.z_mm)
        corner = (words.left - 0.6, y - 2.0 * STEP + 1.0)
        sheet.box(corner, (words.wide + 1.2, 3.0 * STEP), Pen(fill="#FFFFFF"), name="clear")
    for point, words in told:
        x, y = frame.x(point.x_mm), frame.y(point.z_mm)
        sheet.circle((x, y), CIRCLE_MM, Pen(INK, 0.25))
        sheet.circle((x, y), pilot / 2, Pen(INK, 0.13))
        r = CROSS_MM
        sheet.polyline(((x - r, y), (x + r, y)), Pen(INK, 0.18), name="screw")
        sheet.polyline(((x, y - r), (x, y + r)), Pen(INK, 0.18), name="screw")
        for n, line in enumerate(words.lines):
            at = (words.x, y + (n - 1) * STEP + 0.9)
            face = Face(TEXT, INK, anchor=words.anchor, halo=True)
            sheet.text(at, line, face, name="screw-words")


@dataclass(frozen=True)
class _Words:
    """What stands beside a screw, and where on the paper."""

    lines: tuple[str, ...]
    x: float
    anchor: Anchor

    @property
    def wide(self) -> float:
        return max(text_width(line, TEXT) for line in self.lines)

    @property
    def left(self) -> float:
        return self.x if self.anchor == "start" else self.x - self.wide


def _screw_words(frame: _Frame, point: ScrewPoint) -> _Words:
    rail, length = frame.rail, frame.view.length
    lines = (
        f"{length(point.x_mm - rail.x0_mm)} from the left end",
        f"{length(point.x_mm)} on the wall",
        f"{length(rail.z_top_mm - point.z_mm)} below the top",
    )
    x = frame.x(point.x_mm)
    right = _Words(lines, x + CROSS_MM + 1.5, "start")
    if right.x + right.wide <= min(frame.right, frame.x(rail.x1_mm)):
        return right
    return _Words(lines, x - CROSS_MM - 1.5, "end")
