"""A row of bays between fins, with a ledge and a stop on both sides of each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.features.footed import diamond
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import Rigid
from cleatwright.shapes.solid import Solid, across, prism

TIP_MM = 2.4
STOP_MM = 3.0
LEAD_IN_MM = 1.0
WINDOW_RIM_MM = 12.0
LEAST_WINDOW_MM = 8.0
# pieces reach into each other, so that they join
_BURIED_MM = 0.5
_ACROSS = ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


@dataclass(frozen=True)
class Bay:
    """One bin between its fins: from x0 to x1 inside, ledges, and where the stops begin."""

    x0: float
    x1: float
    ledge_mm: float
    front_mm: float


@dataclass(frozen=True)
class Fin:
    """A fin from x on: its front end, and how deep the ledges beside it reach there."""

    x: float
    front_mm: float
    drop_mm: float

    def low_mm(self, plate_mm: float) -> float:
        """Return the lowest z of the fin, at the plate."""
        return -self.drop_mm - (self.front_mm - plate_mm)

    def window_mm(self, plate_mm: float) -> float:
        """Return half the diagonal of the window in the fin, or zero."""
        half = (self.front_mm - plate_mm - (2 + 2**0.5) * WINDOW_RIM_MM) / 3
        return half if half >= LEAST_WINDOW_MM else 0.0

    def solid(self, thick_mm: float, *, stop_mm: float, plate_mm: float) -> Solid:
        """Return the fin, as high as the stops."""
        low, half = self.low_mm(plate_mm), self.window_mm(plate_mm)
        profile = polygon(
            [
                (0.0, low),
                (plate_mm, low),
                (self.front_mm, -self.drop_mm),
                (self.front_mm, stop_mm),
                (0.0, stop_mm),
            ]
        )
        centre = (plate_mm + WINDOW_RIM_MM + half, -self.drop_mm - WINDOW_RIM_MM - half)
        windows = (diamond(half, at=centre),) if half else ()
        return prism(profile, thick_mm, holes=windows).placed(Rigid(_ACROSS, (self.x, 0.0, 0.0)))


def ledges(bay: Bay, *, stop_mm: float) -> list[Solid]:
    """Return both ledges of a bay with their stops; their undersides fall to the fins."""
    wide, length = bay.ledge_mm, bay.front_mm + STOP_MM
    deep = TIP_MM + wide + _BURIED_MM
    left = [(-_BURIED_MM, 0.0), (-_BURIED_MM, -deep), (wide, -TIP_MM), (wide, 0.0)]
    right = [(-x, z) for x, z in left[::-1]]
    lead = LEAD_IN_MM
    stop = polygon(
        [
            (bay.front_mm, -TIP_MM),
            (length, -TIP_MM),
            (length, stop_mm),
            (bay.front_mm + lead, stop_mm),
            (bay.front_mm, stop_mm - lead),
        ]
    )
    arms = [
        prism(polygon(corners), length).turned("x", 90.0).moved(x, length, 0.0)
        for corners, x in ((left, bay.x0), (right, bay.x1))
    ]
    stops = [
        across(stop, bay.x0 - _BURIED_MM, bay.x0 + wide),
        across(stop, bay.x1 - wide, bay.x1 + _BURIED_MM),
    ]
    return [*arms, *stops]


def fins_between(bays: Sequence[Bay], *, fin_mm: float) -> tuple[Fin, ...]:
    """Return a fin beside every bay, each as long and as deep as its neighbours ask for."""
    starts = [bays[0].x0, *(bay.x1 + fin_mm for bay in bays)]
    return tuple(
        Fin(
            x=start - fin_mm,
            front_mm=max(bay.front_mm for bay in beside) + STOP_MM,
            drop_mm=max(bay.ledge_mm for bay in beside) + TIP_MM + 2 * _BURIED_MM,
        )
        for k, start in enumerate(starts)
        for beside in [bays[max(k - 1, 0) : k + 1]]
    )
