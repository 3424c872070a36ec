"""Do the screws of a rail carry what hangs on it?"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.parts.screw_strength import ScrewLoad, ScrewStrength
from cleatwright.standards.fasteners.nds_screws import PERMANENT, SEVEN_DAYS, TEN_MINUTES
from cleatwright.standards.table import Listed
from cleatwright.statics.rail import (
    HungLoad,
    RailFixing,
    screw_loads,
    screw_loads_without_one,
)

SCREW_RULE = Source(
    "NDS 2018",
    "12.4-1 over 12.2-2, 12.2-6 and Table 12.3.1A; C_D 0.9, 1.25 with a screw lost, 1.6 leant on",
    Evidence.SECONDARY,
    "public check programs that name clause and page",
)


LEAN_N = 150.0
LEANING = Source("a person who leans on the wall, about 15 kg", "", Evidence.CHOICE)
VALUES = (Listed("Holding", "a person who leans N", LEAN_N, LEANING),)


def check_rail(
    name: str,
    ends_mm: tuple[float, float],
    fixing: RailFixing,
    *,
    loads: Sequence[HungLoad],
    strength: ScrewStrength,
) -> tuple[CheckResult, ...]:
    """Return the checks of the screw that is used most: for ever, when one is lost, and leant on.

    A rail that meets no stud carries nothing: plasterboard alone does not count; one that meets a
    single stud is no rail to lean on. Somebody leans with ``LEAN_N`` on anything that hangs on it,
    or on either end of the rail itself.

    Args:
        name: Name of the rail.
        ends_mm: The x of its ends.
        fixing: The rail and its screws.
        loads: What hangs on it; nothing is no demand.
        strength: What one screw may carry for ever.
    """
    what = f"screws of rail {name} carry what hangs on it"
    if not fixing.studs_mm:
        weight = math.fsum(load.weight_n for load in loads)
        note = "it meets no stud, and plasterboard alone carries nothing"
        return (CheckResult(what, weight, 0.0, "N", SCREW_RULE, note),)
    usual = _check(what, screw_loads(fixing, loads), strength)
    if len(fixing.studs_mm) == 1 or not usual.holds:
        # it is told of as it is
        return (usual,)
    minutes, days = (strength.times(x / PERMANENT) for x in (TEN_MINUTES, SEVEN_DAYS))
    without = screw_loads_without_one(fixing, loads)
    leant = [
        (one, load)
        for one in _leaning(ends_mm, fixing, loads)
        for load in screw_loads(fixing, (*loads, one))
    ]
    at, worst = max(leant, key=lambda pair: minutes.share(pair[1]))
    return (
        usual,
        *((_check(f"{what} when one of them is lost", without, days),) if without else ()),
        _check(
            f"screws of rail {name} carry a person who leans with {LEAN_N:g} N on {at.name}",
            (worst,),
            minutes,
        ),
    )


def _leaning(
    ends_mm: tuple[float, float], fixing: RailFixing, loads: Sequence[HungLoad]
) -> Iterator[HungLoad]:
    for x, end in zip(ends_mm, ("left", "right"), strict=True):
        yield HungLoad(f"its {end} end", x, LEAN_N, 0.0, fixing.height_mm)
    for load in loads:
        yield replace(load, weight_n=LEAN_N, pull_n=0.0)


def _check(what: str, loads: Iterable[ScrewLoad], strength: ScrewStrength) -> CheckResult:
    worst = max(loads, key=strength.share)
    note = (
        f"screw at x {said.at(worst.stud_mm)}, {said.at(worst.row_mm)} above the lower edge: "
        f"{worst.shear_n:.0f} N along the wall, {worst.withdrawal_n:.0f} N out of it"
    )
    return CheckResult(
        what, worst.resultant_n, strength.allowed_n(worst), "N on one screw", SCREW_RULE, note
    )
