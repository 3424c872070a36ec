"""What the screws of one rail carry: down the wall, and out of it.

seen from the front                      seen from the side

     W1          W2     W3                     ▕│  ╱│ ← bevel: H = (W e + ...) / h
      ↓           ↓      ↓                     ▕│ ╱ │
  ════╪═══╪═══════╪══════╪══                   ▕├───┤ → T of the upper row
      stud        stud                         ▕├───┤ → T of the lower row
                                               ▕└───┘ ← turns about its lower edge

Along the wall the rail is a beam in pieces between neighbouring studs, so that a load goes to
its two studs by the lever rule; one beyond the last stud lifts at the last but one. The same
shares hold for what pulls the rail off the wall. A load may be absent: a screw must bear the
worst of all choices of loads. Across its height the rail is stiff and turns about its lower
edge, T_i = M y_i / sum y^2. A holder that bears on the rail gives it M = W (e + t), the moment
about the wall, whatever its depth h; one whose foot bears on the wall below the rail gives
only the pull of its hook on a lever of the rail's height. Friction is left out.
Source: statics, derived here; the elastic rule for a group of screws is that of textbooks.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from cleatwright.base.errors import MeasureError
from cleatwright.parts.screw_strength import ScrewLoad


@dataclass(frozen=True)
class HungLoad:
    """One thing that hangs on a rail, with everything in it.

    Args:
        name: What a drawing calls it.
        x_mm: Where its weight acts along the wall.
        weight_n: Its weight with all tools, > 0.
        distance_mm: How far in front of the rail's face the weight acts, >= 0.
        depth_mm: How far below the bevel it bears on the rail or on the wall, > 0.
        pull_n: The strongest pull of a hand to the front, >= 0.
        pull_below_mm: How far below the bevel that hand pulls; negative above it.
        edges_mm: The x of its left and of its right edge; none for a thing without width.
        front_mm: How far in front of the rail's face a hand may lean on it, >= 0; none for as far
            out as its weight acts.
    """

    name: str
    x_mm: float
    weight_n: float
    distance_mm: float
    depth_mm: float
    pull_n: float = 0.0
    pull_below_mm: float = 0.0
    edges_mm: tuple[float, float] | None = None
    front_mm: float | None = None

    def __post_init__(self) -> None:
        """Raise MeasureError for numbers that are no load."""
        numbers = (self.x_mm, self.weight_n, self.distance_mm, self.depth_mm, self.pull_n)
        good = self.weight_n > 0.0 and self.distance_mm >= 0.0 and self.depth_mm > 0.0
        if not (good and self.pull_n >= 0.0 and all(map(math.isfinite, numbers))):
            raise MeasureError(
                f"a load with numbers {numbers}",
                where=self.name,
                allowed="weight and depth above 0, distance and pull from 0",
            )


@dataclass(frozen=True)
class RailFixing:
    """A rail and its screws, one above the other in every stud.

    Args:
        studs_mm: The x of the studs that it meets, each once.
        height_mm: Height of its face, > 0.
        thickness_mm: Its thickness, > 0.
        rows_mm: Heights of the screws above its lower edge, > 0, at least one.
    """

    studs_mm: tuple[float, ...]
    height_mm: float
    thickness_mm: float
    rows_mm: tuple[float, ...]

    def __post_init__(self) -> None:
        """Raise MeasureError for a rail without size or without rows."""
        if not self.rows_mm or min(self.height_mm, self.thickness_mm, *self.rows_mm) <= 0.0:
            raise MeasureError("a rail without size or screws", allowed="measures above 0")
        if len(set(self.studs_mm)) < len(self.studs_mm):
            raise MeasureError("two studs at one place", allowed="each stud once")


@dataclass(frozen=True)
class StudLoad:
    """What one stud bears when everything hangs: a weight, and a moment about the wall."""

    x_mm: float
    weight_n: float
    moment_nmm: float


def stud_shares(x_mm: float, studs_mm: Sequence[float]) -> tuple[float, ...]:
    """Return the share of a load at ``x_mm`` that each stud bears; they add up to 1.

    Between two studs it is the lever rule of a beam on these two; beyond the last
    stud the next one is lifted, so that its share is negative.

    Args:
        x_mm: Where the load acts.
        studs_mm: At least one stud, from left to right.

    Raises:
        MeasureError: There is no stud.

    >>> stud_shares(150.0, (0.0, 600.0, 1200.0)), stud_shares(-60.0, (0.0, 600.0))
    ((0.75, 0.25, 0.0), (1.1, -0.1))
    """
    if not studs_mm:
        raise MeasureError("a rail without a stud", allowed="one stud or more")
    shares = [0.0] * len(studs_mm)
    for k, share in _bearing(x_mm, studs_mm):
        shares[k] = share
    return tuple(shares)


def _bearing(x_mm: float, studs_mm: Sequence[float]) -> tuple[tuple[int, float], ...]:
    """Return the one or two studs that bear a load, by their numbers, each with its share."""
    if len(studs_mm) == 1:
        return ((0, 1.0),)
    left = max(0, min(bisect_right(studs_mm, x_mm) - 1, len(studs_mm) - 2))
    right_share = (x_mm - studs_mm[left]) / (studs_mm[left + 1] - studs_mm[left])
    return ((left, 1.0 - right_share), (left + 1, right_share))


def moment_nmm(load: HungLoad, fixing: RailFixing) -> float:
    """Return the moment of a load's weight that turns the rail about its lower edge."""
    reached = min(1.0, fixing.height_mm / load.depth_mm)
    return load.weight_n * (load.distance_mm * reached + fixing.thickness_mm)


