"""Arranging what hangs on one panel, and the sentences when it cannot be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from cleatwright.base.errors import KernelError, WallError
from cleatwright.base.interrupts import defer_interrupts
from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.wall.arrange import Progress, arrange, default_rounds, require_all
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.explaining.offers import Means
from cleatwright.wall.explaining.remedies import by_name, find_help
from cleatwright.wall.inputs import check_problem
from cleatwright.wall.keeping import KeptArrangement, keep_rails
from cleatwright.wall.model import Arrangement
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail
from cleatwright.wall.rails import numbered
from cleatwright.wall.rows.choosing import in_rows, on_rows, rows_can_be

# a wall on which this many rounds leave nothing over is worth looking for rows
QUICK_ROUNDS = 3_000


@dataclass(frozen=True)
class Words:
    """How things are called in messages.

    Args:
        names: The names of holders by their keys.
    """

    names: Mapping[str, str]

    def told(self, error: WallError) -> WallError:
        """Return the error with the names of holders in place of their keys."""
        return error.said(lambda words: by_name(words, self.names) if words else words)


@dataclass(frozen=True)
class Search:
    """What is searched for a place on one panel, in how many rounds, and with what luck.

    ``heights_mm`` are the hang heights of rows that go before others; None when they are to be
    found.
    """

    problem: WallProblem
    rounds: int
    seed: int = 0
    heights_mm: tuple[float, ...] | None = None


@dataclass(frozen=True)
class ArrangingRequest:
    """What one panel is, and what is asked of it.

    Args:
        problem: The panel, with the rails that stay whatever comes, and what shall hang on it.
        rails: Rails that hang already, and stay as long as everything finds a place.
        rounds: Rounds of the search.
        firm: True when no rail that hangs may come down for what finds no place.
        seed: Start of the random numbers.
        heights_mm: The hang heights of rows that go before others; None for any.
    """

    problem: WallProblem
    rails: tuple[Rail, ...]
    rounds: int
    firm: bool = False
    seed: int = 0
    heights_mm: tuple[float, ...] | None = None

    @property
    def bare(self) -> Search:
        """Return the search on the panel as if the rails did not hang."""
        return Search(self.problem, self.rounds, self.seed, self.heights_mm)


def arranged(run: Run, asked: ArrangingRequest) -> KeptArrangement:
    """Return where everything hangs on a panel, and which rails stay.

    What hangs already stays where it is, as long as everything finds a place; only otherwise
    does the search move it, and as little as it pays. Only when something still finds no place
    is the panel arranged as if the rails of the ledger did not hang; of these, all that are not
    in the way stay all the same.

    Raises:
        WallError: Something finds no place; ``HELPED`` knows what would help.
        KernelError: The arrangement does not stand its own independent check.
    """
    problem = asked.problem
    kept = _with_rails(run, asked)
    if kept is not None and asked.firm:
        require_all(kept.arrangement)
    if kept is None or kept.arrangement.left_over:
        found = require_all(run.need(SEARCHED, asked.bare))
        kept = keep_rails(on_rows(problem, found), found, rails=asked.rails)
    broken = conflicts(problem.on(kept.space), kept.arrangement)
    if broken:
        raise KernelError("the arrangement breaks its own rules: " + "; ".join(broken))
    return kept


def _with_rails(run: Run, asked: ArrangingRequest) -> KeptArrangement | None:
    """Return the arrangement with all rails of the ledger; None when it has none, or they clash.

    They clash when what has a given place cannot hang there beside them.
    """
    if not asked.rails:
        return None
    space = asked.problem.space
    with_them = asked.problem.on(replace(space, kept_rails=(*space.kept_rails, *asked.rails)))
    try:
        check_problem(with_them)
    except WallError:
        return None
    search = Search(with_them, asked.rounds, asked.seed, asked.heights_mm)
    found = run.need(SEARCHED, search)
    return KeptArrangement(on_rows(with_them, found).space, found)


def _searched(run: Run, search: Search) -> Arrangement:
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

    if any(item.hangs_at for item in problem.items):
        still = tried(0, still=True)
        if not still.left_over:
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


def _helped(run: Run, given: tuple[Search, Means]) -> Arrangement:
    search, means = given
    found = run.need(SEARCHED, search)

    def look(_done: int, _total: int) -> None:
        run.go_on()

    problem = search.problem.ruled(replace(search.problem.rule, rows=False))
    return find_help(problem, found, means=means, progress=look)


SEARCHED = Stage("searched panel", _searched, content_key)
"""From a panel and what shall hang on it to where it hangs, and what finds no place."""
ARRANGED = Stage("arranged panel", arranged, content_key, codec=JsonCodec(KeptArrangement))
"""From a panel and what shall hang on it to where everything hangs, and which rails stay."""
HELPED = Stage("what would help", _helped, content_key)
"""From a panel on which something finds no place to the changes that give it one."""


def numbered_on(arrangement: Arrangement, *, after: int, before: Sequence[Rail]) -> Arrangement:
    """Return the arrangement with its new rails numbered on after ``after``.

    A new rail in the very place of one of ``before`` takes its number instead.
    """

    def known(rail: Rail) -> int:
        return next((one.number for one in before if one.lies_as(rail)), 0)

    rails = (r if r.stays else replace(r, number=known(r)) for r in arrangement.rails)
    return replace(arrangement, rails=numbered(rails, after=after))
