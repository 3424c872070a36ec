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


def resting_cases(
    seats: Sequence[Seat], own: OwnWeight, *, beyond_mm: float | None = None
) -> tuple[LoadCase, ...]:
    """Return the cases without a hand: empty, full, and each tool alone or taken away.

    Args:
        seats: The seats.
        own: The holder itself.
        beyond_mm: Also with those tools alone whose weights act further out than this.
    """
    empty, full, alone, without = weight_cases(seats, own)
    far = () if beyond_mm is None else (_far(seats, own, beyond_mm),)
    cases = (empty, full, *alone, *without, *far)
    return tuple(case for case in cases if case.weight_n > LEAST_WEIGHT_N)


def hand_cases(
    seats: Sequence[Seat], own: OwnWeight, hand: Hand, *, beyond_mm: float | None = None
) -> tuple[LoadCase, ...]:
    """Return a hand's pull at each tool: to the front, upwards, and between the two.

    It pulls at the highest place where a hand can hold the tool, and as low as the seat; with all
    tools in place and with that tool alone. A tool that is lifted no longer weighs on the holder.

    Args:
        seats: The seats.
        own: The holder itself.
        hand: What a hand does to each tool.
        beyond_mm: Also with those of the other tools alone whose weights act further out than
            this, and, when a tool is lifted, with none: so an empty seat is as good as a full one.
    """
    empty, full, alone, without = weight_cases(seats, own)
    found: list[LoadCase] = []
    for k, seat in enumerate(seats):
        resting, lifted = [replace(full, name=f"tool {k + 1}"), alone[k]], [without[k]]
        if beyond_mm is not None:
            others = [one for n, one in enumerate(seats) if n != k]
            far = _far(others, own, beyond_mm)
            name = f"tool {k + 1}, of the others those further out alone"
            with_it = _with(far, seat)
            resting.append(replace(with_it, name=name))
            lifted += [
                replace(far, name=f"tool {k + 1} lifted off, those further out alone"),
                replace(empty, name=f"tool {k + 1} lifted off, the others away"),
            ]
        found += _pulled(seat, hand, resting=resting, lifted=lifted)
    return tuple(found)


def _far(seats: Sequence[Seat], own: OwnWeight, beyond_mm: float) -> LoadCase:
    """Return the weights of a holder with those tools alone that act further out than this."""
    far = [seat for seat in seats if seat.com_mm[1] > beyond_mm]
    _, case, _, _ = weight_cases(far, own)
    return replace(case, name="the tools furthest out alone")


def _with(case: LoadCase, seat: Seat) -> LoadCase:
    weight = seat.tool.mass_kg * GRAVITY_M_S2
    moment = case.moment_nmm + weight * seat.com_mm[1]
    return replace(case, weight_n=case.weight_n + weight, moment_nmm=moment)


def knock_lever_mm(seat: Seat, contact_z_mm: float) -> float:
    """Return how far from the bevel a knock at the far end of a tool acts on its holder.

    A tool that swings passes it on at its seat.
    """
    if seat.swings:
        return abs(seat.rest_z_mm - contact_z_mm)
    (_, _, low), (_, _, high) = joint_extent(seat.envelope())
    return max(abs(low - contact_z_mm), abs(high - contact_z_mm))


def _pulled(
    seat: Seat, hand: Hand, *, resting: Sequence[LoadCase], lifted: Sequence[LoadCase]
) -> Iterator[LoadCase]:
    out = seat.com_mm[1]
    pull = hand.pull_at(seat)
    for height in dict.fromkeys((grip_z_mm(seat), seat.rest_z_mm)):
        for case in resting:
            yield LoadCase(f"{case.name}, drawn out", case.weight_n, case.moment_nmm, pull, height)
        for case in lifted:
            yield LoadCase(
                f"{case.name}, drawn out and up",
                case.weight_n,
                case.moment_nmm,
                pull * OBLIQUE,
                height,
                hand.lift_n * OBLIQUE,
                out,
            )
    for case in lifted:
        yield replace(case, name=f"{case.name}, drawn up", lift_n=hand.lift_n, lift_y_mm=out)
