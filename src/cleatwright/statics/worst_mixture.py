"""The mixture of tools, and the hand at one of them, that asks the most of the bolts of a holder.

Each bound on the force of a bolt grows evenly with each weight, so that under each those tools are
there whose weights count against it, and no other mixture asks for more.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from cleatwright.parts.holder import Seat
from cleatwright.statics.cleat import LoadCase, OwnWeight, seat_weight, weighing
from cleatwright.statics.hand import Hand, Tug, tugs
from cleatwright.statics.rail_contacts import RailContacts

Table = npt.NDArray[np.float64]


@dataclass(frozen=True)
class AskedOfBolt:
    """What is asked, and in which case.

    Args:
        force_n: On the worst bolt, or of a hand.
        case: What happens then.
    """

    force_n: float
    case: LoadCase


@dataclass(frozen=True, eq=False)
class Mixtures:
    """All mixtures of tools in a holder on its rail.

    Args:
        contacts: Where it meets the rail.
        seats: Its seats.
        own: The holder itself.
    """

    contacts: RailContacts
    seats: Sequence[Seat]
    own: OwnWeight

    def resting(self) -> AskedOfBolt:
        """Return the most that weights ask of a bolt."""
        itself, each = self._bounded()
        total = itself + np.maximum(each, 0.0).sum(axis=1)
        row, force = self._worst(total)
        there = [k for k in range(len(self.seats)) if each[row, k] > 0.0]
        return AskedOfBolt(force, replace(self._case(there), name=self._resting_words(there)))

    def pulled(self, hand: Hand) -> AskedOfBolt | None:
        """Return the most that a hand at one of the tools asks of a bolt; None without tools."""
        found = [self._tugged(tug) for tug in tugs(self.seats, hand)]
        return max(found, key=lambda one: one.force_n, default=None)

    def most_pull(self, hand: Hand, *, bolt_n: float) -> AskedOfBolt | None:
        """Return the least pull to the front that asks more of a bolt, and where a hand pulls so.

        None without tools; infinity where a pull only presses it home. The case has the hand's
        own pull.

        Args:
            hand: Where and how hard a hand pulls.
            bolt_n: What a bolt bears.
        """
        found = [
            self._least_pull(tug, bolt_n)
            for tug in tugs(self.seats, hand)
            if not tug.lifted and tug.case.pull_n > 0.0
        ]
        return min(found, key=lambda one: one.force_n, default=None)

    def _tugged(self, tug: Tug) -> AskedOfBolt:
        resting, each = self._around(tug)
        bounds = self.contacts.bounds
        row, force = self._worst(resting + bounds.rows @ self.contacts.load(tug.case))
        return AskedOfBolt(force, self._tug_case(tug, each[row]))

    def _least_pull(self, tug: Tug, bolt_n: float) -> AskedOfBolt:
        resting, each = self._around(tug)
        bounds = self.contacts.bounds
        pulling = bounds.rows @ self.contacts.load(tug.case) / tug.case.pull_n
        spare = bounds.caps * bolt_n - resting
        with np.errstate(divide="ignore", invalid="ignore"):
            pulls = np.where(pulling > 0.0, np.maximum(spare, 0.0) / pulling, math.inf)
        row = int(pulls.argmin())
        return AskedOfBolt(float(pulls[row]), self._tug_case(tug, each[row]))

    def _around(self, tug: Tug) -> tuple[Table, Table]:
        """Return what weights ask while a hand is at a tool, and each tool's share."""
        itself, each = self._bounded()
        others = np.maximum(each, 0.0)
        k = tug.number - 1
        others[:, k] = 0.0 if tug.lifted else each[:, k]
        return itself + others.sum(axis=1), each

    def _bounded(self) -> tuple[Table, Table]:
        """Return what the holder asks under each bound, and each tool in its seat."""
        rows, weight = self.contacts.bounds.rows, self.contacts.weight
        tools = [rows @ weight(seat_weight(seat)) for seat in self.seats]
        return rows @ weight(self.own.weight), np.array(tools).reshape(-1, len(rows)).T

    def _worst(self, bounded: Table) -> tuple[int, float]:
        forces = self.contacts.bounds.forces_n(bounded)
        row = int(forces.argmax())
        return row, float(forces[row])

    def _case(self, there: Sequence[int]) -> LoadCase:
        return weighing("", [self.own.weight, *(seat_weight(self.seats[k]) for k in there)])

    def _tug_case(self, tug: Tug, each: Table) -> LoadCase:
        others = [k for k in range(len(self.seats)) if k != tug.number - 1 and each[k] > 0.0]
        there = others if tug.lifted else sorted((*others, tug.number - 1))
        return tug.on(replace(self._case(there), name=self._tug_words(tug, others)))

    def _resting_words(self, there: Sequence[int]) -> str:
        count = len(self.seats)
        if not there:
            return "empty"
        if len(there) == count:
            return "all tools in place"
        away = [k for k in range(count) if k not in there]
        if len(there) == 1:
            return f"{_tools(there)} alone"
        return f"{_tools(away)} lifted off" if len(away) == 1 else f"{_tools(there)} in place"

    def _tug_words(self, tug: Tug, others: Sequence[int]) -> str:
        name, all_others = f"tool {tug.number}", len(others) == len(self.seats) - 1
        if tug.lifted:
            if all_others:
                return f"{name} lifted off"
            rest = f"{_tools(others)} in place" if others else "the others away"
            return f"{name} lifted off, {rest}"
        if all_others:
            return name
        return f"{name} with {_tools(others)}" if others else f"{name} alone"


def _tools(numbers: Sequence[int]) -> str:
    """Return tools by their numbers from 1.

    >>> _tools([0]), _tools([0, 2, 3])
    ('tool 1', 'tools 1, 3 and 4')
    """
    *first, last = [str(k + 1) for k in numbers]
    return f"tools {', '.join(first)} and {last}" if first else f"tool {last}"
