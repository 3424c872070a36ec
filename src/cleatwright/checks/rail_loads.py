"""Do the screws of a rail carry what hangs on it?"""

from __future__ import annotations

import math
from collections.abc import Sequence

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.statics.rail import HungLoad, RailFixing, screw_loads

SCREW_RULE = Source(
    "NDS 2018",
    "12.4-1 over 12.2-2, 12.2-6 and Table 12.3.1A, C_D 0.9",
    Evidence.SECONDARY,
    "public check programs that name clause and page",
)


def check_rail(
    name: str, fixing: RailFixing, *, loads: Sequence[HungLoad], strength: ScrewStrength
) -> CheckResult:
    """Return the check of the screw that is used most.

    A rail that meets no stud carries nothing: plasterboard alone does not count.

    Args:
        name: Name of the rail.
        fixing: The rail and its screws.
        loads: What hangs on it; nothing is no demand.
        strength: What one screw may carry.
    """
    what = f"screws of rail {name} carry what hangs on it"
    if not fixing.studs_mm:
        weight = math.fsum(load.weight_n for load in loads)
        note = "it meets no stud, and plasterboard alone carries nothing"
        return CheckResult(what, weight, 0.0, "N", SCREW_RULE, note)
    worst = max(screw_loads(fixing, loads), key=strength.share)
    note = (
        f"screw at x {said.at(worst.stud_mm)}, {said.at(worst.row_mm)} above the lower edge: "
        f"{worst.shear_n:.0f} N along the wall, {worst.withdrawal_n:.0f} N out of it"
    )
    return CheckResult(
        what, worst.resultant_n, strength.allowed_n(worst), "N on one screw", SCREW_RULE, note
    )
