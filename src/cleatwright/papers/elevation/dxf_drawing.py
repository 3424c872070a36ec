"""The wall seen from the front as a DXF drawing in mm, each sort of thing on a layer of its own."""

from __future__ import annotations

import io
import math
from collections.abc import Generator, Iterator
from contextlib import contextmanager
from typing import Any

from cleatwright.base.dxf_library import TextEntityAlignment, ezdxf
from cleatwright.papers.elevation.dxf_dimensions import add_dimensions
from cleatwright.papers.elevation.view import ElevationView, PersonView, Polygon, Rect, letter
from cleatwright.papers.kit.svg import clean
from cleatwright.wall.rail import Rail

# colours are numbers of the format's own index: 7 ink, 8 grey, 30 wood, 5 blue, 1 red, 3 green
LAYERS = {
    "WALL": 7,
    "DATUM": 5,
    "STUDS": 8,
    "REACH": 3,
    "OBSTACLES": 1,
    "RAILS": 30,
    "RAILS_THAT_STAY": 8,
    "SCREWS": 1,
    "RESERVED_SEATS": 5,
    "HOLDERS": 5,
    "TOOLS": 8,
    "WAYS_OUT": 9,
    "NAMES": 7,
    "DIMENSIONS": 5,
}
# of these layers lines are dashed: 20 mm of line and 10 mm of gap
DASHED = frozenset({"RESERVED_SEATS"})
DASHES = [30.0, 20.0, -10.0]
TEXT_MM = 18.0
# the stubs of the library leave most of it open
_LIBRARY: Any = ezdxf
CROSS_MM = 8.0
DATUM_MM = 20.0
FIRST_DAY = 2444239.5
"""A fixed date, 1980-01-01 as a Julian day, since a drawing shall know no clock."""


def drawn_dxf(view: ElevationView) -> bytes:
    """Return the drawing; see ``elevation_dxf``."""
    with _without_clock():
        return _bytes(_drawn(view))


def _drawn(view: ElevationView) -> Any:
    document = _LIBRARY.new("R2010", units=_LIBRARY.units.MM)
    document.linetypes.add("DASHED", DASHES, description="__ __ __ __")
    for name, colour in LAYERS.items():
        line = "DASHED" if name in DASHED else "Continuous"
        document.layers.add(name, color=colour, linetype=line)
    space: Any = document.modelspace()
    _box(space, "WALL", (0.0, view.width_mm, 0.0, view.height_mm))
    _datum(space)
    for x in view.studs_mm:
        space.add_line((x, 0.0), (x, view.height_mm), dxfattribs={"layer": "STUDS"})
    _reach(space, view)
    _people(space, view)
    for index, obstacle in enumerate(view.obstacles):
        _box(space, "OBSTACLES", obstacle.box_mm)
        _name(space, f"{letter(index)} {obstacle.name}", (obstacle.box_mm[0], obstacle.box_mm[2]))
    for rail in view.rails:
        _rail(space, rail)
    for seat in view.seats:
        _box(space, "RESERVED_SEATS", seat.box_mm)
        _text(space, seat.name, layer="RESERVED_SEATS", at=(seat.box_mm[0], seat.box_mm[2]))
    for holder in view.holders:
        _loops(space, "HOLDERS", holder.holder)
        _loops(space, "TOOLS", holder.tools)
        for x, z, _ in holder.screw_points_mm:
            _cross(space, x, z)
        if holder.lift is not None:
            _box(space, "WAYS_OUT", holder.lift)
        points = [point for loop in (holder.holder or holder.tools) for point in loop]
        if points:
            x0, z0 = min(x for x, _ in points), min(z for _, z in points)
            _name(space, f"{holder.number} {holder.note}", (x0, z0 - 1.5 * TEXT_MM))
    add_dimensions(document, space, view)
    return document


