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
from dataclasses import dataclass

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

    Tools that ease a screw, since they sit at the other end, count as away.

    Args:
        seats: The seats, all with their tools.
        own: The weight of the part itself, which acts in the middle of its screws.
        rows: Where the screws are.
        hand: How hard a hand pulls at the top of a tool.
    """
    middle = math.fsum(rows.columns_mm) / rows.columns
    columns = [x - middle for x in rows.columns_mm]
    loads = [
        PlateLoad(
            seat.com_mm[0] - middle,
            seat.tool.mass_kg * GRAVITY_M_S2,
            seat.com_mm[1],
            hand.pull_at(seat) * max(0.0, grip_z_mm(seat) - rows.low_z_mm),
        )
        for seat in seats
    ]
    own_n = own.mass_kg * GRAVITY_M_S2 / rows.columns
    drawn = max(_turning_nmm(loads, columns, column) for column in columns)
    return ScrewLoad(
        stud_mm=0.0,
        row_mm=rows.apart_mm,
        shear_n=max(
            _along_n(loads, columns, column, half_mm=rows.apart_mm / 2, own_n=own_n / 2)
            for column in columns
        ),
        withdrawal_n=max(0.0, own_n * own.distance_mm + drawn) / rows.apart_mm,
    )


@dataclass(frozen=True)
class PlateLoad:
    """What a tool does to a plate.

    Args:
        aside_mm: How far right of the middle of the screws it acts.
        weight_n: Its weight.
        out_mm: How far from the wall that acts.
        hand_nmm: What a hand that pulls at it turns off the wall, about the lower row, >= 0.
    """

    aside_mm: float
    weight_n: float
    out_mm: float
    hand_nmm: float


def _turning_nmm(loads: Sequence[PlateLoad], columns_mm: Sequence[float], at_mm: float) -> float:
    """Return which part of what turns the plate off the wall the upper screw of a column holds."""
    spread = math.fsum(x * x for x in columns_mm)

    def share(load: PlateLoad) -> float:
        aside = load.aside_mm * at_mm / spread if spread > 0.0 else 0.0
        return max(0.0, 1.0 / len(columns_mm) + aside)

    weights = math.fsum(share(load) * load.weight_n * load.out_mm for load in loads)
    return weights + max((share(load) * load.hand_nmm for load in loads), default=0.0)


def _along_n(
    loads: Sequence[PlateLoad],
    columns_mm: Sequence[float],
    at_mm: float,
    *,
    half_mm: float,
    own_n: float,
) -> float:
    """Return what a screw of one column bears along the wall, whichever tools are away."""
    count = 2 * len(columns_mm)
    spread = 2 * math.fsum(x * x + half_mm * half_mm for x in columns_mm)
    down = [one.weight_n * (1.0 / count + one.aside_mm * at_mm / spread) for one in loads]
    level = [one.weight_n * one.aside_mm * half_mm / spread for one in loads]
    return math.hypot(max(own_n + _more(down), -_less(down)), max(_more(level), -_less(level)))


def _more(parts: Sequence[float]) -> float:
    return math.fsum(part for part in parts if part > 0.0)


def _less(parts: Sequence[float]) -> float:
    return math.fsum(part for part in parts if part < 0.0)
