"""The strokes of a DXF drawing, in mm: $INSUNITS counts, and without it a unit is 1 mm."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import Any

from ezdxf import path, recover
from ezdxf.disassemble import recursive_decompose
from ezdxf.enums import InsertUnits
from ezdxf.units import conversion_factor

from cleatwright.base.errors import InputError
from cleatwright.workshop.outline_loops import FARTHEST_MM, FLAT_MM, Stroke, add_strokes

CURVES = frozenset({"LINE", "ARC", "CIRCLE", "ELLIPSE", "LWPOLYLINE", "POLYLINE", "SPLINE"})
# what a drawing may say about its outline
REMARKS = frozenset(
    {"TEXT", "MTEXT", "ATTDEF", "ATTRIB", "DIMENSION", "LEADER", "MULTILEADER", "POINT", "HATCH"}
)
REMEDY = "Save the outline again as DXF of lines, arcs and polylines"


def dxf_strokes(content: bytes, *, where: str) -> tuple[Stroke, ...]:
    """Return every stroke in the model space of a DXF drawing, x to the right and y up.

    Raises:
        InputError: It is no DXF, or has things in it that are no outline.
    """
    strokes: list[Stroke] = []
    try:
        document, audit = recover.read(io.BytesIO(content))
        _require_sound(audit, where=where)
        scale = _unit_mm(document.units)
        for entity in _entities(document, where=where):
            drawn = (_stroke(one, scale, where=where) for one in _single(entity))
            add_strokes(strokes, drawn, where=where)
    except InputError:
        raise
    except Exception as error:  # the library lets errors of many kinds through on broken files
        raise InputError(
            f"the drawing cannot be read as DXF ({type(error).__name__})", where=where, todo=REMEDY
        ) from error
    return tuple(strokes)


def _require_sound(audit: Any, *, where: str) -> None:
    if audit.has_errors:
        raise InputError("the drawing has faults in its DXF", where=where, todo=REMEDY)


def _unit_mm(units: int) -> float:
    if units == InsertUnits.Unitless:
        return 1.0
    return conversion_factor(InsertUnits(units), InsertUnits.Millimeters)


def _entities(document: Any, *, where: str) -> Iterator[Any]:
    """Yield the visible lines and curves, those in blocks too."""
    hidden = {layer.dxf.name for layer in document.layers if layer.is_off() or layer.is_frozen()}
    wanted: list[Any] = []
    for entity in document.modelspace():
        if entity.dxf.get("layer", "0") in hidden or entity.dxftype() in REMARKS:
            continue
        if entity.dxftype() == "INSERT" and entity.mcount > 1:
            raise InputError("the drawing repeats a block in rows", where=where, todo=REMEDY)
        wanted.append(entity)
    for entity in recursive_decompose(wanted):
        kind = entity.dxftype()
        if kind in CURVES:
            yield entity
        elif kind not in REMARKS:
            raise InputError(
                f"the drawing has a {kind}, which is no outline", where=where, todo=REMEDY
            )


def _single(entity: Any) -> Iterator[Any]:
    """Yield a polyline that has arcs as its lines and arcs, and else the entity itself."""
    if entity.dxftype() in ("LWPOLYLINE", "POLYLINE") and entity.has_arc:
        yield from entity.virtual_entities()
    else:
        yield entity


def _stroke(entity: Any, scale: float, *, where: str) -> Stroke:
    drawn = path.make_path(entity)
    far = FARTHEST_MM / scale
    if not all(abs(c) <= far for v in drawn.control_vertices() for c in (v.x, v.y)):
        raise InputError(
            "a line of the drawing has no sensible place",
            where=where,
            todo="Check the unit of the drawing, and move the outline to the origin",
        )
    # the path of a circle or ellipse is made of cubics, which leave a large one by too much
    exact = entity if entity.dxftype() in ("ARC", "CIRCLE", "ELLIPSE") else drawn
    return tuple((v.x * scale, v.y * scale) for v in exact.flattening(FLAT_MM / scale))
