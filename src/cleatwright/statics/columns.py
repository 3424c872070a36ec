"""What each column of several that hold a stiff part bears of a case.

     x1      x2      x3           share of a force at x on column i:
     ╫       ╫       ╫
  ───┴───┬───┴───────┴──      1 / n + (xi - m) (x - m) / sum (xj - m)2
         ▼ x

with m the mean of all x. Of two columns each bears what the lever asks of it; what acts beyond one
of them lifts the other. Beside a pull on one column alone the far end of the part is pressed to the
wall, so that it bears (x - end) / (column - end) of it.
Source: equilibrium of a stiff body on equal springs.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from cleatwright.statics.cleat import LoadCase

NEAR_MM = 1e-6


def column_cases(
    case: LoadCase, columns_mm: Sequence[float], *, ends_mm: tuple[float, float]
) -> tuple[LoadCase, ...]:
    """Return what each column bears of a case, times their number: as if each bore as much.

    Args:
        case: Weights and a hand's pull and lift.
        columns_mm: Where the columns stand; at least one.
        ends_mm: Where the part ends that they hold.

    >>> case = LoadCase("10 N at 20 mm", 10.0, 300.0, along_nmm=200.0, skew_nmm2=6000.0)
    >>> [round(one.weight_n, 6) for one in column_cases(case, (0.0, 100.0), ends_mm=(0.0, 100.0))]
    [16.0, 4.0]
    >>> pulled = LoadCase("a pull at 60 mm", 0.0, 0.0, pull_n=10.0, hand_x_mm=60.0)
    >>> [one.pull_n for one in column_cases(pulled, (50.0,), ends_mm=(0.0, 100.0))]
    [12.0]
    """
    if max(columns_mm) - min(columns_mm) < NEAR_MM:
        return (_alone(case, columns_mm[0], ends_mm),)
    count = len(columns_mm)
    middle = math.fsum(columns_mm) / count
    square = math.fsum((x - middle) ** 2 for x in columns_mm)
    return tuple(_Share(middle, count * (x - middle) / square).of(case) for x in columns_mm)


@dataclass(frozen=True)
class _Share:
    """A share that grows evenly along a part, and is 1 in the middle."""

    middle_mm: float
    slope: float

    def of(self, case: LoadCase) -> LoadCase:
        """Return a case with this share of each of its forces."""
        hand = 1.0 + self.slope * (case.hand_x_mm - self.middle_mm)
        lift = case.lift_n * hand
        # a lift far on one side presses down on the other
        pressed = max(0.0, -lift)
        return replace(
            case,
            weight_n=self._some(case.weight_n, case.along_nmm) + pressed,
            moment_nmm=self._some(case.moment_nmm, case.skew_nmm2) + pressed * case.lift_y_mm,
            pull_n=max(0.0, case.pull_n * hand),
            lift_n=max(0.0, lift),
        )

    def _some(self, total: float, along: float) -> float:
        return total + self.slope * (along - self.middle_mm * total)


def _alone(case: LoadCase, column_mm: float, ends_mm: tuple[float, float]) -> LoadCase:
    low, high = ends_mm
    end = low if case.hand_x_mm > column_mm else high
    arm = abs(column_mm - end)
    share = abs(case.hand_x_mm - end) / arm if arm > 0.0 else math.inf
    return replace(case, pull_n=case.pull_n * share) if case.pull_n else case
