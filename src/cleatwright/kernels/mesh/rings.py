"""Closed meshes from stacked rings: chamfered prisms and ruled lofts."""

# the library's stubs leave the element types of its arrays open
# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false
# pyright: reportUnknownArgumentType=false

from __future__ import annotations

import math
from collections.abc import Sequence

import manifold3d as m3
import numpy as np
import numpy.typing as npt

from cleatwright.shapes.outline import Edge, Outline

Points2 = npt.NDArray[np.float64]
Level = tuple[float, Sequence[Points2]]


def sampled(outline: Outline, counts: Sequence[int]) -> Points2:
    """Return points (n, 2) along the outline with ``counts[i]`` chords on edge i."""
    edges = zip(outline.edges, counts, strict=True)
    return np.array([point for edge, count in edges for point in edge.points(count)])


def shared_counts(outlines: Sequence[Outline], chord_error_mm: float) -> list[int]:
    """Return chords per edge that satisfy the chord error on every one of paired outlines."""
    per_outline = [[e.segments(chord_error_mm) for e in outline.edges] for outline in outlines]
    return [max(column) for column in zip(*per_outline, strict=True)]


def loft_counts(lower: Outline, upper: Outline, chord_error_mm: float) -> tuple[list[int], int]:
    """Return chords per edge and steps in height so that twisted sides stay within the error.

    A bilinear patch leaves its two triangles by a quarter of its twist; both
    divisions by n make that n squared times smaller.
    """
    counts = shared_counts([lower, upper], chord_error_mm)
    steps = 1
    for i, (a, b) in enumerate(zip(lower.edges, upper.edges, strict=True)):
        twist = max(a.length_mm, b.length_mm) * _largest_sine(a, b)
        if twist > 1e-9:
            n = max(1, math.ceil(math.sqrt(twist / 4.0 / chord_error_mm)))
            counts[i] = max(counts[i], n)
            steps = max(steps, n)
    return counts, steps


def _largest_sine(a: Edge, b: Edge) -> float:
    """Return the sine of the largest angle, at most 90 degrees, between edges at equal fractions.

    Arcs of unequal sweep are parallel at one fraction only; the angle is largest at an end.
    """
    largest = 0.0
    for t in (0.0, 1.0):
        (ax, ay), (bx, by) = a.direction_at(t), b.direction_at(t)
        sine = abs(ax * by - ay * bx) if ax * bx + ay * by > 0.0 else 1.0
        largest = max(largest, sine)
    return largest


def stacked(levels: Sequence[Level]) -> m3.Manifold:
    """Return the body between the first and the last level.

    Each level is (z, loops); loops[0] runs counter-clockwise, the others are
    holes, counter-clockwise too; loop k has the same number of points at every level.
    """
    loop_sizes = [len(loop) for loop in levels[0][1]]
    per_level = sum(loop_sizes)
    vertices = np.concatenate(
        [np.column_stack([np.concatenate(loops), np.full(per_level, z)]) for z, loops in levels]
    )
    triangles: list[npt.NDArray[np.int64]] = []
    start = 0
    for hole, size in enumerate(loop_sizes):
        i = np.arange(size) + start
        j = np.roll(i, -1)
        low = (np.arange(len(levels) - 1) * per_level)[:, None]
        a, b, c, d = i + low, j + low, j + low + per_level, i + low + per_level
        quads = np.stack([np.stack([a, b, c], axis=2), np.stack([a, c, d], axis=2)], axis=1)
        triangles.append((quads[..., ::-1] if hole else quads).reshape(-1, 3))
        start += size
    triangles.extend(_caps(levels, loop_sizes, per_level))
    mesh = m3.Mesh64(
        np.ascontiguousarray(vertices),
        np.ascontiguousarray(np.concatenate(triangles).astype(np.uint64)),
    )
    return m3.Manifold(mesh)


def _caps(
    levels: Sequence[Level], loop_sizes: Sequence[int], per_level: int
) -> list[npt.NDArray[np.int64]]:
    # triangulation numbers points as given, so holes are reversed here and mapped back
    order: list[npt.NDArray[np.int64]] = []
    start = 0
    for hole, size in enumerate(loop_sizes):
        index = np.arange(size) + start
        order.append(index[::-1] if hole else index)
        start += size
    mapping = np.concatenate(order)
    caps: list[npt.NDArray[np.int64]] = []
    for level, flipped in ((0, True), (len(levels) - 1, False)):
        loops = levels[level][1]
        polygons = [loop[::-1] if hole else loop for hole, loop in enumerate(loops)]
        found = np.asarray(m3.triangulate(polygons), dtype=np.int64)
        faces = mapping[found] + level * per_level
        caps.append(faces[:, ::-1] if flipped else faces)
    return caps
