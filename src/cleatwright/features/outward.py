"""Pieces drawn out of the wall, and plates no wider than what they carry."""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.features.layout import SeatLayout, row
from cleatwright.parts.holder import MarkPlace, front_mark
from cleatwright.shapes.outline import Outline
from cleatwright.shapes.rigid import Rigid
from cleatwright.shapes.solid import LoftChain, Solid, prism

# (x, y, z) -> (-x, z, y) lays an outline upright with its drawing direction out of the wall
_OUTWARD = ((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0))
# a strip of plate below the front, and what of it is free for a mark
MARK_BAND_MM = 10.5
MARK_EDGE_MM = 1.0
MARK_SIDE_MM = 2.0
LEAST_PLATE_MM = 40.0
# plate left and right of the outer feet
MARGIN_MM = 3.0


def outward(outline: Outline, x: float, *, y0: float, y1: float) -> Solid:
    """Return an (x, z) outline, symmetric about its own x = 0, from y0 out to y1, centred on x."""
    return prism(outline, y1 - y0).placed(Rigid(_OUTWARD, (x, y0, 0.0)))


def arm(sections: Sequence[tuple[float, Outline]], x: float) -> Solid:
    """Return the ruled solid through outlines at growing y, each symmetric about x = 0."""
    heights = tuple(y for y, _ in sections)
    chain = LoftChain(tuple(outline for _, outline in sections), heights)
    return chain.placed(Rigid(_OUTWARD, (x, 0.0, 0.0)))


def slim_row(rooms_mm: Sequence[float], feet_mm: Sequence[float], *, gap_mm: float) -> SeatLayout:
    """Return centres ``gap_mm`` apart between rooms, on a plate only as wide as the feet need.

    Args:
        rooms_mm: Width that each tool takes along the wall.
        feet_mm: Width of what carries it, which may be less.
        gap_mm: Room between neighbouring tools.

    >>> slim_row([60.0, 80.0], [10.0, 20.0], gap_mm=10.0)
    SeatLayout(centres_mm=(8.0, 88.0), width_mm=101.0)
    """
    needs = [max(pair) for pair in zip(rooms_mm, feet_mm, strict=True)]
    centres = row(needs, gap_mm=gap_mm, margin_mm=0.0).centres_mm
    start = centres[0] - feet_mm[0] / 2 - MARGIN_MM
    used = centres[-1] + feet_mm[-1] / 2 + MARGIN_MM - start
    width = max(used, LEAST_PLATE_MM)
    start -= (width - used) / 2
    return SeatLayout(tuple(centre - start for centre in centres), width)


def low_mark(width_mm: float, *, low_mm: float, plate_mm: float) -> MarkPlace:
    """Return the place for a mark in the strip of plate that begins at ``low_mm``."""
    return front_mark(
        MARK_SIDE_MM,
        width_mm - MARK_SIDE_MM,
        z0=low_mm + MARK_EDGE_MM,
        z1=low_mm + MARK_BAND_MM - MARK_EDGE_MM,
        y_mm=plate_mm,
    )


def group_leading(sizes_mm: Sequence[float]) -> str:
    """Return the count and the least and largest size in at most twelve signs.

    >>> group_leading([6.0]), group_leading([22.25, 30.0, 118.6])
    ('1x6', '3x22.2-119')
    """
    least, most = (
        f"{size:.0f}" if size >= 99.95 else f"{round(size, 1):g}"
        for size in (min(sizes_mm), max(sizes_mm))
    )
    return f"{len(sizes_mm)}x{least}" + (f"-{most}" if most != least else "")