def _datum(space: Any) -> None:
    """Mark the corner from which everything is measured: a cross in a circle."""
    look = {"layer": "DATUM"}
    space.add_circle((0.0, 0.0), DATUM_MM / 2, dxfattribs=look)
    space.add_line((-DATUM_MM, 0.0), (DATUM_MM, 0.0), dxfattribs=look)
    space.add_line((0.0, -DATUM_MM), (0.0, DATUM_MM), dxfattribs=look)


def _reach(space: Any, view: ElevationView) -> None:
    """Draw a line across the wall at each edge of reach that lies on it."""
    if view.reach is None:
        return
    band, gap = view.reach, view.floor_gap_mm
    for words, height in (
        ("reach begins", band.lowest_mm),
        ("easy from", band.low_mm),
        ("easy to", band.high_mm),
        ("reach ends", band.highest_mm),
    ):
        z = height - gap
        if math.isfinite(z) and 0.0 < z < view.height_mm:
            space.add_line((0.0, z), (view.width_mm, z), dxfattribs={"layer": "REACH"})
            told = f"{words} {view.length(height)} above the floor"
            _text(space, told, layer="REACH", at=(view.width_mm + TEXT_MM, z))


def _people(space: Any, view: ElevationView) -> None:
    """Draw an upright line beside the wall where each of several people reaches with ease."""
    gap = view.floor_gap_mm
    for number, one in enumerate(view.people, 1):
        x = -4 * TEXT_MM * number
        for words, low, high in _spans(one):
            z0, z1 = max(low - gap, 0.0), min(high - gap, view.height_mm)
            if z0 < z1:
                space.add_line((x, z0), (x, z1), dxfattribs={"layer": "REACH"})
                told = f"{one.name} {words} {view.length(high)}"
                _text(space, told, layer="REACH", at=(x, z1))


def _spans(one: PersonView) -> Iterator[tuple[str, float, float]]:
    if one.band is not None:
        yield "easy to", one.band.low_mm, one.band.high_mm
    if one.touches_mm is not None:
        yield "touches up to", 0.0, one.touches_mm


def _rail(space: Any, rail: Rail) -> None:
    layer = "RAILS_THAT_STAY" if rail.stays else "RAILS"
    _box(space, layer, rail.strip)
    for point in rail.screws:
        _cross(space, point.x_mm, point.z_mm)


def _box(space: Any, layer: str, box: Rect) -> None:
    x0, x1, z0, z1 = box
    _loops(space, layer, (((x0, z0), (x1, z0), (x1, z1), (x0, z1)),))


def _loops(space: Any, layer: str, loops: tuple[Polygon, ...]) -> None:
    for loop in loops:
        space.add_lwpolyline(loop, close=True, dxfattribs={"layer": layer})


def _cross(space: Any, x: float, z: float) -> None:
    for dx, dz in ((CROSS_MM, 0.0), (0.0, CROSS_MM)):
        ends = ((x - dx, z - dz), (x + dx, z + dz))
        space.add_line(*ends, dxfattribs={"layer": "SCREWS"})


def _name(space: Any, text: str, at: tuple[float, float]) -> None:
    _text(space, text, layer="NAMES", at=at)


def _text(space: Any, text: str, *, layer: str, at: tuple[float, float]) -> None:
    entity = space.add_text(clean(text), height=TEXT_MM, dxfattribs={"layer": layer})
    entity.set_placement(at, align=TextEntityAlignment.BOTTOM_LEFT)


@contextmanager
def _without_clock() -> Generator[None]:
    """Let the library put no clock and no random numbers into what it writes."""
    before = _LIBRARY.options.write_fixed_meta_data_for_testing
    _LIBRARY.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        _LIBRARY.options.write_fixed_meta_data_for_testing = before


def _bytes(document: Any) -> bytes:
    for variable in ("$TDCREATE", "$TDUCREATE", "$TDUPDATE", "$TDUUPDATE"):
        document.header[variable] = FIRST_DAY
    # the library keeps what every file must name in a set, whose order no two runs share
    document.classes.add_required_classes(document.dxfversion)
    document.classes.classes = dict(sorted(document.classes.classes.items()))
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode("utf-8")
