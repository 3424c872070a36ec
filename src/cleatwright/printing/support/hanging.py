"""The parts of a mesh that hang over empty space, and what holds their rims.

A facet hangs when it leans further than a printer can lay it. Facets that share an edge
form a region. A rim edge of a region is held when the surface beyond it goes down: there
is material below the edge. Where the surface goes up, the edge is free.

    ████████████████        held: the wall below the edge
    █    H         █        free: the front above the edge
    █ held    free █
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from cleatwright.base.errors import PartError, ShapeError
from cleatwright.printing.connected import connected
from cleatwright.shapes.rigid import Vector

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Flags = npt.NDArray[np.bool_]

SLACK_DEG = 0.75
"""Chords of curved surfaces lean a little otherwise than the surface; 46 degrees still count."""
ON_BED_MM = 0.01
_LEVEL = 1e-6


@dataclass(frozen=True, eq=False)
class Surface:
    """A closed mesh turned so that the bed is the plane z = 0 below it.

    Args:
        points: Corners after the turn, shape (n, 3), least z zero.
        triangles: Indices of corners, shape (m, 3).
        areas: Outward normals times areas, shape (m, 3).
        frame: Rows of the rotation from the part to the bed, shape (3, 3).
        sunk_mm: How far the turned part was moved along z.
    """

    points: Floats
    triangles: Ints
    areas: Floats
    frame: Floats
    sunk_mm: float

    def in_part(self, point: Floats) -> Vector:
        """Return a point of the bed's frame in the frame of the part."""
        x, y, z = (point - np.array((0.0, 0.0, self.sunk_mm))) @ self.frame
        return (float(x), float(y), float(z))


@dataclass(frozen=True, eq=False)
class Regions:
    """Hanging facets, grouped, with the edges around each group.

    Args:
        count: How many regions there are.
        facets: Numbers of the hanging facets, shape (k,).
        region: Region of each hanging facet, shape (k,).
        plan_mm2: Area of each hanging facet seen from below, shape (k,).
        tails: Start of each rim edge in plan, shape (e, 2).
        heads: End of each rim edge in plan, shape (e, 2).
        rim_region: Region of each rim edge, shape (e,).
        held: Whether there is material below each rim edge, shape (e,).
    """

    count: int
    facets: Ints
    region: Ints
    plan_mm2: Floats
    tails: Floats
    heads: Floats
    rim_region: Ints
    held: Flags


def laid(vertices_mm: Floats, triangles: Ints, *, down: Vector) -> Surface:
    """Return the mesh with the direction ``down`` of the part facing the bed.

    Raises:
        ShapeError: The direction has no length.
    """
    length = math.hypot(*down)
    if not (math.isfinite(length) and length > 0.0):
        raise ShapeError(f"the direction {down} that faces the bed has no length")
    up = -np.array(down) / length
    least = np.eye(3)[int(np.argmin(np.abs(up)))]
    right = np.cross(least, up)
    right /= np.linalg.norm(right)
    frame = np.array((right, np.cross(up, right), up))
    points: Floats = vertices_mm @ frame.T
    sunk = -float(points[:, 2].min())
    points[:, 2] += sunk
    a, b, c = (points[triangles[:, k]] for k in range(3))
    return Surface(points, triangles, np.cross(b - a, c - a) / 2.0, frame, sunk)


def regions(surface: Surface, *, steepest_deg: float) -> Regions:
    """Return the regions of facets that lean further than ``steepest_deg`` from the vertical."""
    steep = math.sin(math.radians(steepest_deg + SLACK_DEG))
    sizes = np.linalg.norm(surface.areas, axis=1)
    heights = surface.points[:, 2][surface.triangles]
    hanging = (surface.areas[:, 2] < -steep * sizes) & (heights.max(axis=1) > ON_BED_MM)
    facets = np.flatnonzero(hanging)
    if not facets.size:
        none = np.zeros((0, 2))
        empty = np.zeros(0, dtype=np.int64)
        return Regions(0, empty, empty, np.zeros(0), none, none, empty, empty > 0)
    # edge 3 f + k runs from corner k of facet f to the next one
    edges = (3 * facets[:, None] + np.arange(3)).ravel()
    across = _mates(surface.triangles, edges)
    owner, beyond = edges // 3, across // 3
    inner = hanging[beyond]
    place = np.full(len(sizes), -1)
    place[facets] = np.arange(facets.size)
    region = connected(facets.size, place[owner[inner]], place[beyond[inner]])
    count = int(region.max()) + 1
    rim, rim_across = edges[~inner], across[~inner]
    corners = surface.triangles.ravel()
    tails, heads = corners[rim], corners[_next(rim)]
    third = corners[_next(_next(rim_across))]
    return Regions(
        count=int(count),
        facets=facets,
        region=region.astype(np.int64),
        plan_mm2=-surface.areas[facets, 2],
        tails=surface.points[tails, :2],
        heads=surface.points[heads, :2],
        rim_region=region[place[rim // 3]].astype(np.int64),
        held=_goes_down(surface.points[tails], surface.points[heads], surface.points[third]),
    )


def summed(weights: Floats | Flags, *, by: Ints, count: int) -> Floats:
    """Return the sum of the weights (k,) of each number from 0 to ``count`` - 1."""
    sums: Floats = np.bincount(by, weights=weights, minlength=count).astype(np.float64)
    return sums


def _next(edges: Ints) -> Ints:
    return edges - edges % 3 + (edges + 1) % 3


def _mates(triangles: Ints, edges: Ints) -> Ints:
    """Return for each edge the one that runs along it the other way, in the facet beyond."""
    corners = triangles.ravel()
    onward = np.roll(triangles, -1, axis=1).ravel()
    most = int(corners.max()) + 1
    near = np.zeros(most, dtype=np.bool_)
    near[corners[edges]] = True
    near[onward[edges]] = True
    others = np.flatnonzero(near[corners] & near[onward])
    forward = corners[others] * most + onward[others]
    order = np.argsort(forward)
    wanted = onward[edges] * most + corners[edges]
    at = np.minimum(np.searchsorted(forward, wanted, sorter=order), len(order) - 1)
    found = order[at]
    if (forward[found] != wanted).any():
        raise PartError("the mesh is open, so that nobody can tell what lies below its facets")
    return others[found]


def _goes_down(tails: Floats, heads: Floats, third: Floats) -> Flags:
    """Tell where the facet beyond an edge, with its third corner, goes down from the edge."""
    on_bed: Flags = np.maximum(tails[:, 2], heads[:, 2]) <= ON_BED_MM
    return (aside(tails, heads, third)[:, 2] < -_LEVEL) | on_bed


def aside(tails: Floats, heads: Floats, third: Floats) -> Floats:
    """Return the direction at a right angle to an edge into the facet of a third corner."""
    along, away = heads - tails, third - tails
    share = np.einsum("ij,ij->i", away, along) / np.einsum("ij,ij->i", along, along)
    away = away - share[:, None] * along
    unit: Floats = away / np.maximum(np.linalg.norm(away, axis=1), _LEVEL**2)[:, None]
    return unit
