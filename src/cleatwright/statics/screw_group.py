"""What the upper screws of a plate bear that two rows of wood screws hold to the studs.

◎   ◎   ◎   ← upper row: half of the weight, and all that turns the plate off the wall
┌───────┐
│ front │ → e     T = (W e + F a) / (apart n), F at a height a above the lower row
└───────┘
◎   ◎   ◎   ← lower row: half of the weight; it is pressed on
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from cleatwright.base.source import Evidence, Source
from cleatwright.parts.holder import ScrewRows, Seat
from cleatwright.parts.screw_strength import ScrewLoad
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.hand import Hand
from cleatwright.statics.take_out import grip_z_mm

SCREW_RULE = Source(
    "NDS 2018",
    "12.4-1 over 12.2-2 and Table 12.3.1A with the gap of the lining, C_D 0.9",
    Evidence.SECONDARY,
    "public check programs that name clause and page",
)


def screw_load(seats: Sequence[Seat], own: OwnWeight, rows: ScrewRows, *, hand: Hand) -> ScrewLoad:
    """Return what an upper screw bears: along the wall and out of it, one hand pulling.

    Args:
        seats: The seats, all with their tools.
        own: The weight of the part itself.
        rows: Where the screws are.
        hand: How hard a hand pulls at the top of a tool.
    """
    own_n = own.mass_kg * GRAVITY_M_S2
    weights = [seat.tool.mass_kg * GRAVITY_M_S2 for seat in seats]
    turning = own_n * own.distance_mm + math.fsum(
        weight * seat.com_mm[1] for weight, seat in zip(weights, seats, strict=True)
    )
    hands = [hand.pull_at(seat) * max(0.0, grip_z_mm(seat) - rows.low_z_mm) for seat in seats]
    return ScrewLoad(
        stud_mm=0.0,
        row_mm=rows.apart_mm,
        shear_n=(own_n + math.fsum(weights)) / (2 * rows.columns),
        withdrawal_n=max(0.0, turning + max(hands, default=0.0)) / rows.apart_mm / rows.columns,
    )
