"""Which of the rails that hang already may stay beside a finished arrangement."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement, Place, RailRun, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import cut_rails
from cleatwright.wall.score import score


@dataclass(frozen=True)
class InTheWay:
    """A rail that cannot stay, and the key of the first item that it hinders, or ""."""

    run: RailRun
    key: str


@dataclass(frozen=True)
class Kept:
    """An arrangement with the rails that stay.

    Args:
        space: The wall; its ``kept_rails`` are all that stay.
        arrangement: Where everything hangs.
        in_the_way: The rails that come down.
    """

    space: WallSpace
    arrangement: Arrangement
    in_the_way: tuple[InTheWay, ...] = ()


def keep_rails(problem: WallProblem, arrangement: Arrangement, *, rails: Iterable[RailRun]) -> Kept:
    """Return the same places with as many of the rails as may stay; the others come down.

    Args:
        problem: The wall, as if these rails did not hang.
        arrangement: How it was arranged.
        rails: Rails that hang already; the first ones first.
    """
    gone: list[InTheWay] = []
    for run in rails:
        kept = (*problem.space.kept_rails, run)
        with_it = problem.on(replace(problem.space, kept_rails=kept))
        tried = replace(arrangement, rails=cut_rails(with_it, arrangement.places))
        if conflicts(with_it, tried):
            gone.append(InTheWay(run, _hindered(with_it, arrangement.places)))
        else:
            problem, arrangement = with_it, tried
    scores = score(problem, arrangement)
    return Kept(problem.space, replace(arrangement, scores=scores), tuple(gone))


def _hindered(problem: WallProblem, places: Sequence[Place]) -> str:
    """Return the key of the first item that could not hang where it does even alone, or ""."""
    for place in places:
        alone = problem.having((problem.known[place.key],))
        if conflicts(alone, Arrangement((place,), cut_rails(alone, (place,)))):
            return place.key
    return ""
