"""How one seated tool bends what reaches out from the plate to carry it.

   plate ║─────────┬───── arm ──────────┐
         ║   cut   :    │W              :
         ║    c    back out           front

Seen at a cut at c, all of the weight may lie in front of it at ``out``; or, as on a beam, only its
share at ``front``: R = W (out - back) / (front - back). The larger moment counts. A tool rests on
what of it lies where it is carried: a bucket that hangs by its bail, on the bail.
Source: equilibrium of a body on two supports.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from cleatwright.parts.holder import Seat
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.shapes.extent import extent, joint_extent
from cleatwright.shapes.facts import Bounds

TOUCH_MM = 1.0


@dataclass(frozen=True)
class SeatLoad:
    """Where a tool weighs on its holder.

    Args:
        weight_n: Its weight.
        out_mm: Where its centre of mass lies in front of the wall face of the plate.
        back_mm: Where it may rest at the back.
        front_mm: Where it may rest in front.
        knocked_mm: Where a knock may meet it in front.
        left_mm: Its least x.
        right_mm: Its largest x.
        rest_mm: Height at which it rests.
    """

    weight_n: float
    out_mm: float
    back_mm: float
    front_mm: float
    knocked_mm: float
    left_mm: float
    right_mm: float
    rest_mm: float

    def moment_nmm(self, force_n: float, cut_mm: float) -> float:
        """Return the moment at a cut of a force down on the tool.

        >>> load = SeatLoad(10.0, 40.0, 10.0, 70.0, 70.0, 0.0, 60.0, 0.0)
        >>> [load.moment_nmm(10.0, cut) for cut in (10.0, 40.0, 70.0)]
        [300.0, 150.0, 0.0]
        """
        rest = self.front_mm - self.back_mm
        share = 1.0 if rest <= 0.0 else min(max((self.out_mm - self.back_mm) / rest, 0.0), 1.0)
        return force_n * max(
            self.out_mm - cut_mm,
            share * (max(self.front_mm, self.out_mm) - cut_mm),
            0.0,
        )

    def resting_to(self, reach_mm: float) -> SeatLoad:
        """Return the same on something that reaches no further."""
        return replace(self, front_mm=min(self.front_mm, reach_mm))


def seat_load(seat: Seat, *, plate_mm: float, reach_mm: float) -> SeatLoad:
    """Return how a seat is loaded.

    Args:
        seat: The seat.
        plate_mm: Thickness of the plate, where a tool may rest at the back.
        reach_mm: How far the holder reaches, where it may rest in front.
    """
    whole = seat.envelope()
    (left, _, _), (right, front, _) = joint_extent(whole)
    resting = [one for one in whole if _meets(extent(one), seat.rest_z_mm)]
    (_, back, _), (_, rests, _) = joint_extent(tuple(resting) or whole)
    return SeatLoad(
        weight_n=seat.tool.mass_kg * GRAVITY_M_S2,
        out_mm=seat.com_mm[1],
        back_mm=max(back, plate_mm),
        front_mm=min(rests, reach_mm),
        knocked_mm=min(front, reach_mm),
        left_mm=left,
        right_mm=right,
        rest_mm=seat.rest_z_mm,
    )


def _meets(box: Bounds, z_mm: float) -> bool:
    (_, _, low), (_, _, high) = box
    return low - TOUCH_MM <= z_mm <= high + TOUCH_MM
