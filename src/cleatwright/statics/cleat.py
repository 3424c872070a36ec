"""How a holder stands on a French cleat: which depth of bearing it needs.

The holder touches the rail at the bevel and bears on the rail's face, or through
a foot on the wall, ``depth`` below the bevel. With W the weight, e its distance
from the rail's face, F a pull of the hand to the front at a height d below the
bevel (negative above it) and t the angle of the bevel from the wall's normal:

    moments about the bevel    N depth = W e - F d
    forces along y             H = N + F
    the bevel leans at most    H <= W tan t          (friction left out, on the safe side)

so that the depth must be at least (W e - F d) / (W tan t - F).
Source: derived here in closed form.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from cleatwright.parts.holder import Seat
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.statics.take_out import grip_z_mm, take_out_n

# what is lighter is a rounding error of a difference of weights
LEAST_WEIGHT_N = 1e-9


@dataclass(frozen=True)
class LoadCase:
    """One way in which a holder is loaded.

    Args:
        name: What is happening, for the report.
        weight_n: Everything that pulls down (> 0).
        moment_nmm: Sum of each weight times its distance from the rail's face.
        pull_n: Pull of the hand to the front (>= 0).
        pull_z_mm: Height of that pull in the frame of the holder.
        lift_n: Pull of the hand upwards (>= 0).
        lift_y_mm: How far in front of the rail's face it acts.
        along_nmm: Sum of each weight times its place along the holder.
        skew_nmm2: Sum of each weight times its distance and its place.
        hand_x_mm: Where along the holder the hand acts.
    """

    name: str
    weight_n: float
    moment_nmm: float
    pull_n: float = 0.0
    pull_z_mm: float = 0.0
    lift_n: float = 0.0
    lift_y_mm: float = 0.0
    along_nmm: float = 0.0
    skew_nmm2: float = 0.0
    hand_x_mm: float = 0.0

    def turning_nmm(self, z_mm: float) -> float:
        """Return the moment that turns the holder out about a height in the rail's face."""
        pulled = self.pull_n * (self.pull_z_mm - z_mm)
        return self.moment_nmm + pulled - self.lift_n * self.lift_y_mm


@dataclass(frozen=True)
class OwnWeight:
    """Mass of the holder itself.

    Args:
        mass_kg: The mass.
        distance_mm: Distance of its centre from the rail's face.
        along_mm: Where along the holder its centre lies.
    """

    mass_kg: float
    distance_mm: float
    along_mm: float = 0.0

    @property
    def weight(self) -> Weight:
        """Return it as a weight."""
        return Weight(self.mass_kg * GRAVITY_M_S2, self.distance_mm, self.along_mm)


@dataclass(frozen=True)
class Weight:
    """Something that weighs on a holder.

    Args:
        force_n: Its weight.
        out_mm: Distance of its centre from the rail's face.
        along_mm: Where along the holder.
    """

    force_n: float
    out_mm: float
    along_mm: float


def seat_weight(seat: Seat) -> Weight:
    """Return what the tool in a seat weighs there."""
    return Weight(seat.tool.mass_kg * GRAVITY_M_S2, seat.com_mm[1], seat.com_mm[0])


def weighing(name: str, weights: Iterable[Weight]) -> LoadCase:
    """Return the case in which all this weighs on a holder, and nothing else.

    >>> case = weighing("two", [Weight(2.0, 10.0, 5.0), Weight(1.0, 20.0, 30.0)])
    >>> case.weight_n, case.moment_nmm, case.along_nmm, case.skew_nmm2
    (3.0, 40.0, 40.0, 700.0)
    """
    found = tuple(weights)
    return LoadCase(
        name,
        math.fsum(one.force_n for one in found),
        math.fsum(one.force_n * one.out_mm for one in found),
        along_nmm=math.fsum(one.force_n * one.along_mm for one in found),
        skew_nmm2=math.fsum(one.force_n * one.out_mm * one.along_mm for one in found),
    )


