"""Arrangements of changed walls, made to see which holders find a place then."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cleatwright.base.errors import WallError
from cleatwright.wall.arrange import arrange
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement, Item, Place, RailRule, WallSpace
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.weights import Weights


@dataclass(frozen=True)
class Case:
    """What is arranged: a wall, its rails and what hangs."""

    space: WallSpace
    rule: RailRule
    items: tuple[Item, ...]


@dataclass(frozen=True)
class Trials:
    """How changed walls are arranged.

    Args:
        waiting: The keys of those without a place before the change.
        seed: Start of the random numbers.
        rounds: Rounds of improvement, >= 0.
        band: As for ``arrange``.
        weights: As for ``arrange``.
    """

    waiting: frozenset[str]
    seed: int
    rounds: int
    band: ReachBand | None
    weights: Weights | None

    def helped(self, case: Case, *, full: bool = False) -> frozenset[str]:
        """Return which of the waiting find a place while nobody else loses one.

        With ``full`` as many rounds are made as when the person arranges the changed wall.
        """
        found = self.arranged(case, full=full)
        return self.waiting & {place.key for place in found.places} if found else frozenset()

    def arranged(self, case: Case, *, full: bool = False) -> Arrangement | None:
        """Return how a case is arranged; None where somebody else loses a place.

        ``full`` as for ``helped``.
        """
        found = self._best(case, full=full)
        if found is None or not {one.key for one in found.left_over} <= self.waiting:
            return None
        return found

    def all_hang(self, case: Case, *, full: bool = False) -> bool:
        """Return whether everything of the case finds a place; ``full`` as for ``helped``."""
        found = self._best(case, full=full)
        return found is not None and not found.left_over

    def _best(self, case: Case, *, full: bool) -> Arrangement | None:
        """Return the arrangement; one that leaves nothing over without a round stays so."""
        first = self._arranged(case, 0)
        if first is None or not first.left_over:
            return first
        return self._arranged(case, None if full else self.rounds)

    def _arranged(self, case: Case, rounds: int | None) -> Arrangement | None:
        """Return a sound arrangement, or None where the wall cannot be as it is described."""
        try:
            found = arrange(
                case.space,
                case.rule,
                case.items,
                seed=self.seed,
                rounds=rounds,
                band=self.band,
                weights=self.weights,
            )
        except WallError:
            return None
        return None if conflicts(case.space, case.rule, case.items, found) else found


def total_with(
    case: Case,
    place: Place,
    *,
    band: ReachBand,
    weights: Weights,
    seed: int = 0,
    rounds: int | None = None,
) -> float | None:
    """Return what a wall costs once an item is given a place and all else is arranged with it.

    None when the place cannot be given, or something finds no place then. The arguments after the
    place are those of ``arrange``.
    """
    items = tuple(
        replace(item, fixed=(place.x_mm, place.z_mm)) if item.key == place.key else item
        for item in case.items
    )
    try:
        found = arrange(
            case.space, case.rule, items, seed=seed, rounds=rounds, band=band, weights=weights
        )
    except WallError:
        return None
    wrong = found.left_over or conflicts(case.space, case.rule, items, found)
    return None if wrong else found.scores.total
