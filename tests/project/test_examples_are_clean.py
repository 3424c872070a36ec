"""The examples that come with the program leave no fault open."""

from __future__ import annotations

from pathlib import Path

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.jobs.making import make_workshop
from cleatwright.project.computing import compute

EXAMPLES = ("bicycle-room", "joiners-bench", "shared-workshop")


@pytest.mark.parametrize("example", EXAMPLES)
def test_an_example_holds_and_warns_of_nothing(
    example: str, examples: Path, tmp_path: Path, known: Store
) -> None:
    made = make_workshop(examples / example, out=tmp_path / "out", dry_run=True, run=Run(known))
    assert made.holds
    assert made.failing == ()
    assert made.warnings == ()


@pytest.mark.parametrize("example", EXAMPLES)
def test_no_holder_that_prints_free_on_its_back_needs_support(
    example: str, examples: Path, known: Store
) -> None:
    """Tools share a holder only as far as it lies on the bed on its back."""
    job = compute(examples / example, run=Run(known))
    printed = job.production.by_key
    supported = [
        planned.name
        for planned, built in zip(job.planned, job.built, strict=True)
        if built.part.print_pose == "on-its-back" and printed[planned.key].overhang_mm2 > 0.0
    ]
    assert supported == []
