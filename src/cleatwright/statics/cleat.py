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
from collections.abc import Sequence
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
    """

    name: str
    weight_n: float
    moment_nmm: float
    pull_n: float = 0.0
    pull_z_mm: float = 0.0
    lift_n: float = 0.0
    lift_y_mm: float = 0.0


@dataclass(frozen=True)
class OwnWeight:
    """Mass of the holder itself and the distance of its centre from the rail's face."""

    mass_kg: float
    distance_mm: float


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
            cases += [
                replace(alone, name=f"tool {k} alone, drawn out", pull_n=pull, pull_z_mm=height),
                replace(full, name=f"tool {k} drawn out", pull_n=pull, pull_z_mm=height),
            ]
    return tuple(case for case in cases if case.weight_n > LEAST_WEIGHT_N)


def weight_cases(
    seats: Sequence[Seat], own: OwnWeight
) -> tuple[LoadCase, LoadCase, tuple[LoadCase, ...], tuple[LoadCase, ...]]:
    """Return the weights of an empty holder, a full one, and with each tool alone or away."""
    own_n = own.mass_kg * GRAVITY_M_S2
    own_nmm = own_n * own.distance_mm
    pairs = [(n, n * seat.com_mm[1]) for seat in seats for n in (seat.tool.mass_kg * GRAVITY_M_S2,)]
    all_n = own_n + sum(n for n, _ in pairs)
    all_nmm = own_nmm + sum(nmm for _, nmm in pairs)
    return (
        LoadCase("empty", own_n, own_nmm),
        LoadCase("all tools in place", all_n, all_nmm),
        tuple(
            LoadCase(f"tool {k} alone", own_n + n, own_nmm + nmm)
            for k, (n, nmm) in enumerate(pairs, 1)
        ),
        tuple(
            LoadCase(f"tool {k} lifted off", all_n - n, all_nmm - nmm)
            for k, (n, nmm) in enumerate(pairs, 1)
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
