"""The heights between which a standing person takes things easily."""

from __future__ import annotations

import math
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
    """Where a person reaches with ease, and where at all, as heights above the floor.

    Args:
        low_mm: Lower edge of the band of easy reach.
        high_mm: Its upper edge.
        lowest_mm: Below this nothing is reached that is used more often than seldom.
        highest_mm: The same above.
        easy_x_mm: The x on the wall where the better hand takes tools; None when either hand does.
    """

    low_mm: float
    high_mm: float
    lowest_mm: float = 0.0
    highest_mm: float = math.inf
    easy_x_mm: float | None = None

    def distance_mm(self, height_mm: float) -> float:
        """Return how far a height above the floor lies outside the band.

        >>> ReachBand(1000.0, 1400.0).distance_mm(1500.0)
        100.0
        """
        return max(self.low_mm - height_mm, height_mm - self.high_mm, 0.0)

    def beyond_mm(self, height_mm: float) -> float:
        """Return how far a height above the floor lies out of reach.

        >>> ReachBand(1000.0, 1400.0, 500.0, 1900.0).beyond_mm(2000.0)
        100.0
        """
        return max(self.lowest_mm - height_mm, height_mm - self.highest_mm, 0.0)


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
