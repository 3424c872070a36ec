"""The examples that come with the program leave no fault open, and plans say what comes of them."""

from __future__ import annotations

import statistics
from dataclasses import dataclass
from pathlib import Path

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.design.weighed import figures_of, weighed_families
from cleatwright.jobs.made import Made
from cleatwright.jobs.making import make_workshop
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute

EXAMPLES = ("bicycle-room", "joiners-bench", "shared-workshop")


@dataclass(frozen=True)
class Example:
    """An example, computed once for all that is asked of it here."""

    made: Made
    job: Job
    run: Run


@pytest.fixture(scope="module", params=EXAMPLES)
def example(
    request: pytest.FixtureRequest,
    examples: Path,
    tmp_path_factory: pytest.TempPathFactory,
    known: Store,
) -> Example:
    folder, run = examples / str(request.param), Run(known)
    made = make_workshop(
        folder, out=tmp_path_factory.mktemp("example") / "out", dry_run=True, run=run
    )
    return Example(made, compute(folder, run=run), run)


def test_an_example_holds_and_warns_of_nothing(example: Example) -> None:
    assert example.made.holds
    assert example.made.failing == ()
    assert example.made.warnings == ()


def test_what_a_plan_says_of_plastic_and_support_is_what_the_printing_list_says(
    example: Example,
) -> None:
    """Support is the same for each holder; nine in ten weigh within a tenth, none off by 25 %."""
    job, off = example.job, list[float]()
    for one in job.planned:
        printed = job.production.by_key[one.key]
        found = figures_of(job.workshop, one, example.run)
        assert found.support == (printed.overhang_mm2 > 0.0), (one.name, one.recipe.family)
        if printed.walls.share is not None:
            off.append(found.grams / (printed.mass_kg * 1e3) - 1.0)
    near = sorted(map(abs, off))
    assert near[int(0.9 * len(near))] < 0.1
    assert near[-1] < 0.25
    assert abs(statistics.mean(off)) < 0.03


def test_the_family_in_use_is_the_first_and_each_other_has_figures_or_a_reason(
    example: Example,
) -> None:
    job = example.job
    for one in job.planned[:6]:
        first, *others = weighed_families(job.workshop, one, example.run)
        assert (first.name, first.state) == (one.recipe.family, "used")
        assert first.figures is not None
        assert all(other.figures or other.words for other in others)
        costs = [other.cost_g for other in others if other.cost_g is not None]
        assert costs == sorted(costs)
