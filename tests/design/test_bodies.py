"""A body is a function of its solid, and is meshed once for all that ask for it."""

from __future__ import annotations

import random

import numpy as np
import pytest
import trimesh

from cleatwright.base.stages.run import Run
from cleatwright.design.building import build
from cleatwright.design.proving import trial_recipe
from cleatwright.design.recipe import Recipe
from cleatwright.holders.registry import FAMILIES
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.solid import Solid
from cleatwright.tools.registry import KINDS, ordinary_body

PLIERS = trial_recipe("straddle-bar", "pliers", (1.0, 1.0), joint="dovetail")


def longer(recipe: Recipe, by_mm: float) -> Recipe:
    """Return a recipe with its first tool longer, which this holder does not feel."""
    first, *rest = recipe.seats
    changed = first.measures | {"length": first.measures["length"] + by_mm}
    return recipe.model_copy(
        update={"seats": (first.model_copy(update={"measures": changed}), *rest)}
    )


def test_a_measure_that_changes_nothing_in_the_part_meshes_nothing() -> None:
    known = Run()
    before = build(PLIERS, MeshKernel(), run=known)
    counted = dict(known.computed)
    after = build(longer(PLIERS, 0.1), MeshKernel(), run=known)
    assert known.computed["body"] == counted["body"]
    assert known.computed["marked body"] == counted["marked body"]
    # and only the tool that changed is tried in its seat
    assert known.computed["trial of a seat"] == counted["trial of a seat"] + 1
    alone = build(longer(PLIERS, 0.1), MeshKernel())
    assert after.body is before.body
    assert after.checks == alone.checks
    assert after.key == alone.key != before.key


def ordinary_solids() -> list[Solid]:
    """Return the solids of parts of each family, plain and marked."""
    found: list[Solid] = []
    for family in FAMILIES.values():
        kind = next(kind for kind in KINDS if family.why_not(ordinary_body(kind)) is None)
        for sizes in ((1.0,), (1.0, 0.97)):
            one = build(trial_recipe(family.name, kind, sizes), MeshKernel())
            found += [one.part.solid, one.solid]
    return found


def test_a_body_does_not_depend_on_what_its_kernel_built_before() -> None:
    """The oracle is a kernel that has built nothing; vertices and triangles agree to the bit."""
    solids = ordinary_solids()
    alone = [MeshKernel().evaluate(solid) for solid in solids]
    places = list(range(len(solids)))
    random.Random(5).shuffle(places)  # noqa: S311 - no secret
    kernel = MeshKernel(keep=10_000)
    for place in places:
        body = kernel.evaluate(solids[place])
        assert np.array_equal(body.vertices_mm, alone[place].vertices_mm)
        assert np.array_equal(body.triangles, alone[place].triangles)


def test_a_marked_part_is_kept_as_its_mesh_alone_and_stays_the_same_body() -> None:
    """The oracles are a body that was just made, and trimesh for its volume."""
    for solid in ordinary_solids():
        fresh = MeshKernel().evaluate(solid)
        settled = fresh.settled()
        assert settled.kept_bytes == settled.vertices_mm.nbytes + settled.triangles.nbytes
        assert 5 * settled.kept_bytes < fresh.kept_bytes
        assert np.array_equal(settled.vertices_mm, fresh.vertices_mm)
        assert np.array_equal(settled.triangles, fresh.triangles)
        mesh = trimesh.Trimesh(settled.vertices_mm, settled.triangles, process=False)
        assert settled.facts == fresh.facts
        assert settled.facts.volume_mm3 == pytest.approx(mesh.volume, rel=1e-9)
        assert np.array_equal(settled.box_mm, fresh.box_mm)
        assert settled.overlap_mm3(fresh) == pytest.approx(mesh.volume, rel=1e-6)
    built = build(PLIERS, MeshKernel())
    assert built.marking.lines
    assert built.body.kept_bytes == built.body.vertices_mm.nbytes + built.body.triangles.nbytes
