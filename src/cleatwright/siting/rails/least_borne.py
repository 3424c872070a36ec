"""What no rail of a panel bears, wherever it hangs: what it asks of an anchor at the least.

By the lever rule one of the two places beside a load bears half of it or more, however close they
are and whatever hangs beside it. So a thing of which half is too much for one place of screws, or
half of a person who leans on it, is borne nowhere on such a rail.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from cleatwright.checks.rail_loads import LEAN_N
from cleatwright.design.carrying import Unit
from cleatwright.parts.fastening import Fastening
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.fastening import fastening_of
from cleatwright.siting.rails.ground import rows_of
from cleatwright.siting.rails.loading import hung_load
from cleatwright.statics.rail import HungLoad, RailFixing, screw_loads
from cleatwright.wall.explaining.insertion import Standing, heights

_HALF_MM = 1.0


def borne_nowhere(job: PanelJob) -> frozenset[str]:
    """Return the keys of what hangs on rails of a panel and could hold on none that it may have.

    It is asked of each rail that is there, and of one at each height that is tried. Nothing is
    said where nobody knows what a place of screws may carry.

    Raises:
        MeasureError: No screw on sale is long enough.
    """
    by = fastening_of(job.setting.rail, job.panel).carries
    if by.strength is None or not job.panel.places_known:
        return frozenset()
    there = {
        _fixing(rail.height_mm, rail.profile.thickness_mm, rail.rows_mm)
        for rail in job.arrangement.rails
    }
    return frozenset(
        unit.planned.key
        for unit in job.units
        if unit.outer.part.hanging.on_rail
        and not _borne(job, unit, {*there, *_new_rails(job, unit)}, by)
    )


def _new_rails(job: PanelJob, unit: Unit) -> Iterator[RailFixing]:
    """Yield what a new rail would be at each height that is tried for a unit."""
    rule, panel = job.setting.rail, job.panel
    above_mm = job.problem.rule.edge_above_mm
    standing = Standing(job.problem, job.arrangement.places)
    for z in heights(standing, job.problem.known[unit.planned.key]):
        shares = rows_of(panel, z_top_mm=z + above_mm, height_mm=rule.height_mm)
        rows = tuple(share * rule.height_mm for share in shares)
        yield _fixing(rule.height_mm, rule.thickness_mm, rows)


def _fixing(height_mm: float, thickness_mm: float, rows_mm: tuple[float, ...]) -> RailFixing:
    """Return two places of screws, in the middle between which a load is shared the best."""
    return RailFixing((-_HALF_MM, _HALF_MM), height_mm, thickness_mm, rows_mm)


def _borne(job: PanelJob, unit: Unit, fixings: Iterable[RailFixing], by: Fastening) -> bool:
    load = replace(hung_load(unit, job), x_mm=0.0, edges_mm=None)
    return any(_bears(fixing, load, by) for fixing in fixings)


def _bears(fixing: RailFixing, load: HungLoad, by: Fastening) -> bool:
    """Return whether half of a load, and half of who leans on it, is not too much for a place."""
    assert by.strength is not None  # noqa: S101 - asked before
    out_mm = max(load.distance_mm, load.front_mm or 0.0)
    leaning = replace(load, weight_n=LEAN_N, pull_n=0.0, distance_mm=out_mm)
    lasting = (by.strength.share(one) for one in screw_loads(fixing, (load,)))
    if max(lasting) > 1.0:
        return False
    minutes = by.strength.times(by.minutes)
    return max(minutes.share(one) for one in screw_loads(fixing, (leaning,))) <= 1.0
