"""How far a hand and the weight of a tool load a peg whose layers lie across it.

The peg is cut where its root ends. What is inside its walls does not count.
"""

from __future__ import annotations

import math

from cleatwright.statics.hand import KNOCK_N, LIFT_N
from cleatwright.statics.needed_section import needed_modulus_mm3

# three lines of 0.45 mm, as a printer makes where stress asks for them (common practice, no source)
WALL_MM = 1.35


def peg_share(weight_n: float, *, middle_mm: float, end_mm: float, diameter_mm: float) -> float:
    """Return the stress in a peg as a share of what its layers bear: 32 F e / (pi d^3) for a bar.

    A hand presses the tool down at its middle, or knocks at it in front, while it hangs there.

    Args:
        weight_n: Weight of the tool.
        middle_mm: How far before the root its middle hangs.
        end_mm: How far before the root a knock meets it.
        diameter_mm: Thickness of the peg.

    >>> round(peg_share(0.0, middle_mm=8.0, end_mm=0.0, diameter_mm=2.7), 3)
    5.175
    >>> round(32 * 10.0 * 8.0 / (math.pi * 2.7**3) / 8.0, 3)
    5.175
    """
    inside = max(diameter_mm - 2 * WALL_MM, 0.0)
    modulus = math.pi * (diameter_mm**4 - inside**4) / (32.0 * diameter_mm)
    rests = weight_n * middle_mm
    hand = max(LIFT_N * middle_mm, KNOCK_N * end_mm)
    return needed_modulus_mm3(rests, hand_nmm=hand) / modulus
