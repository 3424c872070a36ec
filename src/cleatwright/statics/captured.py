"""What a bolt under the rail must bear, so that a holder cannot leave its rail.

In the plane of the section, without friction, all forces act on the holder:

    q        up on the hook by the rail, W + S - U                        (S: the bolt, down)
    q t      towards the wall on the hook, normal to a bevel whose angle from the normal is t
    N        out on the plate by the rail's face, between ``BLUNT`` and ``depth`` below the bevel
    F, U     the hand, to the front at a height f above the bevel, and up at y = u

    out      N = q t - F >= 0
    moments  N z = M + F f - U u + q (1 + t2) r     z in [BLUNT, depth], r in [BLUNT, tip]

with t for tan t, M the weights' moment about the rail's face, and r the place of the force on the
bevel. The bevel's sharp edge is blunted by ``BLUNT``, and so is the lower edge, which pushes the
bolt down at the face or as far behind it, whichever is worse. Each bound is linear in S, so that
the least follows in closed form.
Source: derived here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from cleatwright.parts.holder import Hanging
from cleatwright.statics.cleat import LoadCase

BLUNT_MM = 3.0


@dataclass(frozen=True)
class Section:
    """The section of a holder on its rail.

    Args:
        contact_z_mm: Height of the bevel's edge in the frame of the holder.
        depth_mm: How far below it the holder bears on the rail's face at the lowest.
        bevel_deg: Angle of the bevel from the wall's normal.
        tip_mm: How far behind the rail's face the hook still meets the bevel.
    """

    contact_z_mm: float
    depth_mm: float
    bevel_deg: float
    tip_mm: float

    @property
    def foot_z_mm(self) -> float:
        """Return the lowest height at which the holder bears on the rail's face."""
        return self.contact_z_mm - self.depth_mm

    @cached_property
    def slope(self) -> float:
        """Return the tangent of the bevel's angle."""
        return math.tan(math.radians(self.bevel_deg))

    @cached_property
    def inward(self) -> float:
        """Return the moment of the bevel's force for each N up, when the plate swings out."""
        return self.tip_mm * (1.0 + self.slope**2) - BLUNT_MM * self.slope

    @cached_property
    def outward(self) -> float:
        """Return the same when the foot is pressed to the wall."""
        return self.depth_mm * self.slope - BLUNT_MM * (1.0 + self.slope**2)


def section_of(hanging: Hanging) -> Section:
    """Return the section of a part on its rail; without hangers its hook does not count."""
    tip = 0.0 if hanging.hold is None else hanging.hold.tip_mm
    return Section(hanging.contact_z_mm, hanging.depth_below_mm, hanging.bevel_deg, tip)


def bolt_n(case: LoadCase, section: Section) -> float:
    """Return the least force down on the bolt for equilibrium; infinity where none will do.

    Args:
        case: Weights and a hand's pull and lift.
        section: The section.

    >>> section = Section(contact_z_mm=0.0, depth_mm=66.0, bevel_deg=45.0, tip_mm=14.5)
    >>> reach = LoadCase("reach 90 mm", 10.0, 900.0)
    >>> round(bolt_n(reach, section), 9)
    5.0
    """
    above = case.pull_z_mm - section.contact_z_mm
    turning = case.moment_nmm + case.pull_n * above - case.lift_n * case.lift_y_mm
    down = case.weight_n - case.lift_n
    bounds = (
        (section.slope, case.pull_n - section.slope * down),
        (section.inward - BLUNT_MM, -turning - BLUNT_MM * case.pull_n - section.inward * down),
        (section.outward, turning + section.depth_mm * case.pull_n - section.outward * down),
    )
    force = 0.0
    for each, least in bounds:
        if least > 0.0:
            force = max(force, least / each if each > 0.0 else math.inf)
    return force


def foot_n(case: LoadCase, section: Section) -> float:
    """Return how hard the foot is pressed to the rail's face at its lowest place.

    >>> section = Section(contact_z_mm=0.0, depth_mm=60.0, bevel_deg=45.0, tip_mm=14.5)
    >>> foot_n(LoadCase("reach 60 mm", 10.0, 600.0), section)
    10.0
    """
    above = case.pull_z_mm - section.contact_z_mm
    turning = case.moment_nmm + case.pull_n * above - case.lift_n * case.lift_y_mm
    return max(0.0, turning / section.depth_mm)


