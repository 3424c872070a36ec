"""Does a holder stay on its rail, whatever a hand does to its tools, and whichever are away?"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.parts.holder import HolderPart, RailHold
from cleatwright.statics.captured import CAPTURE, Section, most_play_mm, section_of
from cleatwright.statics.cleat import LoadCase, OwnWeight
from cleatwright.statics.hand import Hand
from cleatwright.statics.knock import hardest_knock
from cleatwright.statics.rail_contacts import contacts_of
from cleatwright.statics.worst_mixture import Mixtures

STATICS = Source("equilibrium on a bevel without friction, a bolt below", "", Evidence.DERIVED)


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
    hold = part.hanging.hold
    if hold is None:
        return ()
    mixed = Mixtures(contacts_of(part.hanging, hold), part.seats, own)
    return (
        _resting(mixed, part, margin=wanted.margin),
        *_pulled(mixed, part, wanted.hand),
        *_knocked(part, own, wanted.knock_n),
        *_captured(hold, section_of(part.hanging)),
    )


def strength_n(part: HolderPart) -> tuple[float, float]:
    """Return what each bolt bears for years, and while a hand pulls, or each wall screw."""
    hold, lock = part.hanging.hold, part.hanging.lock
    if lock is not None:
        return lock.along_n, lock.along_n
    return (0.0, 0.0) if hold is None else (hold.bolt_years_n, hold.bolt_hand_n)


def least_hold_n(part: HolderPart, own: OwnWeight, hand: Hand) -> tuple[float, LoadCase] | None:
    """Return the least pull to the front that takes it off its rail, and in which case.

    None for one without hangers or without tools; infinity where a pull only presses it home.
    """
    hold = part.hanging.hold
    if hold is None:
        return None
    mixed = Mixtures(contacts_of(part.hanging, hold), part.seats, own)
    found = mixed.most_pull(hand, bolt_n=strength_n(part)[1])
    return None if found is None else (found.force_n, found.case)


def _resting(mixed: Mixtures, part: HolderPart, *, margin: float) -> CheckResult:
    worst = mixed.resting()
    return CheckResult(
        f"stays hooked under its weights (margin {margin:g})",
        margin * worst.force_n,
        strength_n(part)[0],
        _unit(part),
        STATICS,
        worst.case.name,
    )


def _pulled(mixed: Mixtures, part: HolderPart, hand: Hand) -> tuple[CheckResult, ...]:
    bolt_n, section = strength_n(part)[1], mixed.contacts.section
    worst, weakest = mixed.pulled(hand), mixed.most_pull(hand, bolt_n=bolt_n)
    found: list[CheckResult] = []
    if worst is not None:
        found.append(
            CheckResult(
                "stays on its rail when a hand pulls or lifts",
                worst.force_n,
                bolt_n,
                _unit(part),
                STATICS,
                _said(worst.case, section),
            )
        )
    if weakest is not None:
        found.append(
            CheckResult(
                "a pull to the front takes it off its rail only beyond",
                weakest.case.pull_n,
                weakest.force_n,
                "N at the tool",
                STATICS,
                _said(weakest.case, section),
            )
        )
    return tuple(found)


def _unit(part: HolderPart) -> str:
    return "N on one bolt" if part.hanging.lock is None else "N on one screw"


def _said(case: LoadCase, section: Section) -> str:
    if case.pull_n == 0.0:
        return f"{case.name} with {case.lift_n:.1f} N"
    above = case.pull_z_mm - section.contact_z_mm
    side = "above" if above >= 0.0 else "below"
    return f"{case.name}, held {said.mm(abs(above), '.0f')} {side} the top of the rail"


def _knocked(part: HolderPart, own: OwnWeight, knock: float) -> tuple[CheckResult, ...]:
    """Return whether a knock at the far end of a tool leaves the hooks down."""
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
            _unit(part),
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
            most_play_mm(section, under_mm=hold.under_mm, rail_mm=hold.rail_mm),
            "mm of play",
            CAPTURE,
            f"a rail lower or higher by {said.mm(hold.rail_off_mm)} is taken up",
        ),
    )
