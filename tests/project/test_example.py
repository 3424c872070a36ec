"""The example in inches, done once as a whole."""

from pathlib import Path

import trimesh

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.jobs.making import all_files_of
from cleatwright.project.computing import compute


def test_the_joiners_bench_holds_prints_and_is_within_its_boards(
    examples: Path, known: Store
) -> None:
    job = compute(examples / "joiners-bench", run=Run(known))
    assert all(built.holds for built in job.built)
    seated = sorted(tool.name for planned in job.planned for tool in planned.tools)
    assert seated == sorted(item.name for item in job.workshop.items())
    for built in job.built:
        mesh = built.print_mesh
        # trimesh welds corners by their place, as readers of STL files do
        assert trimesh.Trimesh(mesh.vertices, mesh.triangles).is_watertight
    assert job.woodwork.plan is not None
    assert "proven" in job.woodwork.plan.verdict
    files = all_files_of(job)
    assert {name.split("/")[0] for name in files} == {
        "batches",
        "lists",
        "parts",
        "report.json",
        "wall",
        "wood",
    }
    # the drawing of a workshop in inches speaks inches
    assert " in" in files["wall/elevation.svg"].decode()
