"""Do plates in the grooves of a back hold it, and what holds them, whatever a hand does?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from cleatwright.checks.hanger_strength import BEAM
from cleatwright.checks.rail_hold import Holding
from cleatwright.checks.result import CheckResult
from cleatwright.parts.holder import HolderPart
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.groove_borne import GrooveLoads, all_borne

NAMES: Mapping[str, str] = MappingProxyType(
    {
        "tongue": "plates bear it at the necks of their tongues",
        "back": "the back bears it before the groove",
        "lip": "the lips of the groove bear it",
        "plate": "plates bear it where they are bent",
        "hook": "hooks bear it at their bars",
        "hook pin": "pins keep the hooks down when a hand lifts",
        "groove pin": "pins keep the plates in their grooves when a tool is knocked",
        "screw": "screws bear what draws and lifts the plates",
    }
)


# plates are as thick, and hooks and screws as many, as just holds
CHOSEN = frozenset({"plate", "hook", "screw"})


def check_groove_plates(
    part: HolderPart, owns: Sequence[OwnWeight], wanted: Holding
) -> tuple[CheckResult, ...]:
    """Return the checks of a holder on plates in its grooves; none for any other.

    Args:
        part: The holder.
        owns: Its own weight, on the light and on the heavy side.
        wanted: What it shall stand.
    """
    hold = part.hanging.in_grooves
    if hold is None:
        return ()
    loads = GrooveLoads(part.seats, owns, wanted.margin, wanted.hand, wanted.knock_n)
    return tuple(
        CheckResult(
            f"{NAMES[one.piece]} (margin {wanted.margin:g} on weights)",
            one.asked,
            one.allowed,
            one.unit,
            BEAM,
            one.case,
            by_design=one.piece in CHOSEN,
        )
        for one in all_borne(loads, hold)
    )