def pull_moment_nmm(load: HungLoad, fixing: RailFixing) -> float:
    """Return the moment of a hand's pull about the lower edge, 0 where it presses the rail on."""
    reached = min(1.0, fixing.height_mm / load.depth_mm)
    return load.pull_n * max(0.0, fixing.height_mm - load.pull_below_mm * reached)


def stud_loads(fixing: RailFixing, loads: Iterable[HungLoad]) -> tuple[StudLoad, ...]:
    """Return what each stud bears when everything hangs, from left to right; none without one."""
    studs = sorted(fixing.studs_mm)
    shared = [(load, stud_shares(load.x_mm, studs)) for load in loads] if studs else []
    return tuple(
        StudLoad(
            x,
            math.fsum(load.weight_n * share[k] for load, share in shared),
            math.fsum(moment_nmm(load, fixing) * share[k] for load, share in shared),
        )
        for k, x in enumerate(studs)
    )


def screw_loads(fixing: RailFixing, loads: Sequence[HungLoad]) -> tuple[ScrewLoad, ...]:
    """Return the worst load of each screw, stud by stud from left to right, the top row first.

    Every load may hang or not, and one hand may pull at any of them. The pull is
    also shared out evenly over the rows, which is on the safe side.
    """
    borne, twist_n = _borne(fixing, loads), _twist_n(fixing, loads)
    return tuple(load for one in borne for load in one.screws(fixing, twist_n))


def screw_loads_with_each(
    fixing: RailFixing, loads: Sequence[HungLoad], more: Iterable[HungLoad]
) -> Iterator[tuple[HungLoad, tuple[ScrewLoad, ...]]]:
    """Yield each of some further loads, and the worst load of each screw with it beside the others.

    Only the two studs that bear it are reckoned anew. In all else it is as ``screw_loads``.
    """
    if len(fixing.studs_mm) == 1:
        # its screws keep the rail level, which is a matter of all loads
        yield from ((one, screw_loads(fixing, (*loads, one))) for one in more)
        return
    borne = _borne(fixing, loads)
    without = [one.screws(fixing, 0.0) for one in borne]
    for load in more:
        found = list(without)
        for k, share in _bearing(load.x_mm, [one.x_mm for one in borne]) if borne else ():
            found[k] = borne[k].and_of(_shared(fixing, load, share)).screws(fixing, 0.0)
        yield load, tuple(screw for stud in found for screw in stud)


