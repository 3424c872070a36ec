"""What screws through a holder into its rail bear, its hooks left out.

    bevel's edge ──  N at BLUNT below it, where the bottom swings out
    screws       ──  X out of the rail, V along its face, at ``below``
    foot         ──  N at ``foot``, where the top swings out: the lower end of pads or plate

with F the hand's pull at a height f above the bevel, U its lift at y = u, M the moment of the
weights W about the rail's face:

    foot    X (foot - below) = M + F (f + foot) - U u
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
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.wood_screws import wood_screw_head_mm
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
    >>> columns, hooks = (10.0, 50.0), (5.0, 55.0)
    >>> pads = (67.0, 8.0, 49.0, 80.0)
    >>> two = RailScrews(columns, 37.0, hooks, strength, 3.0, 25.0, 7.0, *pads)
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


def pad_mpa(case: LoadCase, section: Section, screws: RailScrews) -> float:
    """Return the worst stress of a pad: beside its screw, where it leaves the plate, or at a head.

    Below a cut the foot bends it by N, above the screw X does the other way.

    Args:
        case: Weights and a hand's pull and lift.
        section: The section of the holder on its rail.
        screws: Where the screws are.
    """
    return max(
        _bent_mpa(one, section, screws)
        for one in column_cases(case, screws.columns_mm, ends_mm=screws.hooks_mm)
    )


def _bent_mpa(case: LoadCase, section: Section, screws: RailScrews) -> float:
    on_foot, on_top = _turned_n(case, section, screws)
    count = len(screws.columns_mm)
    foot = max(0.0, on_foot - case.pull_n) / count
    above = max(0.0, screws.below_mm - screws.plate_mm)
    beside = foot * (screws.foot_mm - screws.below_mm)
    turned_out = foot * (screws.foot_mm - screws.plate_mm) - on_foot / count * above
    turned_in = max(on_top, case.pull_n) / count * above
    hangs = max(abs(turned_out), turned_in) if above > 0.0 else 0.0
    head, _ = wood_screw_head_mm(screws.diameter_mm)
    hole = clearance_hole_mm(f"M{screws.diameter_mm:g}", "medium")
    pressed = max(on_foot, on_top, case.pull_n) / count / (math.pi / 4.0 * (head**2 - hole**2))
    return max(beside / screws.net_mm3, hangs / screws.column_mm3, pressed)


def _each(case: LoadCase, section: Section, screws: RailScrews) -> ScrewLoad:
    """Return what each screw bears of a case, all alike."""
    out = [case.pull_n, *_turned_n(case, section, screws)]
    count = len(screws.columns_mm)
    return ScrewLoad(
        stud_mm=0.0,
        row_mm=screws.below_mm,
        shear_n=abs(case.weight_n - case.lift_n) / count,
        withdrawal_n=max(out) / count,
    )


def _turned_n(case: LoadCase, section: Section, screws: RailScrews) -> tuple[float, float]:
    """Return what all screws bear where the holder turns about its foot, and about its top."""
    above = case.pull_z_mm - section.contact_z_mm
    turning = case.moment_nmm - case.lift_n * case.lift_y_mm
    return (
        _over(turning + case.pull_n * (above + screws.foot_mm), screws, foot=True),
        _over(-turning - case.pull_n * (above + BLUNT_MM), screws, foot=False),
    )


def _over(moment_nmm: float, screws: RailScrews, *, foot: bool) -> float:
    arm = screws.foot_mm - screws.below_mm if foot else screws.below_mm - BLUNT_MM
    if moment_nmm <= 0.0:
        return 0.0
    return moment_nmm / arm if arm > 0.0 else math.inf
