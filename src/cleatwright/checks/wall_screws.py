"""Do the screws of a holder that is screwed to the wall carry it with all its tools?"""

from __future__ import annotations

from cleatwright.base import said
from cleatwright.checks.result import CheckResult
from cleatwright.parts.holder import HolderPart
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.hand import Hand
from cleatwright.statics.screw_group import SCREW_RULE, screw_load


def check_wall_screws(part: HolderPart, own: OwnWeight, *, hand: Hand) -> tuple[CheckResult, ...]:
    """Return the check of the upper screws; none for a part that no such screws hold.

    Args:
        part: The part.
        own: Its own weight and that of what it carries, on the heavy side.
        hand: How hard a hand pulls at a tool.
    """
    screws = part.hanging.screws
    if screws is None:
        return ()
    load = screw_load(part.seats, own, screws, hand=hand)
    note = (
        f"upper row of {screws.columns}: {load.shear_n:.0f} N along the wall, "
        f"{load.withdrawal_n:.0f} N out of it, each {said.mm(screws.length_mm)} long"
    )
    return (
        CheckResult(
            "screws carry it with all its tools",
            load.resultant_n,
            screws.strength.allowed_n(load),
            "N on one screw",
            SCREW_RULE,
            note,
        ),
    )
