"""Arrangements of one wall side by side, as SVG drawings to scale.

┌───────────────────────────────────┐
│ title                             │
│ ┌ now ─────────┐ ┌ the other ───┐ │   all to one scale; what hangs elsewhere has a blue frame
│ │              │ │              │ │   and a blue balloon, what is new a black one with a plus,
│ └──────────────┘ └──────────────┘ │   where something hangs now is dashed, with a cross where
│ table            notes            │   it comes off; notes go on on further sheets
└───────────────────────────────────┘
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import chain

from cleatwright.papers.elevation.view import ElevationView, HolderView
from cleatwright.papers.kit.drafting import BLUE, INK, JOINT, PALE, arrow
from cleatwright.papers.kit.drawn import drawn_pages
from cleatwright.papers.kit.paper import SCALES, Paper, landscape
from cleatwright.papers.kit.svg import Face, Pen, Sheet, wrap
from cleatwright.papers.side_by_side.view import BesideView, SideBySideView, WasView

MARGIN, GAP = 10.0, 8.0
TITLE, HEAD, BODY, LINE = 4.6, 3.4, 2.85, 4.1
SMALL = 2.2
BALLOON = 2.5
NOTES = 2
"""Table and notes stand in so many columns below the walls."""
NUMBER = 0.21
"""How much of the width of the table a column of numbers takes."""
MOST_HEIGHT = 0.5
DASHED = (1.6, 0.8)
MOST_DIGITS = 2
"""So many letters stand in a balloon; more of them are smaller."""
WOOD, SOLID, TOOL, EASY = "#EAD9BC", "#D5DDE2", "#FFFFFF", "#E6F2E4"
TOP = MARGIN + TITLE + 4.0


def side_by_side_pages(view: SideBySideView) -> tuple[bytes, ...]:
    """Return the sheets as SVG files; the same view always gives the same bytes.

    They are A3, or Tabloid for inches, at the largest usual scale at which all walls stand side
    by side.
    """
    wall = view.walls[0].wall
    paper = landscape("A3" if wall.unit == "mm" else "Tabloid")
    k = _scale(wall, _column(paper, len(view.walls)), paper)
    notes = list(chain.from_iterable(_wrapped(line, _column(paper, NOTES)) for line in view.notes))
    below = _below(wall, k)
    room = int((paper.height_mm - MARGIN - below) // LINE)
    first = _first_page(view, paper, scale=k, notes=notes[:room])
    later = _later_pages(view, paper, scale=k, notes=notes[room:])
    return (first, *later)


SIDE_BY_SIDE = drawn_pages("side by side", side_by_side_pages)
"""From the view of two arrangements to its sheets."""


def _column(paper: Paper, count: int) -> float:
    """Return the width of one of several columns, in paper millimetres."""
    return (paper.width_mm - 2 * MARGIN - (count - 1) * GAP) / count


def _below(wall: ElevationView, k: float) -> float:
    """Return where the walls end, in paper millimetres from the top."""
    return TOP + HEAD + 2.0 + wall.height_mm / k + GAP


def _scale(wall: ElevationView, column: float, paper: Paper) -> float:
    """Return the k of 1:k: the largest usual scale, or for a very large wall whatever fits."""
    least = max(wall.width_mm / column, wall.height_mm / (MOST_HEIGHT * paper.height_mm))
    return float(next((k for k in SCALES if k >= least), math.ceil(least)))


def _sheet(view: SideBySideView, paper: Paper, scale: float, *, title: str) -> Sheet:
    size = (paper.width_mm * scale, paper.height_mm * scale)
    sheet = Sheet(width=size[0], height=size[1], scale=scale, title=view.title)
    sheet.layer("paper")
    sheet.box((0.0, 0.0), size, Pen(fill="#FFFFFF"))
    sheet.layer("title")
    line, *_ = wrap(title, size=1.1 * TITLE, width=paper.width_mm - 2 * MARGIN)
    at = (MARGIN * scale, (MARGIN + TITLE) * scale)
    sheet.text(at, line, Face(TITLE, INK, bold=True))
    return sheet


def _first_page(view: SideBySideView, paper: Paper, *, scale: float, notes: Sequence[str]) -> bytes:
    k = scale
    sheet = _sheet(view, paper, k, title=f"{view.title}, 1:{k:g}")
    column, half = _column(paper, len(view.walls)), _column(paper, NOTES)
    for at, beside in enumerate(view.walls):
        left = MARGIN + at * (column + GAP)
        sheet.layer("words")
        sheet.text((left * k, (TOP + HEAD) * k), beside.words, Face(HEAD, INK, bold=True))
        _wall(sheet, beside, corner=(left * k, (TOP + HEAD + 2.0) * k))
    below = _below(view.walls[0].wall, k)
    _table(sheet, view, top=below, width=half)
    _notes(sheet, notes, left=MARGIN + half + GAP, top=below)
    return sheet.to_bytes()


def _later_pages(
    view: SideBySideView, paper: Paper, *, scale: float, notes: Sequence[str]
) -> list[bytes]:
    """Return the sheets of the notes for which the first has no room, in two columns."""
    half = _column(paper, NOTES)
    column = int((paper.height_mm - MARGIN - TOP) // LINE)
    pages: list[bytes] = []
    for begin in range(0, len(notes), 2 * column):
        title = f"{view.title}, sheet {len(pages) + 2}"
        sheet = _sheet(view, paper, scale, title=title)
        for at in (0, 1):
            lines = notes[begin + at * column : begin + (at + 1) * column]
            _notes(sheet, lines, left=MARGIN + at * (half + GAP), top=TOP)
        pages.append(sheet.to_bytes())
    return pages


def _wrapped(line: str, width: float) -> tuple[str, ...]:
    return wrap(line, size=BODY, width=width) if line else ("",)


def _notes(sheet: Sheet, lines: Sequence[str], *, left: float, top: float) -> None:
    sheet.layer("notes")
    for number, line in enumerate(lines, 1):
        if line:
            at = (left * sheet.scale, (top + number * LINE) * sheet.scale)
            sheet.text(at, line, Face(BODY, INK))


def _table(sheet: Sheet, view: SideBySideView, *, top: float, width: float) -> None:
    """Draw the table: what is compared at the left, the numbers at the right of their columns."""
    k = sheet.scale
    numbers = range(len(view.heading) - 1)
    rights = [width * (1.0 - NUMBER * (len(numbers) - 1 - at)) for at in numbers]
    sheet.layer("table")
    for number, row in enumerate((view.heading, *view.rows) if view.rows else (), 1):
        y = (top + number * LINE) * k
        colour = PALE if number == 1 else INK
        sheet.text((MARGIN * k, y), row[0], Face(BODY, colour))
        for right, cell in zip(rights, row[1:], strict=True):
            at = ((MARGIN + right) * k, y)
            sheet.text(at, cell, Face(BODY, colour, anchor="end"))
        below = y + 1.0 * k
        sheet.line((MARGIN * k, below), ((MARGIN + width) * k, below), Pen(PALE, 0.1))


def _ground(sheet: Sheet, wall: ElevationView, *, corner: tuple[float, float]) -> None:
    """Draw what is there before anything hangs, and the rails."""
    left, top = corner
    foot = top + wall.height_mm

    def box(x0: float, x1: float, z0: float, z1: float, pen: Pen, *, name: str = "") -> None:
        sheet.box((left + x0, foot - z1), (x1 - x0, z1 - z0), pen, name=name)

    sheet.layer("wall")
    if wall.reach is not None:
        low = max(wall.reach.low_mm - wall.floor_gap_mm, 0.0)
        high = min(wall.reach.high_mm - wall.floor_gap_mm, wall.height_mm)
        if low < high:
            box(0.0, wall.width_mm, low, high, Pen(fill=EASY))
    for z in wall.joints_mm:
        sheet.line((left, foot - z), (left + wall.width_mm, foot - z), Pen(JOINT, 0.13))
    for x in sorted(wall.studs_mm):
        dashes = Pen(PALE, 0.13, dash=(4.0, 1.0, 0.6, 1.0))
        sheet.line((left + x, top), (left + x, foot), dashes)
    for rail in wall.rails:
        box(*rail.strip, Pen(INK, 0.2, WOOD), name="rail")
    for seat in wall.seats:
        dashes = Pen(BLUE, 0.18, dash=(1.6, 0.8))
        box(*seat.box_mm, dashes, name="reserved-seat")
    for one in wall.obstacles:
        box(*one.box_mm, Pen(PALE, 0.25, "#F0EFEC"), name="obstacle")
    box(0.0, wall.width_mm, 0.0, wall.height_mm, Pen(INK, 0.4), name="wall-outline")


def _wall(sheet: Sheet, beside: BesideView, *, corner: tuple[float, float]) -> None:
    wall, k = beside.wall, sheet.scale
    left, top = corner
    foot = top + wall.height_mm
    _ground(sheet, wall, corner=corner)
    _rails(sheet, beside, corner=corner)
    sheet.layer("holders")
    for holder in wall.holders:
        part = Pen(PALE, 0.18, SOLID)
        if holder.number in beside.moved | beside.new:
            part = Pen(BLUE if holder.number in beside.moved else INK, 0.45, SOLID)
        for rings, pen in (
            (holder.holder, part),
            (holder.tools, Pen(PALE, 0.13, TOOL)),
            (holder.front, part),
        ):
            sheet.rings([[(left + x, foot - z) for x, z in ring] for ring in rings], pen)
    sheet.layer("was")
    for was in beside.was:
        _was(sheet, was, left=left, foot=foot)
    sheet.layer("balloons")
    for (x, z), holder in _balloons(wall, BALLOON * k):
        new = holder.number in beside.new
        fill = BLUE if holder.number in beside.moved else INK if new else "#FFFFFF"
        at = (left + x, foot - z)
        sheet.circle(at, BALLOON * k, Pen(INK if new else BLUE, 0.3, fill))
        ink = INK if fill == "#FFFFFF" else "#FFFFFF"
        words = f"+{holder.number}" if new else str(holder.number)
        size = BODY if len(words) <= MOST_DIGITS else 0.75 * BODY
        face = Face(size, ink, bold=True, anchor="middle")
        sheet.text((at[0], at[1] + 0.35 * size * k), words, face)
    for one in wall.obstacles:
        x0, x1, _, z1 = one.box_mm
        for number, line in enumerate(
            wrap(one.name, size=SMALL, width=max((x1 - x0) / k, 12.0)), 1
        ):
            at = (left + x0 + 0.8 * k, foot - z1 + 1.3 * number * SMALL * k)
            sheet.text(at, line, Face(SMALL, PALE, halo=True), name="obstacle-name")
    for rail in wall.rails:
        at = (left + rail.x0_mm, foot - rail.z_top_mm - 0.8 * k)
        words = f"+{rail.name}" if rail.name in beside.new_rails else rail.name
        sheet.text(at, words, Face(BODY, INK, bold=True, halo=True), name="rail-name")


def _rails(sheet: Sheet, beside: BesideView, *, corner: tuple[float, float]) -> None:
    """Draw what rails become: one that is new has a thick frame, one that comes down a cross."""
    left, foot = corner[0], corner[1] + beside.wall.height_mm
    sheet.layer("rails")
    for rail in beside.wall.rails:
        if rail.name in beside.new_rails:
            x0, x1, z0, z1 = rail.strip
            sheet.box((left + x0, foot - z1), (x1 - x0, z1 - z0), Pen(INK, 0.5), name="new-rail")
    for rail in beside.rails_down:
        x0, x1, z0, z1 = rail.strip
        dashed = Pen(PALE, 0.3, dash=DASHED)
        sheet.box((left + x0, foot - z1), (x1 - x0, z1 - z0), dashed, name="rail-down")
        sheet.line((left + x0, foot - z0), (left + x1, foot - z1), Pen(PALE, 0.3))
        at = (left + x0, foot - z1 - 0.8 * sheet.scale)
        sheet.text(at, f"{rail.name} comes down", Face(BODY, PALE, halo=True), name="rail-name")


def _was(sheet: Sheet, was: WasView, *, left: float, foot: float) -> None:
    """Draw where something hangs now, with an arrow to where it goes, or a cross where it goes."""
    k, pen = sheet.scale, Pen(BLUE if was.to else INK, 0.3, dash=DASHED)
    sheet.rings([[(left + x, foot - z) for x, z in ring] for ring in was.outline], pen, name="was")
    x, y = left + was.at[0], foot - was.at[1]
    if was.to is None:
        r = 0.7 * BALLOON * k
        sheet.line((x - r, y - r), (x + r, y + r), Pen(INK, 0.6))
        sheet.line((x - r, y + r), (x + r, y - r), Pen(INK, 0.6))
        return
    arrow(sheet, (x, y), (left + was.to[0], foot - was.to[1]), Pen(BLUE, 0.45))


def _balloons(wall: ElevationView, radius: float) -> list[tuple[tuple[float, float], HolderView]]:
    """Return where the number of each holder stands: on its middle, lower where one stands."""
    found: list[tuple[tuple[float, float], HolderView]] = []
    for holder in wall.holders:
        xs = [x for ring in holder.holder for x, _ in ring]
        x = (min(xs) + max(xs)) / 2
        z = max(z for ring in holder.holder for _, z in ring) - radius
        for _ in range(len(found) + 1):
            if all(math.dist((x, z), at) >= 2 * radius for at, _ in found):
                break
            z -= 2 * radius
        found.append(((x, max(z, radius)), holder))
    return found
