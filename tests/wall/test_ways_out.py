"""What is told about a way out, and what a wall may hold."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import MeasureError
from cleatwright.base.lengths import IN_MM
from cleatwright.base.said import in_mm
from cleatwright.wall.way_out import DIRECTIONS, Hindrance, Hit, Surroundings, WayProof


def test_a_free_tool_has_nothing_to_tell() -> None:
    proof = WayProof("Saw", "Saws", "003", 52.0, None, None)
    assert proof.free
    assert proof.sentences == ()


def test_each_hit_has_its_own_sentence_with_the_way_the_thing_and_the_remedy() -> None:
    hit = Hit("socket", "obstacle", 0.0, 7.0, "left")
    hand = Hit("R1", "rail", 12.04, 0.31, "down")
    proof = WayProof("Saw", "Saws", "003", 52.0, hit, hand)
    assert not proof.free
    first, second = IN_MM.all(proof.sentences)
    assert first == (
        'The tool "Saw" meets the obstacle "socket" before it has moved: '
        "it needs at least 7.0 mm more to the left."
    )
    assert second == (
        'A hand that takes the tool "Saw" meets the rail "R1" after 12.0 of 52.0 mm: '
        "it needs at least 0.4 mm more down."
    )


@settings(deadline=None, max_examples=50)
@given(short=st.floats(0.001, 500.0))
def test_the_shift_that_is_told_frees_the_way(short: float) -> None:
    told = float(in_mm(Hit("a", "tool", 1.0, short, "up").remedy).split()[2])
    assert short - 1e-6 <= told <= short + 0.1


def test_the_reader_s_left_is_the_growing_x_of_the_frame() -> None:
    """X runs to the left for a person who faces the wall, z up; each direction has its opposite."""
    steps = dict(DIRECTIONS)
    assert steps["left"] == (1.0, 0.0, 0.0)
    assert steps["up"] == (0.0, 0.0, 1.0)
    assert steps["left"] == tuple(-part for part in steps["right"])
    assert steps["up"] == tuple(-part for part in steps["down"])


@pytest.mark.parametrize(
    ("width", "height", "out"), [(0.0, 10, 10), (10, -1.0, 10), (10, 10, -0.1), (10, 10, math.nan)]
)
def test_an_obstacle_that_is_no_box_is_refused(width: float, height: float, out: float) -> None:
    with pytest.raises(MeasureError, match='obstacle "socket"'):
        Hindrance("socket", 0.0, 0.0, width, height, out)


def test_less_than_no_room_for_the_hand_is_refused() -> None:
    with pytest.raises(MeasureError, match="room for the hand"):
        Surroundings((), (), -1.0)
