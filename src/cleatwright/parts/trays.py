"""A tray in front of a plate: floor with openings, side walls, a lower lip."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from cleatwright.parts.footed import diamond
from cleatwright.parts.outward import outward
from cleatwright.shapes.outline import Point, polygon, rectangle
from cleatwright.shapes.rounding import fillet
from cleatwright.shapes.solid import Difference, Solid, across, block, prism

BEARING_MM = 9.0
RIB_MM = 6.0
LEAST_OPENING_MM = 6.0
LARGEST_OPENING_MM = 35.0
BAY_MM = 70.0
LEAD_IN_MM = 1.0
PAST_MM = 1.0


@dataclass(frozen=True)
class TrayPlan:
    """The inside of a tray about x = 0, and its walls.

    Args:
        width_mm: Inside, along x.
        front_mm: Inside face of the lip, from the wall face of the plate.
        back_mm: Where the box ends towards the plate, at least ``plate_mm``.
        plate_mm: Thickness of the plate.
        floor_mm: Thickness of the floor, below z = 0.
        wall_mm: Thickness of the sides and the lip.
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
        return self.front_mm + self.wall_mm

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


def tray(plan: TrayPlan) -> Solid:
    """Return the tray; its floor lies below z = 0."""
    half, reach, side = plan.width_mm / 2, plan.reach_mm, plan.side_mm
    outside = half + plan.wall_mm
    outline = fillet(rectangle(-outside, 0.0, outside, reach), plan.wall_mm, only=(2, 3))
    holes = tuple(diamond(plan.opening_mm, at=at) for at in plan.openings)
    floor = prism(outline, plan.floor_mm, holes=holes).moved(0.0, 0.0, -plan.floor_mm)
    walls = Difference(
        prism(outline, side),
        (
            block(-half, plan.plate_mm, -PAST_MM, half, plan.front_mm, side + PAST_MM),
            *_lead_ins(plan),
            *_lower_front(plan, outside),
        ),
    )
    return floor | walls


def _lead_ins(plan: TrayPlan) -> tuple[Solid, Solid]:
    """Return the 45-degree cuts along the inner edges of the sides and the lip."""
    lead, half = min(LEAD_IN_MM, plan.wall_mm / 3), plan.width_mm / 2
    low, high, wide = plan.side_mm - lead, plan.side_mm + PAST_MM, half + lead + PAST_MM
    sides = polygon([(-half, low), (half, low), (wide, high), (-wide, high)])
    y, z = plan.front_mm, plan.lip_mm
    lip = polygon([(y, z - lead), (y + lead + PAST_MM, z + PAST_MM), (y, z + PAST_MM)])
    return (
        outward(sides, 0.0, y0=plan.plate_mm, y1=plan.front_mm),
        across(lip, -half, half),
    )


def _lower_front(plan: TrayPlan, outside_mm: float) -> tuple[Solid, ...]:
    """Return the cut that lets the sides fall at 45 degrees to the lip, if they are higher."""
    drop = plan.side_mm - plan.lip_mm
    if drop <= 0.0:
        return ()
    run = min(drop, (plan.front_mm - plan.plate_mm) / 2)
    past = PAST_MM * run / drop
    profile = polygon(
        [
            (plan.front_mm, plan.lip_mm),
            (plan.reach_mm + PAST_MM, plan.lip_mm),
            (plan.reach_mm + PAST_MM, plan.side_mm + PAST_MM),
            (plan.front_mm - run - past, plan.side_mm + PAST_MM),
        ]
    )
    return (across(profile, -outside_mm - PAST_MM, outside_mm + PAST_MM),)
