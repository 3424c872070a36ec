"""A meshed body and what can be asked of it."""

# the library's stubs leave the element types of its arrays open
# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false
# pyright: reportUnknownArgumentType=false

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import Literal

import manifold3d as m3
import numpy as np
import numpy.typing as npt

from cleatwright.base.errors import KernelError
from cleatwright.kernels.mesh.ordering import ordered
from cleatwright.shapes.facts import BodyFacts
from cleatwright.shapes.rigid import Rigid, Vector

Floats = npt.NDArray[np.float64]
View = Literal["front", "side", "top"]
# rows that lay the seen plane onto xy: (right, up) of the drawing
_VIEWS: dict[View, tuple[Vector, Vector, Vector]] = {
    "front": ((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0)),
    "side": ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)),
    "top": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
}
_FACING_AWAY = -0.866
_SPREAD_MM2 = 200.0
_PARALLEL = 0.9999
_IN_PLANE_MM = 1e-3
# what the library holds for each triangle, measured over 200 bodies of 2100
_LIBRARY_BYTES = 210
_WEIGHTS = np.array([[1, 1, 1], [4, 1, 1], [1, 4, 1], [1, 1, 4], [3, 3, 1], [1, 3, 3], [3, 1, 3]])


def _samples(corners: Floats) -> tuple[Floats, Floats]:
    """Return points (n, 3) on facets (m, 3, 3) and the outward normals there."""
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    length = np.linalg.norm(cross, axis=1)
    real = length > 1e-3
    corners, normals = corners[real], cross[real] / length[real][:, None]
    large = length[real] / 2 > _SPREAD_MM2
    weights = _WEIGHTS / _WEIGHTS.sum(axis=1, keepdims=True)
    middle = np.einsum("k,nkj->nj", weights[0], corners)
    spread = np.einsum("wk,nkj->nwj", weights[1:], corners[large]).reshape(-1, 3)
    return (
        np.concatenate([middle, spread]),
        np.concatenate([normals, np.repeat(normals[large], len(weights) - 1, axis=0)]),
    )


def apart(one: Floats, other: Floats) -> bool:
    """Tell whether two boxes, each of shape (2, 3), share no volume."""
    return bool((one[0] >= other[1]).any() or (other[0] >= one[1]).any())


def _of_mesh(points_mm: Floats, triangles: npt.NDArray[np.uint32]) -> m3.Manifold:
    """Return the library's body of a closed mesh."""
    made = m3.Manifold(m3.Mesh64(points_mm.copy(), triangles.astype(np.uint64)))
    if made.status() != m3.Error.NoError:
        raise KernelError(f"a mesh that was closed gave the status {made.status().name}")
    return made


def transformed(manifold: m3.Manifold, motion: Rigid) -> m3.Manifold:
    """Return the manifold after a rigid motion."""
    rows = [[*row, t] for row, t in zip(motion.rows, motion.shift_mm, strict=True)]
    return manifold.transform(np.array(rows))


Mesh = tuple[Floats, npt.NDArray[np.uint32]]
"""Vertices, shape (n, 3), in mm, and triangles, shape (m, 3)."""


