"""Facts and checks of a boundary representation."""

# pyright: basic, reportAttributeAccessIssue=false
# OCP comes without stubs

from __future__ import annotations

from collections.abc import Iterator

from OCP.Bnd import Bnd_Box
from OCP.BRep import BRep_Tool
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.collections import IndexedMap_TopoDS_Shape_TopTools_ShapeMapHasher as ShapeMap
from OCP.GProp import GProp_GProps
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp
from OCP.TopoDS import TopoDS, TopoDS_Shape

from cleatwright.base.errors import KernelError
from cleatwright.shapes.facts import BodyFacts, Bounds
from cleatwright.shapes.solid import Solid

Kind = TopAbs_ShapeEnum
_INTEGRATION_ERROR = 1e-10


def inside(shape: TopoDS_Shape, kind: TopAbs_ShapeEnum) -> Iterator[TopoDS_Shape]:
    """Yield the different sub-shapes of a kind, each once however many share it."""
    found = ShapeMap()
    TopExp.MapShapes_s(shape, kind, found)
    for i in range(1, found.Extent() + 1):
        yield found.FindKey(i)


def volume_of(shape: TopoDS_Shape) -> float:
    """Return the volume in mm3, negative for a solid that is inside out.

    Integration with a fixed number of points is good to 1e-8 here and takes a fifth of the
    time of the adaptive one that the facts use.
    """
    found = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, found)
    return found.Mass()


def facts_of(shape: TopoDS_Shape) -> BodyFacts:
    """Return the facts of a checked shape."""
    volume, surface = GProp_GProps(), GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, volume, _INTEGRATION_ERROR)
    BRepGProp.SurfaceProperties_s(shape, surface, _INTEGRATION_ERROR)
    centre = volume.CentreOfMass()
    return BodyFacts(
        volume_mm3=volume.Mass(),
        area_mm2=surface.Mass(),
        centroid_mm=(centre.X(), centre.Y(), centre.Z()),
        bounds_mm=_bounds(shape),
        genus=sum(_genus(shell) for shell in inside(shape, Kind.TopAbs_SHELL)),
        bodies=sum(1 for _ in inside(shape, Kind.TopAbs_SOLID)),
    )


def _bounds(shape: TopoDS_Shape) -> Bounds:
    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape, box, useTriangulation=False, useShapeTolerance=False)
    box.SetGap(0.0)
    low, high = box.CornerMin(), box.CornerMax()
    return ((low.X(), low.Y(), low.Z()), (high.X(), high.Y(), high.Z()))


def _genus(shell: TopoDS_Shape) -> int:
    """Return the genus of one closed shell by the formula of Euler and Poincaré.

    V - E + F - (L - F) = 2 (1 - G), where L counts the separate rims of all faces. An edge
    that is a point on its surface (a pole or an apex) bounds nothing and is no edge here.

    Raises:
        KernelError: The shell is no closed surface.
    """
    vertices = ShapeMap()
    TopExp.MapShapes_s(shell, Kind.TopAbs_VERTEX, vertices)
    edges = sum(
        not BRep_Tool.Degenerated_s(TopoDS.Edge(edge)) for edge in inside(shell, Kind.TopAbs_EDGE)
    )
    faces = list(inside(shell, Kind.TopAbs_FACE))
    rims = sum(_rims(face, vertices) for face in faces)
    characteristic = vertices.Extent() - edges + 2 * len(faces) - rims
    if characteristic % 2:
        raise KernelError(
            f"a shell with the odd Euler characteristic {characteristic}", where="exact shapes"
        )
    return 1 - characteristic // 2


def _rims(face: TopoDS_Shape, vertices: ShapeMap) -> int:
    """Return how many separate pieces bound a face; wires that touch at a vertex are one."""
    pieces: list[set[int]] = []
    for wire in inside(face, Kind.TopAbs_WIRE):
        joined = {vertices.FindIndex(vertex) for vertex in inside(wire, Kind.TopAbs_VERTEX)}
        apart = [piece for piece in pieces if not piece & joined]
        for piece in pieces:
            if piece & joined:
                joined |= piece
        pieces = [*apart, joined]
    return len(pieces)


def failure(node: Solid, what: str) -> KernelError:
    """Return the error that names a node."""
    return KernelError(
        f"{type(node).__name__} {node.content_key[:10]} gave {what}",
        where="exact shapes",
        todo="Please keep the workshop file and report this",
    )


def checked(shape: TopoDS_Shape, node: Solid) -> TopoDS_Shape:
    """Return a shape that is a valid solid or several, else raise KernelError."""
    if shape.IsNull():
        raise failure(node, "no shape")
    if not any(inside(shape, Kind.TopAbs_SOLID)):
        raise failure(node, "an empty body")
    if not BRepCheck_Analyzer(shape).IsValid():
        raise failure(node, "an invalid boundary")
    if not volume_of(shape) > 0.0:
        raise failure(node, "a body without volume")
    return shape
