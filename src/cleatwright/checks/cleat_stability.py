"""Does a holder stay on its French cleat: empty, full, and when a hand takes a tool?"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.parts.cleat_statics import OwnWeight, depth_needed_mm, load_cases, tug_n
from cleatwright.parts.holder import HolderPart

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
    contact, depth = part.hanging.contact_z_mm, part.hanging.depth_below_mm
    cases = load_cases(part.seats, own, drag=drag)
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
            f"{case.name}, pull of {drag:g} of its weight",
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
    )
