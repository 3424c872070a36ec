"""The strokes of a DXF drawing, in mm: $INSUNITS counts, and without it a unit is 1 mm."""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from typing import Any

from cleatwright.base.dxf_library import (
    LOGGER,
    InsertUnits,
    conversion_factor,
    path,
    recover,
    recursive_decompose,
)
from cleatwright.base.errors import InputError
from cleatwright.base.unheard import unheard
from cleatwright.workshop.outlines.loops import FARTHEST_MM, FLAT_MM, Stroke, add_strokes

CURVES = frozenset({"LINE", "ARC", "CIRCLE", "ELLIPSE", "LWPOLYLINE", "POLYLINE", "SPLINE"})
# what a drawing may say about its outline
REMARKS = frozenset(
    {"TEXT", "MTEXT", "ATTDEF", "ATTRIB", "DIMENSION", "LEADER", "MULTILEADER", "POINT", "HATCH"}
)
MOST_TAKEN_APART = 10_000
MOST_DEEP = 60
# far above what any drawing program writes for one curve
MOST_DEGREE = 15
MOST_SPLINE_POINTS = 5_000
REMEDY = "Save the outline again as DXF of lines, arcs and polylines"


def dxf_strokes(content: bytes) -> tuple[Stroke, ...]:
    """Return every stroke in the model space of a DXF drawing, x to the right and y up.

    Raises:
        InputError: It is no DXF, or has things in it that are no outline.
    """
    with unheard(LOGGER):
        return _strokes(content)


def _strokes(content: bytes) -> tuple[Stroke, ...]:
    strokes: list[Stroke] = []
    try:
        document, audit = recover.read(io.BytesIO(content))
        _require_sound(audit)
        scale = _unit_mm(document.units)
        for entity in _entities(document):
            drawn = (_stroke(one, scale) for one in _single(entity))
            add_strokes(strokes, drawn)
    except InputError:
        raise
    except Exception as error:  # the library lets errors of many kinds through on broken files
        raise InputError("the drawing is broken, and cannot be read as DXF", todo=REMEDY) from error
    return tuple(strokes)


def _require_sound(audit: Any) -> None:
    if audit.has_errors:
        raise InputError("the drawing has faults in its DXF", todo=REMEDY)


def _unit_mm(units: int) -> float:
    if units == InsertUnits.Unitless:
        return 1.0
    return conversion_factor(InsertUnits(units), InsertUnits.Millimeters)


def _entities(document: Any) -> Iterator[Any]:
    """Yield the visible lines and curves, those in blocks too."""
    hidden = {layer.dxf.name for layer in document.layers if layer.is_off() or layer.is_frozen()}
    wanted: list[Any] = []
    for entity in document.modelspace():
        if entity.dxf.get("layer", "0") in hidden or entity.dxftype() in REMARKS:
            continue
        wanted.append(entity)
    _require_few(wanted, document)
    for entity in recursive_decompose(wanted):
        kind = entity.dxftype()
        if kind == "SPLINE":
            _require_plain(entity)
        if kind in CURVES:
            yield entity
        elif kind not in REMARKS:
            raise InputError(f"the drawing has a {kind}, which is no outline", todo=REMEDY)


def _require_few(entities: Iterable[Any], document: Any) -> None:
    """Count what blocks in blocks stand for, before the library takes them apart.

    Raises:
        InputError: A block is repeated in rows, holds itself, or they stand for too much.
    """
    counts: dict[str, int] = {}

    def within(name: str, outer: tuple[str, ...]) -> int:
        if name in outer or len(outer) > MOST_DEEP:
            raise InputError(
                "a block of the drawing holds itself"
                if name in outer
                else "the blocks of the drawing are nested too deeply",
                todo=REMEDY,
            )
        if name not in counts:
            block = document.blocks.get(name)
            counts[name] = sum(one(entity, (*outer, name)) for entity in block or ())
        return counts[name]

    def one(entity: Any, outer: tuple[str, ...]) -> int:
        kind = entity.dxftype()
        if kind == "INSERT" and entity.mcount > 1:
            raise InputError("the drawing repeats a block in rows", todo=REMEDY)
        if kind in {"INSERT", "DIMENSION"}:
            key = "name" if kind == "INSERT" else "geometry"
            return 1 + within(str(entity.dxf.get(key, "")).lower(), outer)
        return 1

    if sum(one(entity, ()) for entity in entities) > MOST_TAKEN_APART:
        raise InputError(
            "the drawing stands for far more than one outline: its blocks are used again and again",
            todo=REMEDY,
        )


def _require_plain(spline: Any) -> None:
    points = spline.control_point_count() + spline.fit_point_count()
    if spline.dxf.degree > MOST_DEGREE or points > MOST_SPLINE_POINTS:
        raise InputError(
            f"the drawing has a spline of degree {spline.dxf.degree} with {points} points",
            allowed=f"up to degree {MOST_DEGREE} and {MOST_SPLINE_POINTS} points",
            todo=REMEDY,
        )


def _single(entity: Any) -> Iterator[Any]:
    """Yield a polyline that has arcs as its lines and arcs, and else the entity itself."""
    if entity.dxftype() in ("LWPOLYLINE", "POLYLINE") and entity.has_arc:
        yield from entity.virtual_entities()
    else:
        yield entity


def _stroke(entity: Any, scale: float) -> Stroke:
    drawn = path.make_path(entity)
    far = FARTHEST_MM / scale
    if not all(abs(c) <= far for v in drawn.control_vertices() for c in (v.x, v.y)):
        raise InputError(
            "a line of the drawing has no sensible place",
            todo="Check the unit of the drawing, and move the outline to the origin",
        )
    # the path of a circle or ellipse is made of cubics, which leave a large one by too much
    exact = entity if entity.dxftype() in ("ARC", "CIRCLE", "ELLIPSE") else drawn
    return tuple((v.x * scale, v.y * scale) for v in exact.flattening(FLAT_MM / scale))
