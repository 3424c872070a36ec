"""What a hand does to a tool in its holder, and the load cases of it on a rail.

The forces are assumptions that the owner may change: somebody who tugs at a tool that sticks, or
lifts it with the holder clinging to it, shall not take the holder off its rail.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from cleatwright.base.source import Evidence, Source
from cleatwright.parts.holder import Seat
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.shapes.extent import joint_extent
from cleatwright.standards.table import Listed
from cleatwright.statics.cleat import LEAST_WEIGHT_N, LoadCase, OwnWeight, weight_cases
from cleatwright.statics.take_out import grip_z_mm, take_out_n

PULL_N = 10.0
LIFT_N = 10.0
KNOCK_N = 5.0
ASSUMED = Source("a tug at a tool that sticks, about a kilogram", "", Evidence.CHOICE)
# of one force that points half to the front and half up
OBLIQUE = 0.5**0.5
VALUES = (
    Listed("Holding", "a hand's pull to the front N", PULL_N, ASSUMED),
    Listed("Holding", "a hand's pull upwards N", LIFT_N, ASSUMED),
    Listed("Holding", "a knock along the wall N", KNOCK_N, ASSUMED),
)


@dataclass(frozen=True)
class Hand:
    """What a hand does to each tool.

    Args:
        drag: Share of the tool's weight with which it drags it along its seat.
        pull_n: A tug to the front.
        lift_n: A tug upwards, with which the holder clings to the tool.
    """

    drag: float
    pull_n: float
    lift_n: float

    def pull_at(self, seat: Seat) -> float:
        """Return the hardest pull at a seat: the tug, the drag, or what springs and magnets ask."""
        return max(self.pull_n, self.drag * seat.tool.mass_kg * GRAVITY_M_S2, take_out_n(seat))


@dataclass(frozen=True)
class Tug:
    """What a hand does to one tool, without what weighs on the holder then.

    Args:
        number: Which tool, from 1.
        how: In words, such as "drawn out".
        lifted: Whether the hand carries the tool, which then no longer weighs on the holder.
        case: The hand alone.
    """

    number: int
    how: str
    lifted: bool
    case: LoadCase

    def on(self, weights: LoadCase) -> LoadCase:
        """Return the case of it with these weights, named after them."""
        hand = self.case
        return LoadCase(
            f"{weights.name}, {self.how}",
            weights.weight_n,
            weights.moment_nmm,
            hand.pull_n,
            hand.pull_z_mm,
            hand.lift_n,
            hand.lift_y_mm,
            weights.along_nmm,
            weights.skew_nmm2,
            hand.hand_x_mm,
        )


def tugs(seats: Sequence[Seat], hand: Hand) -> tuple[Tug, ...]:
    """Return a hand's pulls at each tool: to the front, upwards, and between the two.

    It pulls at the highest place where a hand can hold the tool, and as low as the seat, before
    the tool's centre of mass. A tool that is lifted no longer weighs on the holder.

    Args:
        seats: The seats.
        hand: What a hand does to each tool.
    """
    return tuple(tug for k, seat in enumerate(seats, 1) for tug in _tugs(k, seat, hand))


def _tugs(number: int, seat: Seat, hand: Hand) -> Iterator[Tug]:
    x, out, _ = seat.com_mm
    pull = hand.pull_at(seat)
    for height in dict.fromkeys((grip_z_mm(seat), seat.rest_z_mm)):
        level = LoadCase("", 0.0, 0.0, pull, height, hand_x_mm=x)
        yield Tug(number, "drawn out", lifted=False, case=level)
        both = (pull * OBLIQUE, height, hand.lift_n * OBLIQUE, out)
        oblique = LoadCase("", 0.0, 0.0, *both, hand_x_mm=x)
        yield Tug(number, "drawn out and up", lifted=True, case=oblique)
    up = LoadCase("", 0.0, 0.0, lift_n=hand.lift_n, lift_y_mm=out, hand_x_mm=x)
    yield Tug(number, "drawn up", lifted=True, case=up)


def resting_cases(seats: Sequence[Seat], own: OwnWeight) -> tuple[LoadCase, ...]:
    """Return the cases without a hand: empty, full, and each tool alone or taken away.

    Args:
        seats: The seats.
        own: The holder itself.
    """
    empty, full, alone, without = weight_cases(seats, own)
    cases = (empty, full, *alone, *without)
    return tuple(case for case in cases if case.weight_n > LEAST_WEIGHT_N)


def hand_cases(seats: Sequence[Seat], own: OwnWeight, hand: Hand) -> tuple[LoadCase, ...]:
    """Return a hand's pulls at each tool with all tools in place, and with that tool alone.

    Args:
        seats: The seats.
        own: The holder itself.
        hand: What a hand does to each tool.
    """
    empty, full, alone, without = weight_cases(seats, own)
    found: list[LoadCase] = []
    for tug in tugs(seats, hand):
        k = tug.number
        if tug.lifted:
            resting = (without[k - 1], replace(empty, name=f"tool {k} lifted off, the others away"))
        else:
            resting = (replace(full, name=f"tool {k}"), alone[k - 1])
        found += [tug.on(case) for case in resting]
    return tuple(found)


def knock_lever_mm(seat: Seat, contact_z_mm: float) -> float:
    """Return how far from the bevel a knock at the far end of a tool acts on its holder.

    A tool that swings passes it on at its seat.
    """
    if seat.swings:
        return abs(seat.rest_z_mm - contact_z_mm)
    (_, _, low), (_, _, high) = joint_extent(seat.envelope())
    return max(abs(low - contact_z_mm), abs(high - contact_z_mm))
