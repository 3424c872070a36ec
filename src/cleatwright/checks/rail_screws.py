"""Do screws into the rail hold a holder that no bolt keeps there?"""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.checks.hanger_strength import ACROSS, ALONG, BEAM
from cleatwright.checks.result import CheckResult
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.rail_screws import RailScrews
from cleatwright.statics.captured import Section, section_of
from cleatwright.statics.cleat import LoadCase, OwnWeight
from cleatwright.statics.hand import Hand, hand_cases, resting_cases
from cleatwright.statics.knock import hardest_knock
from cleatwright.statics.rail_screw_load import pad_mpa, rail_screw_load
from cleatwright.statics.screw_group import SCREW_RULE


def check_rail_screws(
    part: HolderPart, own: OwnWeight, *, margin: float, hand: Hand, knock: float
) -> tuple[CheckResult, ...]:
    """Return the checks of screws through a holder into its rail; none for a part without them.

    Args:
        part: The holder.
        own: Its own weight, on the heavy side.
        margin: Factor on its weights (>= 1).
        hand: What a hand does to each tool.
        knock: A knock along the wall at the far end of a tool, in N.
    """
    hanging = part.hanging
    screws = hanging.rail_screws
    if screws is None:
        return ()
    section = section_of(hanging)
    pulled = hand_cases(part.seats, own, hand)
    return (
        _worst(
            f"screws into the rail carry it with its tools (margin {margin:g})",
            resting_cases(part.seats, own),
            section,
            screws,
            factor=margin,
        ),
        *(
            (_worst("screws hold it when a hand pulls or lifts", pulled, section, screws),)
            if pulled
            else ()
        ),
        *_knocked(part, own, screws, knock),
        _pads(part, own, screws, margin=margin, hand=hand),
    )


def _pads(
    part: HolderPart, own: OwnWeight, screws: RailScrews, *, margin: float, hand: Hand
) -> CheckResult:
    """Return whether the pads of its screws bear what bends them down along the rail."""
    section = section_of(part.hanging)
    allowed = ACROSS if screws.across else ALONG
    cases = [(case, margin, allowed[0]) for case in resting_cases(part.seats, own)]
    cases += [(case, 1.0, allowed[1]) for case in hand_cases(part.seats, own, hand)]
    found = [
        (factor * pad_mpa(case, section, screws), most, case.name) for case, factor, most in cases
    ]
    asked, most, name = max(found, key=lambda one: one[0] / one[1])
    return CheckResult(
        f"the pads of its screws bear what bends them (margin {margin:g} on weights)",
        asked,
        most,
        "MPa",
        BEAM,
        name,
        by_design=True,
    )


def _worst(
    name: str,
    cases: Sequence[LoadCase],
    section: Section,
    screws: RailScrews,
    *,
    factor: float = 1.0,
) -> CheckResult:
    loads = [(rail_screw_load(case, section, screws), case) for case in cases]
    load, case = max(loads, key=lambda pair: screws.strength.share(pair[0]))
    return CheckResult(
        name,
        factor * load.resultant_n,
        screws.strength.allowed_n(load),
        "N on one screw",
        SCREW_RULE,
        f"{case.name}, {load.shear_n:.0f} N along the rail and {load.withdrawal_n:.0f} N out of it",
    )


def _knocked(
    part: HolderPart, own: OwnWeight, screws: RailScrews, knock: float
) -> tuple[CheckResult, ...]:
    """Return whether screws bear a knock that turns the holder about the end of a hook."""
    columns = screws.columns_mm
    hardest = hardest_knock(part, own, knock, hooks_mm=screws.hooks_mm, held_mm=columns)
    if hardest is None:
        return ()
    return (
        CheckResult(
            "screws hold it when a tool is knocked along the wall",
            # the knock itself, too
            hardest.force_n + knock / len(columns),
            screws.strength.lateral_n,
            "N on one screw",
            SCREW_RULE,
            hardest.words,
        ),
    )
