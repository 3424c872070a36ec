"""Fittings from recipes: read back they give the same bytes; alike ones have one recipe."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cleatwright.base.errors import LedgerError, UnknownNameError
from cleatwright.base.stages.run import Run
from cleatwright.design.building import build
from cleatwright.design.describing import describe, fitting_recipes
from cleatwright.design.proving import trial_recipe
from cleatwright.design.recipe import FittingRecipe, Recipe, recipe_from_json
from cleatwright.kernels.mesh import MeshKernel

HUNG = trial_recipe("tray", "box", (1.0,), mount="french-cleat")


def recipes() -> tuple[FittingRecipe, ...]:
    return fitting_recipes(HUNG, describe(HUNG))


@pytest.mark.parametrize("name", ["bolt", "hanger"])
def test_a_fitting_is_made_again_to_the_byte(name: str) -> None:
    found = next(one for one in recipes() if one.name == name)
    again = recipe_from_json(found.to_json(), where="the ledger")
    assert isinstance(again, FittingRecipe)
    assert again == found
    assert again.to_json() == found.to_json()
    first, second = build(found, MeshKernel(), run=Run()), build(again, MeshKernel(), run=Run())
    assert first.mark == second.mark
    assert first.body.vertices_mm.tobytes() == second.body.vertices_mm.tobytes()
    assert first.body.triangles.tobytes() == second.body.triangles.tobytes()
    assert first.holds


def test_hangers_of_one_holder_are_one_recipe_and_a_bolt_another() -> None:
    found = recipes()
    hangers = {one.key for one in found if one.name == "hanger"}
    bolts = {one.key for one in found if one.name == "bolt"}
    assert len(hangers) == len(bolts) == 1
    assert hangers.isdisjoint(bolts)


def test_a_fitting_of_another_rail_filament_or_printer_is_another_part() -> None:
    (bolt,) = [one for one in recipes() if one.name == "bolt"]
    shorter = bolt.model_copy(update={"measures": {"lead_mm": 5.0}})
    assert shorter.key != bolt.key
    words = bolt.material.model_copy(update={"word": "PETG"})
    assert bolt.model_copy(update={"material": words}).key != bolt.key


def test_a_holder_and_a_fitting_are_told_apart_when_read_back() -> None:
    assert isinstance(recipe_from_json(HUNG.to_json(), where="here"), Recipe)
    (bolt, *_) = recipes()
    with pytest.raises(LedgerError):
        recipe_from_json(bolt.to_json().replace('"fitting"', '"screw"'), where="here")
    with pytest.raises(UnknownNameError):
        describe(bolt.model_copy(update={"name": "nail"}))


def test_a_part_on_a_flat_back_has_no_fittings() -> None:
    flat = trial_recipe("tray", "box", (1.0,), mount="wall-screws")
    assert fitting_recipes(flat, describe(flat)) == ()
    assert fitting_recipes(HUNG, replace(describe(HUNG), fittings=())) == ()
