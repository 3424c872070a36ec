"""What a screw may carry in any direction: straight out, along the face, and both together."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.standards.fasteners.nds_screws import combined_n


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
    """What one screw may carry in N, straight out and along the face."""

    withdrawal_n: float
    lateral_n: float

    def times(self, factor: float) -> ScrewStrength:
        """Return the strength for a load of another duration, as a multiple of this one (> 0)."""
        return ScrewStrength(factor * self.withdrawal_n, factor * self.lateral_n)

    def share(self, load: ScrewLoad) -> float:
        """Return which share of its strength a load uses; infinity where nothing may be carried.

        The rule for both together alone would allow a screw more along the face once it is
        also drawn out a little; neither part may be more than what it may be alone.
        """
        if load.resultant_n <= 0.0:
            return 0.0
        both = combined_n(self.withdrawal_n, self.lateral_n, angle_deg=load.angle_deg)
        pairs = (
            (load.resultant_n, both),
            (load.shear_n, self.lateral_n),
            (load.withdrawal_n, self.withdrawal_n),
        )
        return max(
            0.0 if force <= 0.0 else force / most if most > 0.0 else math.inf
            for force, most in pairs
        )

    def allowed_n(self, load: ScrewLoad) -> float:
        """Return what it may carry in the direction of a load, 0 where there is none."""
        share = self.share(load)
        return load.resultant_n / share if share > 0.0 else 0.0
