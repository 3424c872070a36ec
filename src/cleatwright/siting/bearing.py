"""Places from which the screws of a rail bear what hangs on it.

The search knows no screws. Where those of a rail do not hold, something of what may move takes
the seat with the fewest points at which fewer rails fail, or such a rail lies some steps higher or
lower with all that hangs on it. Where that costs much, or no single move does it, one thing after
another moves to where the rail fails by less.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from cleatwright.base.stages.run import Run
from cleatwright.siting.arranging import kept_of
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.least_borne import borne_nowhere
from cleatwright.siting.rails.loading import LoadsOf, RailLoads, screws_known
from cleatwright.siting.rails.spacing import with_enough_screws
from cleatwright.siting.raising import at_other_heights
from cleatwright.siting.settling import missing_mm, ways_out_of
from cleatwright.wall.adding.seats import Seated, SeatStep, best_seat
from cleatwright.wall.model import Arrangement, Item, Place
from cleatwright.wall.off_heat import no_nearer_heat
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.tolerances import SLACK_MM
from cleatwright.wall.way_out import Surroundings

# what a rail without a stud lacks counts as much as ten times too much on it
MOST_EXCESS = 10.0
# a move that is no cure is worth it when a rail fails by so much less
LESS = 0.0001
# a cure that costs so few points is taken at once
CHEAP_POINTS = 10.0
MOST_STEPS = 40
# at so many other heights of a rail things are moved along it
MOST_RAISED = 3
# so many walls are tried at the most; some seconds of a small one
MOST_TRIED = 3000
STAGE = "looking where the rails bear it"
# what it weighs, while things move one by one, that a rail bears twice what it may
EXCESS_POINTS = 1000.0


@dataclass(frozen=True)
class _Lack:
    """How many rails do not hold, and by how much of what they may carry, all together."""

    rails: int
    excess: float

    def cures(self, before: _Lack) -> bool:
        return self.rails < before.rails and self.excess <= before.excess

    def helps(self, before: _Lack) -> bool:
        return self.rails <= before.rails and self.excess < before.excess - LESS


@dataclass(frozen=True)
class _Goal:
    """What a move is made for, and how far it may go for it."""

    better: Callable[[_Lack, _Lack], bool]
    steps: tuple[SeatStep, ...]


CURE = _Goal(_Lack.cures, ("rail", "height", "new height"))
HELP = _Goal(_Lack.helps, ("rail",))


def _lack(loaded: Iterable[RailLoads]) -> _Lack:
    over = [
        min(one.check.utilisation - 1.0, MOST_EXCESS)
        for one in loaded
        if one.check is not None and not one.check.holds
    ]
    return _Lack(len(over), math.fsum(over))


@dataclass
class _Tries:
    """How many walls were tried; after ``MOST_TRIED`` what was found until then counts."""

    run: Run
    done: int = 0

    @property
    def over(self) -> bool:
        return self.done >= MOST_TRIED

    def one_more(self) -> bool:
        """Return whether one more may be tried, and count it."""
        if self.over:
            return False
        self.done += 1
        self.run.step(STAGE, self.done, MOST_TRIED)
        return True

    def ended(self) -> None:
        if self.done:
            self.run.step(STAGE, MOST_TRIED, MOST_TRIED)


@dataclass(frozen=True)
class _Panel:
    """A panel, and what a change of it is held to.

    Args:
        around: What is on the panel beside holders and rails.
        numbered: What numbers the rails of an arrangement.
        run: The run that keeps what was computed before.
        loads: What keeps the loads of its rails.
        hopeless: What no rail bears, wherever it hangs.
        tries: How many walls were tried.
    """

    around: Surroundings
    numbered: Callable[[Arrangement], Arrangement]
    run: Run
    loads: LoadsOf
    hopeless: frozenset[str]
    tries: _Tries

    def lack(self, job: PanelJob) -> _Lack:
        return _lack(self.loads.on(job))

    def changed(self, job: PanelJob, problem: WallProblem, places: Sequence[Place]) -> PanelJob:
        """Return a panel with everything at given places, its rails numbered and screwed anew."""
        in_rows = job.arrangement.in_rows
        kept = kept_of(problem, Seated(problem.space, tuple(places), in_rows))
        arrangement = replace(self.numbered(kept.arrangement), left_over=job.arrangement.left_over)
        return with_enough_screws(
            replace(job, problem=problem.on(kept.space), arrangement=arrangement), self.loads
        )

    def proven(self, job: PanelJob) -> PanelJob:
        ways = ways_out_of(job.units, job.arrangement, self.around, self.run)
        return replace(job, ways=ways)

    def moves(self, job: PanelJob, may_move: Collection[str], goal: _Goal) -> Iterator[PanelJob]:
        """Yield the panel with one thing at its best seat at which the rails are better off."""
        loaded = self.loads.on(job)
        before = _lack(loaded)
        for rail in loaded:
            if rail.check is None or rail.check.holds or self.hopeless & {*rail.rail.carries}:
                continue
            for key in rail.rail.carries:
                if self.tries.over:
                    return
                if key in may_move and goal.better(self._lack_less(job, rail, key), before):
                    yield from self._moved(job, key, before, goal)

    def raised(self, job: PanelJob, may_move: Collection[str], goal: _Goal) -> Iterator[PanelJob]:
        """Yield the panel with a rail that fails at another height, where they are better off."""
        loaded, short_mm = self.loads.on(job), missing_mm(job.ways)
        before = _lack(loaded)
        for rail in loaded:
            if rail.check is None or rail.check.holds or self.hopeless & {*rail.rail.carries}:
                continue
            for problem, places in at_other_heights(job, rail.rail, may_move):
                if not self.tries.one_more():
                    return
                changed = self.changed(job, problem, places)
                if not goal.better(self.lack(changed), before):
                    continue
                changed = self.proven(changed)
                if missing_mm(changed.ways) <= short_mm + SLACK_MM:
                    yield changed

    def _lack_less(self, job: PanelJob, rail: RailLoads, key: str) -> _Lack:
        """Return what lacks of a panel with one thing less on a rail."""
        rails = tuple(
            replace(one, carries=tuple(other for other in one.carries if other != key))
            if one == rail.rail
            else one
            for one in job.arrangement.rails
        )
        return self.lack(replace(job, arrangement=replace(job.arrangement, rails=rails)))

    def _moved(self, job: PanelJob, key: str, before: _Lack, goal: _Goal) -> Iterator[PanelJob]:
        self.run.go_on()
        item, short_mm = job.problem.known[key], missing_mm(job.ways)
        at = {place.key: place for place in job.arrangement.places}
        # each is better than the one before
        accepted: list[PanelJob] = []

        def holds(problem: WallProblem, places: Sequence[Place]) -> bool:
            if not self.tries.one_more():
                return False
            changed = self.changed(job, job.problem.on(problem.space), places)
            if not goal.better(self.lack(changed), before):
                return False
            changed = self.proven(changed)
            if missing_mm(changed.ways) > short_mm + SLACK_MM:
                return False
            accepted.append(changed)
            return True

        best_seat(
            job.problem,
            [place for place in at.values() if place.key != key],
            item,
            in_rows=job.arrangement.in_rows,
            steps=goal.steps,
            wish=replace(
                no_nearer_heat(job.problem, at, item),
                accepts=holds,
                more_x_mm=tuple(_over_screws(job, item)),
                beside_mm=at[key].x_mm,
            ),
        )
        yield from accepted[-1:]


def _over_screws(job: PanelJob, item: Item) -> Iterator[float]:
    """Yield the x at which the middle or an edge of an item lies over or between screws."""
    screws_mm = sorted({x for rail in job.arrangement.rails for x in rail.studs_mm})
    between_mm = [(a + b) / 2 for a, b in pairwise(screws_mm)]
    for x in (*screws_mm, *between_mm):
        yield from (x, x - item.width_mm / 2, x - item.width_mm)


def well_borne(
    job: PanelJob,
    *,
    may_move: Collection[str],
    around: Surroundings,
    numbered: Callable[[Arrangement], Arrangement],
    run: Run,
) -> PanelJob:
    """Return a panel with what hangs on rails that do not hold elsewhere, as far as that helps.

    Every tool comes out as before, nothing hot comes nearer to what heat spoils than is good, and
    nothing is moved when all rails hold. A rail of which nobody knows what its screws may carry is
    helped by no move, and neither is one with something that no place bears.

    Args:
        job: The panel, arranged, without seats that are kept free.
        may_move: The keys of what may hang elsewhere.
        around: What is on the panel beside holders and rails.
        numbered: What numbers the rails of an arrangement.
        run: The run that keeps what was computed before.
    """
    if not screws_known(job):
        return job
    loads = LoadsOf(job)
    if not _lack(loads.on(job)).rails:
        return job
    panel = _Panel(around, numbered, run, loads, borne_nowhere(job), _Tries(run))
    while (lack := panel.lack(job)).rails:
        cures = (*panel.moves(job, may_move, CURE), *panel.raised(job, may_move, CURE))
        found = [min(cures, key=_points, default=job)]
        if found[0] is job or _points(found[0]) > _points(job) + CHEAP_POINTS:
            found.append(_step_by_step(panel, job, may_move))
        if all(panel.lack(one).rails >= lack.rails for one in found):
            found += _step_by_step_elsewhere(panel, job, may_move)
        job = min(found, key=lambda one: _much(panel.lack(one), one))
        if panel.lack(job).rails == lack.rails:
            break
    panel.tries.ended()
    return job


def _points(job: PanelJob) -> float:
    return job.arrangement.scores.total


def _much(lack: _Lack, job: PanelJob) -> tuple[int, float]:
    """Return how much is wrong with a panel: the rails that fail, then by how much and its cost."""
    return lack.rails, _points(job) + EXCESS_POINTS * lack.excess


def _step_by_step(panel: _Panel, job: PanelJob, may_move: Collection[str]) -> PanelJob:
    """Return a panel with one thing after another moved, until one rail less fails."""
    before = panel.lack(job)
    for _step in range(MOST_STEPS):
        moves = panel.moves(job, may_move, HELP)
        best = min(moves, key=lambda one: _much(panel.lack(one), one), default=None)
        if best is None:
            break
        job = best
        if panel.lack(job).rails < before.rails:
            break
    return job


def _step_by_step_elsewhere(
    panel: _Panel, job: PanelJob, may_move: Collection[str]
) -> Iterator[PanelJob]:
    """Yield a panel with a rail at another height and things moved there, if one rail less fails.

    Where none does, a rail stays at its height.
    """
    before = panel.lack(job)
    raised = sorted(panel.raised(job, may_move, HELP), key=lambda one: _much(panel.lack(one), one))
    for one in raised[:MOST_RAISED]:
        found = _step_by_step(panel, one, may_move)
        if panel.lack(found).rails < before.rails:
            yield found
            return
