"""From the strokes of a drawing to its one closed outline."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any

import shapely
from shapely.geometry import LineString, MultiLineString, Polygon

from cleatwright.base import said
from cleatwright.base.errors import InputError
from cleatwright.shapes.outline import Outline, Point, polygon

Stroke = tuple[Point, ...]
"""Points in mm, x to the right and y up; closed when the last is the first."""

LEAST_MM = 10.0
MOST_MM = 600.0
MOST_CORNERS = 400
MOST_STROKES = 2_000
MOST_POINTS = 20_000
FARTHEST_MM = 1e5
# flattening and leaving out corners together stay within 0.05 mm
FLAT_MM = 0.02
SIMPLE_MM = 0.028
JOIN_MM = 0.05
_ROUND = 4


def add_strokes(found: list[Stroke], more: Iterable[Stroke]) -> None:
    """Add strokes to those of a drawing, and refuse too many or too distant points."""
    points = sum(map(len, found))
    for stroke in more:
        found.append(stroke)
        points += len(stroke)
        _require_drawable(stroke, (len(found), points))


def _require_drawable(stroke: Stroke, so_far: tuple[int, int]) -> None:
    strokes, points = so_far
    if strokes > MOST_STROKES or points > MOST_POINTS:
        raise InputError(
            f"the drawing has too many points or lines: {points} points in {strokes} lines, and "
            "perhaps more",
            allowed=f"up to {MOST_POINTS} points in {MOST_STROKES} lines",
            todo="Leave nothing but the outline in it",
        )
    if not all(abs(c) <= FARTHEST_MM for point in stroke for c in point):
        raise InputError(
            f"the drawing reaches farther than {FARTHEST_MM / 1000:g} m",
            todo="Check the unit of the drawing, and move the outline to the origin",
        )


def one_outline(strokes: Sequence[Stroke]) -> Outline:
    """Return the one outline that strokes form, x to the left and y up.

    Raises:
        InputError: There is none, it is open, crosses itself, is one of several, or its size
            or number of corners is out of bounds.
    """
    loops = [_simple(loop) for loop in _joined(strokes)]
    loops.sort(key=lambda loop: loop.area, reverse=True)
    outer = loops[0]
    for other in loops[1:]:
        _require_inside(outer, other)
    x0, y0, x1, y1 = outer.bounds
    if min(x1 - x0, y1 - y0) < LEAST_MM or max(x1 - x0, y1 - y0) > MOST_MM:
        raise InputError(
            f"the outline is {said.number(x1 - x0)} by {said.mm(y1 - y0)}",
            allowed=f"each side from {said.number(LEAST_MM)} to {said.mm(MOST_MM)}",
            todo="Check the unit of the drawing; a drawing without a unit counts as mm",
        )
    return _plain(outer)


def _joined(strokes: Sequence[Stroke]) -> list[Polygon]:
    """Return the closed loops of strokes whose ends lie within 0.05 mm of each other."""
    long = [stroke for stroke in strokes if len(set(stroke)) > 1]
    if not long:
        raise InputError(
            "the drawing has no lines or curves",
            todo="Draw the outline as one closed path",
        )
    # the stubs leave the type of further arguments open
    library: Any = shapely
    merged = library.line_merge(MultiLineString([LineString(s) for s in _snapped(long)]))
    loops: list[Polygon] = []
    for line in getattr(merged, "geoms", (merged,)):
        if not line.is_closed:
            (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
            raise InputError(
                f"a line of the drawing is open: it runs from x {said.number(x0, '.2f')}, "
                f"y {said.number(y0, '.2f')} to x {said.number(x1, '.2f')}, y {said.mm(y1, '.2f')}",
                todo="Close the path, and leave nothing but the outline in the drawing",
            )
        if len(line.coords) > 3:
            loops.append(Polygon(line.coords))
    if not loops:
        raise InputError("the drawing encloses no area", todo="Draw the outline as one closed path")
    return loops


def _snapped(strokes: Iterable[Stroke]) -> list[Stroke]:
    """Return strokes whose ends fall together where they lie within the tolerance."""
    nodes: dict[tuple[int, int], list[Point]] = {}

    def node(point: Point) -> Point:
        i, j = (math.floor(c / JOIN_MM) for c in point)
        around = [(i + a, j + b) for a in (-1, 0, 1) for b in (-1, 0, 1)]
        near = [one for cell in around for one in nodes.get(cell, ())]
        close = [one for one in near if math.dist(one, point) <= JOIN_MM]
        if close:
            return min(close, key=lambda one: (math.dist(one, point), one))
        nodes.setdefault((i, j), []).append(point)
        return point

    found = ((node(s[0]), *s[1:-1], node(s[-1])) for s in strokes)
    return [stroke for stroke in found if len(set(stroke)) > 1]


def _simple(loop: Polygon) -> Polygon:
    if not loop.is_valid or loop.area <= 0.0:
        raise InputError(
            f"a line of the drawing crosses or touches itself: "
            f"{shapely.is_valid_reason(loop).lower()}",
            todo="Redraw it as one line around the tool",
        )
    return loop


def _require_inside(outer: Polygon, other: Polygon) -> None:
    if outer.contains_properly(other):
        return
    crossing = outer.intersects(other)
    raise InputError(
        "two outlines of the drawing cross or touch each other"
        if crossing
        else "the drawing has several outlines beside each other",
        allowed="one closed outline; loops inside it are left out",
        todo="Unite them in your drawing program" if crossing else "Write a drawing for each tool",
    )


def _plain(outer: Polygon) -> Outline:
    """Return the outline as the program keeps it: few corners, x to the left."""
    plain: Any = outer.simplify(SIMPLE_MM, preserve_topology=True)
    corners = [(0.0 - round(x, _ROUND), round(y, _ROUND)) for x, y in plain.exterior.coords[:-1]]
    if len(corners) > MOST_CORNERS:
        raise InputError(
            f"the outline has {len(corners)} corners when it is drawn to {said.mm(0.05)}",
            allowed=f"up to {MOST_CORNERS}",
            todo="Smooth it in your drawing program",
        )
    kept = _simple(Polygon(corners))
    return polygon(corners if kept.exterior.is_ccw else corners[::-1])
