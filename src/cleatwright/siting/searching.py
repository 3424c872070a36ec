"""The search of one panel: what hangs where, what finds no place, and what would help that."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from cleatwright.base.interrupts import defer_interrupts
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.wall.adding.reserved import with_room_for_seats
from cleatwright.wall.arrange import Progress, arrange, default_rounds
from cleatwright.wall.explaining.offers import Means
from cleatwright.wall.explaining.remedies import find_help
from cleatwright.wall.model import Arrangement
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rows.choosing import in_rows, rows_can_be

# a wall on which this many rounds leave nothing over is worth looking for rows
QUICK_ROUNDS = 3_000
# of the rounds for what hangs so many are spent on room for seats that are kept free
ROOM_SHARE = 4


Moves = Literal["never", "needed", "paying"]


@dataclass(frozen=True)
class Search:
    """What is searched for a place on one panel, in how many rounds, and with what luck.

    What hangs moves as long as something finds no place ("needed"), never, or where it pays.
    ``heights_mm`` are the hang heights of rows that go before others; None when they are to be
    found.
    """

    problem: WallProblem
    rounds: int
    seed: int = 0
    moves: Moves = "needed"
    heights_mm: tuple[float, ...] | None = None


def _searched(run: Run, search: Search) -> Arrangement:
    """Return what hangs where, with room for seats that are kept free where all finds a place.

    What hangs already does not move for them.
    """
    problem = search.problem
    found = _found(run, replace(search, problem=problem.with_seats(())))
    hangs = any(item.hangs_at for item in problem.items)
    if hangs or found.left_over or not problem.seats:
        return found

    def look(_done: int, _total: int) -> None:
        run.go_on()

    rounds = search.rounds // ROOM_SHARE
    return with_room_for_seats(problem, found, seed=search.seed, rounds=rounds, progress=look)


def _found(run: Run, search: Search) -> Arrangement:
    with defer_interrupts():
        from cleatwright.wall.search.compiled import first_time  # noqa: PLC0415 - compiles, on use
    stage = "arranging the wall"
    if first_time():
        stage += ", this first time half a minute longer"

    problem, usual = search.problem, default_rounds(len(search.problem.items))
    # more rounds go another way: what the usual ones find is never better than what is told
    rounds = (search.rounds, usual) if search.rounds > usual else (search.rounds,)

    def tried(number: int, *, still: bool = False) -> Arrangement:
        before = sum(rounds[:number])

        def told(done: int, total: int) -> None:
            run.step(stage, before + rounds[number] * done // max(total, 1), sum(rounds))

        return _arranged(search, rounds[number], still=still, progress=told)

    if search.moves != "paying" and any(item.hangs_at for item in problem.items):
        still = tried(0, still=True)
        if search.moves == "never" or not still.left_over:
            return still
    found = [tried(number) for number in range(len(rounds))]
    return min(found, key=lambda one: (len(one.left_over), one.scores.total))


def _arranged(search: Search, rounds: int, *, still: bool, progress: Progress) -> Arrangement:
    """Return what hangs on whole rows, or on pieces of rail where rows do not take everything."""
    problem, seed = search.problem, search.seed
    in_pieces = problem.ruled(replace(problem.rule, rows=False))
    on_rails = any(item.on_rail for item in problem.items)
    if not (problem.rule.rows and on_rails and rows_can_be(problem)):
        return arrange(in_pieces, seed=seed, rounds=rounds, still=still, progress=progress)
    quick = arrange(in_pieces, seed=seed, rounds=QUICK_ROUNDS, still=still, first=True)
    other = (
        arrange(in_pieces, seed=seed, rounds=rounds, still=still, progress=progress)
        if quick.left_over
        else None
    )
    if other is not None and other.left_over:
        # what finds no place on pieces of rail finds none on rows
        return other
    heights = search.heights_mm
    found = in_rows(
        problem, seed=seed, rounds=rounds, still=still, heights=heights, progress=progress
    )
    if found.left_over:
        return other or arrange(in_pieces, seed=seed, rounds=rounds, still=still, progress=progress)
    return found


@dataclass(frozen=True)
class Helping:
    """A search that leaves something over, and what it is asked what would help.

    Args:
        search: The search.
        means: What a change may use.
        about: The key of the one of which it is asked; of all when empty.
    """

    search: Search
    means: Means
    about: str = ""


def _helped(run: Run, asked: Helping) -> Arrangement:
    search = asked.search
    found = run.need(SEARCHED, search)

    def look(_done: int, _total: int) -> None:
        run.go_on()

    problem = search.problem.with_seats(()).ruled(replace(search.problem.rule, rows=False))
    still = search.moves == "never"
    return find_help(
        problem, found, means=asked.means, still=still, about=asked.about, progress=look
    )


SEARCHED = Stage("searched panel", _searched, content_key)
"""From a panel and what shall hang on it to where it hangs, and what finds no place."""
HELPED = Stage("what would help", _helped, content_key)
"""From a panel on which something finds no place to the changes that give it one."""
