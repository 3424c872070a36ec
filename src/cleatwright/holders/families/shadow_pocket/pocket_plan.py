"""The plan of a pocket around an outline: what is cut, what stands around it, how a tool rests."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from itertools import pairwise
from typing import Any

from cleatwright.shapes.outline import Outline, Point, polygon

CHORD_MM = 0.02
MITRE = 3.0
# corners nearer to each other than this are one
_SAME_MM = 0.004
_ROUND_SEGMENTS = 4
_DEEPEST_DROP_MM = 3.0
_HALVINGS = 24


@dataclass(frozen=True)
class PocketPlan:
    """A pocket in the (x, z) plane, in the frame of its tool.

    Args:
        hole: What is cut: the outline with play, drawn upwards by the lift, without gaps in
            which a wall would be thin.
        outer: The outside of the wall around it.
        drop_mm: How far the tool sinks in the pocket until it rests.
    """

    hole: Outline
    outer: Outline
    drop_mm: float


def pocket_plan(
    outline: Outline, *, gap_mm: float, wall_mm: float, up_mm: float, lip_mm: float
) -> PocketPlan:
    """Return the pocket of an outline.

    Args:
        outline: The tool.
        gap_mm: Play on each side (> 0), exact along straight edges.
        wall_mm: The least thickness of what stands around and between parts of the pocket.
        up_mm: How far the tool is lifted in it.
        lip_mm: How much higher the pocket lies at its front.
    """
    shapely: Any = import_module("shapely")
    tool = shapely.Polygon(outline.polygon(CHORD_MM))
    near = shapely.buffer(tool, gap_mm, join_style="mitre", mitre_limit=MITRE)
    swept = _raised(shapely, near, up_mm)
    # a gap that is narrower than a wall is filled, and the corners of what is left are round
    half = wall_mm / 2 + _SAME_MM
    wider = shapely.buffer(swept, half, quad_segs=_ROUND_SEGMENTS)
    closed = shapely.buffer(wider, -half, quad_segs=_ROUND_SEGMENTS)
    hole = _whole(shapely, shapely.union(closed, swept))
    around = _raised(shapely, hole, lip_mm)
    outer = _whole(
        shapely, shapely.buffer(around, wall_mm + _SAME_MM, join_style="mitre", mitre_limit=MITRE)
    )
    return PocketPlan(_outline(hole), _outline(outer), _drop_mm(shapely, tool, hole))


def _raised(shapely: Any, shape: Any, up_mm: float) -> Any:
    """Return what a shape covers while it is lifted by ``up_mm``."""
    ring: list[Point] = list(shape.exterior.coords)
    sides = [
        shapely.Polygon([a, b, (b[0], b[1] + up_mm), (a[0], a[1] + up_mm)])
        for a, b in pairwise(ring)
        if abs(a[0] - b[0]) > _SAME_MM / 4
    ]
    lifted = _moved(shape, up_mm)
    return _whole(shapely, shapely.union_all([shape, lifted, *sides]))


def _moved(shape: Any, up_mm: float) -> Any:
    affinity: Any = import_module("shapely.affinity")
    return affinity.translate(shape, 0.0, up_mm)


def _whole(shapely: Any, shape: Any) -> Any:
    """Return a shape without holes and needless corners."""
    largest = max(getattr(shape, "geoms", (shape,)), key=lambda part: part.area)
    return shapely.Polygon(largest.exterior).simplify(_SAME_MM)


def _drop_mm(shapely: Any, tool: Any, hole: Any) -> float:
    """Return how far a tool can sink in its pocket, by halving."""
    free, met = 0.0, _DEEPEST_DROP_MM
    shapely.prepare(hole)
    for _ in range(_HALVINGS):
        middle = (free + met) / 2
        if hole.covers(_moved(tool, -middle)):
            free = middle
        else:
            met = middle
    return round(free, 5)


def _outline(shape: Any) -> Outline:
    ring: list[Point] = list(shape.exterior.coords)[:-1]
    corners = [(round(x, 6), round(z, 6)) for x, z in ring]
    return polygon(corners if shape.exterior.is_ccw else corners[::-1])
