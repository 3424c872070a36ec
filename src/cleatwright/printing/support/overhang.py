"""Does a part print without support in the pose in which it lies on the bed?

A facet that leans more than 45 degrees over empty space needs something below it,
unless it is a bridge between two held edges or a ledge as deep as one printed line.
What starts in the air needs support however steep it is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike

from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.parts.holder import PrintPose
from cleatwright.printing.support.bridging import (
    SHORT_LEDGE_LINES,
    BridgeLimits,
    Judged,
    Left,
    Patch,
    left_over,
    quickly,
)
from cleatwright.printing.support.hanging import (
    Floats,
    Ints,
    Regions,
    Surface,
    laid,
    regions,
    summed,
)
from cleatwright.printing.support.islands import islands
from cleatwright.printing.support.keels import keels
from cleatwright.shapes.rigid import Vector
from cleatwright.standards.table import Listed

STEEPEST_DEG = 45.0
BRIDGE_MM = 10.0
LEDGE_MM = 0.45
RULE = Source(
    "filament printing: 45 degrees, bridges of 10 mm, ledges of one line", "", Evidence.PRACTICE
)
ALLOWED_MM2 = 1.0
"""What may stay in the air: a few drops of filament."""
ISLAND_MM2 = 2.0
"""An island counts with at least this, about what the tip of a support touches."""

DOWN_IN: MappingProxyType[PrintPose, tuple[Vector, ...]] = MappingProxyType(
    {
        "upright": ((0.0, 0.0, -1.0),),
        "upside-down": ((0.0, 0.0, 1.0),),
        "on-its-back": ((0.0, -1.0, 0.0),),
        "on-its-face": ((0.0, 1.0, 0.0),),
        "on-its-side": ((-1.0, 0.0, 0.0), (1.0, 0.0, 0.0)),
    }
)
"""The directions of a holder that may face the bed in each pose."""
VALUES = (
    Listed("Printing", "steepest overhang deg", STEEPEST_DEG, RULE),
    Listed("Printing", "bridge mm", BRIDGE_MM, RULE),
    Listed("Printing", "ledge mm", LEDGE_MM, RULE),
)


@dataclass(frozen=True)
class Overhangs:
    """What of a part hangs in the air in one pose.

    Args:
        area_mm2: Area that needs support, seen from below; each island has at least 2 mm2.
        bridged_mm2: Area that bridges cover, seen from below.
        worst_mm: A place in the largest patch, in the frame of the part; None without one.
        islands_mm: A place on each island and each keel, in the frame of the part.
    """

    area_mm2: float
    bridged_mm2: float
    worst_mm: Vector | None
    islands_mm: tuple[Vector, ...]

    @property
    def free(self) -> bool:
        """Return True when the part prints without support."""
        return self.area_mm2 <= ALLOWED_MM2


@dataclass(frozen=True, eq=False)
class Lying:
    """A mesh in one pose, with what of it needs support as far as that is found quickly."""

    surface: Surface
    found: Regions
    judged: Judged
    steepest_deg: float
    reach: BridgeLimits

    def least_mm2(self) -> Iterator[float]:
        """Yield areas that need support in any case, each more than the one before.

        The whole is at least as much. The largest regions are looked at first.
        """
        # sums in another order differ in their last digits
        hair = 1.0 - 1e-12
        least = sum((patch.area_mm2 for patch in self.judged.patches), 0.0)
        yield least * hair
        plan = summed(self.found.plan_mm2, by=self.found.region, count=self.found.count)
        for region in sorted(self.judged.mixed, key=lambda k: -plan[k]):
            more = sum(patch.area_mm2 for patch in self._left(region)[0])
            if more > 0.0:
                least += more
                yield least * hair

    @cached_property
    def _looked_at(self) -> dict[int, Left]:
        return {}

    def _left(self, region: int) -> Left:
        """Return what is left of a mixed region."""
        if region not in self._looked_at:
            self._looked_at[region] = left_over(self.found, self.judged, region, self.reach)
        return self._looked_at[region]

    def overhangs(self) -> Overhangs:
        """Return what hangs in the air."""
        surface, found = self.surface, self.found
        patches, bridged = self.judged.patches, self.judged.bridged_mm2
        for left, more in map(self._left, self.judged.mixed):
            patches, bridged = (*patches, *left), bridged + more
        starts = _starts(surface, steepest_deg=self.steepest_deg, reach=self.reach)
        tips = tuple(surface.in_part(surface.points[tip].mean(axis=0)) for tip in starts)
        extra = [ISLAND_MM2 - _hanging_mm2(tip, surface, found, patches) for tip in starts]
        worst = max(patches, key=lambda patch: patch.area_mm2, default=None)
        place = None if worst is None else _on_surface(worst, surface, found)
        return Overhangs(
            area_mm2=sum((patch.area_mm2 for patch in patches), 0.0)
            + sum(max(0.0, more) for more in extra),
            bridged_mm2=bridged,
            worst_mm=place or (tips[0] if tips else None),
            islands_mm=tips,
        )


USUAL_REACH = BridgeLimits(BRIDGE_MM, LEDGE_MM)


def lying(
    vertices_mm: ArrayLike,
    triangles: ArrayLike,
    *,
    down: Vector,
    steepest_deg: float = STEEPEST_DEG,
    reach: BridgeLimits = USUAL_REACH,
) -> Lying:
    """Return a closed mesh as it lies when ``down`` faces the bed; see ``unsupported``."""
    corners: Floats = np.asarray(vertices_mm, dtype=np.float64)
    facets: Ints = np.asarray(triangles, dtype=np.int64)
    surface = laid(corners, facets, down=down)
    found = regions(surface, steepest_deg=steepest_deg)
    judged = quickly(surface, found, reach) if found.count else Judged((), 0.0)
    return Lying(surface, found, judged, steepest_deg, reach)


def unsupported(
    vertices_mm: ArrayLike,
    triangles: ArrayLike,
    *,
    down: Vector,
    steepest_deg: float = STEEPEST_DEG,
    bridge_mm: float = BRIDGE_MM,
    ledge_mm: float = LEDGE_MM,
) -> Overhangs:
    """Return what of a closed mesh needs support when ``down`` faces the bed.

    Args:
        vertices_mm: Corners, shape (n, 3).
        triangles: Indices of corners, counter-clockwise seen from outside, shape (m, 3).
        down: Direction of the part that faces the bed; its length does not count.
        steepest_deg: How far a facet may lean from the vertical (0 to 90, less 1 of slack).
        bridge_mm: Longest distance between two held edges (>= 0).
        ledge_mm: Depth of a ledge that needs nothing (>= 0); twice that when the ledge is
            no longer than ``bridge_mm``.

    Raises:
        PartError: The mesh is open beside an overhang.
        ShapeError: ``down`` has no length.

    Source: common practice of filament printing, no source.
    """
    laid_down = lying(
        vertices_mm,
        triangles,
        down=down,
        steepest_deg=steepest_deg,
        reach=BridgeLimits(bridge_mm, ledge_mm),
    )
    return laid_down.overhangs()


def check_support_free(
    vertices_mm: ArrayLike, triangles: ArrayLike, *, pose: PrintPose
) -> CheckResult:
    """Return the check that a holder prints without support in a pose.

    On its side, the better of the two sides counts.

    Args:
        vertices_mm: Corners in the frame of a holder, shape (n, 3).
        triangles: Indices of corners, shape (m, 3).
        pose: How it lies on the bed.
    """
    tried = [unsupported(vertices_mm, triangles, down=down) for down in DOWN_IN[pose]]
    best = min(tried, key=lambda overhangs: overhangs.area_mm2)
    note = pose
    if best.worst_mm is not None:
        x, y, z = best.worst_mm
        note = f"{pose}, worst at x {x:.1f}, y {y:.1f}, z {z:.1f}"
    if best.islands_mm:
        count = len(best.islands_mm)
        note += f"; starts in the air at {count} place{'s' if count > 1 else ''}"
    return CheckResult(
        "prints without support", best.area_mm2, ALLOWED_MM2, "mm2 in the air", RULE, note
    )


def _starts(surface: Surface, *, steepest_deg: float, reach: BridgeLimits) -> tuple[Ints, ...]:
    """Return the corners of each place that starts in the air: islands, and keels off them."""
    found = islands(surface)
    lone = keels(
        surface,
        steepest_deg=steepest_deg,
        bridge_mm=reach.bridge_mm,
        ledge_mm=SHORT_LEDGE_LINES * reach.ledge_mm,
    )
    taken = np.concatenate([np.zeros(0, dtype=np.int64), *found])
    return (*found, *(keel for keel in lone if not np.isin(keel, taken).any()))


def _hanging_mm2(tip: Ints, surface: Surface, found: Regions, patches: tuple[Patch, ...]) -> float:
    """Return the counted area of the regions that touch the corners of an island."""
    touching = np.isin(surface.triangles[found.facets], tip).any(axis=1)
    mine = set(found.region[touching].tolist())
    return sum(patch.area_mm2 for patch in patches if patch.region in mine)


def _on_surface(patch: Patch, surface: Surface, found: Regions) -> Vector:
    """Return the point of a patch in the frame of the part."""
    facets = found.facets[found.region == patch.region]
    middles = surface.points[surface.triangles[facets]].mean(axis=1)
    inside = np.array(patch.inside_mm)
    near = int(np.argmin(np.hypot(*(middles[:, :2] - inside).T)))
    normal = surface.areas[facets[near]]
    rise = -normal[:2] @ (inside - middles[near, :2]) / normal[2]
    return surface.in_part(np.array((*inside, middles[near, 2] + rise)))
