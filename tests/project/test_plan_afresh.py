"""A fresh plan of a wall that hangs: its rails stay where new ones would lie, if they hold.

Oracle: the check of the screws of rails that is told of every plan.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from tests.one_more import hanging
from tests.small import PRINTED, can

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.pack.job import Job
from cleatwright.project.computing import JOB
from cleatwright.project.revision import Revision
from cleatwright.project.walls import Request
from cleatwright.siting.rails.loading import failing_rails, loaded_rails

ANCHOR = """
[wall.anchor]
name = "plug"
loads = "characteristic"
tension_n = {load}
shear_n = {load}
hole = 6
hole_depth = 40
embedment = 35
screw = 5
screw_length = 60
edge = 60
spacing = 60
"""
CANS = "".join(
    can(f"Can {n}", diameter=100.0, height=120.0, mass="4 kg", holder=True) for n in range(4)
)


def hung(folder: Path, run: Run, *, load_n: float) -> Revision:
    wall = 'schema = 1\nname = "S"\n\n[wall]\nwidth = 800\nheight = 400\nmade_of = "brick"\n'
    text = wall + ANCHOR.format(load=load_n) + PRINTED + CANS
    (folder / "workshop.toml").write_text(text, "utf-8")
    return hanging(folder, run)


def afresh(revision: Revision, run: Run) -> tuple[Job, set[str]]:
    job = run.need(JOB, (revision, Request(plan="afresh")))
    return job, {name for one in job.panels for name in failing_rails(loaded_rails(one))}


def test_a_rail_with_too_few_anchors_for_a_fresh_plan_comes_down_and_is_made_anew(
    tmp_path: Path, known: Store
) -> None:
    run = Run(known)
    revision = hung(tmp_path, run, load_n=4800.0)
    (rail,) = revision.hung.rails
    assert rail.studs_mm is not None
    assert len(rail.studs_mm) > 2
    same, failing = afresh(revision, run)
    assert [(one.name, one.what) for one in same.change_plan.rails] == [("R1", "stays")]
    assert (failing, same.woodwork.plan) == (set(), None)
    few = replace(rail, studs_mm=(rail.studs_mm[0], rail.studs_mm[-1]))
    less = replace(revision, hung=replace(revision.hung, rails=(few,)))
    job, failing = afresh(less, run)
    assert failing == set()
    assert {one.name: one.what for one in job.change_plan.rails} == {
        "R1": "comes down",
        "R2": "is new",
    }
    (told,) = (one for one in job.change_plan.rail_notes if "R1" in one)
    assert told == "Rail R1 must come down: its anchors do not bear what would hang there."


def test_a_rail_that_does_not_hold_stays_where_a_new_one_would_not_hold_either(
    tmp_path: Path, known: Store
) -> None:
    run = Run(known)
    job, failing = afresh(hung(tmp_path, run, load_n=900.0), run)
    assert failing == {"R1"}
    assert [(one.name, one.what) for one in job.change_plan.rails] == [("R1", "stays")]
