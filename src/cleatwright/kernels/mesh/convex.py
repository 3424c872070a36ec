"""A convex piece as its corners: swept and moved against a body without a mesh of its own."""

# the library's stubs leave the element types of its arrays open
# pyright: reportUnknownMemberType=false

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import manifold3d as m3
import numpy as np

from cleatwright.base.errors import KernelError
from cleatwright.kernels.mesh.body import Floats, MeshBody, apart
from cleatwright.shapes.rigid import Axis, Rigid, Vector

# where an edge ends, a corner meets instead
_END = 1e-6


@dataclass(frozen=True, eq=False)
class Convex:
    """The hull of ``corners_mm``, shape (n, 3)."""

    corners_mm: Floats

    def placed(self, motion: Rigid) -> Convex:
        """Return the piece after a rigid motion."""
        return Convex(self.corners_mm @ np.array(motion.rows).T + np.array(motion.shift_mm))

    @cached_property
    def box_mm(self) -> Floats:
        """Return the box around it as ((min x, y, z), (max x, y, z)), shape (2, 3)."""
        return np.stack([self.corners_mm.min(axis=0), self.corners_mm.max(axis=0)])

    @cached_property
    def body(self) -> MeshBody:
        """Return its mesh.

        Raises:
            KernelError: The corners enclose no volume.
        """
        hull = m3.Manifold.hull_points(self.corners_mm)
        if hull.is_empty() or not hull.volume() > 0.0:
            raise KernelError(
                f"a convex piece of {len(self.corners_mm)} corners without volume",
                where="shapes of triangles",
            )
        return MeshBody(hull)

    def spread(self, steps_mm: Sequence[Vector]) -> Convex:
        """Return the hull of this piece and of its copies shifted by each step."""
        steps = np.array([(0.0, 0.0, 0.0), *steps_mm])
        return Convex((self.corners_mm[None] + steps[:, None]).reshape(-1, 3))

    def swept(self, move_mm: Vector) -> Convex:
        """Return what the piece passes through along a straight move, exactly."""
        return self.spread((move_mm,))

    def between(self, axis: Axis, low_mm: float, high_mm: float) -> Convex | None:
        """Return the slice from ``low_mm`` to ``high_mm`` along an axis, or None outside of it."""
        x, y, z = (float(name == axis) for name in ("x", "y", "z"))
        whole = self.body.manifold
        hull = whole.trim_by_plane((x, y, z), low_mm).trim_by_plane((-x, -y, -z), -high_mm)
        if hull.is_empty() or not hull.volume() > 0.0:
            return None
        return Convex(MeshBody(hull).vertices_mm)

    def swept_overlap_mm3(self, move_mm: Vector, body: MeshBody) -> float:
        """Return the volume that a body shares with this piece along a straight move, exactly."""
        points = np.concatenate([self.corners_mm, self.corners_mm + np.array(move_mm)])
        if apart(np.stack([points.min(axis=0), points.max(axis=0)]), body.box_mm):
            return 0.0
        return MeshBody(m3.Manifold.hull_points(points)).overlap_mm3(body)

    def travel_mm(self, move_mm: Vector, body: MeshBody) -> float:
        """Return how far this piece comes along a move before a corner meets the other's surface.

        Infinity when no corner of either meets the other within the move; edges may still do.
        """
        step = np.array(move_mm)
        ends = np.stack([self.corners_mm, self.corners_mm + step])
        low, high = body.box_mm
        near = ((ends.max(axis=0) >= low) & (ends.min(axis=0) <= high)).all(axis=1)
        # most corners behind the middle run through the piece itself first
        ahead = (self.corners_mm - self.corners_mm.mean(axis=0)) @ step >= 0.0
        whole, nearest = body.manifold, np.inf
        for side in (ahead, ~ahead):
            for start in self.corners_mm[near & side]:
                hits = whole.ray_cast(start, start + step)
                if hits:
                    nearest = min(nearest, hits[0].distance)
            if np.isfinite(nearest):
                break
        else:
            nearest = self._met_by_corners(step, body)
        return float(nearest) * float(np.linalg.norm(step))

    def _met_by_corners(self, step: Floats, body: MeshBody) -> float:
        """Return the least share of a step after which a corner of the body meets this piece."""
        ends = np.stack([self.corners_mm.min(axis=0), self.corners_mm.max(axis=0)])
        low, high = np.minimum(ends[0], ends[0] + step), np.maximum(ends[1], ends[1] + step)
        points = body.vertices_mm
        near = ((points >= low) & (points <= high)).all(axis=1)
        if not near.any():
            return np.inf
        hull = m3.Manifold.hull_points(self.corners_mm)
        hits = (hull.ray_cast(point, point - step) for point in points[near])
        return min((met[0].distance for met in hits if met), default=np.inf)

    def edge_travel_mm(self, move_mm: Vector, body: MeshBody) -> float:
        """Return how far this piece comes along a move before an edge crosses one of a body.

        Infinity when none does; where an edge ends, a corner meets instead.
        """
        step = np.array(move_mm)
        swept = np.concatenate([self.corners_mm, self.corners_mm + step])
        low, high = swept.min(axis=0), swept.max(axis=0)
        facets = body.corners_mm
        near = (facets.max(axis=1) >= low) & (facets.min(axis=1) <= high)
        if not near.all(axis=1).any():
            return np.inf
        hull = MeshBody(m3.Manifold.hull_points(self.corners_mm)).corners_mm
        ahead = np.cross(hull[:, 1] - hull[:, 0], hull[:, 2] - hull[:, 0]) @ step > 0.0
        share = _crossing(hull[ahead], facets[near.all(axis=1)], step)
        return share * float(np.linalg.norm(step))


def _crossing(moved: Floats, still: Floats, step: Floats) -> float:
    """Return the least share of a step after which edges of facets (n, 3, 3) cross, or infinity.

    For each pair, tail + u along + share step = start + v other; u and v lie within (0, 1).
    """
    tail, start = moved.reshape(-1, 3), still.reshape(-1, 3)
    along = np.roll(moved, -1, axis=1).reshape(-1, 3) - tail
    other = np.roll(still, -1, axis=1).reshape(-1, 3) - start
    aside, beside = np.cross(other, step), np.cross(along, step)
    with np.errstate(divide="ignore", invalid="ignore"):
        scale = 1.0 / (along @ aside.T)
        share = (along @ np.cross(other, start).T - np.cross(tail, along) @ other.T) * scale
        u = ((start * aside).sum(axis=1) - tail @ aside.T) * scale
        v = (beside @ start.T - (tail * beside).sum(axis=1)[:, None]) * scale
    crossing = (share >= 0.0) & (share <= 1.0)
    for part in (u, v):
        crossing &= (part > _END) & (part < 1.0 - _END)
    return float(share[crossing].min(initial=np.inf))
