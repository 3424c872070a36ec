"""The mixture of tools, and the hand at one of them, that asks the most of the bolts of a holder.

Each bound on the force of a bolt grows evenly with each weight, so that under each those tools are
there whose weights count against it, and no other mixture asks for more.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from cleatwright.parts.holder import Seat
from cleatwright.statics.cleat import LoadCase, OwnWeight, seat_weight, weighing
from cleatwright.statics.hand import Hand, Tug, tugs
from cleatwright.statics.load_table import LoadTable
from cleatwright.statics.rail_contacts import SIZE, RailContacts

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
        forces = self.contacts.bounds.forces_n(self._itself + self._against.sum(axis=1))
        row = int(forces.argmax())
        there = [k for k in range(len(self.seats)) if self._each[row, k] > 0.0]
        case = replace(self._case(there), name=self._resting_words(there))
        return AskedOfBolt(float(forces[row]), case)

    def pulled(self, hand: Hand) -> AskedOfBolt | None:
        """Return the most that a hand at one of the tools asks of a bolt; None without tools."""
        if not self.seats:
            return None
        some = tugs(self.seats, hand)
        forces = self.contacts.bounds.forces_n(self._around(some) + self._hands(some))
        row, at = np.unravel_index(forces.argmax(), forces.shape)
        return AskedOfBolt(float(forces[row, at]), self._tug_case(some[at], self._each[row]))

    def most_pull(self, hand: Hand, *, bolt_n: float) -> AskedOfBolt | None:
        """Return the least pull to the front that asks more of a bolt, and where a hand pulls so.

        None without tools; infinity where a pull only presses it home. The case has the hand's
        own pull.

        Args:
            hand: Where and how hard a hand pulls.
            bolt_n: What a bolt bears.
        """
        some = [one for one in tugs(self.seats, hand) if not one.lifted and one.case.pull_n > 0.0]
        if not some:
            return None
        pulling = self._hands(some) / np.array([one.case.pull_n for one in some])
        spare = np.maximum(self.contacts.bounds.caps[:, None] * bolt_n - self._around(some), 0.0)
        pulls = np.where(pulling > 0.0, spare, math.inf) / np.where(pulling > 0.0, pulling, 1.0)
        row, at = np.unravel_index(pulls.argmin(), pulls.shape)
        return AskedOfBolt(float(pulls[row, at]), self._tug_case(some[at], self._each[row]))

    @cached_property
    def _itself(self) -> Table:
        """What the holder asks under each bound, (m,)."""
        return self.contacts.bounds.rows @ self.contacts.weight(self.own.weight)

    @cached_property
    def _each(self) -> Table:
        """What each tool in its seat asks, (m, n)."""
        weights = [self.contacts.weight(seat_weight(seat)) for seat in self.seats]
        return self.contacts.bounds.rows @ np.array(weights).reshape(-1, SIZE).T

    @cached_property
    def _against(self) -> Table:
        """The same of those tools that count against it."""
        return np.maximum(self._each, 0.0)

    def _hands(self, some: Sequence[Tug]) -> Table:
        """Return what each hand asks alone, (m, t)."""
        return self.contacts.bounds.rows @ self.contacts.load(
            LoadTable.of([one.case for one in some])
        )

    def _around(self, some: Sequence[Tug]) -> Table:
        """Return what weights ask while a hand is at a tool, (m, t)."""
        numbers = [one.number - 1 for one in some]
        others = self._against.sum(axis=1)[:, None] - self._against[:, numbers]
        held = np.array([0.0 if one.lifted else 1.0 for one in some])
        return self._itself[:, None] + others + held * self._each[:, numbers]

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
