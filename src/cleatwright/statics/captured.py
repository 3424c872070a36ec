"""A holder on its rail in section, held down by a bolt under it.

Without friction, all forces act on the holder:

    q        up on the hook by the rail, W + S - U                        (S: the bolt, down)
    q t      towards the wall on the hook, normal to a bevel whose angle from the normal is t
    N        out on the plate by the rail's face, between ``BLUNT`` and ``depth`` below the bevel
    F, U     the hand, to the front at a height f above the bevel, and up at y = u

    out      N = q t - F >= 0
    moments  N z = M + F f - U u + q (1 + t2) r     z in [BLUNT, depth], r in [BLUNT, tip]

with t for tan t, M the weights' moment about the rail's face, and r the place of the force on the
bevel. The bevel's sharp edge is blunted by ``BLUNT``, and so is the lower edge, which pushes the
bolt down at the face or as far behind it, whichever is worse (``statics.rail_contacts``).
Source: derived here.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from cleatwright.base.source import Evidence, Source
from cleatwright.parts.holder import Hanging
from cleatwright.standards.table import Listed
from cleatwright.statics.load_table import LoadTable, Values

BLUNT_MM = 3.0
CAPTURE = Source(
    "all positions and tilts of the section tried, on rails of the usual sizes",
    "",
    Evidence.DERIVED,
)
# of how far the hook must rise while a bolt comes out from under the rail
CAPTURE_SHARE = 0.9
Weighs = tuple[float, float]
"""A weight, and where along a holder it acts."""
VALUES = (Listed("Holding", "play that still captures, share", CAPTURE_SHARE, CAPTURE),)


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


def section_of(hanging: Hanging) -> Section:
    """Return the section of a part on its rail; without hangers its hook does not count."""
    tip = 0.0 if hanging.hold is None else hanging.hold.tip_mm
    return Section(hanging.contact_z_mm, hanging.depth_below_mm, hanging.bevel_deg, tip)


def foot_n(cases: LoadTable, section: Section) -> Values:
    """Return how hard the foot is pressed to the rail's face at its lowest place, in each case.

    >>> from cleatwright.statics.cleat import LoadCase
    >>> section = Section(contact_z_mm=0.0, depth_mm=60.0, bevel_deg=45.0, tip_mm=14.5)
    >>> foot_n(LoadTable.of([LoadCase("reach 60 mm", 10.0, 600.0)]), section)
    array([10.])
    """
    return np.maximum(0.0, cases.turning_nmm(section.contact_z_mm) / section.depth_mm)


def hook_nmm(cases: LoadTable, section: Section, *, bolts_n: Values, middle_mm: float) -> Values:
    """Return the moment at the root of the hooks, in the face of the rail, in each case.

    The force on the bevel lies as near to the root as equilibrium lets it.

    Args:
        cases: Weights and a hand's pull and lift.
        section: The section.
        bolts_n: What all bolts bear, (n,); finite.
        middle_mm: How far above the bevel the middle of the root lies.
    """
    up = np.maximum(cases.weight_n + bolts_n - cases.lift_n, 0.0)
    steep = 1.0 + section.slope**2
    face = up * section.slope - cases.pull_n
    least = BLUNT_MM * (face + bolts_n) - cases.turning_nmm(section.contact_z_mm)
    # as a place where it is wanted as a moment: times what goes up on it
    held = np.clip(least / steep, BLUNT_MM * up, section.tip_mm * up)
    return held * steep + up * section.slope * middle_mm


def knock_n(
    moment_nmm: float,
    weights: Sequence[Weighs] = (),
    *,
    others: Sequence[Weighs] = (),
    hooks_mm: tuple[float, float],
    bolts_mm: tuple[float, ...],
) -> float:
    """Return what the farthest bolt bears when a knock along the wall turns the holder.

    It turns about the outer end of a hook, to the side that is worse; the bolts share the rest
    as their distances from it. A weight beyond that end turns it on.

    Args:
        moment_nmm: Force of the knock times its distance below or above the bevel.
        weights: What weighs on the hooks, and where along the holder.
        others: What may weigh on them, or not, as is worse.
        hooks_mm: The outermost ends of the hooks.
        bolts_mm: The middles of the bolts.

    >>> knock_n(3000.0, [(10.0, 50.0)], hooks_mm=(0.0, 100.0), bolts_mm=(50.0,))
    50.0
    """
    worst = 0.0
    for pivot, inwards in zip(hooks_mm, (1.0, -1.0), strict=True):
        held = math.fsum(weight * inwards * (x - pivot) for weight, x in weights)
        turned = math.fsum(min(0.0, weight * inwards * (x - pivot)) for weight, x in others)
        rest = moment_nmm - held - turned
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


def most_play_mm(section: Section, *, under_mm: float, rail_mm: float) -> float:
    """Return the play with which a bolt still captures its holder; less on a higher rail.

    >>> section = Section(contact_z_mm=0.0, depth_mm=66.0, bevel_deg=45.0, tip_mm=10.0)
    >>> round(most_play_mm(section, under_mm=5.0, rail_mm=75.0), 9)
    0.9
    """
    return CAPTURE_SHARE * hook_rise_mm(section, under_mm=under_mm, rail_mm=rail_mm)
