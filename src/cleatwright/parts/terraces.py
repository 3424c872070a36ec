"""Steps of a block with a row of pockets in each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from cleatwright.shapes.outline import Outline, Point, rectangle
from cleatwright.shapes.solid import Solid, Union, block, prism

FLOOR_MM = 2.4
LEAD_IN_MM = 0.6
# a step reaches into the one behind it, so that both join
JOIN_MM = 1.0


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
