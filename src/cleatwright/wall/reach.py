"""The heights between which a standing person takes things easily, and the weights of the score."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence, Source

ELBOW_RATIO = 0.630
ELBOW_SOURCE = Source(
    "Drillis and Contini 1966, after Winter, Fig. 4.1", "elbow height", Evidence.MEMORY
)
SHOULDER_RATIO = 0.818
SHOULDER_SOURCE = Source(
    "Drillis and Contini 1966, after Winter, Fig. 4.1", "shoulder height", Evidence.SECONDARY
)
STATURE_MM = 1750.0
STATURE_SOURCE = Source("default stature, to be set by the person", "", Evidence.CHOICE)


@dataclass(frozen=True)
class ReachBand:
    """The band of easy reach, as heights above the floor."""

    low_mm: float
    high_mm: float

    def distance_mm(self, height_mm: float) -> float:
        """Return how far a height above the floor lies outside the band.

        >>> ReachBand(1000.0, 1400.0).distance_mm(1500.0)
        100.0
        """
        return max(self.low_mm - height_mm, height_mm - self.high_mm, 0.0)


def reach_band(stature_mm: float = STATURE_MM) -> ReachBand:
    """Return the band from the elbow to the shoulder of a person of that stature (1000 to 2500 mm).

    Raises:
        MeasureError: The stature is out of bounds.

    >>> band = reach_band(1750.0)
    >>> round(band.low_mm, 1), round(band.high_mm, 1)
    (1102.5, 1431.5)
    """
    if not 1000.0 <= stature_mm <= 2500.0:
        raise MeasureError(
            f"a stature of {stature_mm:g} mm", allowed="from 1000 to 2500 mm", where="reach"
        )
    return ReachBand(ELBOW_RATIO * stature_mm, SHOULDER_RATIO * stature_mm)


@dataclass(frozen=True)
class Weights:
    """What the parts of the score weigh; all are choices of this program.

    Args:
        daily: Per centimetre outside the band of reach, for tools used every day.
        weekly: The same for tools used every week.
        seldom: The same for tools used seldom.
        raised_kg: Per kilogram and centimetre above ``raised_from_mm``.
        raised_from_mm: Height above the floor from which mass counts.
        rail: Per rail.
        rail_length: Per centimetre of rail.
        group: Per centimetre of width plus height of the box round a group.
    """

    daily: float = 10.0
    weekly: float = 3.0
    seldom: float = 1.0
    raised_kg: float = 3.0
    raised_from_mm: float = 1100.0
    rail: float = 200.0
    rail_length: float = 0.5
    group: float = 1.0

    def of_use(self, use: str) -> float:
        """Return the weight of a class of use."""
        return {"daily": self.daily, "weekly": self.weekly, "seldom": self.seldom}[use]
