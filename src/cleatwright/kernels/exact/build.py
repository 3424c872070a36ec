"""Evaluation of solid descriptions as boundary representations."""

# pyright: basic, reportAttributeAccessIssue=false
# OCP comes without stubs

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce
from math import isfinite

from OCP.BRepAlgoAPI import (
    BRepAlgoAPI_BooleanOperation,
    BRepAlgoAPI_Common,
    BRepAlgoAPI_Cut,
    BRepAlgoAPI_Fuse,
)
from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism, BRepPrimAPI_MakeRevol
from OCP.collections import List_TopoDS_Shape
from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec
from OCP.Standard import Standard_Failure
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Shape

from cleatwright.base.errors import KernelError
from cleatwright.kernels.exact.letters import letters
from cleatwright.kernels.exact.loops import face, half_plane, level, wire
from cleatwright.kernels.exact.measure import checked, failure, volume_of
from cleatwright.kernels.exact.strips import stacked
from cleatwright.shapes.outline import Outline, Region
from cleatwright.shapes.rounding import offset
from cleatwright.shapes.solid import (
    CutPrism,
    Difference,
    Intersection,
    Lettering,
    Loft,
    LoftChain,
    Placed,
    Prism,
    PrismRow,
    Revolved,
    Solid,
    Union,
)

_SLACK = 1e-6


def build(node: Solid) -> TopoDS_Shape:  # noqa: PLR0911 - one branch per node type
    """Return the checked shape of a description.

    Raises:
        KernelError: An operation failed or left nothing; the message names the node.
    """
    match node:
        case Placed():
            return _moved(build(node.solid), node)
        case Union():
            return _union(node)
        case Difference():
            return _difference(node, build(node.solid), [build(cut) for cut in node.cuts])
        case CutPrism():
            whole, *cuts = _prisms((node.outline, *node.cuts), node.height_mm)
            return _difference(node, whole, cuts)
        case PrismRow():
            return _row(node)
        case LoftChain():
            return build(node.as_union)
        case Intersection():
            parts = [build(part) for part in node.solids]
            return reduce(lambda a, b: _boolean(BRepAlgoAPI_Common(), node, [a], [b]), parts)
        case Prism() | Revolved() | Loft() | Lettering():
            try:
                return checked(_primitive(node), node)
            except Standard_Failure as error:
                raise failure(node, f"the error {error}") from error
        case _:
            raise KernelError(f"the exact kernel does not know {type(node).__name__}")


def _primitive(node: Prism | Revolved | Loft | Lettering) -> TopoDS_Shape:
    match node:
        case Prism():
            return _prism(node)
        case Revolved():
            profile = face(node, wire(node.profile, half_plane))
            axis = gp_Ax1(gp_Pnt(0.0, 0.0, 0.0), gp_Dir(0.0, 0.0, 1.0))
            return BRepPrimAPI_MakeRevol(profile, axis).Shape()
        case Loft():
            return _loft(node)
        case Lettering():
            return letters(node)


def _moved(shape: TopoDS_Shape, node: Placed) -> TopoDS_Shape:
    rows = zip(node.motion.rows, node.motion.shift_mm, strict=True)
    move = gp_Trsf()
    move.SetValues(*(number for row, shift in rows for number in (*row, shift)))
    moved = shape.Moved(TopLoc_Location(move))
    place = moved.Location().Transformation().TranslationPart()
    if not all(isfinite(number) for number in (place.X(), place.Y(), place.Z())):
        raise failure(node, "a place that is not finite")
    return moved


def _prism(node: Prism) -> TopoDS_Shape:
    height, low, high = node.height_mm, node.bottom_chamfer_mm, node.top_chamfer_mm
    region = node.region
    if not (low or high):
        holes = [wire(hole, level(0.0)) for hole in region.holes]
        base = face(node, wire(region.outer, level(0.0)), holes)
        return BRepPrimAPI_MakePrism(base, gp_Vec(0.0, 0.0, height)).Shape()
    levels = [(0.0, low), (low, 0.0), (height - high, 0.0), (height, high)]
    kept = [here for k, here in enumerate(levels) if k == 0 or here[0] - levels[k - 1][0] > 1e-9]
    outers = [wire(offset(region.outer, -inset), level(z)) for z, inset in kept]
    holes = [[wire(offset(hole, inset), level(z)) for z, inset in kept] for hole in region.holes]
    for sections in zip(outers, *holes, strict=True):
        face(node, sections[0], sections[1:])
    body = stacked(outers)
    if not holes:
        return body
    return _boolean(BRepAlgoAPI_Cut(), node, [body], [stacked(hole) for hole in holes])


def _loft(node: Loft) -> TopoDS_Shape:
    pairs = zip(node.lower.edges, node.upper.edges, strict=True)
    free = {i for i, (a, b) in enumerate(pairs) if abs(a.sweep - b.sweep) > 1e-12}
    return stacked(
        [
            wire(node.lower, level(0.0), free=free),
            wire(node.upper, level(node.height_mm), free=free),
        ]
    )


def _boolean(
    operation: BRepAlgoAPI_BooleanOperation,
    node: Solid,
    arguments: Sequence[TopoDS_Shape],
    tools: Sequence[TopoDS_Shape],
) -> TopoDS_Shape:
    operation.SetArguments(_listed(arguments))
    operation.SetTools(_listed(tools))
    try:
        operation.Build()
        if not operation.IsDone():
            raise failure(node, "an error in the boolean operation")
        operation.SimplifyResult()
        return checked(operation.Shape(), node)
    except Standard_Failure as error:
        raise failure(node, f"the error {error}") from error


def _listed(shapes: Iterable[TopoDS_Shape]) -> List_TopoDS_Shape:
    found = List_TopoDS_Shape()
    for shape in shapes:
        found.Append(shape)
    return found


def _union(node: Union) -> TopoDS_Shape:
    parts = [build(part) for part in node.solids]
    if len(parts) == 1:
        return parts[0]
    joined = _boolean(BRepAlgoAPI_Fuse(), node, parts[:1], parts[1:])
    volumes = [volume_of(part) for part in parts]
    volume = volume_of(joined)
    if not max(volumes) * (1 - _SLACK) <= volume <= sum(volumes) * (1 + _SLACK):
        raise failure(node, f"a volume of {volume:g} mm3 out of {volumes}")
    return joined


def _difference(node: Solid, whole: TopoDS_Shape, cuts: Sequence[TopoDS_Shape]) -> TopoDS_Shape:
    if not cuts:
        return whole
    left = _boolean(BRepAlgoAPI_Cut(), node, [whole], cuts)
    if volume_of(left) > volume_of(whole) * (1 + _SLACK):
        raise failure(node, "more volume after the cut than before")
    return left


def _prisms(outlines: Iterable[Outline], height_mm: float) -> list[TopoDS_Shape]:
    return [build(Prism(Region(outline), height_mm)) for outline in outlines]


def _row(node: PrismRow) -> TopoDS_Shape:
    first, *others = _prisms(node.outlines, node.height_mm)
    if not others:
        return first
    row = _boolean(BRepAlgoAPI_Fuse(), node, [first], others)
    wanted = sum(outline.area_mm2 for outline in node.outlines) * node.height_mm
    if not abs(volume_of(row) - wanted) <= _SLACK * wanted:
        raise failure(node, "outlines that do not lie apart")
    return row