@dataclass(frozen=True)
class _Share:
    """What one stud bears of one load: its weight, its moment, a hand's moment and its pull."""

    weight_n: float
    moment_nmm: float
    turn_nmm: float
    pull_n: float


@dataclass(frozen=True)
class _Borne:
    """What one stud bears, load by load."""

    x_mm: float
    shares: tuple[_Share, ...] = ()

    def and_of(self, share: _Share) -> _Borne:
        return _Borne(self.x_mm, (*self.shares, share))

    def screws(self, fixing: RailFixing, twist_n: float) -> tuple[ScrewLoad, ...]:
        """Return the worst load of each of its screws, the top row first."""
        rows, squares = len(fixing.rows_mm), math.fsum(y * y for y in fixing.rows_mm)
        down = math.fsum(one.weight_n for one in self.shares if one.weight_n > 0.0)
        lift = -math.fsum(one.weight_n for one in self.shares if one.weight_n < 0.0)
        moment = math.fsum(one.moment_nmm for one in self.shares if one.moment_nmm > 0.0)
        shear = math.hypot(max(down, lift) / rows, twist_n)
        pulled = [one for one in self.shares if one.pull_n > 0.0]
        found: list[ScrewLoad] = []
        for y in sorted(fixing.rows_mm, reverse=True):
            hands = (one.turn_nmm * y / squares + one.pull_n / rows for one in pulled)
            found.append(
                ScrewLoad(self.x_mm, y, shear, moment * y / squares + max(hands, default=0.0))
            )
        return tuple(found)


def _borne(fixing: RailFixing, loads: Iterable[HungLoad]) -> list[_Borne]:
    """Return what each stud bears, from left to right."""
    studs = sorted(fixing.studs_mm)
    shares: list[list[_Share]] = [[] for _ in studs]
    for load in loads if studs else ():
        for k, share in _bearing(load.x_mm, studs):
            shares[k].append(_shared(fixing, load, share))
    return [_Borne(x, tuple(own)) for x, own in zip(studs, shares, strict=True)]


def _shared(fixing: RailFixing, load: HungLoad, share: float) -> _Share:
    return _Share(
        load.weight_n * share,
        moment_nmm(load, fixing) * share,
        pull_moment_nmm(load, fixing) * share,
        load.pull_n * share,
    )


def screw_loads_without_one(fixing: RailFixing, loads: Sequence[HungLoad]) -> tuple[ScrewLoad, ...]:
    """Return the worst load of each screw when another one of its stud holds no more.

    The rail is no stiffer for it: what the stud bears goes to the screws that are left in it. A
    rail with one row has none left there, and its studs but one must do.
    """
    if len(fixing.rows_mm) > 1:
        return tuple(
            load
            for lost in fixing.rows_mm
            for load in screw_loads(
                replace(fixing, rows_mm=tuple(y for y in fixing.rows_mm if y != lost)), loads
            )
        )
    return tuple(
        load
        for lost in fixing.studs_mm
        for load in screw_loads(
            replace(fixing, studs_mm=tuple(x for x in fixing.studs_mm if x != lost)), loads
        )
    )


def _twist_n(fixing: RailFixing, loads: Sequence[HungLoad]) -> float:
    """Return the force along the rail on the screws of a single stud, which keep it level."""
    if len(fixing.studs_mm) != 1:
        return 0.0
    arms = [load.weight_n * (load.x_mm - fixing.studs_mm[0]) for load in loads]
    turn = max(sum(a for a in arms if a > 0.0), -sum(a for a in arms if a < 0.0))
    apart = max(fixing.rows_mm) - min(fixing.rows_mm)
    if turn <= 0.0:
        return 0.0
    return turn / apart if apart > 0.0 else math.inf
