"""Steps of a block with a row of pockets in each."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from cleatwright.parts.holder import Seat
from cleatwright.shapes.outline import Outline, Point, rectangle
from cleatwright.shapes.solid import Solid, Union, block, prism

FLOOR_MM = 2.4
LEAD_IN_MM = 0.6
# a step reaches into the one behind it, so that both join
JOIN_MM = 1.0


# neighbouring steps share at least this much height, or the block would fall into rows
SHARED_MM = 3.0


@dataclass(frozen=True)
class StepNeed:
    """What a row of tools needs: room to each side along y, and depth of its pockets."""

    half_mm: float
    depth_mm: float


@dataclass(frozen=True)
class Terrace:
    """One step: from ``back_mm`` out to ``front_mm``, pockets about ``axis_mm``, top ``high_mm``.

    Args:
        back_mm: Its rear end, along y.
        axis_mm: Where its pockets lie.
        front_mm: Its front.
        high_mm: Height of its top.
        depth_mm: Depth of its pockets.
    """

    back_mm: float
    axis_mm: float
    front_mm: float
    high_mm: float
    depth_mm: float

    @property
    def floor_mm(self) -> float:
        """Return the height at which its tools stand."""
        return self.high_mm - self.depth_mm

    @property
    def middle_mm(self) -> float:
        """Return the height of the middle of its floor's thickness."""
        return self.floor_mm - FLOOR_MM / 2

    @property
    def low_mm(self) -> float:
        """Return the height of its underside."""
        return self.floor_mm - FLOOR_MM


def stairs(
    needs: Sequence[StepNeed], *, gap_mm: float, rim_mm: float, step_mm: float, start_mm: float
) -> list[Terrace]:
    """Return a step for each need, from front to back; the top of the first is z = 0.

    Args:
        needs: What stands on each step.
        gap_mm: Room between the tools of one step and of the next.
        rim_mm: Material in front of the foremost tools.
        step_mm: How much higher each step is, at most: neighbours always share some height.
        start_mm: Where the room of the rearmost tools begins, along y.

    >>> stairs([StepNeed(4.0, 10.0)], gap_mm=5.0, rim_mm=3.0, step_mm=6.0, start_mm=6.0)
    [Terrace(back_mm=0.0, axis_mm=10.0, front_mm=17.0, high_mm=0.0, depth_mm=10.0)]
    """
    tops = [0.0]
    for need in needs[1:]:
        tops.append(tops[-1] + min(step_mm, need.depth_mm + FLOOR_MM / 2 - SHARED_MM))
    places: list[Terrace] = []
    y = start_mm
    for k in reversed(range(len(needs))):
        half = needs[k].half_mm
        back = y - gap_mm / 2 if places else 0.0
        front = y + 2 * half + (gap_mm / 2 if k else rim_mm)
        places.append(Terrace(back, y + half, front, tops[k], needs[k].depth_mm))
        y += 2 * half + gap_mm
    return places[::-1]


def highest(seats: Sequence[Seat], x0: float, x1: float) -> float:
    """Return the top of the highest tool between x0 and x1, minus infinity without one.

    The tools stand as they hang: their poses are shifts.
    """
    tops = [-math.inf]
    for seat in seats:
        (a, _, _), (b, _, top) = seat.tool.extent_mm
        dx, _, dz = seat.pose.shift_mm
        if a + dx < x1 and x0 < b + dx:
            tops.append(top + dz)
    return max(tops)


def terrace(place: Terrace, pockets: tuple[Outline, ...], *, width_mm: float) -> Solid:
    """Return one step with a 45-degree lead-in at each pocket and around its top."""
    back = max(0.0, place.back_mm - JOIN_MM)
    outline = rectangle(0.0, back, width_mm, place.front_mm)
    wall = prism(
        outline, place.high_mm - place.middle_mm, holes=pockets, top_chamfer_mm=LEAD_IN_MM
    ).moved(0.0, 0.0, place.middle_mm)
    return Union((wall, block(0.0, back, place.low_mm, width_mm, place.front_mm, place.floor_mm)))


def under_stairs(places: Sequence[Terrace]) -> list[Point]:
    """Return the (y, z) line inside the floors of the steps, which the ribs below run up to.

    It goes from the foremost point of the underside back to y = 0.
    """
    nearest = places[0]
    line = [(nearest.front_mm, nearest.low_mm), (nearest.front_mm, nearest.middle_mm)]
    for near, far in pairwise(places):
        y = far.front_mm - JOIN_MM / 2
        line += [(y, near.middle_mm), (y, far.middle_mm)]
    return [*line, (0.0, places[-1].middle_mm)]
