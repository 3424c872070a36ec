"""Exact fillets and exact offsets of outlines."""

from __future__ import annotations

import math
from collections.abc import Collection

from cleatwright.base import said
from cleatwright.base.errors import ShapeError
from cleatwright.shapes.outline import TOLERANCE_MM, Edge, Outline, Point

TANGENT_TOLERANCE = 1e-7


def fillet(outline: Outline, radius_mm: float, *, only: Collection[int] | None = None) -> Outline:
    """Round the corners between straight edges with arcs of ``radius_mm`` (> 0).

    Args:
        outline: The outline; corners that touch an arc are left alone.
        radius_mm: The radius, used for outer and inner corners alike.
        only: Indices of the corners to round; all when None.

    Raises:
        ShapeError: A straight edge is too short for the arcs at its ends.
    """
    if not radius_mm > 0.0:
        raise ShapeError(f"a fillet of radius {said.mm(radius_mm)}")
    edges = list(outline.edges)
    count = len(edges)
    setback = [0.0] * count
    for i in range(count):
        before, after = edges[i - 1], edges[i]
        if before.bulge or after.bulge or (only is not None and i not in only):
            continue
        turn = _turn(before, after)
        if abs(turn) > TANGENT_TOLERANCE:
            setback[i] = radius_mm * math.tan(abs(turn) / 2)
    corners: list[Point] = []
    bulges: list[float] = []
    for i in range(count):
        before, after = edges[i - 1], edges[i]
        room = after.chord_mm - setback[i] - setback[(i + 1) % count]
        if room < -1e-9:
            raise ShapeError(
                f"a fillet of radius {said.mm(radius_mm)} does not fit on an edge of "
                f"{said.mm(after.chord_mm)}",
                todo="Use a smaller radius",
            )
        if setback[i]:
            corners.append(before.at(1.0 - setback[i] / before.chord_mm))
            bulges.append(math.tan(_turn(before, after) / 4))
        if not setback[i] or room > 1e-9:
            corners.append(after.at(setback[i] / after.chord_mm))
            bulges.append(after.bulge)
    return Outline(tuple(corners), tuple(bulges))


def offset(outline: Outline, distance_mm: float) -> Outline:
    """Return the parallel outline at ``distance_mm``, outward when positive, with mitred corners.

    Edges keep their number and kind, so that the result can be paired edge by
    edge with the original. That is exact where neighbours are tangent or both straight.

    Raises:
        ShapeError: An edge would vanish or turn round, or a corner joins an arc
            with an edge that is not tangent to it.
    """
    edges = list(outline.edges)
    corners: list[Point] = []
    for i, after in enumerate(edges):
        before = edges[i - 1]
        corners.append(_offset_corner(before, after, distance_mm))
    for i, old in enumerate(edges):
        new = Edge(corners[i], corners[(i + 1) % len(corners)], old.bulge)
        if new.chord_mm < TOLERANCE_MM or _turned_round(old, new):
            raise ShapeError(
                f"an offset of {said.mm(distance_mm)} consumes an edge of {said.mm(old.chord_mm)}",
                todo="Use a smaller offset or a larger fillet",
            )
    return Outline(tuple(corners), outline.bulges) if distance_mm else outline


def _turned_round(old: Edge, new: Edge) -> bool:
    (ax, ay), (bx, by) = old.direction_at(0.5), new.direction_at(0.5)
    return ax * bx + ay * by < 0.5


def _turn(before: Edge, after: Edge) -> float:
    """Return the signed turn in radians from one edge into the next, positive to the left."""
    (ax, ay), (bx, by) = before.direction_at(1.0), after.direction_at(0.0)
    return math.atan2(ax * by - ay * bx, ax * bx + ay * by)


def _offset_corner(before: Edge, after: Edge, distance_mm: float) -> Point:
    x, y = after.start
    (ax, ay), (bx, by) = before.direction_at(1.0), after.direction_at(0.0)
    turn = _turn(before, after)
    if abs(turn) > TANGENT_TOLERANCE and (before.bulge or after.bulge):
        raise ShapeError(
            "an exact offset needs arcs that run into their neighbours without a corner",
            todo="Fillet the corner first",
        )
    if abs(abs(turn) - math.pi) < TANGENT_TOLERANCE:
        raise ShapeError("an offset of an outline with a spike")
    # the mitre point lies on the bisector of the two outward normals (dy, -dx)
    nx, ny = ay + by, -(ax + bx)
    scale = distance_mm / (nx * ay - ny * ax)
    return (x + nx * scale, y + ny * scale)
