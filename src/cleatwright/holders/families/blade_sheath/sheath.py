"""A fin with a covered pocket for a blade, a sloping bottom and drains."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from cleatwright.shapes.outline import polygon, rectangle
from cleatwright.shapes.rounding import fillet
from cleatwright.shapes.solid import (
    Difference,
    Intersection,
    LoftChain,
    PrismRow,
    Solid,
    across,
    prism,
)

LEAD_IN_MM = 0.8
ROOT_MM = 3.0
ROUND_MM = 2.0
PAST_MM = 1.0
# a shallower space behind a pocket is filled: it would be a trap that nobody can clean
LEAST_RELIEF_MM = 6.0
DRAIN_X_MM, DRAIN_Y_MM = 6.0, 4.0


@dataclass(frozen=True)
class SheathPlan:
    """A pocket about x = 0 and its walls; the underside is the plane z = y - knee.

    Args:
        wide_mm: Inside, along x.
        deep_mm: Inside, along y.
        down_mm: Depth below the rim at z = 0.
        axis_mm: Distance of its middle from the wall face of the plate.
        plate_mm: Thickness of the plate.
        wall_mm: Thickness of its walls.
        floor_mm: Thickness of its sloping bottom.
    """

    wide_mm: float
    deep_mm: float
    down_mm: float
    axis_mm: float
    plate_mm: float
    wall_mm: float
    floor_mm: float

    @property
    def half_mm(self) -> float:
        """Return half of the outside along x."""
        return self.wide_mm / 2 + self.wall_mm

    @property
    def front_mm(self) -> float:
        """Return the outside of the front wall."""
        return self.axis_mm + self.deep_mm / 2 + self.wall_mm

    @property
    def behind_mm(self) -> float:
        """Return the wall side of the rear wall."""
        return self.axis_mm - self.deep_mm / 2 - self.wall_mm

    @property
    def knee_mm(self) -> float:
        """Return the underside's place: it passes the pocket's lower front corner at floor."""
        return self.axis_mm + self.deep_mm / 2 + self.down_mm + self.floor_mm * sqrt(2.0)

    @property
    def low_mm(self) -> float:
        """Return the lowest z."""
        return self.plate_mm - self.knee_mm

    @property
    def relieved(self) -> bool:
        """Return True when there is room for a space between the pocket and the plate."""
        return self.behind_mm - self.plate_mm >= LEAST_RELIEF_MM


def sheath(one: SheathPlan) -> Solid:
    """Return the sheath about x = 0: a fin with a sloping underside and its openings."""
    half, plate, front, low = one.half_mm, one.plate_mm, one.front_mm, one.low_mm
    foot = half + ROOT_MM
    plan = polygon(
        [
            (-foot, 0.0),
            (foot, 0.0),
            (foot, plate),
            (half, plate + ROOT_MM),
            (half, front),
            (-half, front),
            (-half, plate + ROOT_MM),
            (-foot, plate),
        ]
    )
    # a larger radius than the wall would thin it at the pocket's corner
    plan = fillet(plan, min(ROUND_MM, one.wall_mm), only=(4, 5))
    side = polygon(
        [(0.0, low), (plate, low), (front, front - one.knee_mm), (front, 0.0), (0.0, 0.0)]
    )
    whole = Intersection((prism(plan, -low).moved(dz=low), across(side, -foot, foot)))
    return Difference(whole, (_opening(one), _drains(one), *_relief(one)))


def _opening(one: SheathPlan) -> Solid:
    """Return the pocket with its lead-in."""
    x, y0, y1 = one.wide_mm / 2, one.axis_mm - one.deep_mm / 2, one.axis_mm + one.deep_mm / 2
    lead = min(LEAD_IN_MM, one.wall_mm / 3)
    wider = lead + PAST_MM
    inside = rectangle(-x, y0, x, y1)
    mouth = rectangle(-x - wider, y0 - wider, x + wider, y1 + wider)
    return LoftChain((inside, inside, mouth), (-one.down_mm, -lead, PAST_MM))


def _drains(one: SheathPlan) -> Solid:
    """Return what opens the bottom of the pocket and of the space behind it."""
    dx, dy = min(DRAIN_X_MM, one.wide_mm - 1.0) / 2, min(DRAIN_Y_MM, one.deep_mm) / 2
    drains = [rectangle(-dx, one.axis_mm - dy, dx, one.axis_mm + dy)]
    if one.relieved:
        drains.append(rectangle(-dx, one.plate_mm, dx, one.plate_mm + DRAIN_Y_MM))
    low = one.low_mm - PAST_MM
    return PrismRow(tuple(drains), PAST_MM - one.down_mm - low).moved(dz=low)


def _relief(one: SheathPlan) -> tuple[Solid, ...]:
    """Return the space between the pocket and the plate, which saves material, if there is room."""
    if not one.relieved:
        return ()
    x, y0, y1 = one.wide_mm / 2, one.plate_mm, one.behind_mm
    bottom = one.floor_mm * sqrt(2.0) - one.knee_mm
    section = polygon([(y0, y0 + bottom), (y1, y1 + bottom), (y1, PAST_MM), (y0, PAST_MM)])
    return (across(section, -x, x),)
