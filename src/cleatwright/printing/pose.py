"""How a part lies on the bed: which of its six sides is put down.

What needs support in a pose is judged by ``checks.overhang``: bridges and small ledges
print in the air, and what starts in the air never does.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.parts.holder import PrintPose
from cleatwright.printing.footprint import turn_to_fit
from cleatwright.printing.meshfile import PrintMesh
from cleatwright.printing.support.overhang import ALLOWED_MM2, Lying, lying
from cleatwright.shapes.rigid import STILL, Rigid, turn

# what a pose costs, in mm2 of overhang
SUPPORT_MM2 = 2500.0
"""Any support at all: it is cut off by hand, and leaves a rough face."""
HEIGHT_MM2 = 8.0
"""Each mm of height: more layers, more time, and more that can go wrong."""
SLENDER_MM2 = 20.0
"""Each mm of height above SLENDER times the narrower side: it sways, and may be knocked off."""
SLENDER = 4.0
ACROSS_MM2 = {"x": 0.0, "z": 200.0, "y": 800.0}
"""Layers stacked along an axis: a part tears most easily between its layers.

On its side (x) all that carries lies within the layers; upright (z) the arms do, the plate
does not; on its back (y) the arms bend across them.
"""
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
_NAMED: dict[str, PrintPose] = {
    "-z": "upright",
    "+z": "upside-down",
    "-y": "on-its-back",
    "+y": "on-its-face",
    "-x": "on-its-side",
    "+x": "on-its-side",
}


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
        fits: Whether the part fits the bed, perhaps after a turn.
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
    def cost_mm2(self) -> float:
        """Return what the pose costs, in mm2 of overhang."""
        return _cost_mm2(
            self.down, self.footprint_mm, self.height_mm, overhang_mm2=self.overhang_mm2
        )

    @property
    def rank(self) -> tuple[bool, float]:
        """Return what poses are ordered by: misfit, then cost."""
        return (not self.fits, round(self.cost_mm2, _TIE_DIGITS))


def all_poses(
    mesh: PrintMesh, *, bed_mm: tuple[float, float, float], run: Run | None = None
) -> tuple[Pose, ...]:
    """Return the six poses in fixed order.

    Args:
        mesh: The part.
        bed_mm: Usable width, depth and height of the printer.
        run: The run that keeps what was found before; one of its own when None.
    """
    run = run or Run()
    turned = (_Turned(mesh, at) for at in range(len(DOWN)))
    return tuple(_on_bed(_pose(one, run), bed_mm) for one in turned)


def _on_bed(pose: Pose, bed_mm: tuple[float, float, float]) -> Pose:
    return replace(pose, fits=_fits((*pose.footprint_mm, pose.height_mm), bed_mm))


def _pose(turned: _Turned, run: Run) -> Pose:
    """Return a pose on a bed without end."""
    down, rotation = DOWN[turned.at]
    hanging = run.need(HANGING, turned)
    width, depth, height = _extents(turned.mesh, turned.at)
    return Pose(
        down=down,
        rotation=rotation,
        overhang_mm2=hanging.overhang_mm2,
        bridged_mm2=hanging.bridged_mm2,
        islands=hanging.islands,
        footprint_mm=(width, depth),
        height_mm=height,
        fits=True,
    )


@dataclass(frozen=True, eq=False)
class _Turned:
    """A mesh and the number of the side that is put down."""

    mesh: PrintMesh
    at: int

    @cached_property
    def lying(self) -> Lying:
        """The mesh in its pose."""
        x, y, z = DOWN[self.at][1].rows[2]
        return lying(self.mesh.vertices, self.mesh.triangles, down=(-x, -y, -z))


@dataclass(frozen=True)
class OverhangArea:
    """What hangs in the air in a pose; see ``Pose``."""

    overhang_mm2: float
    bridged_mm2: float
    islands: int


def _hanging(_: Run, turned: _Turned) -> OverhangArea:
    found = turned.lying.overhangs()
    area_mm2 = 0.0 if found.free else found.area_mm2
    return OverhangArea(area_mm2, found.bridged_mm2, len(found.islands_mm))


def _turned_key(turned: _Turned) -> str:
    return f"{turned.mesh.shape_key}/{turned.at}"


HANGING = Stage("what hangs in the air", _hanging, _turned_key, codec=JsonCodec(OverhangArea))
"""From a mesh and the side that is put down to what hangs in the air."""


def best_pose(
    mesh: PrintMesh, *, bed_mm: tuple[float, float, float], run: Run | None = None
) -> Pose:
    """Return the pose that costs least among those that fit; ties go by the order of ``DOWN``.

    Overhang, height, a narrow footprint under a tall part, and layers across what carries
    are weighed together; see the constants of this module. A part that fits in no pose
    gets one with ``fits`` false; placing it then raises the error that says what to change.

    Args:
        mesh: The part in the frame of a holder: x along the wall, y out of it, z up.
        bed_mm: Usable width, depth and height of the printer.
        run: The run that keeps what was found before; one of its own when None.

    Source: common practice, no source; the weights are a choice.
    """
    run = run or Run()
    fits = tuple([_fits(_extents(mesh, at), bed_mm) for at in range(len(DOWN))])
    at = run.need(BEST, _Waiting(mesh, fits))
    return _on_bed(_pose(_Turned(mesh, at), run), bed_mm)


def prints_free(
    size_mm: tuple[float, float, float],
    free: Collection[PrintPose],
    *,
    bed_mm: tuple[float, float, float],
) -> bool:
    """Return True when a part is sure to lie without support, by its box alone.

    One of its free poses fits on the bed, and costs no more than the cheapest other pose would
    with the least support.

    Args:
        size_mm: Its extents along x, y and z in the frame of a holder.
        free: The poses in which it needs none.
        bed_mm: Usable width, depth and height of the printer.

    >>> prints_free((100.0, 50.0, 40.0), ("on-its-back",), bed_mm=(200.0, 200.0, 200.0))
    True
    >>> prints_free((300.0, 50.0, 40.0), ("on-its-back",), bed_mm=(200.0, 200.0, 310.0))
    False
    """
    cost: dict[bool, list[float]] = {True: [], False: []}
    for at, (down, _) in enumerate(DOWN):
        width, depth, height = _turned_size(size_mm, at)
        if _fits((width, depth, height), bed_mm):
            cost[_NAMED[down] in free].append(_free_cost_mm2(down, (width, depth), height))
    return bool(cost[True]) and min(cost[True]) <= SUPPORT_MM2 + min(cost[False], default=math.inf)


@dataclass(frozen=True, eq=False)
class _Waiting:
    """A mesh, and whether it fits on the bed with each of its sides down."""

    mesh: PrintMesh
    fits: tuple[bool, ...]


def _best(run: Run, given: _Waiting) -> int:
    """Return the number of the best side.

    All of an overhang is slow to find. What is known of it only grows, and with it the cost of a
    pose; the cheapest by what is known is looked at further, until all is known of it.
    """
    turned = [_Turned(given.mesh, at) for at in range(len(DOWN))]
    known: dict[int, Iterator[float]] = {}

    def rank(at: int, overhang_mm2: float) -> tuple[bool, float]:
        width, depth, height = _extents(given.mesh, at)
        counted = overhang_mm2 if overhang_mm2 > ALLOWED_MM2 else 0.0
        cost = _cost_mm2(DOWN[at][0], (width, depth), height, overhang_mm2=counted)
        return (not given.fits[at], round(cost, _TIE_DIGITS))

    waiting = [(*rank(at, 0.0), at, False) for at in range(len(DOWN))]
    heapq.heapify(waiting)
    while True:
        _, _, at, whole = heapq.heappop(waiting)
        if whole:
            return at
        if at not in known:
            known[at] = turned[at].lying.least_mm2()
        least = next(known[at], None)
        if least is None:
            least, whole = run.need(HANGING, turned[at]).overhang_mm2, True
        heapq.heappush(waiting, (*rank(at, least), at, whole))


def _waiting_key(given: _Waiting) -> str:
    return f"{given.mesh.shape_key}/{''.join(str(int(one)) for one in given.fits)}"


BEST = Stage("side that is put down", _best, _waiting_key, codec=JsonCodec(int))
"""From a mesh to the number of the side on which it lies best."""


def _cost_mm2(
    down: str, footprint_mm: tuple[float, float], height_mm: float, *, overhang_mm2: float
) -> float:
    """Return what a pose costs, in mm2 of overhang."""
    support = overhang_mm2 + SUPPORT_MM2 * (overhang_mm2 > 0.0)
    return support + _free_cost_mm2(down, footprint_mm, height_mm)


def _free_cost_mm2(down: str, footprint_mm: tuple[float, float], height_mm: float) -> float:
    """Return what a pose costs besides its overhang."""
    above = max(0.0, height_mm - SLENDER * min(footprint_mm))
    return HEIGHT_MM2 * height_mm + SLENDER_MM2 * above + ACROSS_MM2[down[1]]


def _extents(mesh: PrintMesh, at: int) -> tuple[float, float, float]:
    """Return the extents along x, y and z in a pose."""
    (x0, y0, z0), (x1, y1, z1) = mesh.bounds_mm
    return _turned_size((x1 - x0, y1 - y0, z1 - z0), at)


def _turned_size(size_mm: tuple[float, float, float], at: int) -> tuple[float, float, float]:
    rows = np.abs(np.array(DOWN[at][1].rows))
    width, depth, height = (float(e) for e in rows @ np.array(size_mm))
    return width, depth, height


def _fits(size: tuple[float, float, float], bed: tuple[float, float, float]) -> bool:
    width, depth, height = size
    return height <= bed[2] and turn_to_fit((width, depth), bed[:2]) is not None
