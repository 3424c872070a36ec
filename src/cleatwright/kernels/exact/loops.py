"""Wires and faces of outlines."""

# pyright: basic, reportAttributeAccessIssue=false
# OCP comes without stubs

from __future__ import annotations

from collections.abc import Callable, Collection
from math import comb, cos, pi

import numpy as np
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakeVertex,
    BRepBuilderAPI_MakeWire,
)
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.collections import Array1_gp_Pnt
from OCP.GC import GC_MakeArcOfCircle
from OCP.Geom import Geom_BezierCurve
from OCP.gp import gp_Pnt
from OCP.TopoDS import TopoDS, TopoDS_Edge, TopoDS_Face, TopoDS_Vertex, TopoDS_Wire

from cleatwright.kernels.exact.measure import failure
from cleatwright.shapes.outline import Edge, Outline, Point
from cleatwright.shapes.solid import Solid

Lift = Callable[[Point], gp_Pnt]
_DEGREE = 14


def level(z: float) -> Lift:
    """Return the map that lays plane points at height ``z``."""
    return lambda point: gp_Pnt(point[0], point[1], z)


def half_plane(point: Point) -> gp_Pnt:
    """Return the point (r, 0, z) of a profile point (r, z); what touches the axis lies on it."""
    return gp_Pnt(point[0] if point[0] > 1e-9 else 0.0, 0.0, point[1])


def wire(outline: Outline, lift: Lift, *, free: Collection[int] = ()) -> TopoDS_Wire:
    """Return the closed wire of an outline; the edges in ``free`` run evenly in their parameter.

    A circular arc of the library is a rational curve whose parameter is not its
    angle; that is no matter unless it is ruled to an edge of another sweep.
    """
    vertices = [BRepBuilderAPI_MakeVertex(lift(corner)).Vertex() for corner in outline.corners]
    maker = BRepBuilderAPI_MakeWire()
    for i, edge in enumerate(outline.edges):
        ends = (vertices[i], vertices[(i + 1) % len(vertices)])
        maker.Add(_even(edge, ends, lift) if i in free else _plain(edge, ends, lift))
    return maker.Wire()


def face(node: Solid, outer: TopoDS_Wire, holes: Collection[TopoDS_Wire] = ()) -> TopoDS_Face:
    """Return the plane face inside a wire and outside the holes; raises KernelError."""
    maker = BRepBuilderAPI_MakeFace(outer, OnlyPlane=True)
    for hole in holes:
        maker.Add(TopoDS.Wire(hole.Reversed()))
    found = maker.Face()
    if not BRepCheck_Analyzer(found).IsValid():
        raise failure(node, "a section that crosses itself or its holes")
    return found


def _plain(edge: Edge, ends: tuple[TopoDS_Vertex, TopoDS_Vertex], lift: Lift) -> TopoDS_Edge:
    if not edge.bulge:
        return BRepBuilderAPI_MakeEdge(*ends).Edge()
    arc = GC_MakeArcOfCircle(lift(edge.start), lift(edge.at(0.5)), lift(edge.end)).Value()
    return BRepBuilderAPI_MakeEdge(arc, *ends).Edge()


def _even(edge: Edge, ends: tuple[TopoDS_Vertex, TopoDS_Vertex], lift: Lift) -> TopoDS_Edge:
    """Return the edge as a Bézier curve whose parameter is the fraction of the edge.

    Interpolation at Chebyshev points leaves an arc of radius r and sweep s by less
    than 2 r (s / 4)^(n + 1) / (n + 1)!, 1e-12 of the radius at degree 14 and s = pi.
    """
    size = _DEGREE + 1
    nodes = np.array([(1.0 - cos(pi * k / _DEGREE)) / 2.0 for k in range(size)])
    basis = np.array(
        [[comb(_DEGREE, k) * t**k * (1 - t) ** (_DEGREE - k) for k in range(size)] for t in nodes]
    )
    poles = np.linalg.solve(basis, np.array([edge.at(float(t)) for t in nodes]))
    points = Array1_gp_Pnt(1, size)
    for k, (x, y) in enumerate(poles):
        points.SetValue(k + 1, lift((float(x), float(y))))
    return BRepBuilderAPI_MakeEdge(Geom_BezierCurve(points), *ends).Edge()
