"""Which heights of rows are chosen, and what hangs on them.

Some sets of heights begin: evenly spaced by what the holders need, and those at which rails would
lie that are cut to what hangs on them. Each is tried by a quick search; rows are shifted, added and
left out as long as that pays. The best few sets are then searched in full.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import cached_property
from statistics import median

from cleatwright.wall.arrange import Progress, arrange
from cleatwright.wall.model import Arrangement, Place
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import kept_rail
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.rows.laying import carries_given, row, with_rows, without_empty
from cleatwright.wall.rows.shifting import shifted
from cleatwright.wall.tolerances import FRAME_DIGITS, SLACK_MM

Heights = tuple[float, ...]

QUICK_ROUNDS, CUT_ROUNDS = 600, 3_000
# so many sets are tried by a quick search, fewer where each takes longer; so many of the best by
# one of a share of the rounds, and the best of these by one of all
MOST_TRIED, FEWEST_TRIED, TRIED_TIMES_ITEMS = 60, 12, 2_000
BEST, SHARE = 3, 4
LUCKS = 2
# of the weight of the way to the better hand
SLIGHT = 0.2
# of the length of rows that is left between obstacles so much is used at the most
FILLED = 0.75


def on_rows(problem: WallProblem, arrangement: Arrangement) -> WallProblem:
    """Return a wall with the rows of an arrangement; the same where it has none."""
    if not arrangement.in_rows:
        return problem
    rows = tuple(rail for rail in arrangement.rails if not rail.stays)
    return problem.on(replace(problem.space, rows=rows))


def row_heights(problem: WallProblem, arrangement: Arrangement) -> Heights | None:
    """Return the hang heights of the rows of an arrangement; None where it has none."""
    if not arrangement.in_rows:
        return None
    edge = problem.rule.edge_above_mm
    found = {_rounded(one.z_top_mm - edge) for one in arrangement.rails if not one.stays}
    return tuple(sorted(found))


def in_rows(
    problem: WallProblem,
    *,
    seed: int,
    rounds: int,
    still: bool = False,
    heights: Heights | None = None,
    progress: Progress = lambda _done, _total: None,
) -> Arrangement:
    """Return the best rows that are found, and what hangs on them.

    Where nothing has a given place, or rows lie behind all that has one: see ``rows_can_be``.

    Args:
        problem: The wall and what hangs; its rule asks for rows.
        seed: Start of the random numbers.
        rounds: Rounds of each full search, >= 0.
        still: True when nothing may move that hangs already and may stay.
        heights: The hang heights of rows; others are looked for only where these do not take
            everything. None when they are to be found.
        progress: Called with what is done and what there is; it may raise to stop.
    """
    choosing = _Choosing(problem, seed=seed, still=still, progress=progress, rounds=rounds)
    if heights is not None:
        found = choosing.searched(heights, rounds)
        if not found.left_over:
            return found
    few = rounds // SHARE
    # with other luck than before: a short search may well be led astray
    best = min(choosing.best(), key=lambda one: _cost(choosing.searched(one, few, luck=1)))
    choosing.searched(best, rounds)
    return shifted(problem, min(choosing.found, key=_cost), given_mm=choosing.given_mm)


def rows_can_be(problem: WallProblem) -> bool:
    """Return whether whole rows can lie behind everything that has a given place."""
    return carries_given(with_rows(problem, set(_heights_of(problem, given=True))))


def _cost(found: Arrangement) -> tuple[int, float]:
    """Return by what sets of rows are sorted: what finds no place, then points."""
    return len(found.left_over), found.scores.total


class _Choosing:
    """The sets of heights that were tried."""

    def __init__(
        self, problem: WallProblem, *, seed: int, still: bool, progress: Progress, rounds: int
    ) -> None:
        self._problem, self._seed, self._still = problem, seed, still
        self._progress = progress
        self.found: list[Arrangement] = []
        self._steps = [z for z in problem.tried_mm if row(problem, z)]
        self.given_mm = tuple(sorted(set(_heights_of(problem, given=True))))
        self._hung = tuple(sorted(set(_heights_of(problem, given=False))))
        self._least = problem.rule.height_mm + problem.rule.min_gap_mm
        self._tried: dict[Heights, tuple[int, float]] = {}
        most = TRIED_TIMES_ITEMS // max(len(problem.items), 1)
        self._most = min(max(most, FEWEST_TRIED), MOST_TRIED)
        self._total = self._most * QUICK_ROUNDS + (BEST + 1) * (rounds // SHARE) + rounds
        self._done = 0

    def best(self) -> list[Heights]:
        """Return the best few sets."""
        self._try(self._as_cut)
        for start in self._starts():
            self._try(start)
        while len(self._tried) < self._most:
            here = min(self._tried, key=lambda one: self._tried[one])
            if not self._improved(here):
                break
        self._done = self._most * QUICK_ROUNDS
        ranked = sorted(self._tried, key=lambda one: self._tried[one])
        return list(dict.fromkeys((*ranked[:BEST], self._as_cut)))

    def _improved(self, here: Heights) -> bool:
        """Try the sets beside one until one is better; return whether one is."""
        now = self._tried[here]
        for near in self._beside(here):
            if len(self._tried) >= self._most:
                return False
            if near not in self._tried and self._try(near) < now:
                return True
        return False

    def _try(self, heights: Heights) -> tuple[int, float]:
        if heights not in self._tried:
            self._tried[heights] = _cost(self.searched(heights, QUICK_ROUNDS))
        return self._tried[heights]

    def searched(self, heights: Heights, rounds: int, *, luck: int = 0) -> Arrangement:
        """Return what hangs on a set of rows, and keep it among what is found."""
        problem = with_rows(self._problem, heights)

        def tell(done: int, _total: int) -> None:
            self._progress(min(self._done + done, self._total), self._total)

        seed = self._seed * LUCKS + luck
        near = _near_the_middle(problem)
        found = arrange(near, seed=seed, rounds=rounds, still=self._still, progress=tell)
        self._done += rounds
        self.found.append(without_empty(problem, found))
        return self.found[-1]

    def _starts(self) -> Iterator[Heights]:
        """Yield the sets that begin."""
        if self._problem.space.kept_rails or self.given_mm:
            yield self.given_mm
        if self._hung:
            yield from self._with([*self.given_mm, *self._hung])
        pitch, number = self._pitch_mm(), self._number()
        low = self._problem.band.low_mm - self._problem.space.floor_gap_mm
        for count in (number, number + 1, number - 1):
            for below in range(count):
                first = low - below * pitch
                yield self._apart(first + k * pitch for k in range(count))

    @cached_property
    def _as_cut(self) -> Heights:
        """Return the heights at which rails lie that are cut to what hangs on them."""
        problem, edge_mm = self._problem, self._problem.rule.edge_above_mm
        free = problem.ruled(replace(problem.rule, rows=False))
        cut = arrange(free, seed=self._seed, rounds=CUT_ROUNDS, still=self._still)
        return self._apart(one.z_top_mm - edge_mm for one in cut.rails if not one.stays)

    def _pitch_mm(self) -> float:
        items = [one for one in self._problem.items if one.on_rail]
        return max(median([one.up_mm + one.down_mm for one in items] or [0.0]), self._least)

    def _number(self) -> int:
        """Return how many rows take the widths of all holders."""
        width = sum(one.whole_width_mm for one in self._problem.items if one.on_rail)
        return max(1, math.ceil(width / (FILLED * self._problem.space.width_mm)))

    def _apart(self, heights: Iterable[float]) -> Heights:
        """Return heights on the steps, far enough apart, with those that are given."""
        found = list(self.given_mm)
        for height in heights:
            nearest = min(self._steps, key=lambda z: (abs(z - height), z), default=None)
            if nearest is not None and self._fits(nearest, found):
                found.append(_rounded(nearest))
        return tuple(sorted(found))

    def _fits(self, z_mm: float, others: Iterable[float]) -> bool:
        return all(abs(z_mm - one) >= self._least - SLACK_MM for one in others)

    def _beside(self, here: Heights) -> Iterator[Heights]:
        """Yield the sets beside one: a row shifted, left out, added; all shifted."""
        free = [z for z in here if z not in self.given_mm]
        step = self._problem.rule.step_mm
        for by in (step, -step, 2 * step, -2 * step):
            for z in free:
                yield from self._with([*(one for one in here if one != z), z + by])
        for z in free:
            yield tuple(one for one in here if one != z)
        for by in (step, -step):
            yield from self._with([*self.given_mm, *(z + by for z in free)])
        for z in self._steps:
            if self._fits(z, here):
                yield from self._with([*here, z])

    def _with(self, heights: Iterable[float]) -> Iterator[Heights]:
        wanted = sorted({_rounded(z) for z in heights})
        good = {_rounded(z) for z in self._steps}.union(self.given_mm, self._hung)
        if all(z in good for z in wanted) and all(
            self._fits(z, wanted[:k]) for k, z in enumerate(wanted)
        ):
            yield tuple(wanted)


def _near_the_middle(problem: WallProblem) -> WallProblem:
    """Return the same, searched with a slight pull to the middle where no hand is the better one.

    A whole row costs the same wherever things hang on it; so they hang together, and what is left
    free lies together too.
    """
    bands = (problem.band, *(problem.band_of(item) for item in problem.items))
    if any(one.easy_x_mm is not None for one in bands):
        return problem

    def middle(band: ReachBand) -> ReachBand:
        return replace(band, easy_x_mm=problem.space.width_mm / 2)

    items = tuple(
        item
        if item.taken is None
        else replace(item, taken=replace(item.taken, band=middle(item.taken.band)))
        for item in problem.items
    )
    slight = replace(problem.weights, sideways=SLIGHT * problem.weights.sideways)
    return replace(problem, items=items, band=middle(problem.band), weights=slight)


def _rounded(z_mm: float) -> float:
    return round(z_mm, FRAME_DIGITS)


def _heights_of(problem: WallProblem, *, given: bool) -> Iterator[float]:
    """Yield the heights at which holders have a given place, or hang, and no rail does yet."""
    for item in problem.items:
        at = item.fixed if given else item.hangs_at
        if item.on_rail and at is not None and kept_rail(problem, Place(item.key, *at)) is None:
            yield _rounded(at[1])
