"""Which of the rails that hang already may stay beside a finished arrangement."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement, Place, ReservedSeat, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail
from cleatwright.wall.rails import cut_rails, kept_rail, last_number
from cleatwright.wall.score import score


@dataclass(frozen=True)
class KeptArrangement:
    """An arrangement with the rails that stay.

    Args:
        space: The wall; its ``kept_rails`` are all that stay.
        arrangement: Where everything hangs.
        down: The rails that come down, by the key of the first item that each hinders.
        seats: Where the search left room for seats that are to be kept free; the arrangement
            itself has none.
    """

    space: WallSpace
    arrangement: Arrangement
    down: tuple[Rail, ...] = ()
    seats: tuple[ReservedSeat, ...] = ()


def keep_rails(
    problem: WallProblem,
    arrangement: Arrangement,
    *,
    rails: Iterable[Rail],
    aside: Iterable[Rail] = (),
) -> KeptArrangement:
    """Return the same places with as many of the rails as may stay; the others come down.

    Args:
        problem: The wall, as if these rails did not hang.
        arrangement: How it was arranged.
        rails: Rails that hang already; the first ones first.
        aside: Rails that hang, and stay only where they carry all that a new one would carry.
    """
    gone: list[Rail] = []
    for rail in rails:
        found = _beside(problem, arrangement, rail)
        if found is None:
            with_it = _keeping(problem, arrangement, rail)
            who = _hindered(with_it, arrangement.places)
            gone.append(rail.down(f"it stands in the way of {who}"))
        else:
            problem, arrangement = found
    for rail in aside:
        carrying = (one for one in arrangement.rails if one.carries and not one.stays)
        if any(_serves(problem, arrangement, rail, instead=one) for one in carrying):
            found = _beside(problem, arrangement, replace(rail, state="recorded"))
            problem, arrangement = found or (problem, arrangement)
    scores = score(problem, arrangement)
    return KeptArrangement(problem.space, replace(arrangement, scores=scores), tuple(gone))


def _beside(
    problem: WallProblem, arrangement: Arrangement, rail: Rail
) -> tuple[WallProblem, Arrangement] | None:
    """Return the wall and the same places with one rail more; None when these cannot be."""
    with_it = _keeping(problem, arrangement, rail)
    tried = replace(arrangement, rails=cut_rails(with_it, arrangement.places))
    return None if conflicts(with_it, tried) else (with_it, tried)


def _keeping(problem: WallProblem, arrangement: Arrangement, rail: Rail) -> WallProblem:
    """Return the wall with a rail that hangs, without the rows in place of which it serves."""
    kept = (*problem.space.kept_rails, rail)
    served = [
        one.strip
        for one in arrangement.rails
        if not one.stays and _serves(problem, arrangement, rail, instead=one)
    ]
    left = [row for row in problem.space.rows if row.strip not in served]
    rows = tuple(replace(row, number=n) for n, row in enumerate(left, last_number(kept) + 1))
    return problem.on(replace(problem.space, kept_rails=kept, rows=rows))


def _serves(problem: WallProblem, arrangement: Arrangement, rail: Rail, *, instead: Rail) -> bool:
    """Return whether a rail lies where another one does and carries all that hangs on that."""
    alone = problem.on(replace(problem.space, kept_rails=(rail,), rows=()))
    on_it = (place for place in arrangement.places if place.key in instead.carries)
    return rail.meets(instead) and all(kept_rail(alone, place) is not None for place in on_it)


def _hindered(problem: WallProblem, places: Sequence[Place]) -> str:
    """Return what could not hang where it does even alone, by its key, or else a new rail."""
    for place in places:
        alone = problem.having((problem.known[place.key],))
        if conflicts(alone, Arrangement((place,), cut_rails(alone, (place,)))):
            return f'"{place.key}"'
    return "a new rail"
