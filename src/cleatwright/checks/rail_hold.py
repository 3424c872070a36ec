"""Does a holder stay on its rail, whatever a hand does to its tools, and whoever of them is away?

The force on what keeps it down is the largest of bounds that grow evenly with each weight, so that
of all mixtures of tools one of these is the worst: none, all, or those whose weights act further
out than ``Section.outward``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.parts.holder import HolderPart, RailHold
from cleatwright.standards.table import Listed
from cleatwright.statics.captured import (
    Section,
    bolt_n,
    hook_rise_mm,
    most_pull_n,
    section_of,
)
from cleatwright.statics.cleat import LoadCase, OwnWeight
from cleatwright.statics.hand import Hand, hand_cases, resting_cases
from cleatwright.statics.knock import hardest_knock

STATICS = Source("equilibrium on a bevel without friction, a bolt below", "", Evidence.DERIVED)
CAPTURE = Source(
    "all positions and tilts of the section tried, on rails of the usual sizes",
    "",
    Evidence.DERIVED,
)
# of how far the hook must rise while a bolt comes out from under the rail
CAPTURE_SHARE = 0.9
VALUES = (Listed("Holding", "play that still captures, share", CAPTURE_SHARE, CAPTURE),)


@dataclass(frozen=True)
class Holding:
    """What a holder shall stand.

    Args:
        margin: Factor on its weights (>= 1).
        hand: What a hand does to each tool.
        knock_n: A knock along the wall at the far end of a tool.
    """

    margin: float
    hand: Hand
    knock_n: float


def check_rail_hold(part: HolderPart, own: OwnWeight, wanted: Holding) -> tuple[CheckResult, ...]:
    """Return the checks of a holder with hangers on a rail.

    Args:
        part: The holder, or a carrier with its holders.
        own: Its own weight, on the light side.
        wanted: What it shall stand.
    """
    hanging = part.hanging
    if hanging.hold is None:
        return ()
    hold = hanging.hold
    section = section_of(hanging)
    years, hand = strength_n(part)
    return (
        _resting(
            resting_cases(part.seats, own, beyond_mm=section.outward),
            section,
            margin=wanted.margin,
            bolts_n=years,
        ),
        *_pulled(
            hand_cases(part.seats, own, wanted.hand, beyond_mm=section.outward),
            section,
            bolts_n=hand,
        ),
        *_knocked(part, own, wanted.knock_n),
        *_captured(hold, section),
    )


def strength_n(part: HolderPart) -> tuple[float, float]:
    """Return what keeps the hook down for years, and while a hand pulls: bolts, or wall screws."""
    hold, lock = part.hanging.hold, part.hanging.lock
    screws = 0.0 if lock is None else lock.along_n * lock.count
    if hold is None:
        return screws, screws
    bolts = len(hold.bolts_mm)
    return screws + bolts * hold.bolt_years_n, screws + bolts * hold.bolt_hand_n


def least_hold_n(part: HolderPart, own: OwnWeight, hand: Hand) -> tuple[float, LoadCase] | None:
    """Return the least pull to the front that takes it off its rail, and in which case.

    None for one without hangers or without tools; infinity where a pull only presses it home.
    """
    hanging = part.hanging
    if hanging.hold is None:
        return None
    section = section_of(hanging)
    _, bolts_n = strength_n(part)
    found = [
        (most_pull_n(case, section, bolts_n=bolts_n), case)
        for case in hand_cases(part.seats, own, hand, beyond_mm=section.outward)
        if case.pull_n > 0.0 and case.lift_n == 0.0
    ]
    return min(found, key=lambda pair: pair[0], default=None)


def _hardest(cases: Sequence[LoadCase], section: Section) -> tuple[float, LoadCase]:
    """Return the most that is asked of what keeps the hook down, and in which case."""
    return max(((bolt_n(case, section), case) for case in cases), key=lambda pair: pair[0])


def _resting(
    cases: Sequence[LoadCase], section: Section, *, margin: float, bolts_n: float
) -> CheckResult:
    worst, case = _hardest(cases, section)
    return CheckResult(
        f"stays hooked under its weights (margin {margin:g})",
        margin * worst,
        bolts_n,
        "N on what keeps it down",
        STATICS,
        case.name,
    )


def _pulled(
    cases: Sequence[LoadCase], section: Section, *, bolts_n: float
) -> tuple[CheckResult, ...]:
    if not cases:
        return ()
    worst, case = _hardest(cases, section)
    level = [c for c in cases if c.lift_n == 0.0]
    most, weakest = min(
        ((most_pull_n(c, section, bolts_n=bolts_n), c) for c in level), key=lambda pair: pair[0]
    )
    return (
        CheckResult(
            "stays on its rail when a hand pulls or lifts",
            worst,
            bolts_n,
            "N on what keeps it down",
            STATICS,
            _said(case, section),
        ),
        CheckResult(
            "a pull to the front takes it off its rail only beyond",
            weakest.pull_n,
            most,
            "N at the tool",
            STATICS,
            _said(weakest, section),
        ),
    )


def _said(case: LoadCase, section: Section) -> str:
    if case.pull_n == 0.0:
        return f"{case.name} with {case.lift_n:.1f} N"
    above = case.pull_z_mm - section.contact_z_mm
    side = "above" if above >= 0.0 else "below"
    return f"{case.name}, held {said.mm(abs(above), '.0f')} {side} the top of the rail"


def _knocked(part: HolderPart, own: OwnWeight, knock: float) -> tuple[CheckResult, ...]:
    """Return whether a knock at the far end of a tool, alone in it, leaves the hooks down."""
    hold, lock = part.hanging.hold, part.hanging.lock
    if hold is None:
        return ()
    down, each = (lock.columns_mm, lock.along_n) if lock else (hold.bolts_mm, hold.bolt_hand_n)
    hardest = hardest_knock(part, own, knock, hooks_mm=hold.hooks_mm, held_mm=down)
    if hardest is None:
        return ()
    return (
        CheckResult(
            "stays on its rail when a tool is knocked along the wall",
            hardest.force_n,
            each,
            "N on one bolt",
            STATICS,
            hardest.words,
        ),
    )


def _captured(hold: RailHold, section: Section) -> tuple[CheckResult, ...]:
    if not hold.bolts_mm:
        return ()
    return (
        CheckResult(
            "cannot leave its rail while the bolt is shut",
            hold.play_mm,
            CAPTURE_SHARE * hook_rise_mm(section, under_mm=hold.under_mm, rail_mm=hold.rail_mm),
            "mm of play",
            CAPTURE,
            f"a rail lower or higher by {said.mm(hold.rail_off_mm)} is taken up",
        ),
    )
