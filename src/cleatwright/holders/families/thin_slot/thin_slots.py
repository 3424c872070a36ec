"""Two fins straight out of a plate, with a floor and a stop between them."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from cleatwright.features.footed import diamond
from cleatwright.features.outward import outward
from cleatwright.shapes.outline import Outline, polygon
from cleatwright.shapes.rigid import Rigid
from cleatwright.shapes.solid import Difference, Intersection, PrismRow, Solid, across, prism

ROOT_MM = 3.0
LEAD_IN_MM = 1.0
PAST_MM = 1.0
# dust falls out between the plate and the floor
GAP_MM = 4.0
# material around the opening in a fin, and the smallest opening that is worth its corners
FRAME_MM, LEAST_OPENING_MM = 6.0, 6.0
# (x, y, z) -> (z, x, y) lays an outline onto the (y, z) plane, drawn out along x
_UPRIGHT = ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


@dataclass(frozen=True)
class SlotPlan:
    """A slot about x = 0 between two fins; its floor is z = 0.

    Args:
        slot_mm: Clear width between the fins.
        stop_y_mm: Where the stop begins, from the wall face of the plate.
        fin_z_mm: Height of the fins above the floor.
        stop_z_mm: Height of the stop, at most that of the fins.
        plate_mm: Thickness of the plate.
        fin_mm: Thickness of the fins and of the stop.
        floor_mm: Thickness of the floor.
    """

    slot_mm: float
    stop_y_mm: float
    fin_z_mm: float
    stop_z_mm: float
    plate_mm: float
    fin_mm: float
    floor_mm: float

    @property
    def reach_mm(self) -> float:
        """Return the outside of the stop."""
        return self.stop_y_mm + self.fin_mm

    @property
    def half_mm(self) -> float:
        """Return half of the outside along x."""
        return self.slot_mm / 2 + self.fin_mm

    @property
    def low_mm(self) -> float:
        """Return the lowest z."""
        return -self.floor_mm - (self.reach_mm - self.plate_mm)

    @property
    def opening_mm(self) -> float:
        """Return half the diagonal of the opening in each fin, or zero.

        It is the largest square on its corner below the floor, with a frame around it.
        """
        leg = self.reach_mm - self.plate_mm - (2.0 + sqrt(2.0)) * FRAME_MM
        half = leg / 3.0
        return half if half >= LEAST_OPENING_MM else 0.0


def _fin(one: SlotPlan) -> Outline:
    """Return a fin's outline in the (y, z) plane; its upper front falls at 45 degrees."""
    run = min(one.fin_z_mm - one.stop_z_mm, (one.reach_mm - one.plate_mm) / 2)
    corners = [
        (0.0, one.low_mm),
        (one.plate_mm, one.low_mm),
        (one.reach_mm, -one.floor_mm),
        (one.reach_mm, one.fin_z_mm - run),
        *([(one.reach_mm - run, one.fin_z_mm)] if run > 0.0 else []),
        (0.0, one.fin_z_mm),
    ]
    return polygon(corners)


def slot(one: SlotPlan) -> Solid:
    """Return one slot about x = 0: two fins with their roots, the floor and the stop."""
    inner = one.slot_mm / 2
    half, foot = one.opening_mm, one.half_mm + ROOT_MM
    at = (one.plate_mm + FRAME_MM + half, -one.floor_mm - FRAME_MM - half)
    holes = (diamond(half, at=at),) if half else ()
    side = prism(_fin(one), 2 * foot, holes=holes).placed(Rigid(_UPRIGHT, (-foot, 0.0, 0.0)))
    plans = PrismRow((_plan(one, -1), _plan(one, 1)), one.fin_z_mm - one.low_mm)
    y0, y1, x = one.plate_mm + GAP_MM, one.reach_mm, inner + PAST_MM
    step, low, high = one.stop_y_mm, -one.floor_mm, one.stop_z_mm
    bottom = [(y0, low), (y1, low), (y1, high), (step, high), (step, 0.0), (y0, 0.0)]
    fins = Intersection((plans.moved(dz=one.low_mm), side))
    return Difference(fins | across(polygon(bottom), -x, x), (_lead_in(one),))


def _plan(one: SlotPlan, side: int) -> Outline:
    """Return the fin on one side (-1 or 1) from above, wider at its root."""
    inner, outer = side * one.slot_mm / 2, side * one.half_mm
    corners = [
        (inner, 0.0),
        (outer + side * ROOT_MM, 0.0),
        (outer + side * ROOT_MM, one.plate_mm),
        (outer, one.plate_mm + ROOT_MM),
        (outer, one.reach_mm),
        (inner, one.reach_mm),
    ]
    return polygon(corners if side > 0 else corners[::-1])


def _lead_in(one: SlotPlan) -> Solid:
    """Return the bevel along the upper edges of a slot."""
    inner, top = one.slot_mm / 2, one.fin_z_mm
    lead = min(LEAD_IN_MM, one.fin_mm / 3)
    wide = inner + lead + PAST_MM
    section = polygon(
        [(-inner, top - lead), (inner, top - lead), (wide, top + PAST_MM), (-wide, top + PAST_MM)]
    )
    return outward(section, 0.0, y0=one.plate_mm, y1=one.reach_mm + PAST_MM)
