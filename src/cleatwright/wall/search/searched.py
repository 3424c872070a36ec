"""A whole search: from a wall and its items to the best arrangement that was found."""

from __future__ import annotations

import numpy as np

from cleatwright.wall.arrange import Progress
from cleatwright.wall.model import Arrangement
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.search.outcome import Outcome
from cleatwright.wall.search.problem import make_tables
from cleatwright.wall.search.rounds import construct, improve
from cleatwright.wall.search.start import start_state


def searched(
    problem: WallProblem,
    *,
    still: bool,
    seed: int,
    rounds: int,
    first: bool,
    progress: Progress | None,
) -> Arrangement:
    """Return the best arrangement that is found; see ``cleatwright.wall.arrange``.

    Args:
        problem: The wall, what hangs, in the order of their keys, and seats to be kept free.
        still: True when nothing may move that hangs already and may stay.
        seed: Start of the random numbers.
        rounds: Rounds of improvement, >= 0.
        first: True when the first state that leaves nothing off is enough.
        progress: Called in each round.
    """
    tables = make_tables(problem.having((*problem.items, *problem.seats)))
    outcome = Outcome(tables, problem)
    start, fixed = start_state(tables, problem.items)
    pinned = np.flatnonzero(start.stands) if still else np.array(fixed)
    state = improve(
        tables,
        construct(tables, start),
        outcome,
        pinned=pinned.astype(np.int64),
        seed=seed,
        rounds=rounds,
        first=first,
        progress=progress,
    ).state
    return outcome.finished(state)
