"""A mesh that may be printed: named, closed, turned outward, with material inside."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cleatwright.base.errors import PartError
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.rigid import Rigid

Floats = NDArray[np.float64]
Indices = NDArray[np.uint32]


@dataclass(frozen=True, eq=False)
class PrintMesh:
    """A checked mesh in mm; the arrays are read-only.

    Made by ``print_mesh``, which checks it. Two meshes are told apart by ``content_key``.

    Args:
        name: What a person calls the part.
        part_number: The part mark.
        vertices: Corners, shape (n, 3).
        triangles: Indices of corners, counter-clockwise seen from outside, shape (m, 3).
    """

    name: str
    part_number: str
    vertices: Floats
    triangles: Indices

    @cached_property
    def content_key(self) -> str:
        """Return a SHA-256 key of the names and the geometry."""
        told = hashlib.sha256(repr((self.name, self.part_number)).encode())
        told.update(self.vertices.astype("<f8").tobytes())
        told.update(self.triangles.astype("<u4").tobytes())
        return told.hexdigest()

    @cached_property
    def shape_key(self) -> str:
        """Return a SHA-256 key of the geometry alone."""
        told = hashlib.sha256(self.vertices.astype("<f8").tobytes())
        told.update(self.triangles.astype("<u4").tobytes())
        return told.hexdigest()

    @cached_property
    def volume_mm3(self) -> float:
        """Return the enclosed volume."""
        return _volume(self.vertices, self.triangles)

    @cached_property
    def bounds_mm(self) -> Bounds:
        """Return the least and the greatest corner of the bounding box."""
        (x0, y0, z0), (x1, y1, z1) = self.vertices.min(axis=0), self.vertices.max(axis=0)
        return (float(x0), float(y0), float(z0)), (float(x1), float(y1), float(z1))

    @property
    def size_mm(self) -> tuple[float, float, float]:
        """Return the extents along x, y and z."""
        (x0, y0, z0), (x1, y1, z1) = self.bounds_mm
        return (x1 - x0, y1 - y0, z1 - z0)

    def moved(self, motion: Rigid) -> PrintMesh:
        """Return the mesh after a rigid motion."""
        rows = np.array(motion.rows)
        vertices = self.vertices @ rows.T + np.array(motion.shift_mm)
        return print_mesh(self.name, self.part_number, vertices=vertices, triangles=self.triangles)


def print_mesh(
    name: str, part_number: str, *, vertices: ArrayLike, triangles: ArrayLike
) -> PrintMesh:
    """Return a mesh after checking that it bounds a solid.

    Args:
        name: What a person calls the part.
        part_number: The part mark.
        vertices: Numbers of shape (n, 3), in mm.
        triangles: Indices of shape (m, 3).

    Raises:
        PartError: A number is not finite, an index has no corner, the surface is not
            closed and consistently turned, or it encloses no volume from inside.

    Source: 3MF Core Specification 1.4.0, the rules for manifold edges, orientation and
    positive volume. Files that break them are written and read without a warning,
    so they are checked here.
    """
    corners = np.array(vertices, dtype=np.float64, order="C")
    wanted = np.array(triangles, dtype=np.int64, order="C")
    if corners.ndim != 2 or corners.shape[1] != 3 or wanted.ndim != 2 or wanted.shape[1] != 3:
        raise PartError(f"arrays of shapes {corners.shape} and {wanted.shape}", where=name)
    if not len(wanted):
        raise PartError("the mesh is empty", where=name)
    if not np.isfinite(corners).all():
        raise PartError("a corner of the mesh is not finite", where=name)
    if wanted.min() < 0 or wanted.max() >= len(corners):
        raise PartError("a triangle names a corner that does not exist", where=name)
    _check_closed(name, wanted, len(corners))
    volume = _volume(corners, wanted)
    if not volume > 0.0:
        raise PartError(f"the mesh encloses {volume:g} mm3; it is inside out or flat", where=name)
    indices = wanted.astype(np.uint32)
    corners.setflags(write=False)
    indices.setflags(write=False)
    return PrintMesh(name, part_number, corners, indices)


def _check_closed(name: str, triangles: NDArray[np.int64], corners: int) -> None:
    """Raise PartError unless each directed edge occurs once and its reverse once."""
    tails = triangles.ravel()
    heads = np.roll(triangles, -1, axis=1).ravel()
    forward = np.sort(tails * corners + heads)
    backward = np.sort(heads * corners + tails)
    if (tails == heads).any():
        raise PartError("a triangle uses one corner twice", where=name)
    if (forward[1:] == forward[:-1]).any():
        raise PartError("an edge of the mesh is used twice in one direction", where=name)
    open_edges = int((~np.isin(forward, backward, assume_unique=True)).sum())
    if open_edges:
        raise PartError(f"the mesh is open or turned over at {open_edges} edges", where=name)


def _volume(corners: Floats, triangles: NDArray[np.integer]) -> float:
    # measured from a corner of its own, so that a far-away part loses no digits
    a, b, c = (corners[triangles[:, k]] - corners[triangles[0, 0]] for k in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0)
