"""Which edges of tools lie behind a holder, so that they are drawn as hidden lines."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import shapely

from cleatwright.papers.elevation.view import Polygon

# the stubs of the library leave most of it open
_LIBRARY: Any = shapely
# shorter pieces than this, in mm, are crumbs of two outlines that lie on each other
CRUMB_MM = 1.0


def hidden_lines(behind: Sequence[Polygon], front: Sequence[Polygon]) -> tuple[Polygon, ...]:
    """Return the stretches of outlines inside other outlines, in order, as open lines.

    Outlines inside an outline are the rims of its holes.

    Args:
        behind: Closed outlines, each of points (x, z) in mm.
        front: Closed outlines that hide them.
    """
    cover = _area(front)
    if cover.is_empty:
        return ()
    found: list[Polygon] = []
    for outline in behind:
        if len(outline) < 2:
            continue
        ring: Any = _LIBRARY.LineString([*outline, outline[0]])
        inside = _LIBRARY.intersection(ring, cover)
        lines = _LIBRARY.get_parts(_LIBRARY.line_merge(_only_lines(inside)))
        found += [tuple((x, z) for x, z in ln.coords) for ln in lines if ln.length >= CRUMB_MM]
    return tuple(found)


def _area(outlines: Sequence[Polygon]) -> Any:
    """Return the area that the outlines cover, each crossing between in and out."""
    area: Any = _LIBRARY.Polygon()
    for outline in outlines:
        if len(outline) > 2:
            area = _LIBRARY.symmetric_difference(
                area, _LIBRARY.make_valid(_LIBRARY.Polygon(outline))
            )
    return area


def _only_lines(shape: Any) -> Any:
    parts = [part for part in _LIBRARY.get_parts(shape) if part.length > 0.0]
    return _LIBRARY.MultiLineString(parts)
