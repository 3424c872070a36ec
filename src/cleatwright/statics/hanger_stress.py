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

Two hangers share q as the lever asks of them, and all counts as if each bore the worse share.

What is above the groove hangs on the wall before it, a strip that u and s bend where it leaves the
floor of the groove, above or below, and that u pulls. What lies beside the groove helps: by finite
elements the stress was a third of this before a wall of 1 mm, and 0.7 of it, up to 1.2 in the sharp
corner, before one of 3 mm.
Source: derived here; a distribution of forces in equilibrium is on the safe side.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cleatwright.parts.hanger_groove import HangerGroove
from cleatwright.statics.captured import hook_nmm
from cleatwright.statics.load_table import LoadTable, Values
from cleatwright.statics.rail_contacts import RailContacts, Span, bearing_mm

STEP_MM = 0.05
MOST_WALL_MM = 12.0
# how many thicknesses are tried together
AT_ONCE = 16


@dataclass(frozen=True)
class HangerForces:
    """The forces at a groove, of one case or of many; see the module.

    Args:
        up_n: On the hook, upwards.
        out_n: On the hook, towards the wall.
        moment_nmm: About the middle of the neck.
        shoulder_n: On the back's face above the neck.
        upper_n: On the upper flank, along y and along z.
        lower_n: On the lower flank, the same.
    """

    up_n: Values
    out_n: Values
    moment_nmm: Values
    shoulder_n: Values
    upper_n: Values
    lower_n: Values

    def neck_mpa(self, groove: HangerGroove) -> Values:
        """Return the stress at the neck, bent and pulled: 6 M / (b h2) + q t / (b h)."""
        high = groove.neck_mm
        return (6.0 * self.moment_nmm / high + self.out_n) / (groove.long_mm * high)

    def lip_mpa(self, groove: HangerGroove) -> Values:
        """Return the shear where the lower lip leaves the back."""
        return self.lower_n / (groove.long_mm * groove.lip_mm)

    def wall_mpa(self, groove: HangerGroove) -> Values:
        """Return the stress in the wall before the groove, where that leaves its floor."""
        return self._before_groove_mpa(groove, groove.wall_mm)

    def _before_groove_mpa(self, groove: HangerGroove, wall_mm: float | Values) -> Values:
        """Return the same before a wall of another thickness, or of many, (k, 1)."""
        middle, half = groove.deep_mm + wall_mm / 2, groove.floor_mm / 2
        flank_y, flank_z = groove.flank_at_mm
        above, below = (
            np.abs(
                self.upper_n * (flank_z - end - (middle - flank_y))
                - self.shoulder_n * (groove.shoulder_mm - end)
            )
            for end in (half, -half)
        )
        bent = np.maximum(above, below)
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
        if not np.all(np.isfinite(self.upper_n)):
            return math.inf
        steps = np.arange(AT_ONCE, dtype=np.float64)[:, None] * STEP_MM
        wall = least_mm
        # mostly one of the first is enough
        while wall <= MOST_WALL_MM:
            walls: Values = wall + steps
            bears = (self._before_groove_mpa(groove, walls) <= stress_mpa).all(axis=1)
            if bears.any():
                return float(walls[bears.argmax(), 0])
            wall += AT_ONCE * STEP_MM
        return math.inf


def hanger_forces(
    cases: LoadTable,
    bolts_n: Values,
    contacts: RailContacts,
    groove: HangerGroove,
    hangers_mm: Sequence[Span],
) -> HangerForces:
    """Return the forces at the grooves in each case, all bolts as tight as the worst must be.

    Args:
        cases: Weights and a hand's pull and lift.
        bolts_n: What each bolt bears, (n,), such as ``contacts.bolts_n(cases)``.
        contacts: Where the holder meets its rail.
        groove: The dovetails of its hangers.
        hangers_mm: Where each hanger begins and ends along it; at least one, all as wide.

    >>> from cleatwright.statics.captured import Section
    >>> from cleatwright.statics.cleat import LoadCase
    >>> section = Section(contact_z_mm=0.0, depth_mm=66.0, bevel_deg=45.0, tip_mm=14.5)
    >>> teeth = (5.0, 10.0, 8.0, 11.0, 9.2, 0.5, 1.5)
    >>> groove = HangerGroove(48.0, 67.2, *teeth, deep_mm=3.05, wall_mm=1.95, bedded=True)
    >>> ends, foot = (5.0, 95.0), (40.0, 60.0)
    >>> contacts = RailContacts(section, ends, (0.0, 100.0), 20.0, (foot,), (50.0,))
    >>> middle = LoadTable.of([LoadCase("reach 20 mm", 10.0, 200.0, along_nmm=500.0)])
    >>> hangers = (5.0, 29.0), (71.0, 95.0)
    >>> found = hanger_forces(middle, contacts.bolts_n(middle), contacts, groove, hangers)
    >>> [round(float(*value), 3) for value in (found.up_n, found.moment_nmm, found.shoulder_n)]
    [10.0, 110.0, 37.778]
    """
    section, count = contacts.section, len(contacts.bolts_mm)
    # where no force on a bolt will do, nothing bears it
    tight = np.isfinite(bolts_n)
    each = np.where(tight, bolts_n, 0.0)
    up = np.maximum(cases.weight_n + count * each - cases.lift_n, 0.0)
    along = cases.along_nmm + each * sum(contacts.bolts_mm) - cases.lift_n * cases.hand_x_mm
    out = up * section.slope
    moment = hook_nmm(cases, section, bolts_n=count * each, middle_mm=groove.middle_mm)
    shoulder = (moment + sum(groove.flank_at_mm) * up) / groove.shoulder_mm
    upper = (up + out + shoulder) / 2
    share = worst_share(along / np.where(up > 0.0, up, 1.0), hangers_mm)
    mean = (up, out, moment, shoulder, upper, upper - up)
    return HangerForces(*(np.where(tight, share * one, math.inf) for one in mean))


def worst_share(at_mm: Values, hangers_mm: Sequence[Span]) -> Values:
    """Return how much more the worst hanger bears than all of them on the mean.

    Two share a force between their middles by its lever. Beside the middle of a single one, in the
    middle half of it, as much of it bears on the other side: b / (b - 2 e).

    Args:
        at_mm: Where along the holder the force acts; see ``rail_contacts.bearing_mm``.
        hangers_mm: Where each begins and ends; one or two, as wide.

    >>> two = ((0.0, 20.0), (80.0, 100.0))
    >>> worst_share(np.array([50.0, 30.0, 10.0]), two)
    array([1. , 1.5, 2. ])
    >>> worst_share(np.array([10.0, 5.0]), two[:1])
    array([1., 2.])
    """
    first, last = bearing_mm(hangers_mm)
    at = np.clip(at_mm, first, last)
    beside = np.abs(2.0 * at - first - last) / (last - first)
    if len(hangers_mm) > 1:
        return 1.0 + beside
    return 1.0 / (1.0 - beside / 2.0)
