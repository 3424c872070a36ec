"""Places for a mark on a plate, less what is cut out of the plate or stands before it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from cleatwright.parts.holder import MarkPlace
from cleatwright.shapes.facts import Bounds

NEAR_MM = 1e-6
RIM_MM = 1.0


def clear_places(
    place: MarkPlace, boxes: Sequence[Bounds], *, plate_mm: float
) -> tuple[MarkPlace, ...]:
    """Return what is left of a place beside boxes, the largest part first.

    A place that does not lie on the face of the plate is left as it is.

    Args:
        place: The place.
        boxes: What takes away from the face of the plate.
        plate_mm: Where that face lies.
    """
    x, y, z = place.pose.shift_mm
    if abs(y - plate_mm) > NEAR_MM or place.pose.rows[1][2] < 1.0 - NEAR_MM:
        return (place,)
    left = [(x - place.width_mm, x, z, z + place.height_mm)]
    for (x0, _, z0), (x1, _, z1) in boxes:
        cut = (x0 - RIM_MM, x1 + RIM_MM, z0 - RIM_MM, z1 + RIM_MM)
        left = [rest for one in left for rest in _without(one, cut)]
    left.sort(key=lambda one: (one[0] - one[1]) * (one[3] - one[2]))
    return tuple(
        replace(
            place,
            pose=replace(place.pose, shift_mm=(x1, y, z0)),
            width_mm=x1 - x0,
            height_mm=z1 - z0,
        )
        for x0, x1, z0, z1 in left
    )


_Rect = tuple[float, float, float, float]


def _without(one: _Rect, cut: _Rect) -> Iterator[_Rect]:
    """Yield the largest rectangles of one that lie outside another; they may overlap."""
    x0, x1, z0, z1 = one
    a0, a1, b0, b1 = cut
    if a0 >= x1 or a1 <= x0 or b0 >= z1 or b1 <= z0:
        yield one
        return
    if a0 > x0:
        yield x0, a0, z0, z1
    if a1 < x1:
        yield a1, x1, z0, z1
    if b0 > z0:
        yield x0, x1, z0, b0
    if b1 < z1:
        yield x0, x1, b1, z1
