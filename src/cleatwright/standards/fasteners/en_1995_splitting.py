"""EN 1995-1-1:2004, 8.1.4: when a load across the grain splits a member along its screws.

      ↓ load on the bevel
   ┌──────────────┐ ┬ ─ ─
   │              │ │ h_e from the loaded edge to the furthest screw
   │      ○       │ ┴
   │              │     the screws push up, across the grain
   └──────────────┘

Millimetres and newtons, softwood.
"""

from __future__ import annotations

import math

from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

SPLITTING = Source(
    "EN 1995-1-1:2004",
    "8.1.4, equation 8.4",
    Evidence.SECONDARY,
    "public calculation sheets that name the clause, with cases worked by hand",
)
SPLITTING_FACTOR = 14.0
VALUES = (Listed("Screws in wood", "EN 1995 splitting, b x", SPLITTING_FACTOR, SPLITTING),)


def splitting_n(*, thick_mm: float, high_mm: float, furthest_mm: float) -> float:
    """Return the shear beside a row of screws at which a member splits, characteristic, 8.4.

    Args:
        thick_mm: Thickness of the member, > 0.
        high_mm: Its height across the grain, > 0.
        furthest_mm: From its loaded edge to the furthest screw, above 0 and below the height.

    Raises:
        MeasureError: The screw lies outside the member.

    >>> round(splitting_n(thick_mm=140.0, high_mm=300.0, furthest_mm=100.0))
    24005
    """
    if not 0.0 < furthest_mm < high_mm:
        raise MeasureError("a screw outside its rail", allowed="one between its two edges")
    share = furthest_mm / high_mm
    return SPLITTING_FACTOR * thick_mm * math.sqrt(furthest_mm / (1.0 - share))
