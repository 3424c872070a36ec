"""Level holes whose roof prints in the air."""

from __future__ import annotations

import math

# bridges of 10 mm print in the air, and slopes of 45 degrees (common practice, no source)
BRIDGE_MM = 10.0
# a roof that is hardly steeper may count as flat
_STEEP_DEG = 46.0


def crown_bridges(diameter_mm: float) -> bool:
    """Return True when the flat part of the roof of a level round hole is short enough to bridge.

    >>> crown_bridges(13.4), crown_bridges(14.4)
    (True, False)
    """
    return diameter_mm * math.sin(math.radians(_STEEP_DEG)) <= BRIDGE_MM