def load_cases(
    seats: Sequence[Seat], own: OwnWeight, *, drag: float, sprung: bool = True
) -> tuple[LoadCase, ...]:
    """Return the cases: empty, full, each tool alone or lifted off, and a hand that takes it.

    A hand pulls with ``drag`` (0 to 2) times the tool's weight, or with what springs and
    magnets oppose, at the highest place where it can hold the tool, and as low as the seat;
    with all tools in place and with that tool alone.

    Args:
        seats: The seats.
        own: The holder itself.
        drag: Share of a tool's weight.
        sprung: Whether springs and magnets count; False where screws bear their pull.
    """
    empty, full, every_alone, every_without = weight_cases(seats, own)
    cases = [empty, full]
    for k, (seat, alone, without) in enumerate(
        zip(seats, every_alone, every_without, strict=True), 1
    ):
        pull = max(drag * seat.tool.mass_kg * GRAVITY_M_S2, take_out_n(seat) if sprung else 0.0)
        cases += [alone, without]
        for height in dict.fromkeys((grip_z_mm(seat), seat.rest_z_mm)):
            drawn = {"pull_n": pull, "pull_z_mm": height, "hand_x_mm": seat.com_mm[0]}
            cases += [
                replace(alone, name=f"tool {k} alone, drawn out", **drawn),
                replace(full, name=f"tool {k} drawn out", **drawn),
            ]
    return tuple(case for case in cases if case.weight_n > LEAST_WEIGHT_N)


def weight_cases(
    seats: Sequence[Seat], own: OwnWeight
) -> tuple[LoadCase, LoadCase, tuple[LoadCase, ...], tuple[LoadCase, ...]]:
    """Return the weights of an empty holder, a full one, and with each tool alone or away."""
    itself, tools = own.weight, [seat_weight(seat) for seat in seats]
    return (
        weighing("empty", [itself]),
        weighing("all tools in place", [itself, *tools]),
        tuple(weighing(f"tool {k} alone", [itself, tool]) for k, tool in enumerate(tools, 1)),
        tuple(
            weighing(f"tool {k} lifted off", [itself, *tools[: k - 1], *tools[k:]])
            for k in range(1, len(tools) + 1)
        ),
    )


def tug_n(case: LoadCase, *, contact_z_mm: float, depth_mm: float, bevel_deg: float) -> float:
    """Return the pull to the front, at the height of the case's own, that just unhooks the holder.

    From W tan t = (W e - F d) / depth + F, solved for F; infinity where a pull only presses
    the hook home.

    >>> case = LoadCase("reach 50 mm on a depth of 100 mm", 10.0, 500.0)
    >>> round(tug_n(case, contact_z_mm=0.0, depth_mm=100.0, bevel_deg=45.0), 9)
    5.0
    """
    share = 1.0 - (contact_z_mm - case.pull_z_mm) / depth_mm
    spare = case.weight_n * math.tan(math.radians(bevel_deg)) - case.moment_nmm / depth_mm
    return spare / share if share > 0.0 else math.inf


def lock_n(case: LoadCase, *, contact_z_mm: float, depth_mm: float, bevel_deg: float) -> float:
    """Return the force down along the wall without which the hook rides up; 0 where none is asked.

    The hook must hold H = N + F, or F alone where the pull swings the foot off the wall, and
    the bevel gives (W + S) tan t.

    >>> pulled = LoadCase("10 N at the bevel", 4.0, 200.0, pull_n=10.0)
    >>> round(lock_n(pulled, contact_z_mm=0.0, depth_mm=100.0, bevel_deg=45.0), 9)
    8.0
    """
    turning = case.moment_nmm - case.pull_n * (contact_z_mm - case.pull_z_mm)
    hook = max(0.0, turning / depth_mm) + case.pull_n
    return max(0.0, hook / math.tan(math.radians(bevel_deg)) - case.weight_n)


def depth_needed_mm(case: LoadCase, *, contact_z_mm: float, bevel_deg: float) -> float:
    """Return the least depth of bearing below the bevel, without margin; infinity if none will do.

    >>> case = LoadCase("reach 50 mm", 10.0, 500.0)
    >>> round(depth_needed_mm(case, contact_z_mm=0.0, bevel_deg=45.0), 9)
    50.0
    """
    grip_n = case.weight_n * math.tan(math.radians(bevel_deg)) - case.pull_n
    if grip_n <= 0.0:
        return math.inf
    overturning = case.moment_nmm - case.pull_n * (contact_z_mm - case.pull_z_mm)
    return max(0.0, overturning / grip_n)
