"""Where bolts have room: neither before a tool nor behind a piece of the front."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from cleatwright.mounts.printed.rail_back import GUIDE_WIDTH_MM, Guide, guide_at
from cleatwright.parts.holder import Front
from cleatwright.shapes.extent import extent
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.rigid import Rigid, Vector
from cleatwright.shapes.solid import Placed, Solid, Union

STEP_MM = 5.0


def guides_for(
    front: Front, *, rail_low_mm: float, lead_mm: float, count: int
) -> tuple[Guide, ...]:
    """Return guides, as near to the middle, or to both sides, as there is room; none for none."""
    taken = tuple(taken_boxes(front))
    width, half = front.width_mm, GUIDE_WIDTH_MM / 2
    shares = (0.5,) if count == 1 or width < 2 * GUIDE_WIDTH_MM else (0.25, 0.75)
    found: list[Guide] = []
    for share in shares:
        for x in nearest(share * width, min(half, width / 2), width):
            guide = guide_at(x, rail_low_mm=rail_low_mm, lead_mm=lead_mm)
            others = (*taken, *(one.room for one in found))
            if not any(meet(guide.room, box) for box in others):
                found.append(guide)
                break
    return tuple(found)


def taken_boxes(front: Front, *, tools: bool = True) -> Iterator[Bounds]:
    """Yield boxes around the pieces of a front, what it cuts away, and the tools in it."""
    # the board of a carrier is a plate itself, through which a bolt may go
    yield from () if front.anchored else _pieces(front.solid)
    yield from map(extent, front.cuts)
    for seat in front.seats if tools else ():
        yield from map(extent, seat.envelope())


def ways_boxes(front: Front) -> Iterator[Bounds]:
    """Yield boxes around the tools of a front, where they hang and on their ways out."""
    for seat in front.seats:
        for piece in seat.envelope():
            box = extent(piece)
            yield box
            for move in seat.way_out:
                gone = _moved(box, move)
                yield _around(box, gone)
                box = gone


def board_mm(front: Front) -> float:
    """Return how thick the board of a carrier is; 0 for the front of a holder."""
    return extent(front.solid)[1][1] if front.anchored else 0.0


def meet(a: Bounds, b: Bounds) -> bool:
    """Tell whether two boxes share any room."""
    return all(a[0][k] < b[1][k] and b[0][k] < a[1][k] for k in range(3))


@dataclass(frozen=True, eq=False)
class Boxes:
    """Many boxes, for one question.

    Args:
        lows: Their low corners, (n, 3).
        highs: Their high corners, (n, 3).
    """

    lows: npt.NDArray[np.float64]
    highs: npt.NDArray[np.float64]

    @classmethod
    def around(cls, boxes: Iterable[Bounds]) -> Boxes:
        """Return these boxes."""
        both = np.array([*boxes]).reshape(-1, 2, 3)
        return cls(both[:, 0], both[:, 1])

    def beside(self, box: Bounds) -> tuple[tuple[float, float], ...]:
        """Return by how much along x a box meets one of them: from and to, without the ends."""
        (x0, *low), (x1, *high) = box
        level = ((self.lows[:, 1:] < high) & (self.highs[:, 1:] > low)).all(axis=1)
        spans = zip(self.lows[level, 0].tolist(), self.highs[level, 0].tolist(), strict=True)
        return tuple((a - x1, b - x0) for a, b in spans)


def _moved(box: Bounds, by: Vector) -> Bounds:
    (x0, y0, z0), (x1, y1, z1) = box
    dx, dy, dz = by
    return (x0 + dx, y0 + dy, z0 + dz), (x1 + dx, y1 + dy, z1 + dz)


def _around(a: Bounds, b: Bounds) -> Bounds:
    (x0, y0, z0), (x1, y1, z1) = a
    (u0, v0, w0), (u1, v1, w1) = b
    low = min(x0, u0), min(y0, v0), min(z0, w0)
    return low, (max(x1, u1), max(y1, v1), max(z1, w1))


def _pieces(solid: Solid) -> Iterator[Bounds]:
    motion = Rigid()
    while isinstance(solid, Placed):
        motion, solid = solid.motion.then(motion), solid.solid
    for piece in solid.solids if isinstance(solid, Union) else (solid,):
        yield extent(piece.placed(motion))


def nearest(x_mm: float, least_mm: float, width_mm: float) -> Iterator[float]:
    """Yield places along a plate, the nearest to one first."""
    most = max(least_mm, width_mm - least_mm)
    yield min(max(x_mm, least_mm), most)
    for k in range(1, int(width_mm / STEP_MM) + 2):
        yield from (x for x in (x_mm - k * STEP_MM, x_mm + k * STEP_MM) if least_mm <= x <= most)
    yield from (least_mm, most)
