"""A mark comes from the shape that is printed and from its material, and from nothing else."""

from __future__ import annotations

import math
from dataclasses import fields, is_dataclass, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cleatwright.design.building import BuiltPart, build
from cleatwright.design.describing import describe
from cleatwright.design.proving import trial_carrier, trial_recipe
from cleatwright.design.recipe import MaterialRecipe, Recipe, recipe_from_json
from cleatwright.design.shape_key import quantised, shape_key
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.pack.output_file import drawn
from cleatwright.pack.partfiles import part_files
from cleatwright.shapes.rigid import Rigid, turn

PLIERS = trial_recipe("straddle-bar", "pliers", (1.0,), mount="french-cleat")
WIDER = trial_recipe("straddle-bar", "pliers", (0.8, 1.0), joint="dovetail")
CLIP = trial_recipe("spring-clip", "marker", (1.0,))


def longer(recipe: Recipe, measure: str, by_mm: float) -> Recipe:
    (seat,) = recipe.seats
    changed = seat.measures | {measure: seat.measures[measure] + by_mm}
    return recipe.model_copy(update={"seats": (seat.model_copy(update={"measures": changed}),)})


def of(recipe: Recipe, material: str, *, density: float = 1240.0) -> Recipe:
    made_of = MaterialRecipe(word=material, density_kg_m3=density)
    return recipe.model_copy(update={"material": made_of})


def built(recipe: Any) -> BuiltPart:
    return build(recipe, MeshKernel())


def test_a_measure_that_changes_nothing_in_the_part_keeps_its_mark_and_its_bytes() -> None:
    first, other = built(PLIERS), built(longer(PLIERS, "length", 0.1))
    assert first.recipe.key != other.recipe.key
    assert first.key != other.key
    assert first.mark == other.mark
    assert drawn(part_files(first)) == drawn(part_files(other))


def test_a_measure_that_changes_the_part_changes_its_mark() -> None:
    assert built(PLIERS).mark != built(longer(PLIERS, "thickness", 0.1)).mark


def test_another_material_is_another_mark_and_another_spelling_or_density_is_not() -> None:
    first = built(of(PLIERS, "PLA"))
    assert built(of(PLIERS, "PETG")).mark != first.mark
    assert built(of(PLIERS, " pla ")).mark == first.mark
    assert built(of(PLIERS, "PLA", density=1300.0)).mark == first.mark


def test_the_same_part_of_another_material_has_the_same_body_but_for_its_mark() -> None:
    kernel = MeshKernel()
    plain = [kernel.evaluate(built(of(PLIERS, word)).part.solid).facts for word in ("PLA", "PETG")]
    assert plain[0] == plain[1]


def test_a_clip_follows_its_material() -> None:
    """PETG bears twice the strain of PLA (standards/materials): its arms are shorter."""
    brittle, tough, unknown = (built(of(CLIP, word)) for word in ("PLA", "PETG", "Nylon"))
    reach = [one.part.bounds_mm[1][1] for one in (brittle, tough, unknown)]
    assert reach[1] < reach[0] - 3.0
    assert reach[2] == reach[0]
    (check,) = [one for one in tough.contract if one.name == "spring strain"]
    assert check.holds
    assert check.capacity == pytest.approx(1.2)
    assert check.note == "seat 1, the filament is PETG"
    (check,) = [one for one in unknown.contract if one.name == "spring strain"]
    assert check.capacity == pytest.approx(0.6)
    assert 'there are no values for "Nylon"' in check.note


def test_a_carrier_has_the_mark_of_its_own_shape() -> None:
    holder = trial_recipe("straddle-bar", "pliers", (1.0,), joint="dovetail")
    first = built(trial_carrier(holder, mount="french-cleat"))
    same = built(trial_carrier(longer(holder, "length", 0.1), mount="french-cleat"))
    wider = built(trial_carrier(WIDER, mount="french-cleat"))
    petg = built(trial_carrier(of(holder, "PETG"), mount="french-cleat"))
    assert first.recipe.key != same.recipe.key
    assert first.mark == same.mark
    assert len({first.mark, wider.mark, petg.mark}) == 3


def test_a_carrier_of_wood_keeps_its_mark_whatever_its_holders_are_printed_of() -> None:
    holder = trial_recipe("straddle-bar", "pliers", (1.0,), joint="dovetail")

    def wooden(one: Recipe) -> BuiltPart:
        params = {"pin_count": 0.0}
        carrier = trial_carrier(one, mount="french-cleat")
        return built(carrier.model_copy(update={"made_of": "wood", "params": params}))

    first = wooden(holder)
    assert first.part.joinery is not None
    assert wooden(of(holder, "PETG")).mark == first.mark
    assert wooden(longer(holder, "length", 0.1)).mark == first.mark
    assert wooden(WIDER).mark != first.mark


def test_a_recipe_comes_back_whole() -> None:
    recipe = of(CLIP, "PETG", density=1271.5)
    assert recipe_from_json(recipe.to_json(), where="here") == recipe


# what people write: thousandths of a mm, 64ths of an inch, and halves of both
WRITTEN = st.one_of(
    st.integers(-2_000_000, 2_000_000).map(lambda n: n * 0.0005),
    st.integers(-5_000, 5_000).map(lambda n: n * 25.4 / 128),
)


@given(WRITTEN, st.floats(-1e-9, 1e-9))
def test_the_last_digits_of_a_length_change_no_step(length: float, noise: float) -> None:
    assert quantised(length) == quantised(length + noise)


@given(WRITTEN, st.sampled_from([-1.0, 1.0]))
def test_two_ten_thousandths_of_a_mm_are_another_shape(length: float, sign: float) -> None:
    assert quantised(length) != quantised(length + sign * 2e-4)


@given(st.floats(-360.0, 360.0))
def test_a_turn_that_moves_what_lies_a_metre_away_by_a_thousandth_is_another_shape(
    angle: float,
) -> None:
    other = angle + math.degrees(1e-6)
    assert quantised(turn("z", angle)) != quantised(turn("z", other))


def numbers(value: object) -> int:
    """Return how many numbers a description holds."""
    if isinstance(value, float):
        return 1
    if isinstance(value, tuple):
        return sum(map(numbers, value))
    if is_dataclass(value):
        return sum(numbers(getattr(value, field.name)) for field in fields(value))
    return 0


def shaken(value: Any, left: list[int], noise: float) -> Any:
    """Return a description with its number ``left`` changed by ``noise``."""
    if isinstance(value, float):
        left[0] -= 1
        return value + noise if left[0] == -1 else value
    if isinstance(value, tuple):
        return tuple(shaken(one, left, noise) for one in value)
    if isinstance(value, Rigid):
        # a motion refuses rows that are off by more
        rows = shaken(value.rows, left, noise / 10)
        return Rigid(rows, shaken(value.shift_mm, left, noise))
    if is_dataclass(value) and not isinstance(value, type):
        changes = {f.name: shaken(getattr(value, f.name), left, noise) for f in fields(value)}
        return replace(value, **changes)
    return value


# upwards: no height of a chamfer and no radius may be less than 0
@given(st.data(), st.floats(1e-11, 1e-9))
def test_noise_in_any_number_of_a_part_does_not_change_its_mark(
    data: st.DataObject, noise: float
) -> None:
    part = describe(PLIERS)
    at = data.draw(st.integers(0, numbers(part.solid) - 1))
    other = replace(part, solid=shaken(part.solid, [at], noise))
    assert other.solid.content_key != part.solid.content_key
    assert shape_key(PLIERS, other) == shape_key(PLIERS, part)
