"""Does a holder stay on its French cleat: empty, full, and when a hand takes a tool?"""

from __future__ import annotations

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

STATICS = Source("equilibrium of a hook on a bevel without friction", "", Evidence.DERIVED)


def check_cleat(
    part: HolderPart, own: OwnWeight, *, margin: float, drag: float
) -> tuple[CheckResult, ...]:
    """Return the checks of riding up over the bevel and of swinging out at the bottom.

    Args:
        part: A holder that hangs on a rail; one that does not gives no checks.
        own: Measured mass of the holder and the distance of its centre from the rail's face.
        margin: Factor on the depth that the statics ask for (>= 1).
        drag: Share of a tool's weight with which a hand drags it along its seat.
    """
    if not part.hanging.on_rail:
        return ()
    lock = part.hanging.lock
    contact, depth = part.hanging.contact_z_mm, part.hanging.depth_below_mm
    cases = load_cases(part.seats, own, drag=drag, sprung=lock is None)
    needed = [
        (depth_needed_mm(case, contact_z_mm=contact, bevel_deg=part.hanging.bevel_deg), case.name)
        for case in cases
    ]
    depth_mm, governing = max(needed)
    tugs = [
        CheckResult(
            "a pull to the front unhooks it only beyond",
            case.pull_n,
            tug_n(case, contact_z_mm=contact, depth_mm=depth, bevel_deg=part.hanging.bevel_deg),
            "N at the tool",
            STATICS,
            f"{case.name}, {_height(case, part.hanging)}",
        )
        for case in cases
        if case.pull_n > 0.0
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
        *([] if lock is None else [_locked(part, lock, load_cases(part.seats, own, drag=drag))]),
    )


def _height(case: LoadCase, hanging: Hanging) -> str:
    above = case.pull_z_mm - hanging.contact_z_mm
    side = "above" if above >= 0.0 else "below"
    return f"held {abs(above):.0f} mm {side} the top of the rail"


def _locked(part: HolderPart, lock: LockScrews, cases: tuple[LoadCase, ...]) -> CheckResult:
    """Return whether the screws keep the hook down against every pull, springs and magnets too."""
    hanging = part.hanging
    asked = [
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
    demand, worst = max(asked, key=lambda pair: pair[0])
    note = (
        f"{worst.name}, {worst.pull_n:.1f} N, {_height(worst, hanging)}; a higher screw_count "
        "shares it"
    )
    return CheckResult(
        "screws keep the hook down", demand, lock.along_n, "N along one screw", STATICS, note
    )
