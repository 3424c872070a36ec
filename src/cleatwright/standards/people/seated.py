"""How much lower a person is who sits."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.people.overhead import SHOES_MM
from cleatwright.standards.table import Listed

_ANSUR = "ANSUR II (DTIC ADA611869)"
_COPY = "a public note with the script that took it from the data"
# of men; women sit a little higher for their stature (0.5262)
SITTING_PER_STATURE = 0.5231
SITTING = Source(
    _ANSUR, "sitting height above the seat over stature, mean of men", Evidence.SECONDARY, _COPY
)
# medians of men, 430 of 1755 mm; of women 387 of 1626 mm
KNEE_PER_STATURE = 0.245
KNEE = Source(
    _ANSUR, "height of the hollow of the knee over stature, men", Evidence.SECONDARY, _COPY
)
VALUES = (
    Listed("Reach", "sitting height / stature", SITTING_PER_STATURE, SITTING),
    Listed("Reach", "hollow of the knee / stature", KNEE_PER_STATURE, KNEE),
)


def usual_seat_mm(stature_mm: float) -> float:
    """Return how high a seat is that suits a person (stature > 0 mm): as the knees, in shoes.

    >>> round(usual_seat_mm(1755.0))
    455
    """
    return KNEE_PER_STATURE * stature_mm + SHOES_MM


def lower_by_mm(stature_mm: float, seat_mm: float) -> float:
    """Return how much lower head, shoulder and elbow are than of the same person standing.

    Args:
        stature_mm: The stature, > 0.
        seat_mm: Height of the seat above the floor, > 0.

    >>> round(lower_by_mm(1755.0, 455.0))
    382
    """
    return stature_mm - seat_mm - SITTING_PER_STATURE * stature_mm
