"""What is left of hanging regions after bridges and ledges.

A line of filament can be drawn through the air between two held edges; it may also
stick out sideways by its own width. The directions that are tried come from the held
edges of each region, so that turning a part on the bed changes nothing.
"""

# the library of plane geometry has no types
# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false
# pyright: reportUnknownArgumentType=false, reportMissingTypeStubs=false

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from cleatwright.printing.support.hanging import Flags, Floats, Regions, Surface, summed
from cleatwright.printing.support.strips import Strips, strips

_ROUNDING_MM = 1e-3
_HAIR_MM = 1e-5
_FAN = 8
SHORT_LEDGE_LINES = 2.0
"""A line around a ledge no longer than a bridge is held at both ends, so the ledge may be deeper:
the inside of an engraved letter stands out by 0.6 mm. Common practice, no source."""
_LEAST_MM2 = 1e-3


@dataclass(frozen=True)
class Patch:
    """A piece of a hanging region that nothing holds, with a point in plan inside it."""

    region: int
    area_mm2: float
    inside_mm: tuple[float, float]


@dataclass(frozen=True)
class BridgeLimits:
    """What a printer can lay over empty space: bridges so long, ledges so deep, in mm."""

    bridge_mm: float
    ledge_mm: float


@dataclass(frozen=True, eq=False)
class Judged:
    """Regions as far as they are judged quickly.

    Args:
        patches: Whole regions that need support for certain.
        bridged_mm2: Area that bridges cover for certain.
        mixed: The numbers of the regions of which a part may need support.
        cut: Strips of those regions along the angles of ``fan``.
        fan: Angles in which lines may be drawn, a row for each region.
    """

    patches: tuple[Patch, ...]
    bridged_mm2: float
    mixed: tuple[int, ...] = ()
    cut: Strips | None = None
    fan: Floats | None = None


Left = tuple[tuple[Patch, ...], float]
"""The patches of a region that need support, and the area in mm2 that bridges cover."""


def left_over(found: Regions, judged: Judged, region: int, reach: BridgeLimits) -> Left:
    """Return what is left of one of the mixed regions."""
    assert judged.cut is not None and judged.fan is not None  # noqa: S101, PT018 - it is mixed
    patches, covered = _left_over(found, region, judged.cut, judged.fan, reach)
    return tuple(patches), covered


def quickly(surface: Surface, found: Regions, reach: BridgeLimits) -> Judged:
    """Return what is known of regions without looking at the shape of any of them."""
    plan = summed(found.plan_mm2, by=found.region, count=found.count)
    tied = summed(found.held, by=found.rim_region, count=found.count) > 0.0
    if not tied.any():
        return Judged(tuple(_whole(surface, found, k) for k in range(found.count)), 0.0)
    main, other = _directions(found)
    tries = np.column_stack([main, other, other + math.pi / 2.0])
    spanned = _spanned(_cut(found, tries, tied), tries, reach)
    bridged = tied & (spanned.max(axis=1) >= plan - np.maximum(_LEAST_MM2, 1e-6 * plan))
    covered = float(plan[bridged].sum())
    hard = tied & ~bridged & ~_narrow(found, reach)
    patches = [_whole(surface, found, int(k)) for k in np.flatnonzero(~tied)]
    if not hard.any():
        return Judged(tuple(patches), covered)
    fan = main[:, None] + np.arange(_FAN) * math.pi / _FAN
    cut = _cut(found, fan, hard)
    some = _spanned(cut, fan, reach).sum(axis=1) >= _LEAST_MM2
    hopeless = hard & ~some & (plan > _most_ledge_mm2(found, reach))
    patches.extend(_whole(surface, found, int(k)) for k in np.flatnonzero(hopeless))
    mixed = tuple(np.flatnonzero(hard & ~hopeless).tolist())
    return Judged(tuple(patches), covered, mixed, cut, fan)


def _whole(surface: Surface, found: Regions, region: int) -> Patch:
    mine = found.region == region
    largest = found.facets[mine][np.argmax(found.plan_mm2[mine])]
    x, y, _ = surface.points[surface.triangles[largest]].mean(axis=0)
    return Patch(region, float(found.plan_mm2[mine].sum()), (float(x), float(y)))


def _directions(found: Regions) -> tuple[Floats, Floats]:
    """Return for each region two angles: across its held edges on average, and across most."""
    along = (found.heads - found.tails)[found.held]
    region = found.rim_region[found.held]
    length = np.hypot(along[:, 0], along[:, 1])
    across = np.degrees(np.arctan2(along[:, 1], along[:, 0])) + 90.0
    # edges of one line in either sense have one angle, a whole number of degrees off at most 0.5
    whole = np.rint(across)
    key = region * 180 + whole.astype(np.int64) % 180
    size = found.count * 180
    weight = summed(length, by=key, count=size).reshape(-1, 180)
    offset = summed(length * (across - whole), by=key, count=size).reshape(-1, 180)
    most = weight.argmax(axis=1)
    rows = np.arange(found.count)
    best = weight[rows, most]
    other = np.radians(most + offset[rows, most] / np.where(best > 0.0, best, 1.0))
    double = 2.0 * np.radians(across)
    cos, sin = (
        summed(length * part, by=region, count=found.count)
        for part in (np.cos(double), np.sin(double))
    )
    clear = np.hypot(cos, sin) > 1e-3 * weight.sum(axis=1)
    return np.where(clear, np.arctan2(sin, cos) / 2.0, other), other