def hook_nmm(case: LoadCase, section: Section, *, middle_mm: float) -> float:
    """Return the moment at the root of the hooks, in the face of the rail, with the bolt's force.

    The force on the bevel lies as near to the root as equilibrium lets it.

    Args:
        case: Weights and a hand's pull and lift.
        section: The section.
        middle_mm: How far above the bevel the middle of the root lies.
    """
    force = bolt_n(case, section)
    up = case.weight_n + force - case.lift_n
    if up <= 0.0 or math.isinf(force):
        return max(0.0, force)
    above = case.pull_z_mm - section.contact_z_mm
    turning = case.moment_nmm + case.pull_n * above - case.lift_n * case.lift_y_mm
    steep = 1.0 + section.slope**2
    face = up * section.slope - case.pull_n
    least = (BLUNT_MM * face - turning + BLUNT_MM * force) / (up * steep)
    place = min(max(least, BLUNT_MM), section.tip_mm)
    return up * (place * steep + section.slope * middle_mm)


def most_pull_n(case: LoadCase, section: Section, *, bolts_n: float) -> float:
    """Return the pull to the front at the case's height at which the bolts bear ``bolts_n``.

    Infinity where no pull there loads them so; the lift of the case is left out.

    >>> section = Section(contact_z_mm=0.0, depth_mm=66.0, bevel_deg=45.0, tip_mm=14.5)
    >>> round(most_pull_n(LoadCase("at the bevel", 10.0, 0.0), section, bolts_n=100.0), 9)
    100.0
    """
    q = case.weight_n + bolts_n
    above = case.pull_z_mm - section.contact_z_mm
    found = [q * section.slope]
    if above + BLUNT_MM < 0.0:
        inward = q * section.inward - BLUNT_MM * bolts_n
        found.append((inward + case.moment_nmm) / -(above + BLUNT_MM))
    if above + section.depth_mm > 0.0:
        found.append((q * section.outward - case.moment_nmm) / (above + section.depth_mm))
    return max(0.0, min(found))


def knock_n(
    moment_nmm: float,
    weight_n: float,
    *,
    weight_x_mm: float,
    hooks_mm: tuple[float, float],
    bolts_mm: tuple[float, ...],
) -> float:
    """Return what the farthest bolt bears when a knock along the wall turns the holder.

    It turns about the outer end of a hook, to the side that is worse; the bolts share the rest
    as their distances from it.

    Args:
        moment_nmm: Force of the knock times its distance below or above the bevel.
        weight_n: What weighs on the hooks.
        weight_x_mm: Where along the holder.
        hooks_mm: The outermost ends of the hooks.
        bolts_mm: The middles of the bolts.

    >>> knock_n(3000.0, 10.0, weight_x_mm=50.0, hooks_mm=(0.0, 100.0), bolts_mm=(50.0,))
    50.0
    """
    worst = 0.0
    for pivot in hooks_mm:
        rest = moment_nmm - weight_n * abs(pivot - weight_x_mm)
        arms = [abs(pivot - bolt) for bolt in bolts_mm]
        square = math.fsum(arm * arm for arm in arms)
        if rest > 0.0:
            worst = max(worst, rest * max(arms) / square if square else math.inf)
    return worst


def hook_rise_mm(section: Section, *, under_mm: float, rail_mm: float) -> float:
    """Return how far a holder must rise at its bolt until the bolt is out from under the rail.

    Turned by a small angle f, its hook rides up on the bevel by f tip (1 + t2), and its bolt comes
    out by u = f H while it dips by f u: u (tip (1 + t2) - u) / H, the most on the way.

    >>> section = Section(contact_z_mm=0.0, depth_mm=66.0, bevel_deg=45.0, tip_mm=10.0)
    >>> round(hook_rise_mm(section, under_mm=5.0, rail_mm=75.0), 9)
    1.0
    """
    hook = section.tip_mm * (1.0 + section.slope**2)
    out = min(under_mm, hook / 2.0)
    return out * (hook - out) / rail_mm
