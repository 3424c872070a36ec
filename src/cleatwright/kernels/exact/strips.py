"""Ruled bodies between stacked wires."""

# pyright: basic, reportAttributeAccessIssue=false
# OCP comes without stubs

from __future__ import annotations

from collections.abc import Iterable

from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace
from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
from OCP.BRepTools import BRepTools, BRepTools_ReShape
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.GeomLib import GeomLib_IsPlanarSurface
from OCP.gp import gp_Dir, gp_Pln, gp_Pnt, gp_Vec
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopoDS import TopoDS, TopoDS_Face, TopoDS_Shape, TopoDS_Wire

from cleatwright.kernels.exact.measure import inside

_FLAT_MM = 1e-7


def stacked(wires: Iterable[TopoDS_Wire]) -> TopoDS_Shape:
    """Return the solid whose sides are ruled from each wire to the next, edge by edge."""
    maker = BRepOffsetAPI_ThruSections(isSolid=True, ruled=True)
    maker.CheckCompatibility(check=False)
    for section in wires:
        maker.AddWire(section)
    maker.Build()
    return _with_planes(maker.Shape())


def _with_planes(shape: TopoDS_Shape) -> TopoDS_Shape:
    """Return the shape with true planes for its flat strips, which arrive as splines."""
    changes = BRepTools_ReShape()
    for found in inside(shape, TopAbs_ShapeEnum.TopAbs_FACE):
        face = TopoDS.Face(found)
        plane = _plane(face)
        if plane is not None:
            flat = BRepBuilderAPI_MakeFace(plane, BRepTools.OuterWire_s(face), Inside=False).Face()
            flat.Orientation(face.Orientation())
            changes.Replace(face, flat)
    return changes.Apply(shape)


def _plane(face: TopoDS_Face) -> gp_Pln | None:
    surface = BRepAdaptor_Surface(face)
    if surface.GetType() == GeomAbs_SurfaceType.GeomAbs_Plane:
        return None
    if not GeomLib_IsPlanarSurface(BRep_Tool.Surface_s(face), _FLAT_MM).IsPlanar():
        return None
    point, along, across = gp_Pnt(), gp_Vec(), gp_Vec()
    u = (surface.FirstUParameter() + surface.LastUParameter()) / 2
    v = (surface.FirstVParameter() + surface.LastVParameter()) / 2
    surface.D1(u, v, point, along, across)
    # the plane must look the way the spline looked, for its wire keeps its sense
    return gp_Pln(point, gp_Dir(along.Crossed(across)))