def _cut(found: Regions, angles: Floats, which: Flags) -> Strips:
    """Return strips of some regions along each of their angles (r, a); jobs go row by row."""
    mine = np.flatnonzero(which[found.rim_region])
    many = angles.shape[1]
    edges = np.repeat(mine, many)
    job = found.rim_region[edges] * many + np.tile(np.arange(many), len(mine))
    tails, heads, held = found.tails[edges], found.heads[edges], found.held[edges]
    return strips(tails, heads, held, job=job, angles=angles.ravel())


def _spanned(cut: Strips, angles: Floats, reach: BridgeLimits) -> Floats:
    """Return the area that bridges cover along each angle, shape as ``angles``."""
    spans = cut.spanned(bridge_mm=reach.bridge_mm + _ROUNDING_MM)
    areas = summed(spans.area_mm2, by=spans.job, count=angles.size)
    return areas.reshape(angles.shape)


def _narrow(found: Regions, reach: BridgeLimits) -> Flags:
    """Tell which regions are ledges along their longest held edge.

    The distance from one edge is a convex function, so that the corners of the rim are
    enough. A ledge along a bent edge is left to a closer look.
    """
    along = found.heads - found.tails
    length = np.hypot(along[:, 0], along[:, 1])
    order = np.lexsort((np.where(found.held, length, -1.0), found.rim_region))
    last = np.flatnonzero(np.diff(found.rim_region[order], append=found.count))
    longest = order[last][found.rim_region]
    start, way = found.tails[longest], along[longest]
    aside = found.tails - start
    share = np.einsum("ij,ij->i", aside, way) / np.maximum(length[longest] ** 2, _ROUNDING_MM**2)
    aside -= np.clip(share, 0.0, 1.0)[:, None] * way
    depth = np.zeros(found.count)
    np.maximum.at(depth, found.rim_region, np.hypot(aside[:, 0], aside[:, 1]))
    # all of it lies within its depth of that edge
    extent = np.zeros(found.count)
    extent[found.rim_region] = length[longest]
    extent += 2.0 * depth
    short = extent <= reach.bridge_mm
    lines = np.where(short, SHORT_LEDGE_LINES, 1.0)
    narrow: Flags = depth <= lines * reach.ledge_mm + _ROUNDING_MM
    return narrow


def _most_ledge_mm2(found: Regions, reach: BridgeLimits) -> Floats:
    """Return an upper bound of the area within a ledge of the held edges of each region."""
    along = (found.heads - found.tails)[found.held]
    wide = SHORT_LEDGE_LINES * reach.ledge_mm + _ROUNDING_MM
    near = 2.0 * wide * np.hypot(along[:, 0], along[:, 1]) + math.pi * wide**2
    return summed(near, by=found.rim_region[found.held], count=found.count)


def _left_over(
    found: Regions, region: int, cut: Strips, fan: Floats, reach: BridgeLimits
) -> tuple[list[Patch], float]:
    """Return the patches of one region, and the area in mm2 that bridges cover."""
    jobs = np.zeros(fan.size, dtype=np.bool_)
    jobs[region * _FAN] = True
    first = cut.of(jobs)
    whole = _joined(first, fan)
    mine = (found.rim_region == region) & found.held
    ends = np.stack([found.tails[mine], found.heads[mine]], axis=1)
    rim = shapely.MultiLineString(ends.tolist())
    longest = reach.bridge_mm + _ROUNDING_MM
    bridges = _joined(first.spanned(bridge_mm=longest), fan)
    left = whole.difference(bridges)
    parts = _beyond_ledges(left, shapely.GeometryCollection([bridges, rim]), reach)
    if parts:
        # the main direction was not enough
        jobs[region * _FAN : (region + 1) * _FAN] = True
        jobs[region * _FAN] = False
        others = _joined(cut.of(jobs).spanned(bridge_mm=longest), fan)
        if not others.is_empty:
            left = left.difference(others)
            parts = _beyond_ledges(left, shapely.GeometryCollection([bridges, others, rim]), reach)
    insides = [part.representative_point() for part in parts]
    patches = [
        Patch(region, float(part.area), (at.x, at.y))
        for part, at in zip(parts, insides, strict=True)
    ]
    return patches, float(whole.area - left.area)


def _joined(pieces: Strips, fan: Floats) -> BaseGeometry:
    # outlines that touch or pinch are a hard case for the library; a hair wider they overlap
    rings = [shapely.Polygon(ring) for _, ring in pieces.outlines(fan.ravel())]
    return shapely.union_all(shapely.buffer(rings, _HAIR_MM, quad_segs=1))


def _beyond_ledges(
    left: BaseGeometry, holding: BaseGeometry, reach: BridgeLimits
) -> list[BaseGeometry]:
    """Return the pieces that reach further from what holds them than a ledge may.

    A ledge no longer than a bridge may be deeper.
    """
    deep = reach.ledge_mm + _ROUNDING_MM
    pieces = [part for part in shapely.get_parts(left) if part.area >= _LEAST_MM2]
    # most pieces are far too wide, and one point in their middle shows it at once
    wide = [
        part.representative_point().distance(holding) > SHORT_LEDGE_LINES * deep for part in pieces
    ]
    if all(wide):
        return pieces
    near, nearer = (shapely.buffer(holding, lines * deep) for lines in (SHORT_LEDGE_LINES, 1.0))
    beyond: list[BaseGeometry] = []
    for part, surely in zip(pieces, wide, strict=True):
        short = not surely and _length_mm(part) <= reach.bridge_mm + _ROUNDING_MM
        if surely or part.difference(near if short else nearer).area >= _LEAST_MM2:
            beyond.append(part)
    return beyond


def _length_mm(part: BaseGeometry) -> float:
    corners = shapely.get_coordinates(shapely.minimum_rotated_rectangle(part))
    return max(math.dist(corners[k], corners[k + 1]) for k in range(2))
