"""Convex parts of an outline."""

from __future__ import annotations

import math
from importlib import import_module
from typing import Any

from cleatwright.shapes.outline import Outline, Point, polygon

MOST_PIECES = 40
CHORD_MM = 0.02


def convex_parts(outline: Outline) -> tuple[Outline, ...]:
    """Return convex outlines that together cover an outline with straight edges.

    The triangles of a constrained Delaunay triangulation are united with a neighbour as long
    as the whole stays convex, the longest common edge first.

    >>> from cleatwright.shapes.outline import rectangle
    >>> len(convex_parts(rectangle(0.0, 0.0, 30.0, 10.0)))
    1
    """
    # it brings numpy along, which a list of the kinds has no use for
    shapely: Any = import_module("shapely")
    triangles = shapely.constrained_delaunay_triangles(shapely.Polygon(outline.corners))
    parts: list[list[Point]] = sorted(_ring(one) for one in triangles.geoms)
    while True:
        pair = _next_pair(parts)
        if pair is None:
            return tuple(polygon(ring) for ring in parts)
        i, j, united = pair
        parts = [ring for k, ring in enumerate(parts) if k not in (i, j)] + [united]


def _next_pair(parts: list[list[Point]]) -> tuple[int, int, list[Point]] | None:
    """Return two parts that form a convex one, by the longest edge that they share."""
    owner: dict[tuple[Point, Point], int] = {}
    shared: list[tuple[float, tuple[Point, Point], int, int]] = []
    for k, ring in enumerate(parts):
        for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
            if (b, a) in owner:
                shared.append((-math.dist(a, b), min((a, b), (b, a)), owner[b, a], k))
            owner[a, b] = k
    for _, edge, i, j in sorted(shared):
        united = _united(parts[i], parts[j], edge)
        if _is_convex(united):
            return i, j, united
    return None


def _united(one: list[Point], other: list[Point], edge: tuple[Point, Point]) -> list[Point]:
    """Return the ring around two rings that share one edge, which they run opposite ways."""
    a, b = edge if _runs(one, edge) else edge[::-1]
    i, j = one.index(b), other.index(a)
    return [*one[i:], *one[:i], *(other[j:] + other[:j])[1:-1]]


def _runs(ring: list[Point], edge: tuple[Point, Point]) -> bool:
    return ring[(ring.index(edge[0]) + 1) % len(ring)] == edge[1]


def _is_convex(ring: list[Point]) -> bool:
    """Tell whether no corner turns in by more than rounding noise."""
    count = len(ring)
    for k in range(count):
        (ax, ay), (bx, by), (cx, cy) = ring[k - 1], ring[k], ring[(k + 1) % count]
        turn = (bx - ax) * (cy - by) - (by - ay) * (cx - bx)
        if turn < -1e-9 * math.dist((ax, ay), (bx, by)) * math.dist((bx, by), (cx, cy)):
            return False
    return True


def _ring(triangle: Any) -> list[Point]:
    corners: list[Point] = list(triangle.exterior.coords)[:-1]
    ring = corners if triangle.exterior.is_ccw else corners[::-1]
    first = ring.index(min(ring))
    return ring[first:] + ring[:first]
