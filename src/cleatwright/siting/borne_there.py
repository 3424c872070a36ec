"""Whether the rails of a panel bear what hangs on them once something hangs elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from cleatwright.siting.arranging import numbered_on
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import LoadsOf, RailLoads, screws_known
from cleatwright.siting.rails.spacing import with_enough_screws
from cleatwright.wall.model import Place
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import last_number
from cleatwright.wall.score import hung
from cleatwright.wall.tolerances import SLACK_MM


class BorneThere:
    """Tells of one thing on a panel whether rails bear the wall with it at another place.

    Args:
        job: The panel as it is arranged.
        key: The thing.
    """

    def __init__(self, job: PanelJob, key: str) -> None:
        """Look up what fails on the panel now."""
        self.job, self.key = job, key
        self._loads = LoadsOf(job) if screws_known(job) else None
        self._failing = self._loads.on(job) if self._loads else ()

    def __call__(self, problem: WallProblem, places: Sequence[Place]) -> bool:
        """Return whether no rail fails with it there that does not fail now."""
        if self._loads is None:
            return True
        job = self.job
        after = last_number(job.arrangement.rails)
        # seats are kept free only where their rails bear that
        hangs = {unit.planned.key for unit in job.units}
        problem = problem.having(one for one in problem.items if one.key in hangs)
        there = tuple(place for place in places if place.key in hangs)
        arrangement = numbered_on(hung(problem, there), after=after)
        changed = replace(job, problem=problem, arrangement=arrangement)
        changed = with_enough_screws(changed, self._loads)
        return not fails_anew(self._failing, self._loads.on(changed), self.key)


def fails_anew(before: Sequence[RailLoads], after: Sequence[RailLoads], key: str) -> bool:
    """Return whether a rail fails that bears a thing, or that does not fail before it moves.

    A rail of which nobody knows what its screws may carry does not count.

    Args:
        before: The rails of a panel.
        after: The same once the thing hangs elsewhere.
        key: The thing.
    """
    failing = [one.rail for one in before if one.fails]
    return any(
        key in one.rail.carries
        or not any(
            abs(one.rail.z_top_mm - rail.z_top_mm) <= SLACK_MM
            and set(one.rail.carries) <= set(rail.carries)
            for rail in failing
        )
        for one in after
        if one.fails
    )
