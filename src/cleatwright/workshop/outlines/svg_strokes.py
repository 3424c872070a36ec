"""The strokes of an SVG drawing, in mm.

The unit is that of the width and height of the drawing, spread over its viewBox; without
a viewBox a user unit is a pixel of 1/96 inch beside a width in mm (CSS Values 3, clause
5.2), and where width and height have no absolute unit it is one millimetre.
"""

from __future__ import annotations

import io
import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from typing import Any

import svgelements  # pyright: ignore[reportMissingTypeStubs] - there are none

from cleatwright.base import said
from cleatwright.base.dxf_library import Bezier3P, Bezier4P, Vec2
from cleatwright.base.errors import InputError
from cleatwright.base.unheard import unheard
from cleatwright.workshop.outlines.loops import FARTHEST_MM, FLAT_MM, Stroke, add_strokes
from cleatwright.workshop.outlines.svg_tree import SVG, plain_tree

# CSS Values and Units Level 3, clause 5.2: 1 in = 2.54 cm = 25.4 mm = 72 pt = 6 pc, 1 cm = 40 q
UNIT_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "q": 0.25}
PIXEL_MM = 25.4 / 96
STRETCH = 1e-3
MOST_SHOWN = 60
# a share of a view that has no size is nothing to cut by: it is refused as too distant
_NOWHERE = 1e9
_LIBRARY: Any = svgelements
_LENGTH = re.compile(r"\s*(\d+(?:\.\d*)?(?:[eE][-+]?\d+)?|\.\d+)\s*([a-zA-Z%]*)\s*")


def svg_strokes(content: bytes) -> tuple[Stroke, ...]:
    """Return every stroke of an SVG drawing, x to the right and y up.

    Raises:
        InputError: It is no SVG, or its units cannot be used.
    """
    try:
        root = ET.fromstring(content)  # noqa: S314 - 2 MB at most, and expat stops entity bombs
    except (ET.ParseError, ValueError, LookupError) as error:
        raise InputError(
            f"the drawing is no SVG: {error}", todo="Save it again as plain SVG"
        ) from error
    if root.tag not in (f"{{{SVG}}}svg", "svg"):
        raise InputError(
            "the drawing is no SVG: it does not begin with <svg>",
            todo="Save it again as plain SVG",
        )
    scale, width, height = _scale(root)
    for name in ("width", "height", "viewBox", "preserveAspectRatio"):
        root.attrib.pop(name, None)
    plain_tree(root)
    with unheard(_LIBRARY.__name__):
        return _read(root, scale, (width, height))


def _read(root: ET.Element, scale: float, view: tuple[float, float]) -> tuple[Stroke, ...]:
    strokes: list[Stroke] = []
    width, height = view
    try:
        drawn = _LIBRARY.SVG.parse(
            io.BytesIO(ET.tostring(root)), reify=True, ppi=96.0, width=width, height=height
        )
        for element in drawn.elements():
            if isinstance(element, _LIBRARY.Shape):
                drawn_as = abs(_LIBRARY.Path(element))
                add_strokes(strokes, _strokes(drawn_as, scale))
    except InputError:
        raise
    except Exception as error:  # the library names no errors of its own for broken paths
        raise InputError(
            "the drawing is broken, and cannot be read as SVG",
            todo="Save it again as plain SVG, with the outline as one path",
        ) from error
    return tuple(strokes)


def _scale(root: ET.Element) -> tuple[float, float, float]:
    """Return the millimetres of a user unit, and the size of the view in user units."""
    size = [_length(root.get(name)) for name in ("width", "height")]
    view = root.get("viewBox")
    sides: list[float] = []
    if view is not None:
        try:
            _, _, *sides = (float(part) for part in view.replace(",", " ").split())
        except ValueError:
            sides = []
        if len(sides) != 2 or not all(math.isfinite(s) and s > 0.0 for s in sides):
            raise InputError(
                f'the viewBox "{view[:MOST_SHOWN]}" cannot be used',
                allowed="four numbers, the last two more than 0",
            )
    units = [0.0 if one is None else UNIT_MM.get(one[1], 0.0) for one in size]
    if not all(units):
        width, height = sides or (_NOWHERE, _NOWHERE)
        return 1.0, width, height
    mm = [one[0] * unit for one, unit in zip(size, units, strict=True) if one is not None]
    if not sides:
        return PIXEL_MM, mm[0] / PIXEL_MM, mm[1] / PIXEL_MM
    across, up = mm[0] / sides[0], mm[1] / sides[1]
    if not (across > 0.0 and abs(across / up - 1.0) <= STRETCH):
        raise InputError(
            f"the drawing is stretched: a unit is {said.mm(across)} across and {said.mm(up)} up",
            todo="Let width and height have the same ratio as the viewBox",
        )
    return across, sides[0], sides[1]


def _length(text: str | None) -> tuple[float, str] | None:
    if text is None:
        return None
    read = _LENGTH.fullmatch(text)
    if read is None or not 0.0 < float(read[1]) < FARTHEST_MM:
        raise InputError(f'the size "{text[:MOST_SHOWN]}" cannot be used', allowed='such as "80mm"')
    return float(read[1]), read[2].lower()


def _strokes(path: Any, scale: float) -> Iterator[Stroke]:
    for part in path.as_subpaths():
        points: list[tuple[float, float]] = []
        for segment in _LIBRARY.Path(part):
            if isinstance(segment, _LIBRARY.Move) or segment.end is None:
                continue
            if not points:
                points.append((segment.start.x, segment.start.y))
            points += _flat(segment, FLAT_MM / scale, FARTHEST_MM / scale)
        if points:
            yield tuple((x * scale, -y * scale) for x, y in points)


def _flat(segment: Any, tolerance: float, farthest: float) -> list[tuple[float, float]]:
    """Return points on one segment after its start, within the tolerance."""
    if isinstance(segment, _LIBRARY.Arc):
        radius = max(segment.rx, segment.ry)
        if radius <= 0.0:
            # SVG 1.1, clause F.6.2: an arc with a radius of 0 is a straight line
            return [(segment.end.x, segment.end.y)]
        _require_near([radius], farthest)
        step = 2.0 * math.acos(1.0 - min(1.0, tolerance / radius))
        count = max(1, math.ceil(abs(segment.sweep) / step))
        turns = [segment.point(k / count) for k in range(1, count)]
        return [(p.x, p.y) for p in (*turns, segment.end)]
    points: list[tuple[float, float]] = [(p.x, p.y) for p in segment if p is not None]
    _require_near([c for p in points for c in p], farthest)
    if isinstance(segment, _LIBRARY.CubicBezier):
        curve = Bezier4P([Vec2(p) for p in points])
    elif isinstance(segment, _LIBRARY.QuadraticBezier):
        curve = Bezier3P([Vec2(p) for p in points])
    else:
        return points[1:]
    flat: list[Any] = list(curve.flattening(tolerance))
    return [(p.x, p.y) for p in flat[1:]]


def _require_near(numbers: list[float], farthest: float) -> None:
    if not all(abs(number) <= farthest for number in numbers):
        raise InputError(
            "a curve of the drawing has no sensible size",
            todo="Save it again as plain SVG, with the outline as one path",
        )
