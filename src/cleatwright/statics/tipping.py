"""How hard a knock down on the free end of a lying thing tips it off its rest.

      F                                      about the end of the rest:
      v      ___________ rest                F (end - half) = W (half - off)
   ===|=====|=====W=====|=====|===
    -end  -half  off   half  end

Source: equilibrium of moments about the end of the rest.
"""

from __future__ import annotations

import math


def tipping_n(
    weight_n: float, *, off_mm: float, half_mm: float, ends_mm: tuple[float, float]
) -> float:
    """Return the least force down on an end that tips a thing off; infinity without a free end.

    Args:
        weight_n: Its weight.
        off_mm: Where it weighs, from the middle of its rest.
        half_mm: Half the length of the rest.
        ends_mm: Where its ends lie, from the middle of its rest.

    >>> round(tipping_n(9.0, off_mm=0.0, half_mm=75.0, ends_mm=(-500.0, 500.0)), 2)
    1.59
    """
    low, high = ends_mm
    sides = ((-low, -off_mm), (high, off_mm))
    return min(
        (
            weight_n * max(half_mm - off, 0.0) / (end - half_mm)
            for end, off in sides
            if end > half_mm
        ),
        default=math.inf,
    )
