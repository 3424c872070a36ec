"""Many load cases at once, a column for each of their values."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from cleatwright.statics.cleat import LoadCase

Values = npt.NDArray[np.float64]
"""One value for each case, (n,)."""


@dataclass(frozen=True, eq=False)
class LoadTable:
    """Load cases; the values are those of ``LoadCase``, (n,) each.

    Args:
        weight_n: Everything that pulls down.
        moment_nmm: Sum of each weight times its distance.
        pull_n: Pull of the hand to the front.
        pull_z_mm: Height of that pull.
        lift_n: Pull of the hand upwards.
        lift_y_mm: How far out it acts.
        along_nmm: Sum of each weight times its place along the holder.
        skew_nmm2: Sum of each weight times its distance and its place.
        hand_x_mm: Where along the holder the hand acts.
    """

    weight_n: Values
    moment_nmm: Values
    pull_n: Values
    pull_z_mm: Values
    lift_n: Values
    lift_y_mm: Values
    along_nmm: Values
    skew_nmm2: Values
    hand_x_mm: Values

    @classmethod
    def of(cls, cases: Sequence[LoadCase]) -> LoadTable:
        """Return these cases.

        >>> LoadTable.of([LoadCase("", 10.0, 300.0), LoadCase("", 5.0, 50.0)]).weight_n
        array([10.,  5.])
        """
        rows = [
            (
                one.weight_n,
                one.moment_nmm,
                one.pull_n,
                one.pull_z_mm,
                one.lift_n,
                one.lift_y_mm,
                one.along_nmm,
                one.skew_nmm2,
                one.hand_x_mm,
            )
            for one in cases
        ]
        return cls(*np.array(rows, dtype=float).reshape(-1, 9).T)

    def turning_nmm(self, z_mm: float) -> Values:
        """Return the moments that turn the holder out about a height in the rail's face."""
        pulled = self.pull_n * (self.pull_z_mm - z_mm)
        return self.moment_nmm + pulled - self.lift_n * self.lift_y_mm
