"""The revised lifting equation of NIOSH: the mass that nearly all healthy people may lift.

RWL = LC · HM · VM · DM · AM · FM · CM, in the metric edition of its constants. They are no exact
conversions of those in inches and pounds: 51 lb are 23.13 kg, not 23 kg.

The equation is for two hands, a load that stands still in them, a firm floor and mild air. It is
not for lifting with one hand, seated, kneeling, in a narrow place or while carrying.

Source: Waters, Putz-Anderson and Garg, Applications Manual for the Revised NIOSH Lifting Equation,
DHHS (NIOSH) Publication No. 94-110, revised 9/2021, clauses 1.2 and 1.3, in the public domain.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Listed, Table

Coupling = Literal["good", "fair", "poor"]
Duration = Literal["short", "moderate", "long"]
"""Up to 1, up to 2 and up to 8 hours, with the times of rest that the manual asks for."""

MANUAL = "NIOSH 94-110 (revised 9/2021)"
EQUATION = Source(
    MANUAL,
    "clause 1.3",
    Evidence.SECONDARY,
    "a public specification of the equation, by clause",
)
_FREQUENCY = Source(
    MANUAL,
    "Table 5",
    Evidence.SECONDARY,
    "a public specification of the equation, by clause",
)
_COUPLING = Source(
    MANUAL,
    "Table 7",
    Evidence.SECONDARY,
    "a public specification of the equation, by clause",
)

LOAD_CONSTANT_KG = 23.0
NEAREST_MM = 250.0
FARTHEST_MM = 630.0
BEST_HEIGHT_MM = 750.0
HIGHEST_MM = 1750.0
SHORTEST_TRAVEL_MM = 250.0
LONGEST_TRAVEL_MM = 1750.0
WIDEST_DEG = 135.0
SELDOM_PER_MINUTE = 0.2
MOST_PER_MINUTE = 15.0

FREQUENCY_MULTIPLIERS = Table(
    name="NIOSH frequency multipliers",
    key_name="lifts a minute",
    columns=tuple(
        Column(f"{duration}_{where}_share", _FREQUENCY)
        for duration in ("short", "moderate", "long")
        for where in ("low", "high")
    ),
    rows=(
        ("0.2", (1.00, 1.00, 0.95, 0.95, 0.85, 0.85)),
        ("0.5", (0.97, 0.97, 0.92, 0.92, 0.81, 0.81)),
        ("1", (0.94, 0.94, 0.88, 0.88, 0.75, 0.75)),
        ("2", (0.91, 0.91, 0.84, 0.84, 0.65, 0.65)),
        ("3", (0.88, 0.88, 0.79, 0.79, 0.55, 0.55)),
        ("4", (0.84, 0.84, 0.72, 0.72, 0.45, 0.45)),
        ("5", (0.80, 0.80, 0.60, 0.60, 0.35, 0.35)),
        ("6", (0.75, 0.75, 0.50, 0.50, 0.27, 0.27)),
        ("7", (0.70, 0.70, 0.42, 0.42, 0.22, 0.22)),
        ("8", (0.60, 0.60, 0.35, 0.35, 0.18, 0.18)),
        ("9", (0.52, 0.52, 0.30, 0.30, 0.00, 0.15)),
        ("10", (0.45, 0.45, 0.26, 0.26, 0.00, 0.13)),
        ("11", (0.41, 0.41, 0.00, 0.23, 0.00, 0.00)),
        ("12", (0.37, 0.37, 0.00, 0.21, 0.00, 0.00)),
        ("13", (0.00, 0.34, 0.00, 0.00, 0.00, 0.00)),
        ("14", (0.00, 0.31, 0.00, 0.00, 0.00, 0.00)),
        ("15", (0.00, 0.28, 0.00, 0.00, 0.00, 0.00)),
    ),
)

COUPLING_MULTIPLIERS = Table(
    name="NIOSH coupling multipliers",
    key_name="coupling",
    columns=(Column("low_share", _COUPLING), Column("high_share", _COUPLING)),
    rows=(("good", (1.00, 1.00)), ("fair", (0.95, 1.00)), ("poor", (0.90, 0.90))),
)
VALUES = (
    Listed("Lifting", "load constant kg", LOAD_CONSTANT_KG, EQUATION),
    Listed("Lifting", "nearest mm", NEAREST_MM, EQUATION),
    Listed("Lifting", "farthest mm", FARTHEST_MM, EQUATION),
    Listed("Lifting", "best height mm", BEST_HEIGHT_MM, EQUATION),
    Listed("Lifting", "highest mm", HIGHEST_MM, EQUATION),
    Listed("Lifting", "shortest travel mm", SHORTEST_TRAVEL_MM, EQUATION),
    Listed("Lifting", "longest travel mm", LONGEST_TRAVEL_MM, EQUATION),
    Listed("Lifting", "widest turn deg", WIDEST_DEG, EQUATION),
)


def horizontal_multiplier(horizontal_mm: float) -> float:
    """Return HM for the hands that far (>= 0) before the ankles: 1 up to 250, 0 beyond 630 mm.

    >>> horizontal_multiplier(500.0)
    0.5
    """
    _need("distance of the hands", horizontal_mm)
    if horizontal_mm > FARTHEST_MM:
        return 0.0
    return NEAREST_MM / max(NEAREST_MM, horizontal_mm)


def vertical_multiplier(height_mm: float) -> float:
    """Return VM for the hands that high (>= 0) above the floor; 0 above 1750 mm.

    >>> vertical_multiplier(1750.0)
    0.7
    """
    _need("height of the hands", height_mm)
    if height_mm > HIGHEST_MM:
        return 0.0
    return 1.0 - 0.0003 * abs(height_mm - BEST_HEIGHT_MM)


def distance_multiplier(travel_mm: float) -> float:
    """Return DM for a load that goes that far (>= 0) up or down; 0 beyond 1750 mm.

    >>> distance_multiplier(250.0), distance_multiplier(900.0)
    (1.0, 0.87)
    """
    _need("way up or down", travel_mm)
    if travel_mm > LONGEST_TRAVEL_MM:
        return 0.0
    return 0.82 + 45.0 / max(SHORTEST_TRAVEL_MM, travel_mm)


def asymmetry_multiplier(angle_deg: float) -> float:
    """Return AM for a load that far (>= 0 degrees) beside the person's front; 0 beyond 135.

    >>> round(asymmetry_multiplier(90.0), 3)
    0.712
    """
    _need("angle beside the front", angle_deg, unit="deg")
    return 1.0 - 0.0032 * angle_deg if angle_deg <= WIDEST_DEG else 0.0


def frequency_multiplier(per_minute: float, *, duration: Duration, height_mm: float) -> float:
    """Return FM for so many lifts a minute (>= 0), read from the table with straight lines between.

    Seldom is 0.2 a minute; oftener than the table goes, nothing may be lifted.

    >>> round(frequency_multiplier(2.4, duration="short", height_mm=1000.0), 3)
    0.898
    """
    _need("lifts a minute", per_minute, unit="a minute")
    column = f"{duration}_{_where(height_mm)}_share"
    often = max(SELDOM_PER_MINUTE, per_minute)
    if often > MOST_PER_MINUTE:
        return 0.0
    for low, high in pairwise(FREQUENCY_MULTIPLIERS.keys):
        if often <= float(high):
            a, b = (FREQUENCY_MULTIPLIERS.value(key, column) for key in (low, high))
            return a + (b - a) * (often - float(low)) / (float(high) - float(low))
    return FREQUENCY_MULTIPLIERS.value(FREQUENCY_MULTIPLIERS.keys[-1], column)


def coupling_multiplier(coupling: Coupling, *, height_mm: float) -> float:
    """Return CM for how well the hands hold the load.

    Raises:
        UnknownNameError: There is no such coupling.

    >>> coupling_multiplier("fair", height_mm=700.0), coupling_multiplier("fair", height_mm=750.0)
    (0.95, 1.0)
    """
    return COUPLING_MULTIPLIERS.value(coupling, f"{_where(height_mm)}_share")


@dataclass(frozen=True)
class Lift:
    """How something is lifted or lowered by two hands.

    Args:
        horizontal_mm: From the middle between the ankles to that between the hands, >= 0.
        height_mm: Height of the hands above the floor where it begins, >= 0.
        travel_mm: How far it goes up or down, >= 0.
        angle_deg: How far beside the person's front, >= 0.
        per_minute: How often, >= 0.
        duration: For how long.
        coupling: How well the hands hold it.
    """

    horizontal_mm: float
    height_mm: float
    travel_mm: float
    angle_deg: float = 0.0
    per_minute: float = SELDOM_PER_MINUTE
    duration: Duration = "short"
    coupling: Coupling = "poor"


def recommended_kg(lift: Lift) -> float:
    """Return the recommended weight limit (RWL) as a mass; 0 where nothing should be lifted.

    Raises:
        MeasureError: A measure is below zero or no number.
        UnknownNameError: There is no such coupling.

    >>> recommended_kg(Lift(250.0, 750.0, 0.0, coupling="good"))
    23.0
    """
    return (
        LOAD_CONSTANT_KG
        * horizontal_multiplier(lift.horizontal_mm)
        * vertical_multiplier(lift.height_mm)
        * distance_multiplier(lift.travel_mm)
        * asymmetry_multiplier(lift.angle_deg)
        * frequency_multiplier(lift.per_minute, duration=lift.duration, height_mm=lift.height_mm)
        * coupling_multiplier(lift.coupling, height_mm=lift.height_mm)
    )


def _where(height_mm: float) -> str:
    return "low" if height_mm < BEST_HEIGHT_MM else "high"


def _need(what: str, value: float, *, unit: str = "mm") -> None:
    if not (math.isfinite(value) and value >= 0.0):
        raise MeasureError(f"a {what} of {value:g} {unit}", allowed="at least 0", where="lifting")
