"""What screws through a holder into its rail bear, its hooks left out.

    bevel's edge ──  N at BLUNT below it, where the bottom swings out
    screws       ──  X out of the rail, V along its face, at ``below``
    foot         ──  N at ``depth``, where the top swings out

with F the hand's pull at a height f above the bevel, U its lift at y = u, M the moment of the
weights W about the rail's face:

    foot    X (depth - below) = M + F (f + depth) - U u
    top     X (below - BLUNT) = U u - M - F (f + BLUNT)
    N >= 0  X >= F                       V = | W - U |

The hooks bear the weights as well; what they bear is left out. The edge of the bevel is blunted.
Of several screws the one counts that bears the most (``statics.columns``).
Source: derived here.
"""

from __future__ import annotations

import math

from cleatwright.parts.rail_screws import RailScrews
from cleatwright.parts.screw_strength import ScrewLoad
from cleatwright.statics.captured import BLUNT_MM, Section
from cleatwright.statics.cleat import LoadCase
from cleatwright.statics.columns import column_cases


def rail_screw_load(case: LoadCase, section: Section, screws: RailScrews) -> ScrewLoad:
    """Return what the screw that bears the most bears in a case.

    Args:
        case: Weights and a hand's pull and lift.
        section: The section of the holder on its rail; its bevel does not count.
        screws: Where the screws are.

    >>> from cleatwright.parts.screw_strength import ScrewStrength
    >>> section = Section(contact_z_mm=0.0, depth_mm=67.0, bevel_deg=45.0, tip_mm=14.5)
    >>> strength = ScrewStrength(100.0, 100.0)
    >>> two = RailScrews((10.0, 50.0), 37.0, (5.0, 55.0), strength, 3.0, 25.0, 7.0)
    >>> middle = LoadCase("reach 30 mm", 10.0, 300.0, along_nmm=300.0, skew_nmm2=9000.0)
    >>> found = rail_screw_load(middle, section, two)
    >>> found.shear_n, found.withdrawal_n
    (5.0, 5.0)
    """
    loads = [
        _each(one, section, screws)
        for one in column_cases(case, screws.columns_mm, ends_mm=screws.hooks_mm)
    ]
    return max(loads, key=lambda one: (screws.strength.share(one), one.resultant_n))


def _each(case: LoadCase, section: Section, screws: RailScrews) -> ScrewLoad:
    """Return what each screw bears of a case, all alike."""
    above = case.pull_z_mm - section.contact_z_mm
    turning = case.moment_nmm - case.lift_n * case.lift_y_mm
    out = [
        case.pull_n,
        _over(turning + case.pull_n * (above + section.depth_mm), section, screws, foot=True),
        _over(-turning - case.pull_n * (above + BLUNT_MM), section, screws, foot=False),
    ]
    count = len(screws.columns_mm)
    return ScrewLoad(
        stud_mm=0.0,
        row_mm=screws.below_mm,
        shear_n=abs(case.weight_n - case.lift_n) / count,
        withdrawal_n=max(out) / count,
    )


def _over(moment_nmm: float, section: Section, screws: RailScrews, *, foot: bool) -> float:
    arm = section.depth_mm - screws.below_mm if foot else screws.below_mm - BLUNT_MM
    if moment_nmm <= 0.0:
        return 0.0
    return moment_nmm / arm if arm > 0.0 else math.inf
