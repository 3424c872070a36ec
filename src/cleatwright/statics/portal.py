"""Two equal legs whose ends a bar ties together, pushed sideways at the bar.

   foot ╞════ leg ════╗
                      ║ bar  ← force
   foot ╞════ leg ════╝

Source: portal frame with fixed feet and a sideways force at its bar (Kleinlogel, Rahmenformeln,
frame 1): M at a foot = F l / 2 (3 k + 1) / (6 k + 1), k = (I of the bar / I of a leg) (l / apart).
From memory; ``tests/statics`` finds the same by the least work of a frame of many pieces.
"""

from __future__ import annotations


def foot_share(*, long_mm: float, apart_mm: float) -> float:
    """Return the moment at a foot, as a share of that of a leg whose end nothing ties.

    Args:
        long_mm: Length of the legs (>= 0).
        apart_mm: How far apart they are, middle to middle (> 0); the bar is as stiff as they are.

    >>> [foot_share(long_mm=long, apart_mm=10.0) for long in (0.0, 10.0)]
    [1.0, 0.5714285714285714]
    """
    k = long_mm / apart_mm
    return (3.0 * k + 1.0) / (6.0 * k + 1.0)
