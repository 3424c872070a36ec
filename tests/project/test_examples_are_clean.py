"""The examples that come with the program leave no fault open."""

from __future__ import annotations

from pathlib import Path

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.jobs.making import make_workshop

EXAMPLES = ("bicycle-room", "joiners-bench", "shared-workshop")


@pytest.mark.parametrize("example", EXAMPLES)
def test_an_example_holds_and_warns_of_nothing(
    example: str, examples: Path, tmp_path: Path, known: Store
) -> None:
    made = make_workshop(examples / example, out=tmp_path / "out", dry_run=True, run=Run(known))
    assert made.holds
    assert made.failing == ()
    assert made.warnings == ()
