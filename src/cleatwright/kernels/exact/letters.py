"""Letters as exact bodies with flat sides."""

# pyright: basic, reportAttributeAccessIssue=false
# OCP comes without stubs

from __future__ import annotations

from collections.abc import Sequence

from OCP.BRep import BRep_Builder
from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
from OCP.gp import gp_Vec
from OCP.TopoDS import TopoDS_Compound, TopoDS_Shape

from cleatwright.kernels.exact.loops import face, level, wire
from cleatwright.kernels.lettering import letter_lines
from cleatwright.shapes.outline import Edge, Outline, Point, polygon
from cleatwright.shapes.solid import Lettering


def letters(node: Lettering) -> TopoDS_Shape:
    """Return the letters as one compound; each outer loop takes the holes that lie in it."""
    loops = letter_lines(node.text, node.cap_mm)
    # the font's outer loops run clockwise, its holes counter-clockwise
    outers = [polygon(loop[::-1]) for loop in loops if _signed_area(loop) < 0.0]
    holes = [polygon(loop) for loop in loops if _signed_area(loop) > 0.0]
    bodies = TopoDS_Compound()
    builder = BRep_Builder()
    builder.MakeCompound(bodies)
    for outer in outers:
        inner = [wire(h, level(0.0)) for h in holes if _encloses(outer, h.corners[0])]
        base = face(node, wire(outer, level(0.0)), inner)
        builder.Add(bodies, BRepPrimAPI_MakePrism(base, gp_Vec(0.0, 0.0, node.depth_mm)).Shape())
    return bodies


def _signed_area(loop: Sequence[Point]) -> float:
    following = [*loop[1:], loop[0]]
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(loop, following, strict=True)) / 2


def _encloses(outline: Outline, point: Point) -> bool:
    """Return whether a point lies inside an outline of straight edges."""
    return sum(_crosses(edge, point) for edge in outline.edges) % 2 == 1


def _crosses(edge: Edge, point: Point) -> bool:
    (x0, y0), (x1, y1) = edge.start, edge.end
    x, y = point
    return (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0)
