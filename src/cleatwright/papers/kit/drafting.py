"""Marks of technical drawings: hatched cut faces, dimensions and arrows.

Source: from memory, ISO 128 (thin lines at 45 degrees across what is cut, the other way in a
second part) and ISO 129 (oblique strokes at the ends of a dimension).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import reduce
from importlib import import_module
from typing import Any

from cleatwright.papers.kit.svg import Face, Pen, Point, Sheet, text_width

INK, BLUE, PALE, CAUTION = "#15222A", "#22418F", "#5B6B75", "#8A1C1C"
JOINT = "#C3CED1"
"""The bed joints of masonry: they lie behind all else."""
STROKE = 0.8
HEAD_LONG, HEAD_HALF = 2.0, 0.65
ROOM = 1.0

Line = tuple[Point, Point]


def hatching(
    loops: Iterable[Sequence[Point]], *, step: float, lean_deg: float = 45.0
) -> list[Line]:
    """Return parallel lines over what closed lines enclose; one inside another is a hole.

    Args:
        loops: Closed lines of three points or more.
        step: Distance of the lines, > 0.
        lean_deg: Their angle to the x axis.
    """
    # imported on use: the library takes longer to load than anything else here
    shapely: Any = import_module("shapely")
    rings = [shapely.Polygon(loop).buffer(0.0) for loop in loops if len(loop) > 2]
    if not rings:
        return []
    face = reduce(lambda one, other: one.symmetric_difference(other), rings)
    if face.is_empty:
        return []
    (x0, y0, x1, y1), lean = face.bounds, math.radians(lean_deg)
    along, across = (math.cos(lean), math.sin(lean)), (-math.sin(lean), math.cos(lean))
    far = math.hypot(x1 - x0, y1 - y0)
    offsets = [x * across[0] + y * across[1] for x in (x0, x1) for y in (y0, y1)]
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    base = middle[0] * across[0] + middle[1] * across[1]
    found: list[Line] = []
    for n in range(math.ceil(min(offsets) / step), math.floor(max(offsets) / step) + 1):
        shift = n * step - base
        x, y = middle[0] + shift * across[0], middle[1] + shift * across[1]
        ends = [(x + s * far * along[0], y + s * far * along[1]) for s in (-1.0, 1.0)]
        cut = shapely.LineString(ends).intersection(face)
        for piece in getattr(cut, "geoms", [cut]):
            if piece.geom_type == "LineString" and not piece.is_empty:
                (a, b), *_, (c, d) = piece.coords
                found.append(((float(a), float(b)), (float(c), float(d))))
    return found


def clipped(loop: Sequence[Point], *, low: float, high: float) -> tuple[tuple[Point, ...], ...]:
    """Return the parts of what a closed line encloses whose second coordinate is in a range."""
    if low <= min(z for _, z in loop) and max(z for _, z in loop) <= high:
        return (tuple(loop),)
    shapely: Any = import_module("shapely")
    shape = shapely.Polygon(loop).buffer(0.0)
    x0, _, x1, _ = shape.bounds
    part = shape.intersection(shapely.box(x0 - 1.0, low, x1 + 1.0, high))
    return tuple(
        tuple((float(x), float(y)) for x, y in one.exterior.coords[:-1])
        for one in getattr(part, "geoms", [part])
        if one.geom_type == "Polygon" and not one.is_empty
    )


def arrow(sheet: Sheet, start: Point, end: Point, pen: Pen) -> None:
    """Draw a line with a filled head at its end; a line shorter than its head is all head."""
    length = math.dist(start, end)
    if length <= 0.0:
        return
    k = sheet.scale
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    long = min(HEAD_LONG * k, length)
    bx, by, half = end[0] - long * ux, end[1] - long * uy, HEAD_HALF * k
    if length > long:
        sheet.line(start, (bx, by), pen)
    head = [end, (bx - half * uy, by + half * ux), (bx + half * uy, by - half * ux)]
    sheet.polyline(head, Pen(fill=pen.stroke), closed=True)


def dimension(sheet: Sheet, start: Point, end: Point, *, words: str, face: Face, pen: Pen) -> None:
    """Draw a level or an upright dimension, its words along it, or beyond it where it is short.

    Words of a level dimension that is short stand to its right, of an upright one above it.
    """
    k = sheet.scale
    sheet.line(start, end, pen)
    r = STROKE * k
    strokes = [((x - r, y + r), (x + r, y - r)) for x, y in (start, end)]
    sheet.lines(strokes, Pen(pen.stroke, 0.3))
    width = text_width(words, face.size) * k
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    size = face.size * k
    centred = replace(face, anchor="middle")
    if start[1] == end[1]:
        if width + 2 * ROOM * k <= abs(end[0] - start[0]):
            sheet.text((middle[0], middle[1] - ROOM * k), words, centred)
        else:
            at = (max(start[0], end[0]) + 2 * ROOM * k, middle[1] + 0.36 * size)
            sheet.text(at, words, replace(face, anchor="start"))
        return
    x = middle[0] - ROOM * k
    if width + 2 * ROOM * k <= abs(end[1] - start[1]):
        sheet.text((x, middle[1]), words, centred, upright=True)
    else:
        y = min(start[1], end[1]) - 2 * ROOM * k
        sheet.text((x, y), words, replace(face, anchor="start"), upright=True)
