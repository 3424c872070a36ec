"""What bends hangers at their necks, and the groove of the back that holds them.

 rail     neck │ groove    wall
 ──────┐   s → ├──╮          │      q      up on the hook, W + S - U; q t towards the wall
  hook │   u ↖ │   ╲         │      M      its moment about the middle of the neck
       │       │    │        │      s      of the hook's shoulder on the back, above the neck
       │       │   ╱         │      u, f   on the flanks of 45 degrees, above and below
 ──────┘   f ↙ ├──╯          │
               │

u and f are the parts along y and along z of forces on the holder, each in the middle of its face.
Moments about the middle of the neck, in which a flank has the lever a and the shoulder z:

    s z = M + a q        u = (q + q t + s) / 2        f = u - q

What is above the groove hangs on the wall before it, a strip that u and s bend where it leaves the
floor of the groove, above or below, and that u pulls. What lies beside the groove helps: by finite
elements the stress was a third of this before a wall of 1 mm, and 0.7 of it, up to 1.2 in the sharp
corner, before one of 3 mm.
Source: derived here; a distribution of forces in equilibrium is on the safe side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.parts.hanger_groove import HangerGroove
from cleatwright.statics.captured import Section, bolt_n, hook_nmm
from cleatwright.statics.cleat import LoadCase

STEP_MM = 0.05
MOST_WALL_MM = 12.0


@dataclass(frozen=True)
class HangerForces:
    """The forces at a groove; see the module.

    Args:
        up_n: On the hook, upwards.
        out_n: On the hook, towards the wall.
        moment_nmm: About the middle of the neck.
        shoulder_n: On the back's face above the neck.
        upper_n: On the upper flank, along y and along z.
        lower_n: On the lower flank, the same.
    """

    up_n: float
    out_n: float
    moment_nmm: float
    shoulder_n: float
    upper_n: float
    lower_n: float

    def neck_mpa(self, groove: HangerGroove) -> float:
        """Return the stress at the neck, bent and pulled: 6 M / (b h2) + q t / (b h)."""
        high = groove.neck_mm
        return (6.0 * self.moment_nmm / high + self.out_n) / (groove.long_mm * high)

    def lip_mpa(self, groove: HangerGroove) -> float:
        """Return the shear where the lower lip leaves the back."""
        return self.lower_n / (groove.long_mm * groove.lip_mm)

    def wall_mpa(self, groove: HangerGroove) -> float:
        """Return the stress in the wall before the groove, where that leaves its floor."""
        return self._before_groove_mpa(groove, groove.wall_mm)

    def _before_groove_mpa(self, groove: HangerGroove, wall_mm: float) -> float:
        """Return the same before a wall of another thickness."""
        middle, half = groove.deep_mm + wall_mm / 2, groove.floor_mm / 2
        flank_y, flank_z = groove.flank_at_mm
        bent = max(
            abs(
                self.upper_n * (flank_z - end - (middle - flank_y))
                - self.shoulder_n * (groove.shoulder_mm - end)
            )
            for end in (half, -half)
        )
        return (6.0 * bent / wall_mm + self.upper_n) / (groove.strip_mm * wall_mm)

    def wall_needed_mm(
        self, groove: HangerGroove, *, stress_mpa: float, least_mm: float = STEP_MM
    ) -> float:
        """Return how much must be left of the plate before a groove; infinity for too much.

        Args:
            groove: The groove, whatever is left before it.
            stress_mpa: What the plate bears there.
            least_mm: What is left anyhow, > 0.
        """
        wall = least_mm
        while self._before_groove_mpa(groove, wall) > stress_mpa:
            wall += STEP_MM
            if wall > MOST_WALL_MM:
                return math.inf
        return wall


def hanger_forces(case: LoadCase, section: Section, groove: HangerGroove) -> HangerForces:
    """Return the forces at the groove in a case, the bolt no tighter than it must be.

    Args:
        case: Weights and a hand's pull and lift.
        section: The section of the holder on its rail.
        groove: Its dovetails.

    >>> section = Section(contact_z_mm=0.0, depth_mm=66.0, bevel_deg=45.0, tip_mm=14.5)
    >>> teeth = (5.0, 10.0, 8.0, 11.0, 9.2, 0.5, 1.5)
    >>> groove = HangerGroove(48.0, 67.2, *teeth, deep_mm=3.05, wall_mm=1.95, bedded=True)
    >>> found = hanger_forces(LoadCase("reach 20 mm", 10.0, 200.0), section, groove)
    >>> round(found.up_n, 6), round(found.moment_nmm, 6), round(found.shoulder_n, 3)
    (10.0, 110.0, 37.778)
    """
    up = case.weight_n + bolt_n(case, section) - case.lift_n
    if math.isinf(up):
        return HangerForces(*(math.inf,) * 6)
    up, out = max(0.0, up), max(0.0, up) * section.slope
    moment = hook_nmm(case, section, middle_mm=groove.middle_mm) if up else 0.0
    shoulder = (moment + sum(groove.flank_at_mm) * up) / groove.shoulder_mm
    upper = (up + out + shoulder) / 2
    return HangerForces(up, out, moment, shoulder, upper, upper - up)
