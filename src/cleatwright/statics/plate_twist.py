"""How a plate is twisted and bent between what hangs on it, its hooks and where it is pushed out.

     hook          tool          foot         hook        seen from above: what turns a tool out,
    ──┴──────┼──────▼──────────────▲───────────┴──        m, reaches hooks and feet along the plate
      P1     cut    m              N           P2

Cut across x, what lies on the side of x = 0 is in equilibrium with the torque T about a line along
the middle of the plate and with the moment M that bends the plate out of the wall; h is how far
the hooks are above that line, and f how far below it the plate is pushed out:

    T = sum(m + F h) - sum(P h) - sum(N f)          of what lies there
    M = sum(P (x - x1)) - sum((N + F) (x - xk))

F is a pull to the front, m turns out about the hooks, N = m / (h + f), and the hooks hold all N and
F by their lever. The rail pushes the plate out at its feet, or its back under the tool or below the
hooks; a distribution of forces in equilibrium is on the safe side, so that of the three that counts
which asks least of the plate. A hook on a bevel of slope t holds no more than t times what weighs
on it, with what bolts pull down.
Source: equilibrium of a cut bar.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

import numpy as np

from cleatwright.parts.holder import Hanging, RailHold
from cleatwright.statics.captured import Section, section_of
from cleatwright.statics.cleat import Weight
from cleatwright.statics.hand import Tug
from cleatwright.statics.load_table import Values
from cleatwright.statics.rail_contacts import Span, bearing_mm

Pushed = Literal["at its feet", "under the tool", "below the hooks"]
PUSHED: tuple[Pushed, ...] = get_args(Pushed)
"""Where the rail pushes a plate out."""


@dataclass(frozen=True)
class Turning:
    """A force that turns a holder out.

    Args:
        along_mm: Where along the holder.
        turning_nmm: Its moment about the bevel's edge, to the front.
        down_n: How hard it weighs on the hooks.
        out_n: How hard it pulls to the front.
    """

    along_mm: float
    turning_nmm: float
    down_n: float = 0.0
    out_n: float = 0.0

    @classmethod
    def of_weight(cls, one: Weight) -> Turning:
        """Return what a weight does.

        >>> Turning.of_weight(Weight(10.0, 40.0, 7.0))
        Turning(along_mm=7.0, turning_nmm=400.0, down_n=10.0, out_n=0.0)
        """
        return cls(one.along_mm, one.force_n * one.out_mm, one.force_n)

    @classmethod
    def of_hand(cls, tug: Tug, contact_z_mm: float) -> Turning:
        """Return what a hand does."""
        hand = tug.case
        turning = hand.turning_nmm(contact_z_mm)
        return cls(hand.hand_x_mm, turning, -hand.lift_n, hand.pull_n)


@dataclass(frozen=True, eq=False)
class Inside:
    """What cuts across x bear, (n,) each.

    Args:
        torque_nmm: The torque about the middle of the plate.
        bending_nmm: The moment that bends it out of the wall.
    """

    torque_nmm: Values
    bending_nmm: Values


@dataclass(frozen=True)
class Push:
    """A force of the rail on the back of a plate.

    Args:
        along_mm: Where along the plate.
        below_mm: How far below the bevel's edge.
        force_n: How hard.
    """

    along_mm: float
    below_mm: float
    force_n: float


@dataclass(frozen=True)
class HungPlate:
    """A plate between its hooks.

    Args:
        section: Its section on the rail.
        hooks_mm: Where its two hooks bear, or the ends of where one does.
        feet_mm: The middles of its feet, from the least x; at least one.
        back_mm: How far below the bevel's edge all of its back bears.
    """

    section: Section
    hooks_mm: Span
    feet_mm: tuple[float, ...]
    back_mm: float

    def pushes(self, one: Turning, where: Pushed) -> tuple[Push, ...]:
        """Return how the rail pushes the plate out for one force; feet alone bear a lift.

        >>> plate = HungPlate(Section(0.0, 60.0, 45.0, 14.5), (10.0, 110.0), (60.0,), 20.0)
        >>> [len(plate.pushes(Turning(40.0, 100.0), where)) for where in PUSHED]
        [2, 1, 2]
        """
        x, turning = one.along_mm, one.turning_nmm
        if where == "at its feet" or turning < 0.0:
            ends, depth = (self.feet_mm[0], self.feet_mm[-1]), self.section.depth_mm
        elif where == "below the hooks":
            ends, depth = self.hooks_mm, self.back_mm
        else:
            return (Push(x, self.back_mm, turning / self.back_mm),)
        return tuple(
            Push(end, depth, share * turning / depth)
            for end, share in zip(ends, _shares(x, *ends), strict=True)
        )

    def held_n(self, one: Turning, where: Pushed) -> tuple[float, float]:
        """Return how hard the hooks hold, by the lever of all that pushes and pulls out.

        >>> plate = HungPlate(Section(0.0, 60.0, 45.0, 14.5), (10.0, 110.0), (60.0,), 20.0)
        >>> plate.held_n(Turning(30.0, 120.0, out_n=10.0), "at its feet")
        (9.0, 3.0)
        """
        first, last = self.hooks_mm
        out = [(one.along_mm, one.out_n)]
        out += [(push.along_mm, push.force_n) for push in self.pushes(one, where)]
        on_last = math.fsum(n * (x - first) for x, n in out) / (last - first)
        return math.fsum(n for _, n in out) - on_last, on_last

    def bolts_n(self, some: Sequence[Turning], where: Pushed) -> float:
        """Return how hard all bolts must pull down so that each hook holds what some ask of it.

        That of those only which ask for it: the others may be away.

        >>> plate = HungPlate(Section(0.0, 60.0, 45.0, 14.5), (10.0, 110.0), (60.0,), 20.0)
        >>> tools = [Turning(60.0, 300.0, 5.0), Turning(60.0, 10.0, 5.0)]
        >>> round(plate.bolts_n(tools, "under the tool"), 9)
        10.0
        """
        asked = [self.asked_n(one, where) for one in some]
        both = zip(self.bolted, zip(*asked, strict=True), strict=True)
        sums = [(part, math.fsum(each)) for part, each in both]
        return max(
            (n / part if part > 0.0 else math.inf for part, n in sums if n > 0.0), default=0.0
        )

    def asked_n(self, one: Turning, where: Pushed) -> tuple[float, float]:
        """Return how hard bolts must pull down each hook for one force; 0 where its weight does."""
        held, weighs = self.held_n(one, where), _shares(one.along_mm, *self.hooks_mm)
        first, last = (
            max(0.0, n / self.section.slope - one.down_n * part)
            for n, part in zip(held, weighs, strict=True)
        )
        return first, last

    @property
    def bolted(self) -> tuple[float, float]:
        """Return which parts of what all bolts pull are on the first and the last hook."""
        return _shares(math.fsum(self.feet_mm) / len(self.feet_mm), *self.hooks_mm)

    def inside(self, one: Turning, where: Pushed, cuts_mm: Values, middles_mm: Values) -> Inside:
        """Return what one force asks of cuts.

        Args:
            one: The force.
            where: Where the rail pushes the plate out.
            cuts_mm: Where the cuts lie, (n,).
            middles_mm: The heights of the middle of the plate there, (n,).

        >>> plate = HungPlate(Section(0.0, 60.0, 45.0, 14.5), (10.0, 110.0), (60.0,), 20.0)
        >>> tool, cut, middle = Turning(60.0, 120.0), np.array([50.0]), np.array([-10.0])
        >>> found = [plate.inside(tool, where, cut, middle) for where in PUSHED]
        >>> [(float(*one.torque_nmm), float(*one.bending_nmm)) for one in found]
        [(-10.0, 40.0), (-30.0, 120.0), (-60.0, 0.0)]
        """
        high = self.section.contact_z_mm - middles_mm
        beyond = cuts_mm - one.along_mm
        torque = np.where(beyond > 0.0, one.turning_nmm + one.out_n * high, 0.0)
        bending = -one.out_n * np.maximum(beyond, 0.0)
        for push in self.pushes(one, where):
            beyond = cuts_mm - push.along_mm
            torque -= np.where(beyond > 0.0, push.force_n * (push.below_mm - high), 0.0)
            bending -= push.force_n * np.maximum(beyond, 0.0)
        for x, held in zip(self.hooks_mm, self.held_n(one, where), strict=True):
            beyond = cuts_mm - x
            torque -= np.where(beyond > 0.0, held * high, 0.0)
            bending += held * np.maximum(beyond, 0.0)
        return Inside(torque, bending)


def _shares(x_mm: float, first_mm: float, last_mm: float) -> tuple[float, float]:
    """Return the parts of two places by lever; what lies beyond one of them is all its own."""
    if last_mm <= first_mm:
        return 1.0, 0.0
    share = (last_mm - min(max(x_mm, first_mm), last_mm)) / (last_mm - first_mm)
    return share, 1.0 - share


def hung_plate(hanging: Hanging, hold: RailHold) -> HungPlate:
    """Return the plate of a part with hangers."""
    lock = hanging.lock
    feet = hold.bolts_mm if lock is None else lock.columns_mm
    return HungPlate(
        section_of(hanging), bearing_mm(hold.hangers_mm), tuple(sorted(feet)), hold.back_mm
    )
