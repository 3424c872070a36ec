"""Measures of a mount that only the owner can know: none is taken for granted."""

from __future__ import annotations

import pytest

from cleatwright.base.errors import MeasureError
from cleatwright.design.params import checked_params
from cleatwright.mounts.registry import MOUNTS

SLOTTED = MOUNTS["slotted-board"]
NEEDED = {"slot_width": 5.5, "slot_height": 21.0, "pitch": 31.0, "board": 4.0}


def check(given: dict[str, float]) -> tuple[tuple[str, float], ...]:
    return checked_params("mount", SLOTTED.name, SLOTTED.params, given)


def test_a_slotted_board_has_no_measures_but_the_play_until_its_owner_gives_them() -> None:
    with pytest.raises(MeasureError) as raised:
        check({})
    said = str(raised.value)
    for key in NEEDED:
        assert f"{key} is missing" in said
        assert f"{key} = ..." in raised.value.todo
    assert "[mount.slotted-board]" in raised.value.todo
    assert "play is missing" not in said


@pytest.mark.parametrize("left_out", sorted(NEEDED))
def test_each_measure_that_is_missing_is_named(left_out: str) -> None:
    given = {key: value for key, value in NEEDED.items() if key != left_out}
    with pytest.raises(MeasureError, match=f"{left_out} is missing") as raised:
        check(given)
    assert raised.value.todo.endswith(f"[mount.slotted-board]: {left_out} = ...")


def test_a_measured_board_is_taken_and_a_wrong_value_is_named_beside_a_missing_one() -> None:
    assert check(NEEDED) == tuple(sorted(NEEDED.items()))
    with pytest.raises(MeasureError) as raised:
        check({**NEEDED, "pitch": 500.0, "board": 4.0} | {"slot_width": 5.5})
    assert "pitch is 500" in str(raised.value)
    assert raised.value.todo == ""


@pytest.mark.parametrize("name", sorted(MOUNTS))
def test_every_mount_has_an_example_for_trials(name: str) -> None:
    mount = MOUNTS[name]
    mount.params.model_validate(dict(mount.example))
    needed = {key for key, field in mount.params.model_fields.items() if field.is_required()}
    assert {key for key, _ in mount.example} == needed
