"""Do hangers and the groove that holds them bear what weights and hands ask of them?"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.parts.hanger_groove import HangerGroove
from cleatwright.parts.holder import HolderPart
from cleatwright.standards.table import Listed
from cleatwright.statics.arm_strength import (
    ACROSS_HAND_MPA,
    IN_PLANE_HAND_MPA,
    IN_PLANE_YEARS_MPA,
    LASTING_MPA,
)
from cleatwright.statics.cleat import LoadCase, OwnWeight
from cleatwright.statics.hand import Hand, hand_cases, resting_cases
from cleatwright.statics.hanger_stress import HangerForces, hanger_forces
from cleatwright.statics.load_table import LoadTable, Values
from cleatwright.statics.rail_contacts import contacts_of

BEAM = Source(
    "beams by hand, M = F l; printed bars, 51 MPa along the layers and 22.8 MPa across",
    "a fifth of it for years, a third while a hand pulls; across no more than half of 17 MPa",
    Evidence.SECONDARY,
    "a filament maker's sheet; doi 10.1089/3dp.2020.0109",
)
ALONG = (IN_PLANE_YEARS_MPA, IN_PLANE_HAND_MPA)
ACROSS = (LASTING_MPA, ACROSS_HAND_MPA)
VALUES = (
    Listed("Hangers", "along the layers for years MPa", ALONG[0], BEAM),
    Listed("Hangers", "along the layers while a hand pulls MPa", ALONG[1], BEAM),
    Listed("Hangers", "across the layers for years MPa", ACROSS[0], BEAM),
    Listed("Hangers", "across the layers while a hand pulls MPa", ACROSS[1], BEAM),
)


@dataclass(frozen=True, eq=False)
class _Loaded:
    """Cases, the forces at a groove in each of them, and the factor on what they cause."""

    factor: float
    cases: tuple[LoadCase, ...]
    forces: HangerForces


@dataclass(frozen=True)
class _Stress:
    """A stress that a case causes, and what it may be."""

    asked: float
    allowed: float
    case: str

    @property
    def share(self) -> float:
        return self.asked / self.allowed


def check_hanger_strength(
    part: HolderPart, own: OwnWeight, *, margin: float, hand: Hand
) -> tuple[CheckResult, ...]:
    """Return the checks of hangers and their groove; none for a part without them.

    Args:
        part: The holder, or a carrier with its holders.
        own: Its own weight, on the heavy side.
        margin: Factor on what rests for years.
        hand: What a hand does to each tool.
    """
    hold = part.hanging.hold
    if hold is None:
        return ()
    groove, contacts = hold.groove, contacts_of(part.hanging, hold)

    def loaded(cases: tuple[LoadCase, ...], factor: float) -> _Loaded:
        table = LoadTable.of(cases)
        bolts = contacts.bolts_n(table)
        return _Loaded(
            factor, cases, hanger_forces(table, bolts, contacts, groove, hold.hangers_mm)
        )

    rested = loaded(resting_cases(part.seats, own), margin)
    pulling = loaded(hand_cases(part.seats, own, hand), 1.0)
    wall = ALONG if groove.bedded else ACROSS
    return tuple(
        _result(name, _worst((rested, pulling), stress, groove, allowed), margin, by_design=sized)
        # the plate is made as thick as it must be
        for name, stress, allowed, sized in (
            ("hangers bear it at their necks", HangerForces.neck_mpa, ALONG, False),
            ("the plate bears it before the groove", HangerForces.wall_mpa, wall, True),
            ("the lips of the groove bear it", HangerForces.lip_mpa, ACROSS, False),
        )
    )


def _worst(
    timed: tuple[_Loaded, _Loaded],
    stress: Callable[[HangerForces, HangerGroove], Values],
    groove: HangerGroove,
    allowed: tuple[float, float],
) -> _Stress:
    """Return the stress that comes nearest to what it may be, or goes beyond by most."""
    found = [
        _Stress(loaded.factor * mpa, most, case.name)
        for loaded, most in zip(timed, allowed, strict=True)
        for case, mpa in zip(loaded.cases, stress(loaded.forces, groove).tolist(), strict=True)
    ]
    return max(found, key=lambda one: one.share)


def _result(name: str, worst: _Stress, margin: float, *, by_design: bool) -> CheckResult:
    return CheckResult(
        f"{name} (margin {margin:g} on weights)",
        worst.asked,
        worst.allowed,
        "MPa",
        BEAM,
        worst.case,
        by_design=by_design,
    )
