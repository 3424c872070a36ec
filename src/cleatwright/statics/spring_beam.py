"""The strain of an arm that is an arc on a straight leg, when its tip is moved aside.

way out
   │   ╭ ← tip, tip_deg from the way out       M(s) = F × lever across the way out
   │    ╲
   │     │ ← arc of the mean radius            tip moves by the integral of M² / (F E I)
   ·     │
         │ ← straight leg                      strain = M × half the thickness / (E I)
   ══════╧═ root
"""

from __future__ import annotations

import math
from dataclasses import replace

from cleatwright.base.source import Evidence, Source
from cleatwright.parts.hold import SpringArms

BEAM = Source(
    "Castigliano's theorem on a thin curved beam, peak at the inner fibre by Winkler-Bach",
    "",
    Evidence.DERIVED,
)
_STEPS = 60
_SLICES = 400


def strain_per_mm(arms: SpringArms) -> float:
    """Return the largest strain in an arm for each mm by which its tip moves aside.

    The arm counts as equally wide from tip to root; one that widens to its root bends more
    evenly, so the value lies on the safe side.
    """
    radius, straight = arms.mean_radius_mm, arms.straight_mm
    tip = math.radians(arms.tip_deg)
    root = tip + math.radians(arms.arc_deg)
    along_arc = radius**3 * _arc_integral(tip, root)
    # the lever of the force grows along the leg by the sine of the angle at which it leaves
    foot, slope = radius * (math.cos(tip) - math.cos(root)), math.sin(root)
    along_leg = foot**2 * straight + foot * slope * straight**2 + slope**2 * straight**3 / 3
    in_leg = max(abs(foot), abs(foot + slope * straight))
    # on the arc the lever grows up to half a turn from the way out
    in_arc = radius * (math.cos(tip) - math.cos(min(root, math.pi)))
    peak = max(in_arc * inner_fibre(arms), in_leg)
    return arms.thickness_mm / 2 * peak / (along_arc + along_leg)


def strain(arms: SpringArms) -> float:
    """Return the largest strain in an arm while the tool passes, as a plain ratio."""
    return strain_per_mm(arms) * arms.deflection_mm


def compliance_mm_per_n(arms: SpringArms, *, modulus_mpa: float) -> float:
    """Return how far a tip moves aside for each N that pushes it there.

    The arm is ``width_mm`` wide at its tip and widens by as much as it comes nearer to the
    wall, as the arms of a clip do, which grow out of the plate at 45 degrees.

    Args:
        arms: The arms.
        modulus_mpa: Modulus of elasticity of the plastic, > 0.
    """
    radius, arc = arms.mean_radius_mm, math.radians(arms.arc_deg)
    tip = math.radians(arms.tip_deg)
    slice_mm = (radius * arc + arms.straight_mm) / _SLICES
    total = 0.0
    for k in range(_SLICES):
        along = (k + 0.5) * slice_mm
        turned = tip + min(along / radius, arc)
        leg = max(0.0, along - radius * arc) * math.sin(tip + arc)
        lever = radius * (math.cos(tip) - math.cos(turned)) + leg
        total += lever**2 / (arms.width_mm + max(0.0, lever)) * slice_mm
    return total * 12.0 / (modulus_mpa * arms.thickness_mm**3)


def inner_fibre(arms: SpringArms) -> float:
    """Return how much more the inner fibre of the arc is strained than that of a straight bar.

    Source: Winkler-Bach, a rectangle: the neutral radius is t / ln(outer / inner).
    """
    inner = arms.mean_radius_mm - arms.thickness_mm / 2
    outer = inner + arms.thickness_mm
    neutral = arms.thickness_mm / math.log(outer / inner)
    off = arms.mean_radius_mm - neutral
    return arms.thickness_mm * (neutral - inner) / (6 * off * inner)


def leg_for(arms: SpringArms, *, allowed: float, least_mm: float, most_mm: float) -> float:
    """Return the shortest leg with which an arm is strained by at most ``allowed``.

    Args:
        arms: The arms; their own leg is not used.
        allowed: The largest strain, a plain ratio > 0.
        least_mm: A leg that is wanted in any case.
        most_mm: A leg that is certainly long enough; it is returned when none is.
    """
    low, high = least_mm, most_mm
    if strain(_with_leg(arms, low)) <= allowed:
        return low
    for _ in range(_STEPS):
        middle = (low + high) / 2
        if strain(_with_leg(arms, middle)) <= allowed:
            high = middle
        else:
            low = middle
    return high


def _with_leg(arms: SpringArms, straight_mm: float) -> SpringArms:
    return replace(arms, straight_mm=straight_mm)


def _arc_integral(tip: float, root: float) -> float:
    """Return the integral of (cos tip - cos angle)² over the angle from tip to root."""
    swept = root - tip
    return (
        math.cos(tip) ** 2 * swept
        - 2 * math.cos(tip) * (math.sin(root) - math.sin(tip))
        + swept / 2
        + (math.sin(2 * root) - math.sin(2 * tip)) / 4
    )
