"""Which of the rails that hang already may stay beside a finished arrangement."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement, Place, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail
from cleatwright.wall.rails import cut_rails
from cleatwright.wall.score import score


@dataclass(frozen=True)
class KeptArrangement:
    """An arrangement with the rails that stay.

    Args:
        space: The wall; its ``kept_rails`` are all that stay.
        arrangement: Where everything hangs.
        down: The rails that come down, by the key of the first item that each hinders.
    """

    space: WallSpace
    arrangement: Arrangement
    down: tuple[Rail, ...] = ()


def keep_rails(
    problem: WallProblem, arrangement: Arrangement, *, rails: Iterable[Rail]
) -> KeptArrangement:
    """Return the same places with as many of the rails as may stay; the others come down.

    Args:
        problem: The wall, as if these rails did not hang.
        arrangement: How it was arranged.
        rails: Rails that hang already; the first ones first.
    """
    gone: list[Rail] = []
    for rail in rails:
        kept = (*problem.space.kept_rails, rail)
        with_it = problem.on(replace(problem.space, kept_rails=kept))
        tried = replace(arrangement, rails=cut_rails(with_it, arrangement.places))
        if conflicts(with_it, tried):
            who = _hindered(with_it, arrangement.places)
            gone.append(rail.down(f"it stands in the way of {who}"))
        else:
            problem, arrangement = with_it, tried
    scores = score(problem, arrangement)
    return KeptArrangement(problem.space, replace(arrangement, scores=scores), tuple(gone))


def _hindered(problem: WallProblem, places: Sequence[Place]) -> str:
    """Return what could not hang where it does even alone, by its key, or else a new rail."""
    for place in places:
        alone = problem.having((problem.known[place.key],))
        if conflicts(alone, Arrangement((place,), cut_rails(alone, (place,)))):
            return f'"{place.key}"'
    return "a new rail"
