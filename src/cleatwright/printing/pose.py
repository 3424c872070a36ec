"""How a part lies on the bed: which of its six sides is put down.

What needs support in a pose is judged by ``checks.overhang``: bridges and small ledges
print in the air, and what starts in the air never does.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from cleatwright.checks.overhang import unsupported
from cleatwright.printing.meshfile import PrintMesh
from cleatwright.shapes.rigid import STILL, Rigid, turn

STRONG = "xzy"
"""The axes along which layers may be stacked, the strongest first."""
MORE_OVERHANG_MM2 = 2000.0
_TIE_DIGITS = 2

DOWN: tuple[tuple[str, Rigid], ...] = (
    ("-z", STILL),
    ("+z", turn("x", 180)),
    ("-y", turn("x", 90)),
    ("+y", turn("x", -90)),
    ("-x", turn("y", -90)),
    ("+x", turn("y", 90)),
)
"""The side that is put down and the rotation that does it; earlier ones win ties."""


@dataclass(frozen=True)
class Pose:
    """One way to lay a part on the bed.

    Args:
        down: The side of the part that faces the bed, as "-z" or "+x".
        rotation: The rotation of the part, without a shift.
        overhang_mm2: Area that needs support, seen from below; 0 when the pose needs none.
        bridged_mm2: Area over empty space that prints as bridges, seen from below.
        islands: How many places would start in the air; each of them needs support.
        footprint_mm: Extents on the bed along x and y after the rotation.
        height_mm: Height above the bed.
        fits: Whether the part fits the bed, perhaps after a quarter turn.
    """

    down: str
    rotation: Rigid
    overhang_mm2: float
    bridged_mm2: float
    islands: int
    footprint_mm: tuple[float, float]
    height_mm: float
    fits: bool

    @property
    def needs_support(self) -> bool:
        """Return whether the part prints only with support."""
        return self.overhang_mm2 > 0.0

    @property
    def rank(self) -> tuple[bool, float, float]:
        """Return what poses are ordered by: misfit, overhang, height."""
        overhang = round(self.overhang_mm2, _TIE_DIGITS)
        return (not self.fits, overhang, round(self.height_mm, _TIE_DIGITS))


def all_poses(mesh: PrintMesh, *, bed_mm: tuple[float, float, float]) -> tuple[Pose, ...]:
    """Return the six poses in fixed order.

    Args:
        mesh: The part.
        bed_mm: Usable width, depth and height of the printer.
    """
    return tuple(_on_bed(_pose(mesh, at), bed_mm) for at in range(len(DOWN)))


def _on_bed(pose: Pose, bed_mm: tuple[float, float, float]) -> Pose:
    return replace(pose, fits=_fits((*pose.footprint_mm, pose.height_mm), bed_mm))


@lru_cache(maxsize=512)
def _pose(mesh: PrintMesh, at: int) -> Pose:
    """Return a pose on a bed without end; asked for again for each bed, it is computed once."""
    down, rotation = DOWN[at]
    low, high = (np.array(corner) for corner in mesh.bounds_mm)
    x, y, z = rotation.rows[2]
    hanging = unsupported(mesh.vertices, mesh.triangles, down=(-x, -y, -z))
    width, depth, height = (float(e) for e in np.abs(np.array(rotation.rows)) @ (high - low))
    return Pose(
        down=down,
        rotation=rotation,
        overhang_mm2=0.0 if hanging.free else hanging.area_mm2,
        bridged_mm2=hanging.bridged_mm2,
        islands=len(hanging.islands_mm),
        footprint_mm=(width, depth),
        height_mm=height,
        fits=True,
    )


def loaded_pose(mesh: PrintMesh, *, bed_mm: tuple[float, float, float]) -> Pose:
    """Return the pose for a part that hangs on a wall and carries in front of it.

    A part tears most easily between its layers. Its arms bend along y and its plate along
    z, so it lies best on its side, then upright, and worst on its back. Among the poses
    that fit, those without support are taken in that order. When all need some, those with
    at most ``MORE_OVERHANG_MM2`` more overhang than the least are. Ties go by overhang,
    height and the order of ``DOWN``. A part that fits in no pose gets one with ``fits``
    false; placing it then raises the error that says what to change.

    Args:
        mesh: The part in the frame of a holder: x along the wall, y out of it, z up.
        bed_mm: Usable width, depth and height of the printer.

    Source: common practice, no source; how much overhang it may cost is a choice.
    """
    for axis in STRONG:
        # most parts are free in a strong pose, and the others need not be looked at
        sides = (
            _on_bed(_pose(mesh, at), bed_mm) for at in range(len(DOWN)) if DOWN[at][0][1] == axis
        )
        free = [pose for pose in sides if pose.fits and not pose.needs_support]
        if free:
            return min(free, key=lambda pose: pose.rank)
    poses = all_poses(mesh, bed_mm=bed_mm)
    best = min(poses, key=lambda pose: pose.rank)
    most = best.overhang_mm2 + MORE_OVERHANG_MM2
    near = [pose for pose in poses if pose.fits == best.fits and pose.overhang_mm2 <= most]
    return min(near, key=lambda pose: (STRONG.index(pose.down[1]), pose.rank))


def _fits(size: tuple[float, float, float], bed: tuple[float, float, float]) -> bool:
    width, depth, height = size
    straight = width <= bed[0] and depth <= bed[1]
    turned = depth <= bed[0] and width <= bed[1]
    return height <= bed[2] and (straight or turned)
