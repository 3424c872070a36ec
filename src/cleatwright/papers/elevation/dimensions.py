"""The dimensions of an elevation: heights at the left, rails and the whole width below."""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.papers.elevation.layout import (
    DIMENSION_SIZE,
    HEIGHT_STEP,
    LEVEL,
    REACH_STEP,
    Layout,
    height_labels,
    reach_labels,
)
from cleatwright.papers.elevation.legend import BLUE, GREEN
from cleatwright.papers.elevation.people import draw_people
from cleatwright.papers.elevation.view import ElevationView
from cleatwright.papers.kit.svg import Anchor, Face, Pen, Point, Sheet, text_width

THIN = Pen(BLUE, 0.18)
FAINT = Pen(BLUE, 0.13, dash=(0.8, 0.8))
BASE = 0.36 * DIMENSION_SIZE


def spread(places: Sequence[float], *, step: float, low: float, high: float) -> tuple[float, ...]:
    """Return rising places moved as little as a sweep can, so that neighbours are ``step`` apart.

    They stay between ``low`` and ``high`` as long as there is room.

    >>> spread((10.0, 11.0, 30.0), step=5.0, low=0.0, high=32.0)
    (10.0, 15.0, 30.0)
    """
    moved: list[float] = []
    for place in places:
        moved.append(max(place, moved[-1] + step) if moved else max(place, low))
    limit = high
    for k in range(len(moved) - 1, -1, -1):
        moved[k] = min(moved[k], limit)
        limit = moved[k] - step
    return tuple(moved)


def draw_dimensions(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Draw all dimensions."""
    sheet.layer("dimensions")
    # the long faint lines come first, so that the halo of later texts interrupts them
    _overall(sheet, view, lay)
    _heights(sheet, view, lay)
    _rails(sheet, view, lay)
    _reach(sheet, view, lay)
    draw_people(sheet, view, lay)


def _face(anchor: Anchor) -> Face:
    return Face(DIMENSION_SIZE, BLUE, anchor=anchor, halo=True)


def _heights(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    k = float(lay.scale)
    labels = height_labels(view)
    real = [lay.bottom - z / k for z, _ in labels]
    low, high = lay.bottom - view.height_mm / k, lay.bottom - 2.0
    shown = spread(real, step=HEIGHT_STEP, low=low, high=high)
    edge = lay.left
    for y, at, (_, words) in zip(real, shown, labels, strict=True):
        route = ((edge, y), (edge - 2.0, y), (edge - 5.0, at), (edge - 6.0, at))
        sheet.polyline([(a * k, b * k) for a, b in route], THIN)
        sheet.text(((edge - 7.0) * k, (at + BASE) * k), words, _face("end"), name="rail-height")


def _rails(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    k = float(lay.scale)
    top = lay.bottom + 1.5
    if lay.lines_below_floor:
        top += view.floor_gap_mm / k + 5.5
    for line in lay.rail_lines:
        y = top + (line.level + 0.6) * LEVEL
        x0, x1 = lay.left + line.rail.x0_mm / k, lay.left + line.rail.x1_mm / k
        _arrowed(sheet, (x0 * k, y * k), (x1 * k, y * k))
        at = (y + BASE) * k
        sheet.text(((x0 - 1.5) * k, at), line.start, _face("end"), name="rail-from")
        sheet.text(((x1 + 1.5) * k, at), line.end, _face("start"), name="rail-to")
        if line.inside:
            middle = ((x0 + x1) / 2 * k, (y - 0.7) * k)
            sheet.text(middle, line.label, _face("middle"), name="rail-length")
        else:
            beside = x1 + 3.0 + text_width(line.end, DIMENSION_SIZE)
            sheet.text((beside * k, at), line.label, _face("start"), name="rail-length")


def _reach(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Write the heights of reach above the floor at the right of the wall."""
    k = float(lay.scale)
    labels = reach_labels(view)
    edge = lay.left + view.width_mm / k
    real = [lay.bottom - z / k for z, _, _ in labels]
    low = lay.bottom - view.height_mm / k + REACH_STEP / 2
    shown = spread(real, step=REACH_STEP, low=low, high=lay.bottom - REACH_STEP / 2)
    for y, at, (_, word, height) in zip(real, shown, labels, strict=True):
        route = ((edge, y), (edge + 1.2, y), (edge + 2.6, at), (edge + 3.4, at))
        sheet.polyline([(a * k, b * k) for a, b in route], Pen(GREEN, 0.18))
        face = Face(DIMENSION_SIZE, GREEN, halo=True)
        sheet.text(((edge + 4.2) * k, (at - 0.3) * k), word, face, name="reach-word")
        sheet.text(((edge + 4.2) * k, (at + 2.5) * k), height, face, name="reach-height")


def _overall(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    k = float(lay.scale)
    left, right = lay.left, lay.left + view.width_mm / k
    y = lay.bottom + 1.5 + lay.levels * LEVEL + 4.5
    if lay.lines_below_floor:
        y += view.floor_gap_mm / k + 5.5
    for x in (left, right):
        sheet.line((x * k, (lay.bottom + 0.8) * k), (x * k, (y + 1.2) * k), FAINT)
    _arrowed(sheet, (left * k, y * k), (right * k, y * k))
    middle = ((left + right) / 2 * k, (y - 0.7) * k)
    sheet.text(middle, view.length(view.width_mm), _face("middle"), name="wall-width")
    labels = [text_width(words, DIMENSION_SIZE) for _, words in height_labels(view)]
    x = left - 9.5 - max(labels, default=0.0)
    top = lay.bottom - view.height_mm / k
    for level in (top, lay.bottom):
        sheet.line(((x - 1.2) * k, level * k), ((left - 0.8) * k, level * k), FAINT)
    _arrowed(sheet, (x * k, lay.bottom * k), (x * k, top * k))
    at = ((x - 0.7) * k, (lay.bottom + top) / 2 * k)
    sheet.text(at, view.length(view.height_mm), _face("middle"), name="wall-height", upright=True)


def _arrowed(sheet: Sheet, start: Point, end: Point) -> None:
    """Draw a dimension line with an oblique stroke at each end."""
    sheet.line(start, end, THIN)
    r = 0.8 * sheet.scale
    sheet.lines(
        [((x - r, y + r), (x + r, y - r)) for x, y in (start, end)],
        Pen(BLUE, 0.3),
    )
