"""Do the screws of a rail carry what hangs on it?"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.parts.fastening import Fastening
from cleatwright.parts.screw_strength import ScrewLoad
from cleatwright.standards.table import Listed
from cleatwright.statics.rail import (
    HungLoad,
    RailFixing,
    screw_loads,
    screw_loads_with_each,
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
    by: Fastening,
    own: Sequence[HungLoad] = (),
) -> tuple[CheckResult, ...]:
    """Return the checks of the screw that is used most: for ever, when one is lost, and leant on.

    A rail that meets no stud carries nothing: plasterboard alone does not count; one that is held
    at a single place is no rail to lean on. Somebody leans with ``LEAN_N`` on the front of anything
    that hangs on it, or on either end of the rail itself. Where nobody knows what a screw may
    carry, the one check is open: it does not hold, and says what each must bear.

    Args:
        name: Name of the rail.
        ends_mm: The x of its ends.
        fixing: The rail and its screws.
        loads: What hangs on it; nothing is no demand.
        by: What holds it.
        own: The weight of the rail itself.
    """
    hung, loads = loads, (*own, *loads)
    what = f"{by.one}s of rail {name} carry what hangs on it"
    if not fixing.studs_mm:
        # a rail on which nothing hangs is none to be warned of
        weight = math.fsum(load.weight_n for load in loads) if hung else 0.0
        return (CheckResult(what, weight, 0.0, "N", by.source, by.nowhere),)
    if by.strength is None:
        return (_open(what, rail_demand(ends_mm, fixing, hung, own=own), by),)
    usual = _check(what, screw_loads(fixing, loads), by)
    if len(fixing.studs_mm) == 1 or not usual.holds:
        # it is told of as it is
        return (usual,)
    minutes, days = (
        replace(by, strength=by.strength.times(factor)) for factor in (by.minutes, by.days)
    )
    lost = f"{what} when one of them is lost"
    leant = [(at, load) for at, found in _leant(ends_mm, fixing, hung, own) for load in found]
    at, worst = max(leant, key=lambda pair: _share(minutes, pair[1]))
    return (
        usual,
        *_with_one_lost(lost, fixing, loads, days),
        _check(
            f"{by.one}s of rail {name} carry a person who leans with {LEAN_N:g} N on {at.name}",
            (worst,),
            minutes,
        ),
    )


def _with_one_lost(
    what: str, fixing: RailFixing, loads: Sequence[HungLoad], by: Fastening
) -> Iterator[CheckResult]:
    """Yield the check of the screws that are left when one is lost, on two places at the least."""
    if _turns(fixing):
        weight = math.fsum(load.weight_n for load in loads)
        note = (
            f"two {by.one}s hold it, and with one lost the rail turns about the other: let it be "
            "long enough for three"
        )
        yield CheckResult(what, weight, 0.0, "N", by.source, note)
        return
    without = screw_loads_without_one(fixing, loads)
    if without:
        yield _check(what, without, by)


def _turns(fixing: RailFixing) -> bool:
    """Return whether a rail with one screw lost hangs on a single other one."""
    return len(fixing.rows_mm) == 1 and len(fixing.studs_mm) <= 2


def rail_demand(
    ends_mm: tuple[float, float],
    fixing: RailFixing,
    loads: Sequence[HungLoad],
    *,
    own: Sequence[HungLoad] = (),
) -> ScrewLoad:
    """Return what each screw of a rail must be able to bear, whatever comes of what is checked.

    Its shear and its tension are the greatest of all screws and cases, each for itself; they are
    the most that a screw bears at once or more.

    Args:
        ends_mm: The x of its ends.
        fixing: The rail and its screws, at one place at the least.
        loads: What hangs on it.
        own: The weight of the rail itself.
    """
    borne = (*own, *loads)
    found = [
        *screw_loads(fixing, borne),
        *(() if _turns(fixing) else screw_loads_without_one(fixing, borne)),
        *(load for _, many in _leant(ends_mm, fixing, loads, own) for load in many),
    ]
    return ScrewLoad(
        found[0].stud_mm,
        found[0].row_mm,
        max(one.shear_n for one in found),
        max(one.withdrawal_n for one in found),
    )


def _leant(
    ends_mm: tuple[float, float],
    fixing: RailFixing,
    loads: Sequence[HungLoad],
    own: Sequence[HungLoad],
) -> Iterator[tuple[HungLoad, tuple[ScrewLoad, ...]]]:
    """Yield what every screw bears while somebody leans here or there."""
    leaning = _leaning(ends_mm, fixing, loads)
    yield from screw_loads_with_each(fixing, (*own, *loads), leaning)


def _leaning(
    ends_mm: tuple[float, float], fixing: RailFixing, loads: Sequence[HungLoad]
) -> Iterator[HungLoad]:
    for x, end in zip(ends_mm, ("left", "right"), strict=True):
        yield HungLoad(f"its {end} end", x, LEAN_N, 0.0, fixing.height_mm)
    for load in loads:
        # by the lever rule a screw bears most with a load at itself, or at an end of where it is
        left, right = load.edges_mm or (load.x_mm, load.x_mm)
        for x in sorted({left, right, *(x for x in fixing.studs_mm if left < x < right)}):
            out_mm = max(load.distance_mm, load.front_mm or 0.0)
            yield replace(load, x_mm=x, weight_n=LEAN_N, pull_n=0.0, distance_mm=out_mm)


def _share(by: Fastening, load: ScrewLoad) -> float:
    return math.inf if by.strength is None else by.strength.share(load)


def _check(what: str, loads: Iterable[ScrewLoad], by: Fastening) -> CheckResult:
    worst = max(loads, key=lambda load: _share(by, load))
    note = (
        f"{by.one} at x {said.at(worst.stud_mm)}, {said.at(worst.row_mm)} above the lower edge: "
        f"{worst.shear_n:.0f} N along the wall, {worst.withdrawal_n:.0f} N out of it"
    )
    allowed = 0.0 if by.strength is None else by.strength.allowed_n(worst)
    return CheckResult(what, worst.resultant_n, allowed, f"N on one {by.one}", by.source, note)


def _open(what: str, load: ScrewLoad, by: Fastening) -> CheckResult:
    """Return the check that nobody can answer yet."""
    return CheckResult(
        what,
        load.resultant_n,
        0.0,
        f"N on one {by.one}",
        by.source,
        f"each must bear {load.withdrawal_n:.0f} N out of the wall and {load.shear_n:.0f} N along "
        f"it at worst; {by.unknown}",
        is_open=True,
    )
