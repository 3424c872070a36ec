"""A tray in front of a plate: floor with openings, side walls, a lower lip.

The lip's inner face leans to the front by 45 degrees, so that it prints while the plate
lies on the bed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from cleatwright.features.footed import diamond
from cleatwright.features.root import COVE_MM, bracket
from cleatwright.shapes.outline import Outline, Point, polygon
from cleatwright.shapes.solid import Difference, PrismRow, Solid, Union, across

BEARING_MM = 9.0
RIB_MM = 6.0
LEAST_OPENING_MM = 6.0
LARGEST_OPENING_MM = 35.0
BAY_MM = 55.0
# how high webs are at the plate, of how far the tray reaches out, and at their ends
WEB_SHARE = 0.25
WEB_TIP_MM = 6.0
LEAD_IN_MM = 1.0
PAST_MM = 1.0


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
    def web_mm(self) -> float:
        """Return how high the webs below the floor are at the plate."""
        return WEB_SHARE * (self.reach_mm - self.plate_mm)

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


def trays(plans: Sequence[TrayPlan], centres_mm: Sequence[float], *, web_mm: float) -> Solid:
    """Return trays about places along x, their floors below z = 0.

    Args:
        plans: The trays.
        centres_mm: Where the middle of each stands along x.
        web_mm: Thickness of the webs that carry a wide tray between two openings.
    """
    bases: list[Solid] = []
    holes: list[Outline] = []
    walls: list[Solid] = []
    for plan, x in zip(plans, centres_mm, strict=True):
        bases.append(_base(plan).moved(x))
        holes += [diamond(plan.opening_mm, at=(x + dx, y)) for dx, y in plan.openings]
        walls += [side.moved(x) for side in _sides(plan)]
        for middle in plan.bridges:
            a, under = x + middle - web_mm / 2, -plan.floor_mm
            root = plan.web_mm
            web = bracket(
                a,
                a + web_mm,
                plate_mm=plan.plate_mm,
                root_mm=root,
                tip_mm=min(WEB_TIP_MM, root / 2),
                reach_mm=plan.front_mm,
                z_mm=under,
            )
            walls.append(web)
    if not holes:
        return Union((*bases, *walls))
    thick = max(plan.floor_mm for plan in plans)
    row = PrismRow(tuple(holes), thick + 2 * PAST_MM).moved(dz=-thick - PAST_MM)
    return Union((Difference(Union(tuple(bases)), (row,)), *walls))


def _base(plan: TrayPlan) -> Solid:
    """Return floor, lip and a cove at the plate as one profile, which reaches into the sides."""
    under, lip, nook = -plan.floor_mm, plan.lip_mm, plan.plate_mm + COVE_MM
    profile = polygon(
        [
            (0.0, under - COVE_MM),
            (plan.plate_mm, under - COVE_MM),
            (nook, under),
            (plan.reach_mm, under),
            (plan.reach_mm, lip),
            (plan.front_mm + lip, lip),
            (plan.front_mm, 0.0),
            (0.0, 0.0),
        ]
    )
    half = (plan.width_mm + plan.wall_mm) / 2
    return across(profile, -half, half)


def _sides(plan: TrayPlan) -> tuple[Solid, Solid]:
    """Return both sides, each with the web below it; their edges are broken."""
    inside, profile = plan.width_mm / 2, _side(plan)
    outside = inside + plan.wall_mm
    return (
        across(profile, -outside, -inside, edge_mm=plan.edge_mm),
        across(profile, inside, outside, edge_mm=plan.edge_mm),
    )


def _side(plan: TrayPlan) -> Outline:
    """Return the (y, z) profile of a side, which falls at 45 degrees to the lip if it is higher."""
    under, web = -plan.floor_mm, plan.web_mm
    corners = [
        (0.0, under - web),
        (plan.plate_mm, under - web),
        (plan.reach_mm, under),
        (plan.reach_mm, plan.lip_mm),
    ]
    drop = plan.side_mm - plan.lip_mm
    if drop > 0.0:
        run = min(drop, (plan.front_mm - plan.plate_mm) / 2)
        corners += [(plan.front_mm, plan.lip_mm), (plan.front_mm - run, plan.side_mm)]
    return polygon([*corners, (0.0, plan.side_mm)])
