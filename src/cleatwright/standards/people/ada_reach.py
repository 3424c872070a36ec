"""Reach ranges of the 2010 ADA Standards for Accessible Design, sections 308 and 308.1 (advisory).

They are for whoever sits in a wheelchair, and for children, and the same for everybody of an age.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Listed, Table

_CODE = Source("2010 ADA Standards", "308.2 forward reach", Evidence.SEEN)
_ADVISORY = Source("2010 ADA Standards", "advisory 308.1, children", Evidence.SEEN)

HIGH_MM, LOW_MM = 1220.0, 380.0
DEEP_MM, HIGH_OVER_DEEP_MM = 510.0, 1120.0
VALUES = (
    Listed("Reach", "seated, highest mm", HIGH_MM, _CODE),
    Listed("Reach", "seated, lowest mm", LOW_MM, _CODE),
    Listed("Reach", "seated, deep from mm", DEEP_MM, _CODE),
    Listed("Reach", "seated, highest over what is deep mm", HIGH_OVER_DEEP_MM, _CODE),
)

CHILDREN = Table(
    name="2010 ADA Standards, children",
    key_name="ages",
    columns=(Column("high_mm", _ADVISORY), Column("low_mm", _ADVISORY)),
    rows=(("3-4", (915, 510)), ("5-8", (1015, 455)), ("9-12", (1120, 405))),
)


def seated_range_mm(depth_mm: float) -> tuple[float, float]:
    """Return how low and how high somebody seated reaches over what stands before the wall.

    Args:
        depth_mm: How deep it is, >= 0, with room for the knees below; the standard ends at
            635 mm, and what is deeper counts as that.

    >>> seated_range_mm(0.0), seated_range_mm(600.0)
    ((380.0, 1220.0), (380.0, 1120.0))
    """
    return LOW_MM, HIGH_MM if depth_mm <= DEEP_MM else HIGH_OVER_DEEP_MM


def child_range_mm(age: int) -> tuple[float, float] | None:
    """Return how low and how high a child of an age (whole years) reaches; None beyond the ages.

    >>> child_range_mm(6), child_range_mm(13)
    ((455.0, 1015.0), None)
    """
    for ages, (high_mm, low_mm) in CHILDREN.rows:
        first, _, last = ages.partition("-")
        if int(first) <= age <= int(last):
            return float(low_mm), float(high_mm)
    return None
