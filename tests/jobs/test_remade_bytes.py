"""Every part of every example is made again from its recipe alone, byte for byte.

In this process all of them, in another every third.
"""

from __future__ import annotations

import hashlib
import json
import random
import subprocess
import sys
from pathlib import Path

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.design.building import BuiltPart, build
from cleatwright.design.carrying import build_units, plan_units, printed_parts
from cleatwright.design.planning import plan
from cleatwright.design.recipe import recipe_from_json
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.remaking import remake_part
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.pack.output_file import drawn
from cleatwright.pack.partfiles import part_files
from cleatwright.workshop.document.store import load
from cleatwright.workshop.ledger.database import open_ledger

EXAMPLES = ("bicycle-room", "joiners-bench", "shared-workshop")
ELSEWHERE = """
import json, sys
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.design.building import build
from cleatwright.pack.output_file import drawn
from cleatwright.pack.partfiles import part_files
from cleatwright.design.recipe import recipe_from_json
import hashlib
kernel = MeshKernel()
for recipe in json.load(sys.stdin):
    built = build(recipe_from_json(recipe, where="recipe"), kernel)
    files = drawn(part_files(built)).items()
    print(json.dumps([built.mark, {n: hashlib.sha256(d).hexdigest() for n, d in files}]))
"""


def digests(built: BuiltPart) -> dict[str, str]:
    return {
        name: hashlib.sha256(data).hexdigest() for name, data in drawn(part_files(built)).items()
    }


def test_a_mark_of_several_recipes_is_remade_from_the_newest_with_the_bytes_that_were_made(
    shed: Path, tmp_path: Path
) -> None:
    """Pliers 0.1 mm longer lie in an equal bar, which keeps its mark."""
    first = make_workshop(shed)
    mark = next(row.mark for row in first.holders if row.name == "Pliers")
    document = shed / "workshop.toml"
    document.write_text(document.read_text("utf-8").replace("length = 182,", "length = 182.1,"))
    made = make_workshop(shed)
    assert next(row.mark for row in made.holders if row.name == "Pliers") == mark
    with open_ledger(shed) as ledger:
        newest, oldest = ledger.recipes(mark)
    assert ('"length":182.1' in newest.recipe_json, '"length":182.0' in oldest.recipe_json) == (
        True,
        True,
    )
    paths = remake_part(shed, mark, out=tmp_path / "again")
    assert paths
    for path in paths:
        made_before = shed / "out" / path.relative_to(tmp_path / "again")
        assert path.read_bytes() == made_before.read_bytes()


@pytest.mark.parametrize("example", EXAMPLES)
def test_every_mark_gives_the_same_bytes_whatever_was_built_before(
    example: str, examples: Path
) -> None:
    place = examples / example
    workshop = load(place)
    planned = plan_units(workshop, plan(workshop, folder=place), run=Run())
    units = build_units(planned, Run())
    made = {one.mark: one for _, one in printed_parts(units).values()}
    files = {mark: digests(one) for mark, one in made.items()}
    recipes = [one.recipe.to_json() for one in made.values()]
    random.Random(example).shuffle(recipes)  # noqa: S311 - an order, no secret

    kernel = MeshKernel()
    for recipe in recipes:
        again = build(recipe_from_json(recipe, where="recipe"), kernel)
        first = made[again.mark]
        assert digests(again) == files[again.mark], again.mark
        assert again.body.facts == first.body.facts
        assert (again.own, again.checks) == (first.own, first.checks)

    # in their shuffled order: others would build other parts before the same
    some = recipes[::-3]
    elsewhere = subprocess.run(  # noqa: S603 - our own interpreter and code
        [sys.executable, "-c", ELSEWHERE],
        input=json.dumps(some),
        capture_output=True,
        check=True,
        text=True,
    )
    told = dict(json.loads(line) for line in elsewhere.stdout.splitlines())
    assert len(told) == len(some)
    assert told == {mark: files[mark] for mark in told}
