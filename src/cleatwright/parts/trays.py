"""A tray in front of a plate: floor with openings, side walls, a lower lip.

The lip's inner face leans to the front by 45 degrees, so that it prints while the plate
lies on the bed.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from cleatwright.parts.footed import diamond
from cleatwright.shapes.outline import Outline, Point, polygon
from cleatwright.shapes.solid import Solid, across, prism

BEARING_MM = 9.0
RIB_MM = 6.0
LEAST_OPENING_MM = 6.0
LARGEST_OPENING_MM = 35.0
BAY_MM = 70.0
LEAD_IN_MM = 1.0


@dataclass(frozen=True)
class TrayPlan:
    """The inside of a tray about x = 0, and its walls.

    Args:
        width_mm: Inside, along x.
        front_mm: Where the lip begins to rise at 45 degrees, from the wall face of the plate.
        back_mm: Where the box ends towards the plate, at least ``plate_mm``.
        plate_mm: Thickness of the plate.
        floor_mm: Thickness of the floor, below z = 0.
        wall_mm: Thickness of the sides, and of the lip at its top.
        lip_mm: Height of the lip above the floor.
        side_mm: Height of the sides above the floor, at least that of the lip.
    """

    width_mm: float
    front_mm: float
    back_mm: float
    plate_mm: float
    floor_mm: float
    wall_mm: float
    lip_mm: float
    side_mm: float

    @property
    def reach_mm(self) -> float:
        """Return the outside face of the lip."""
        return self.front_mm + self.lip_mm + self.wall_mm

    @property
    def edge_mm(self) -> float:
        """Return how far the edges of the sides are broken: inside that leads a box in."""
        return min(LEAD_IN_MM, self.wall_mm / 3)

    @cached_property
    def opening_mm(self) -> float:
        """Return half the diagonal of each opening, or zero when none has room."""
        depth = self.front_mm - self.back_mm
        half = min(min(self.width_mm, depth) / 2 - BEARING_MM, LARGEST_OPENING_MM)
        return half if half >= LEAST_OPENING_MM else 0.0

    @cached_property
    def openings(self) -> tuple[Point, ...]:
        """Return the centres of the openings: one row, evenly apart."""
        if not self.opening_mm:
            return ()
        pitch = 2 * self.opening_mm + RIB_MM
        span = self.width_mm - 2 * BEARING_MM + RIB_MM
        count = int(span / pitch + 1e-9)
        y = (self.front_mm + self.back_mm) / 2
        return tuple(((k + 0.5 - count / 2) * span / count, y) for k in range(count))

    @cached_property
    def bridges(self) -> tuple[float, ...]:
        """Return where between two openings a further web stands, so that no bay is wide."""
        found: list[float] = []
        left, right = -self.width_mm / 2, self.width_mm / 2
        for (a, _), (b, _) in zip(self.openings, self.openings[1:], strict=False):
            middle = (a + b) / 2
            if middle - left >= BAY_MM and right - middle >= BAY_MM / 2:
                found.append(middle)
                left = middle
        return tuple(found)


def tray(plan: TrayPlan) -> tuple[Solid, ...]:
    """Return the pieces of the tray: floor, two sides and the lip; its floor lies below z = 0."""
    half, reach, lip = plan.width_mm / 2, plan.reach_mm, plan.lip_mm
    outside, corner = half + plan.wall_mm, reach - plan.edge_mm
    outline = polygon(
        [
            (-outside, 0.0),
            (outside, 0.0),
            (outside, corner),
            (outside - plan.edge_mm, reach),
            (plan.edge_mm - outside, reach),
            (-outside, corner),
        ]
    )
    holes = tuple(diamond(plan.opening_mm, at=at) for at in plan.openings)
    floor = prism(outline, plan.floor_mm, holes=holes).moved(0.0, 0.0, -plan.floor_mm)
    # the lip and the sides reach into the floor, and the lip into the sides, so that all join
    foot, into = -plan.floor_mm / 2, plan.wall_mm / 2
    ridge = polygon(
        [
            (plan.front_mm, foot),
            (reach, foot),
            (reach, lip),
            (plan.front_mm + lip, lip),
            (plan.front_mm, 0.0),
        ]
    )
    side = _side(plan, foot)
    return (
        floor,
        across(side, -outside, -half, edge_mm=plan.edge_mm),
        across(side, half, outside, edge_mm=plan.edge_mm),
        across(ridge, -half - into, half + into),
    )


def _side(plan: TrayPlan, foot_mm: float) -> Outline:
    """Return the (y, z) profile of a side, which falls at 45 degrees to the lip if it is higher."""
    corners = [(0.0, foot_mm), (plan.reach_mm, foot_mm), (plan.reach_mm, plan.lip_mm)]
    drop = plan.side_mm - plan.lip_mm
    if drop > 0.0:
        run = min(drop, (plan.front_mm - plan.plate_mm) / 2)
        corners += [(plan.front_mm, plan.lip_mm), (plan.front_mm - run, plan.side_mm)]
    return polygon([*corners, (0.0, plan.side_mm)])
