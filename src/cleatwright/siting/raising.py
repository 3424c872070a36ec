"""A rail with all that hangs on it, some steps higher or lower: where nothing is in the way."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Place
from cleatwright.wall.off_heat import nearer_heat
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail
from cleatwright.wall.rows.laying import with_rows
from cleatwright.wall.score import hung
from cleatwright.wall.tolerances import SAME_MM

STEPS = (1, -1, 2, -2, 3, -3)


def at_other_heights(
    job: PanelJob, rail: Rail, may_move: Collection[str]
) -> Iterator[tuple[WallProblem, tuple[Place, ...]]]:
    """Yield a panel, with its rows, and all places once a rail lies at another height.

    A row moves as a whole. Nothing is yielded for a rail that stays, or that carries what may not
    move; nothing hot comes nearer to what heat spoils than is good.

    Args:
        job: The panel, arranged.
        rail: The rail.
        may_move: The keys of what may hang elsewhere.
    """
    found, edge_mm = job.arrangement, job.problem.rule.edge_above_mm
    new = [one for one in found.rails if not one.stays]
    same = [
        one
        for one in new
        if one == rail or (found.in_rows and abs(one.z_top_mm - rail.z_top_mm) <= SAME_MM)
    ]
    keys = {key for one in same for key in one.carries}
    if rail.stays or not keys <= {*may_move}:
        return
    bare = job.problem.on(replace(job.problem.space, rows=()))
    z_mm = rail.z_top_mm - edge_mm
    others_mm = {one.z_top_mm - edge_mm for one in new if one not in same}
    for to_mm in (z_mm + count * job.problem.rule.step_mm for count in STEPS):
        if not all(job.problem.known[key].may_hang_at(to_mm) for key in keys):
            continue
        places = tuple(replace(one, z_mm=to_mm) if one.key in keys else one for one in found.places)
        laid = with_rows(bare, {*others_mm, to_mm}) if found.in_rows else bare
        if not conflicts(laid, hung(laid, places)) and not nearer_heat(laid, found.places, places):
            yield laid, places
