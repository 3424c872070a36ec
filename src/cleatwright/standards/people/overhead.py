"""How high a person touches who stands flat on the feet."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

# of men, who reach a little higher for their stature than women (1.2781); a child's arm is up to
# 7 % shorter for its stature than an adult's (Snyder 1977), so that this is on the safe side
FINGERTIP_PER_STATURE = 1.2893
FINGERTIP = Source(
    "ANSUR II (DTIC ADA611869)",
    "overhead fingertip reach over stature, mean of men, built from two measures",
    Evidence.SECONDARY,
    "a public note with the script that took it from the data",
)
SHOES_MM = 25.0
SHOES = Source("shoes add 25 mm to measures taken barefoot", "", Evidence.PRACTICE)

VALUES = (
    Listed("Reach", "overhead fingertip / stature", FINGERTIP_PER_STATURE, FINGERTIP),
    Listed("Reach", "shoes mm", SHOES_MM, SHOES),
)


def touched_mm(stature_mm: float) -> float:
    """Return how high the fingertips of a standing person come (stature > 0 mm, in shoes).

    Of a child this is more than it touches, as it shall be where things are to be kept from it.

    >>> round(touched_mm(1000.0), 1)
    1289.3
    """
    return FINGERTIP_PER_STATURE * stature_mm
