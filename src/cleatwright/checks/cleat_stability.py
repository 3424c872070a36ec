"""Does a holder stay on its French cleat: empty, full, and when a hand takes a tool?"""

from __future__ import annotations

import math
from collections.abc import Sequence

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.parts.holder import Hanging, HolderPart, LockScrews
from cleatwright.statics.cleat import (
    LoadCase,
    OwnWeight,
    depth_needed_mm,
    load_cases,
    lock_n,
    tug_n,
)
from cleatwright.statics.hand import Hand

STATICS = Source("equilibrium of a hook on a bevel without friction", "", Evidence.DERIVED)


def check_cleat(
    part: HolderPart, own: OwnWeight, *, margin: float, hand: Hand
) -> tuple[CheckResult, ...]:
    """Return the checks of riding up over the bevel and of swinging out at the bottom.

    Args:
        part: A holder that hangs on a rail; one that does not gives no checks.
        own: Measured mass of the holder and the distance of its centre from the rail's face.
        margin: Factor on the depth that the statics ask for (>= 1).
        hand: What a hand does to each tool; where no screws lock it, the tug must leave it there.
    """
    if not part.hanging.on_rail:
        return ()
    lock = part.hanging.lock
    contact, depth = part.hanging.contact_z_mm, part.hanging.depth_below_mm
    cases = load_cases(part.seats, own, drag=hand.drag, sprung=lock is None)
    hold = {"contact_z_mm": contact, "depth_mm": depth, "bevel_deg": part.hanging.bevel_deg}
    needed = [
        (depth_needed_mm(case, contact_z_mm=contact, bevel_deg=part.hanging.bevel_deg), case.name)
        for case in cases
    ]
    depth_mm, governing = max(needed)
    # with a drag of nothing a hand still tugs
    pulled = cases if hand.drag else load_cases(part.seats, own, drag=1.0, sprung=lock is None)
    drawn = [(tug_n(case, **hold), case) for case in pulled if case.pull_n > 0.0]
    tugs = [
        CheckResult(
            "a pull to the front unhooks it only beyond",
            case.pull_n if lock else max(case.pull_n, hand.pull_n),
            most,
            "N at the tool",
            STATICS,
            f"{case.name}, {_height(case, part.hanging)}; {_resting(drawn)}; "
            "screws through it (screw_count) keep its hook down",
        )
        for most, case in drawn
    ]
    # the pull lifts the foot, the weights press it: both as forces at the foot
    swings = [
        CheckResult(
            "bottom stays on the wall when a tool is drawn out",
            max(0.0, case.pull_n * (contact - case.pull_z_mm) / depth),
            case.moment_nmm / depth,
            "N at the foot",
            STATICS,
            case.name,
        )
        for case in cases
    ]
    return (
        CheckResult(
            f"stays hooked on the cleat (margin {margin:g})",
            margin * depth_mm,
            depth,
            "mm of depth below the bevel",
            STATICS,
            governing,
        ),
        max(swings, key=lambda swing: swing.utilisation),
        *sorted(tugs, key=lambda tug: tug.utilisation)[-1:],
        *(
            []
            if lock is None
            else [_locked(part, lock, load_cases(part.seats, own, drag=hand.drag))]
        ),
    )


def least_pull_n(part: HolderPart, own: OwnWeight) -> float | None:
    """Return the least pull at any tool that unhooks a holder while its tools rest in it.

    None for one that hangs on no rail or has no tools; infinity where a pull only presses it home.
    Springs, magnets and screws that lock the hook are left out of account.

    Args:
        part: The holder.
        own: Its own mass and the distance of its centre from the rail's face.
    """
    if not part.hanging.on_rail:
        return None
    hanging = part.hanging
    cases = [case for case in load_cases(part.seats, own, drag=1.0) if case.pull_n > 0.0]
    pulls = (
        tug_n(
            case,
            contact_z_mm=hanging.contact_z_mm,
            depth_mm=hanging.depth_below_mm,
            bevel_deg=hanging.bevel_deg,
        )
        for case in cases
    )
    return min(pulls, default=None)


def _resting(drawn: Sequence[tuple[float, LoadCase]]) -> str:
    """Return the least pull of all, and for which state of the tools all this is true."""
    least, case = min(drawn, key=lambda pair: pair[0])
    found = f"the least of all pulls is {least:.1f} N, {case.name}" if least < math.inf else ""
    true = (
        "this is while the tools rest in it: one that is lifted off its seat weighs on it no more"
    )
    return "; ".join(part for part in (found, true) if part)


def _height(case: LoadCase, hanging: Hanging) -> str:
    above = case.pull_z_mm - hanging.contact_z_mm
    side = "above" if above >= 0.0 else "below"
    return f"held {said.mm(abs(above), '.0f')} {side} the top of the rail"


def _locked(part: HolderPart, lock: LockScrews, cases: tuple[LoadCase, ...]) -> CheckResult:
    """Return whether the screws keep the hook down against every pull, springs and magnets too."""
    hanging = part.hanging
    demands = [
        (
            lock_n(
                case,
                contact_z_mm=hanging.contact_z_mm,
                depth_mm=hanging.depth_below_mm,
                bevel_deg=hanging.bevel_deg,
            )
            / lock.count,
            case,
        )
        for case in cases
    ]
    demand, worst = max(demands, key=lambda pair: pair[0])
    note = (
        f"{worst.name}, {worst.pull_n:.1f} N, {_height(worst, hanging)}; a higher screw_count "
        "shares it"
    )
    return CheckResult(
        "screws keep the hook down", demand, lock.along_n, "N along one screw", STATICS, note
    )
