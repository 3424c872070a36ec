"""What the upper screws of a plate bear that two rows of wood screws hold to the studs.

◎   ◎   ◎   ← upper row: half of the weight, and all that turns the plate off the wall
┌───────┐
│ front │ → e     T = (W e + F a) / apart, F at a height a above the lower row
└───────┘
◎   ◎   ◎   ← lower row: half of the weight; it is pressed on

The plate is stiff, so that what sits at one end is borne by the screws there: a load at x, measured
from the middle of n columns at x1, x2 and so on, draws with 1/n + x xi / sum(x1^2 + x2^2 + ...)
of it at column i, and turns all screws about their middle, each by its distance from there.
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
    """Return the worst that an upper screw bears: along the wall and out of it, one hand pulling.

    Tools that ease the screw, since they sit at the other end, count as away.

    Args:
        seats: The seats, all with their tools.
        own: The weight of the part itself, which acts in the middle of its screws.
        rows: Where the screws are.
        hand: How hard a hand pulls at the top of a tool.
    """
    middle = math.fsum(rows.columns_mm) / rows.columns
    columns = [x - middle for x in rows.columns_mm]
    return ScrewLoad(
        stud_mm=0.0,
        row_mm=rows.apart_mm,
        shear_n=max(_along_n(seats, own, rows, middle, column) for column in columns),
        withdrawal_n=max(
            _turning_nmm(seats, own, columns, middle, column, hand=hand, low_z_mm=rows.low_z_mm)
            for column in columns
        )
        / rows.apart_mm,
    )


def _turning_nmm(
    seats: Sequence[Seat],
    own: OwnWeight,
    columns_mm: Sequence[float],
    middle_mm: float,
    column_mm: float,
    *,
    hand: Hand,
    low_z_mm: float,
) -> float:
    """Return which part of what turns the plate off the wall one upper screw holds, >= 0."""
    spread = math.fsum(x * x for x in columns_mm)

    def share(x_mm: float) -> float:
        aside = (x_mm - middle_mm) * column_mm / spread if spread > 0.0 else 0.0
        return max(0.0, 1.0 / len(columns_mm) + aside)

    weights = math.fsum(
        share(seat.com_mm[0]) * seat.tool.mass_kg * GRAVITY_M_S2 * seat.com_mm[1] for seat in seats
    )
    hands = (
        share(seat.com_mm[0]) * hand.pull_at(seat) * (grip_z_mm(seat) - low_z_mm) for seat in seats
    )
    own_nmm = own.mass_kg * GRAVITY_M_S2 * own.distance_mm / len(columns_mm)
    return max(0.0, own_nmm + weights + max(0.0, max(hands, default=0.0)))


def _along_n(
    seats: Sequence[Seat], own: OwnWeight, rows: ScrewRows, middle_mm: float, column_mm: float
) -> float:
    """Return what a screw of one column bears along the wall, whichever tools are away."""
    half, count = rows.apart_mm / 2, 2 * rows.columns
    spread = 2 * math.fsum((x - middle_mm) ** 2 + half * half for x in rows.columns_mm)
    weights = [seat.tool.mass_kg * GRAVITY_M_S2 for seat in seats]
    asides = [seat.com_mm[0] - middle_mm for seat in seats]
    down = [
        weight * (1.0 / count + aside * column_mm / spread)
        for weight, aside in zip(weights, asides, strict=True)
    ]
    level = [weight * aside * half / spread for weight, aside in zip(weights, asides, strict=True)]
    own_n = own.mass_kg * GRAVITY_M_S2 / count
    return math.hypot(max(own_n + _more(down), -_less(down)), max(_more(level), -_less(level)))


def _more(parts: Sequence[float]) -> float:
    return math.fsum(part for part in parts if part > 0.0)


def _less(parts: Sequence[float]) -> float:
    return math.fsum(part for part in parts if part < 0.0)
