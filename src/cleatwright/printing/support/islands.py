"""Places where a print would start in the air.

An island is a corner, an edge or a flat face that is no higher than all of the surface
around it, does not lie on the bed, and has its material above it. It needs support even
when no facet beside it leans far, as the edge of a wedge that points down.
"""

from __future__ import annotations

import numpy as np

from cleatwright.printing.connected import connected
from cleatwright.printing.support.hanging import ON_BED_MM, Flags, Floats, Ints, Surface, summed

_LEVEL_MM = 1e-3


def islands(surface: Surface) -> tuple[Ints, ...]:
    """Return the corners of each island, from the lowest to the highest.

    Corners that edges join at one height (within 0.001 mm) count as one place.
    """
    z = surface.points[:, 2]
    tails = surface.triangles.ravel()
    heads = np.roll(surface.triangles, -1, axis=1).ravel()
    rise = z[heads] - z[tails]
    level = np.abs(rise) <= _LEVEL_MM
    # in a closed mesh each edge is seen from both ends
    lower = np.zeros(len(z), dtype=np.bool_)
    lower[tails[rise < -_LEVEL_MM]] = True
    lower[heads[rise > _LEVEL_MM]] = True
    lower |= z <= ON_BED_MM
    unused = np.ones(len(z), dtype=np.bool_)
    unused[tails] = False
    lower |= unused
    if lower.all():
        return ()
    place = connected(len(z), tails[level], heads[level])
    bottom = np.ones(int(place.max()) + 1, dtype=np.bool_)
    bottom[place[lower]] = False
    filled = bottom & (_slice_mm2(surface, place, bottom) < 0.0)
    found = [np.flatnonzero(place == number) for number in np.flatnonzero(filled)]
    return tuple(sorted(found, key=lambda corners: (float(z[corners].min()), int(corners[0]))))


def _slice_mm2(surface: Surface, place: Ints, bottom: Flags) -> Floats:
    """Return the area cut just above each bottom: negative around material, positive in a pit.

    The sense of the outline tells on which side the material is; a leaning spike
    shows facets that look up and facets that look down.
    """
    points, triangles = surface.points, surface.triangles
    inside = bottom[place[triangles]]
    within = inside.sum(axis=1)
    cut = (within == 1) | (within == 2)
    triangles, inside = triangles[cut], inside[cut]
    rows = np.arange(len(triangles))
    # leaving: the corner after which the outline of a facet goes up; entering: where it returns
    leaving = np.argmax(inside & ~np.roll(inside, -1, axis=1), axis=1)
    entering = np.argmax(inside & ~np.roll(inside, 1, axis=1), axis=1)
    out, back = triangles[rows, leaving], triangles[rows, entering]
    up_out, up_back = triangles[rows, (leaving + 1) % 3], triangles[rows, (entering - 1) % 3]
    number = place[out]
    height = np.full(len(bottom), np.inf)
    np.minimum.at(height, number, points[up_out, 2])
    floor = np.zeros(len(bottom))
    np.maximum.at(floor, number, points[out, 2])
    at = ((height + floor) / 2.0)[number]
    middle = points[np.unique(place, return_index=True)[1], :2][number]
    start = _crossing(points[out], points[up_out], at) - middle
    end = _crossing(points[back], points[up_back], at) - middle
    cross = start[:, 0] * end[:, 1] - start[:, 1] * end[:, 0]
    return summed(cross / 2.0, by=number, count=len(bottom))


def _crossing(low: Floats, high: Floats, height: Floats) -> Floats:
    share = (height - low[:, 2]) / (high[:, 2] - low[:, 2])
    crossing: Floats = low[:, :2] + share[:, None] * (high[:, :2] - low[:, :2])
    return crossing
