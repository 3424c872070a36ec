"""How many screws a rail has where its wall takes them all over: as many as its loads need."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import LoadsOf, RailLoads
from cleatwright.wall.ground import MOST_APART_MM, AllOverRule
from cleatwright.wall.rail import Rail

# from one try to the next
CLOSER = 0.8


def with_enough_screws(job: PanelJob, loads: LoadsOf | None = None) -> PanelJob:
    """Return a panel whose rails have as many screws as what hangs on them needs.

    They lie as far apart as is usual where that holds, else closer, down to the least distance of
    the anchor. In studs, and where nobody knows what an anchor carries, they stay as they are.

    Args:
        job: The panel.
        loads: What keeps the loads of its rails, where several arrangements of it are tried.
    """
    rule = job.problem.space.all_over
    if rule is None:
        return job
    loads = loads or LoadsOf(job)
    best = {one.rail.name: one for one in loads.on(job)}
    for most_mm in _closer(rule):
        weak = [name for name, one in best.items() if not one.rail.stays and _may_gain(one)]
        if not weak:
            break
        rails = tuple(
            _apart(job, rule, rail, most_mm) if rail.name in weak else best[rail.name].rail
            for rail in job.arrangement.rails
        )
        for one in loads.on(_with_rails(job, rails)):
            if one.rail.name in weak and _share(one) < _share(best[one.rail.name]):
                best[one.rail.name] = one
    return _with_rails(job, tuple(best[rail.name].rail for rail in job.arrangement.rails))


def _may_gain(one: RailLoads) -> bool:
    """Return whether more screws may help: what is known and does not hold."""
    return one.by.strength is not None and one.check is not None and not one.check.holds


def _share(one: RailLoads) -> float:
    return 0.0 if one.check is None else one.check.utilisation


def _closer(rule: AllOverRule) -> Iterator[float]:
    """Yield distances that are tried, down to the least."""
    most_mm = MOST_APART_MM * CLOSER
    while most_mm > rule.least_mm:
        yield most_mm
        most_mm *= CLOSER
    yield rule.least_mm


def _apart(job: PanelJob, rule: AllOverRule, rail: Rail, most_mm: float) -> Rail:
    """Return a rail whose screws are no further apart than this."""
    ground = replace(rule, most_mm=most_mm).ground(
        z_top_mm=rail.z_top_mm,
        height_mm=rail.height_mm,
        wall_mm=job.problem.space.width_mm,
    )
    return replace(rail, studs_mm=ground.columns((rail.x0_mm, rail.x1_mm)))


def _with_rails(job: PanelJob, rails: tuple[Rail, ...]) -> PanelJob:
    return replace(job, arrangement=replace(job.arrangement, rails=rails))
