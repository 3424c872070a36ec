"""How far plates in the grooves of a back are loaded, and all that holds them.

Plates lie flat on the bed: their layers lie across the necks of their tongues and along all else.
Of two plates the one counts that bears the most (``statics.columns``); the tongue of a single one
bears with its halves what acts beside its middle.
Source: ``statics.groove_plates``; stresses allowed as in ``statics.arm_strength``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cleatwright.parts.groove_hold import GrooveHold
from cleatwright.parts.holder import Seat
from cleatwright.parts.screw_strength import ScrewLoad
from cleatwright.statics.arm_strength import (
    ACROSS_HAND_MPA,
    IN_PLANE_HAND_MPA,
    IN_PLANE_YEARS_MPA,
    LASTING_MPA,
)
from cleatwright.statics.cleat import LoadCase, OwnWeight, seat_weight, weighing
from cleatwright.statics.columns import column_cases
from cleatwright.statics.groove_plates import (
    Twist,
    hook_mpa,
    plate_mpa,
    row_pulls,
    tongue_forces,
    twist_of,
)
from cleatwright.statics.hand import Hand, hand_cases, knock_lever_mm, resting_cases
from cleatwright.statics.hanger_stress import HangerForces

ALONG = (IN_PLANE_YEARS_MPA, IN_PLANE_HAND_MPA)
ACROSS = (LASTING_MPA, ACROSS_HAND_MPA)
# shear by the greatest energy of distortion
PIN_SHEAR_MPA = IN_PLANE_HAND_MPA / math.sqrt(3.0)
# on both sides of a groove
PIN_PLANES = 2


@dataclass(frozen=True)
class PieceBorne:
    """What a piece bears in a case, and what it may.

    Args:
        piece: Which piece.
        asked: What the case asks, with the margin on weights.
        allowed: What it bears, in the same unit.
        unit: Of both.
        case: What happens.
    """

    piece: str
    asked: float
    allowed: float
    unit: str
    case: str

    @property
    def share(self) -> float:
        """Return which share of what it bears is asked."""
        if self.asked <= 0.0:
            return 0.0
        return self.asked / self.allowed if self.allowed > 0.0 else math.inf


@dataclass(frozen=True)
class GrooveLoads:
    """What hangs in the grooves, and what it shall stand.

    Args:
        seats: The seats.
        owns: The holder itself, on the light and on the heavy side.
        margin: Factor on what rests for years.
        hand: What a hand does to each tool.
        knock_n: A knock along the wall at the far end of a tool.
    """

    seats: Sequence[Seat]
    owns: Sequence[OwnWeight]
    margin: float
    hand: Hand
    knock_n: float

    def cases(self) -> Iterator[tuple[LoadCase, float, int]]:
        """Yield each case with the factor on it, and 0 for years or 1 for a hand."""
        for own in self.owns:
            yield from ((one, self.margin, 0) for one in resting_cases(self.seats, own))
            yield from ((one, 1.0, 1) for one in hand_cases(self.seats, own, self.hand))

    def knocks(self, hold: GrooveHold) -> Iterator[tuple[LoadCase, Twist]]:
        """Yield a knock at each tool, alone and with all others, with all that weighs then."""
        if self.knock_n <= 0.0:
            return
        tools = [seat_weight(seat) for seat in self.seats]
        for own in self.owns:
            for k, seat in enumerate(self.seats):
                twist = twist_of(self.knock_n, knock_lever_mm(seat, hold.middle_mm), hold)
                name = f"tool {k + 1} {{}}, knocked along the wall"
                yield weighing(name.format("alone"), [own.weight, tools[k]]), twist
                if len(tools) > 1:
                    yield weighing(name.format("beside all others"), [own.weight, *tools]), twist


def all_borne(loads: GrooveLoads, hold: GrooveHold) -> tuple[PieceBorne, ...]:
    """Return for each piece the case that comes nearest to what it bears, or goes beyond by most.

    Args:
        loads: What hangs there.
        hold: The plates.
    """
    worst: dict[str, PieceBorne] = {}
    for one in _borne(loads, hold):
        if one.piece not in worst or one.share > worst[one.piece].share:
            worst[one.piece] = one
    return tuple(worst.values())


def _borne(loads: GrooveLoads, hold: GrooveHold) -> Iterator[PieceBorne]:
    for case, factor, hand in loads.cases():
        for one in _at_tongues(case, hold):
            yield from _tongues(tongue_forces(one, hold), hold, factor, hand, case.name)
        for one in _at_plates(case, hold):
            yield PieceBorne("plate", factor * plate_mpa(one, hold), ALONG[hand], "MPa", case.name)
            yield from _fixed(one, hold, factor, hand)
    for case, twist in loads.knocks(hold):
        for one in _at_tongues(case, hold):
            forces = tongue_forces(one, hold, twist_n=twist.tongue_n)
            yield from _tongues(forces, hold, 1.0, 1, case.name)
        if hold.hook is not None:
            for one in _at_plates(case, hold):
                asked = hook_mpa(one, hold, hold.hook, twist_n=twist.hook_n)
                yield PieceBorne("hook", asked, ALONG[1], "MPa", case.name)
        along = twist.bolt_n / (PIN_PLANES * _pin_mm2(hold))
        yield PieceBorne("groove pin", along, PIN_SHEAR_MPA, "MPa", case.name)


def _at_tongues(case: LoadCase, hold: GrooveHold) -> tuple[LoadCase, ...]:
    """Return what each tongue, or each half of a single one, bears of a case."""
    middles = hold.tongues_mm
    if len(middles) == 1:
        (x,), quarter = middles, hold.tongue_mm / 4.0
        middles = (x - quarter, x + quarter)
    return column_cases(case, middles, ends_mm=(middles[0], middles[-1]))


def _at_plates(case: LoadCase, hold: GrooveHold) -> tuple[LoadCase, ...]:
    """Return what the screws or hooks of each plate bear of a case; a single one is pressed on."""
    x, half = hold.columns_mm[0], hold.section_mm / 2.0
    return column_cases(case, hold.columns_mm, ends_mm=(x - half, x + half))


def _pin_mm2(hold: GrooveHold) -> float:
    return math.pi * hold.pin_mm**2 / 4.0


def _tongues(
    forces: HangerForces, hold: GrooveHold, factor: float, hand: int, case: str
) -> Iterator[PieceBorne]:
    groove = hold.groove
    wall = ALONG if groove.bedded else ACROSS
    yield PieceBorne("tongue", factor * float(forces.neck_mpa(groove)), ACROSS[hand], "MPa", case)
    yield PieceBorne("back", factor * float(forces.wall_mpa(groove)), wall[hand], "MPa", case)
    yield PieceBorne("lip", factor * float(forces.lip_mpa(groove)), ACROSS[hand], "MPa", case)


def _fixed(case: LoadCase, hold: GrooveHold, factor: float, hand: int) -> Iterator[PieceBorne]:
    """Yield what holds the plates themselves: hooks and their pins, or screws."""
    columns = len(hold.columns_mm)
    if hold.hook is not None:
        asked = factor * hook_mpa(case, hold, hold.hook)
        yield PieceBorne("hook", asked, ALONG[hand], "MPa", case.name)
        lifted = max(0.0, case.lift_n - case.weight_n) / columns / _pin_mm2(hold)
        yield PieceBorne("hook pin", lifted, PIN_SHEAR_MPA, "MPa", case.name)
    if hold.screw is not None:
        pulls, rows = row_pulls(case, hold), len(hold.rows_mm)
        load = ScrewLoad(
            stud_mm=0.0,
            row_mm=hold.rows_mm[0] - hold.rows_mm[-1],
            shear_n=factor * abs(case.weight_n - case.lift_n) / (columns * rows),
            withdrawal_n=factor * max(pulls.upper_n, pulls.lower_n) / columns,
        )
        share = hold.screw.share(load)
        yield PieceBorne("screw", share, 1.0, "of what a screw bears", case.name)
