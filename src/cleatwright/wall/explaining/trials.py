"""Arrangements of changed walls, made to see which holders find a place then."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import WallError
from cleatwright.wall.arrange import Progress, arrange
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement
from cleatwright.wall.problem import WallProblem


@dataclass(frozen=True)
class Trials:
    """How changed walls are arranged.

    Args:
        waiting: The keys of those without a place before the change.
        rounds: Rounds of improvement, >= 0.
        progress: Called in each round of each trial; it may raise to stop.
        still: Whether nothing may move that hangs already and may stay.
    """

    waiting: frozenset[str]
    rounds: int
    progress: Progress | None = None
    still: bool = False

    def helped(self, case: WallProblem, *, full: bool = False) -> frozenset[str]:
        """Return which of the waiting find a place while nobody else loses one.

        With ``full`` as many rounds are made as when the person arranges the changed wall.
        """
        found = self._sound(self._best(case, full=full, first=True))
        return self.waiting & {place.key for place in found.places} if found else frozenset()

    def arranged(self, case: WallProblem, *, first: bool = False) -> Arrangement | None:
        """Return how a case is arranged; None where somebody else loses a place.

        With ``first`` the first arrangement is enough in which everything hangs.
        """
        return self._sound(self._best(case, full=False, first=first))

    def _sound(self, found: Arrangement | None) -> Arrangement | None:
        if found is None or not {one.key for one in found.left_over} <= self.waiting:
            return None
        return found

    def all_hang(self, case: WallProblem, *, full: bool = False) -> bool:
        """Return whether everything of the case finds a place; ``full`` as for ``helped``."""
        found = self._best(case, full=full, first=True)
        return found is not None and not found.left_over

    def _best(self, case: WallProblem, *, full: bool, first: bool) -> Arrangement | None:
        """Return the arrangement; one that leaves nothing over without a round stays so.

        With ``first`` rounds end where nothing is left over.
        """
        rounds = None if full else self.rounds
        if first:
            return self._arranged(case, rounds, first=True)
        begun = self._arranged(case, 0)
        if begun is None or not begun.left_over:
            return begun
        return self._arranged(case, rounds)

    def _arranged(
        self, case: WallProblem, rounds: int | None, *, first: bool = False
    ) -> Arrangement | None:
        """Return a sound arrangement, or None where the wall cannot be as it is described."""
        try:
            found = arrange(
                case, rounds=rounds, still=self.still, first=first, progress=self.progress
            )
        except WallError:
            return None
        return None if conflicts(case, found) else found
