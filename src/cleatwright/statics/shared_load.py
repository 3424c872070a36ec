"""How a stiff body that rests on several springs loads each of them.

      ▼ F at x
  ────┴──────────
   ╫k1   ╫k2   ╫k3      R = F (k / K + k (x_i - m) (x - m) / S)

with K the sum of all k, m = sum(k x_i) / K and S = sum(k (x_i - m)^2). Of two springs each bears
what the lever asks of it, however stiff it is. A tool is stiff beside what carries it.
Source: equilibrium of a rigid body on springs, whose ends stay in a line.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

# springs as near to each other as this turn nothing
NEAR_MM = 1e-3


def shared_load(springs: Sequence[tuple[float, float]], *, at_mm: float) -> list[float]:
    """Return the part of a load that each spring bears; none is lifted.

    Args:
        springs: Where each stands, in mm, and how stiff it is (> 0).
        at_mm: Where the load acts; beyond the outermost springs it counts as if it were at them.

    >>> [round(part, 9) for part in shared_load([(0.0, 1.0), (10.0, 5.0)], at_mm=4.0)]
    [0.6, 0.4]
    >>> shared_load([(0.0, 1.0), (5.0, 8.0), (10.0, 1.0)], at_mm=5.0)
    [0.1, 0.8, 0.1]
    """
    places = [x for x, _ in springs]
    if max(places) - min(places) < NEAR_MM:
        return [k / math.fsum(k for _, k in springs) for _, k in springs]
    total = math.fsum(k for _, k in springs)
    middle = math.fsum(k * x for x, k in springs) / total
    square = math.fsum(k * (x - middle) ** 2 for x, k in springs)
    off = min(max(at_mm, min(places)), max(places)) - middle
    return [max(0.0, k / total + k * (x - middle) * off / square) for x, k in springs]
