"""What a screw may carry in any direction: straight out, along the face, and both together."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from cleatwright.standards.fasteners.nds_screws import combined_n

Together = Literal["NDS 12.4-1", "sum of squares", "sum"]
"""How the shares of what draws a screw out and of what goes along the face count together: by NDS
2018, 12.4-1; as the root of their squares (EN 1995-1-1, 8.28); or added up."""


@dataclass(frozen=True)
class ScrewLoad:
    """The worst that one screw bears: along the wall's face, and out of the wall."""

    stud_mm: float
    row_mm: float
    shear_n: float
    withdrawal_n: float

    @property
    def resultant_n(self) -> float:
        """Return both together."""
        return math.hypot(self.shear_n, self.withdrawal_n)

    @property
    def angle_deg(self) -> float:
        """Return the angle of both together to the face of the wall."""
        return math.degrees(math.atan2(self.withdrawal_n, self.shear_n))


@dataclass(frozen=True)
class ScrewStrength:
    """What one screw or anchor may carry in N, straight out and along the face.

    Args:
        withdrawal_n: Straight out of the wall, >= 0.
        lateral_n: Along its face, >= 0.
        together: By which rule both count together.
    """

    withdrawal_n: float
    lateral_n: float
    together: Together = "NDS 12.4-1"

    def times(self, factor: float) -> ScrewStrength:
        """Return the strength for a load of another duration, as a multiple of this one (> 0)."""
        return replace(
            self,
            withdrawal_n=factor * self.withdrawal_n,
            lateral_n=factor * self.lateral_n,
        )

    def share(self, load: ScrewLoad) -> float:
        """Return which share of its strength a load uses; infinity where nothing may be carried.

        The NDS rule for both together alone would allow a screw more along the face once it is
        also drawn out a little; neither part may be more than what it may be alone.

        >>> load = ScrewLoad(0.0, 0.0, shear_n=30.0, withdrawal_n=40.0)
        >>> [ScrewStrength(100.0, 100.0, rule).share(load) for rule in ("sum of squares", "sum")]
        [0.5, 0.7]
        """
        out = _share(load.withdrawal_n, self.withdrawal_n)
        along = _share(load.shear_n, self.lateral_n)
        if self.together == "sum":
            return out + along
        if self.together == "sum of squares":
            return math.hypot(out, along)
        if load.resultant_n <= 0.0:
            return 0.0
        both = combined_n(self.withdrawal_n, self.lateral_n, angle_deg=load.angle_deg)
        return max(_share(load.resultant_n, both), along, out)

    def allowed_n(self, load: ScrewLoad) -> float:
        """Return what it may carry in the direction of a load, 0 where there is none."""
        share = self.share(load)
        return load.resultant_n / share if share > 0.0 else 0.0


def _share(force_n: float, most_n: float) -> float:
    if force_n <= 0.0:
        return 0.0
    return force_n / most_n if most_n > 0.0 else math.inf
