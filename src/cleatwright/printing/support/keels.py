"""Edges that run through the air with steep facets above them, as the bottom of a V-shaped arm.

wall █
     █▔▔▔▔▔▔▔▔▔▏       no facet leans far, yet the lowest line of the arm
     █    V    ▏       has nothing below it from the wall to its end
     █─────────
"""

from __future__ import annotations

import math

import numpy as np

from cleatwright.printing.connected import connected
from cleatwright.printing.support.hanging import (
    ON_BED_MM,
    SLACK_DEG,
    Floats,
    Ints,
    Surface,
    aside,
    summed,
)

HIP = 2.0
"""Where two faces at the steepest lean meet in a corner of 60 degrees, the edge between them
leans by twice the tangent; it grows by a corner only and prints as they do."""
STEP_MM = 0.05
"""Where chords of two curved surfaces meet they may leave a lower step; no keel is that thin."""
_UP = 1e-6


def keels(
    surface: Surface, *, steepest_deg: float, bridge_mm: float, ledge_mm: float
) -> tuple[Ints, ...]:
    """Return the corners of each keel that neither spans a bridge nor ends within a ledge.

    A keel is a chain of edges that lean further than the edge between two printable faces,
    with facets steeper than ``steepest_deg`` that go up on both sides and material between.
    """
    tails, heads = _keel_edges(surface, steepest_deg=steepest_deg)
    if not tails.size:
        return ()
    corners, ends = np.unique(np.concatenate([tails, heads]), return_inverse=True)
    first, second = ends[: len(tails)], ends[len(tails) :]
    chain = connected(len(corners), first, second)
    count = int(chain.max()) + 1
    way = surface.points[heads] - surface.points[tails]
    length = summed(np.linalg.norm(way, axis=1), by=chain[first], count=count)
    carried = _carried(surface, corners, tails, heads)
    held = summed(carried, by=chain, count=count)
    fine = ((held >= 2) & (length <= bridge_mm)) | ((held >= 1) & (length <= ledge_mm))
    return tuple(corners[chain == number] for number in np.flatnonzero(~fine))


def _keel_edges(surface: Surface, *, steepest_deg: float) -> tuple[Ints, Ints]:
    points, triangles = surface.points, surface.triangles
    hip = math.atan(HIP * math.tan(math.radians(steepest_deg)))
    level = math.cos(hip + math.radians(SLACK_DEG))
    steep = math.sin(math.radians(steepest_deg + SLACK_DEG))
    sizes = np.linalg.norm(surface.areas, axis=1)
    # of the facets that hang, the regions take care
    standing = surface.areas[:, 2] >= -steep * sizes
    own = triangles[standing]
    facet = np.repeat(np.flatnonzero(standing), 3)
    tails, heads, third = (np.roll(own, -k, axis=1).ravel() for k in range(3))
    way = points[heads] - points[tails]
    flat = way[:, 2] ** 2 < level**2 * np.einsum("ij,ij->i", way, way)
    lifted = np.maximum(points[tails, 2], points[heads, 2]) > ON_BED_MM
    tails, heads, third, facet = (row[flat & lifted] for row in (tails, heads, third, facet))
    into = aside(points[tails], points[heads], points[third])
    across = 2.0 * sizes[facet] / np.linalg.norm(points[heads] - points[tails], axis=1)
    up = into[:, 2] * across > STEP_MM
    tails, heads, facet, into = tails[up], heads[up], facet[up], into[up]
    most = len(points)
    forward, backward = tails * most + heads, heads * most + tails
    order = np.argsort(forward)
    at = np.minimum(np.searchsorted(forward, backward, sorter=order), max(len(order) - 1, 0))
    mate = order[at]
    paired = (forward[mate] == backward) & (tails < heads)
    normals = surface.areas[facet] / np.maximum(sizes[facet], _UP**2)[:, None]
    convex = np.einsum("ij,ij->i", into[mate], normals) < -_UP
    return tails[paired & convex], heads[paired & convex]


def _carried(surface: Surface, corners: Ints, tails: Ints, heads: Ints) -> Floats:
    """Return 1 for each corner from which the surface goes down beside the keel, else 0."""
    keel = set(zip(tails.tolist(), heads.tolist(), strict=True))
    place = np.full(len(surface.points), -1)
    place[corners] = np.arange(len(corners))
    starts = surface.triangles.ravel()
    ends = np.roll(surface.triangles, -1, axis=1).ravel()
    touching = np.flatnonzero(place[starts] >= 0)
    carried = np.zeros(len(corners))
    carried[surface.points[corners, 2] <= ON_BED_MM] = 1.0
    for one, other in zip(starts[touching].tolist(), ends[touching].tolist(), strict=True):
        drop = surface.points[one, 2] - surface.points[other, 2]
        if drop > ON_BED_MM and (one, other) not in keel and (other, one) not in keel:
            carried[place[one]] = 1.0
    return carried