class MeshBody:
    """An evaluated, closed mesh; it is never changed.

    Args:
        manifold: The library's body; None for one that is made anew whenever it is needed.
        mesh: Its mesh, of which it is made then; None where nobody asked for it yet.
    """

    def __init__(self, manifold: m3.Manifold | None, *, mesh: Mesh | None = None) -> None:
        self._manifold, self._known = manifold, mesh

    @property
    def manifold(self) -> m3.Manifold:
        """Return the underlying body, for this room only."""
        return _of_mesh(*self._mesh) if self._manifold is None else self._manifold

    def settled(self) -> MeshBody:
        """Return the body as its mesh alone, for one that is kept and seldom asked.

        The library's body takes five times as much memory as its mesh; it is made anew for each
        question, in about a microsecond for a triangle.
        """
        return MeshBody(None, mesh=self._mesh)

    def at_hand(self) -> MeshBody:
        """Return the same with the library's body kept, for many questions at once."""
        return self if self._manifold is not None else MeshBody(self.manifold, mesh=self._mesh)

    @property
    def vertices_mm(self) -> Floats:
        """Return the vertices, shape (n, 3), sorted, read only."""
        return self._mesh[0]

    @property
    def triangles(self) -> npt.NDArray[np.uint32]:
        """Return the corner indices, shape (m, 3), counter-clockwise from outside, read only."""
        return self._mesh[1]

    @cached_property
    def _mesh(self) -> Mesh:
        if self._known is not None:
            return self._known
        raw = self.manifold.to_mesh64()
        points, faces = ordered(raw.vert_properties[:, :3], raw.tri_verts.astype(np.uint32))
        points.setflags(write=False)
        faces.setflags(write=False)
        return points, faces

    @property
    def kept_bytes(self) -> int:
        """Return about how much it takes with its mesh, without making that."""
        if self._manifold is None:
            return sum(array.nbytes for array in self._mesh)
        vertices, triangles = self._manifold.num_vert(), self._manifold.num_tri()
        return 24 * vertices + (12 + _LIBRARY_BYTES) * triangles

    @property
    def corners_mm(self) -> Floats:
        """Return the triangle corners, shape (m, 3, 3); they take more than the mesh."""
        return self.vertices_mm[self.triangles]

    @property
    def volume_and_area(self) -> tuple[float, float]:
        """Return volume in mm3 and surface in mm2 as the library adds them up, for estimates.

        Their last digits may differ from those of ``facts``, which takes longer.
        """
        whole = self.manifold
        return whole.volume(), whole.surface_area()

    @property
    def facts(self) -> BodyFacts:
        """Return volume, area, centroid, bounds, genus and number of bodies."""
        return self._facts

    @cached_property
    def _facts(self) -> BodyFacts:
        corners = self.corners_mm
        a, b, c = (corners[:, k] for k in range(3))
        six_volumes = np.einsum("ij,ij->i", a, np.cross(b, c))
        centre = (six_volumes[:, None] * (a + b + c)).sum(axis=0) / 4.0 / six_volumes.sum()
        twice_areas = np.linalg.norm(np.cross(b - a, c - a), axis=1)
        whole = self.manifold
        box, pieces = whole.bounding_box(), whole.decompose()
        return BodyFacts(
            volume_mm3=float(six_volumes.sum()) / 6.0,
            area_mm2=float(twice_areas.sum()) / 2.0,
            centroid_mm=(float(centre[0]), float(centre[1]), float(centre[2])),
            bounds_mm=((box[0], box[1], box[2]), (box[3], box[4], box[5])),
            # the library counts one genus over all pieces: chi = 2 (pieces - genus)
            genus=whole.genus() + len(pieces) - 1,
            # the skin of a cavity is a piece that is inside out
            bodies=sum(piece.volume() > 0.0 for piece in pieces),
        )

    def placed(self, motion: Rigid) -> MeshBody:
        """Return the body after a rigid motion."""
        return MeshBody(transformed(self.manifold, motion))

    @classmethod
    def joined(cls, bodies: Sequence[MeshBody]) -> MeshBody:
        """Return the union of one or more bodies."""
        return cls(m3.Manifold.batch_boolean([b.manifold for b in bodies], m3.OpType.Add))

    def without(self, other: MeshBody) -> MeshBody:
        """Return what is left of this body outside of another."""
        return MeshBody(self.manifold - other.manifold)

    def beyond(self, normal: Vector, *, offset_mm: float) -> MeshBody | None:
        """Return what lies beyond a plane, or None when nothing does.

        Args:
            normal: Unit normal of the plane, to the side that is kept.
            offset_mm: Distance of the plane from the origin along the normal.
        """
        left = self.manifold.trim_by_plane(normal, offset_mm)
        return None if left.is_empty() else MeshBody(left)

    @cached_property
    def box_mm(self) -> Floats:
        """Return the bounding box as ((min x, y, z), (max x, y, z)), shape (2, 3)."""
        if self._manifold is None:
            return np.array([self.vertices_mm.min(axis=0), self.vertices_mm.max(axis=0)])
        return np.array(self._manifold.bounding_box()).reshape(2, 3)

    def overlap_mm3(self, other: MeshBody) -> float:
        """Return the volume that both bodies share."""
        if apart(self.box_mm, other.box_mm):
            return 0.0
        return (self.manifold ^ other.manifold).volume()

    def shared_box_mm(self, other: MeshBody) -> Floats | None:
        """Return the box around what both bodies share, shape (2, 3), or None."""
        shared = self.manifold ^ other.manifold
        return None if shared.is_empty() else MeshBody(shared).box_mm

    def swept(self, move_mm: Vector) -> MeshBody:
        """Return the hull of this body and its shifted self; exact for a convex body."""
        points = np.concatenate([self.vertices_mm, self.vertices_mm + np.array(move_mm)])
        return MeshBody(m3.Manifold.hull_points(points))

    def gap_mm(self, other: MeshBody, *, within_mm: float) -> float:
        """Return the distance to another body, at most ``within_mm``; zero when they meet."""
        return self.manifold.min_gap(other.manifold, within_mm)

    def thinnest_wall_mm(self, *, within_mm: float) -> float:
        """Return the thinnest wall found, at most ``within_mm``.

        A ray goes inward from the middle of each facet, and from more points of
        large ones; a wall counts where it leaves through a facet that faces away
        within 30 degrees, so that sharp edges are not walls.
        """
        return self._thinnest_mm(*_samples(self.corners_mm), within_mm=within_mm)

    def wall_behind_mm(self, normal: Vector, *, offset_mm: float, within_mm: float) -> float:
        """Return the thinnest wall behind the facets in one plane, at most ``within_mm``.

        Args:
            normal: Outward unit normal of the facets.
            offset_mm: Distance of their plane from the origin along the normal.
            within_mm: How deep to look.
        """
        points, normals = _samples(self.corners_mm)
        flat = (normals @ np.array(normal) > _PARALLEL) & (
            np.abs(points @ np.array(normal) - offset_mm) < _IN_PLANE_MM
        )
        return self._thinnest_mm(points[flat], normals[flat], within_mm=within_mm)

    def _thinnest_mm(self, points: Floats, normals: Floats, *, within_mm: float) -> float:
        starts = points - normals * 1e-6
        ends = points - normals * within_mm
        whole, thinnest = self.manifold, within_mm
        for start, end, normal in zip(starts, ends, normals, strict=True):
            for hit in whole.ray_cast(start, end):
                if float(np.dot(hit.normal, normal)) < _FACING_AWAY:
                    thinnest = min(thinnest, float(np.linalg.norm(hit.position - start)))
                    break
        return thinnest

    def silhouette(self, view: View) -> tuple[tuple[tuple[float, float], ...], ...]:
        """Return the closed polygons of the shadow in a view, in mm.

        The front view is what a person sees who faces the wall: its right is -x.
        """
        turned = transformed(self.manifold, Rigid(_VIEWS[view]))
        shadow = m3.CrossSection(turned.project().to_polygons(), m3.FillRule.Positive)
        outlines = shadow.simplify(0.05).to_polygons()
        return tuple(tuple((float(x), float(y)) for x, y in loop) for loop in outlines)
