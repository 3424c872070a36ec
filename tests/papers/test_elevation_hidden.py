"""Hidden edges against lengths in closed form."""

import itertools
import math

import pytest

from cleatwright.papers.elevation.hidden import hidden_lines


def box(x0: float, z0: float, x1: float, z1: float) -> tuple[tuple[float, float], ...]:
    return ((x0, z0), (x1, z0), (x1, z1), (x0, z1))


def length(lines: tuple[tuple[tuple[float, float], ...], ...]) -> float:
    return sum(math.dist(a, b) for line in lines for a, b in itertools.pairwise(line))


def test_two_sides_of_a_bar_are_hidden_where_it_crosses_a_plate() -> None:
    """A bar 10 wide behind a plate 40 high: its two long sides, 40 each."""
    lines = hidden_lines((box(5.0, -50.0, 15.0, 50.0),), (box(-100.0, 0.0, 100.0, 40.0),))
    assert len(lines) == 2
    assert length(lines) == pytest.approx(80.0)


def test_what_is_seen_through_a_hole_is_not_hidden() -> None:
    """The hole is 20 high, so of each side only 40 - 20 stay behind the plate."""
    plate = (box(-100.0, 0.0, 100.0, 40.0), box(-50.0, 10.0, 50.0, 30.0))
    lines = hidden_lines((box(5.0, -50.0, 15.0, 50.0),), plate)
    assert len(lines) == 4
    assert length(lines) == pytest.approx(40.0)


def test_an_outline_wholly_behind_is_hidden_all_round_and_one_beside_not_at_all() -> None:
    whole = hidden_lines((box(10.0, 10.0, 20.0, 30.0),), (box(0.0, 0.0, 100.0, 100.0),))
    assert length(whole) == pytest.approx(60.0)
    assert hidden_lines((box(200.0, 0.0, 210.0, 10.0),), (box(0.0, 0.0, 100.0, 100.0),)) == ()
    assert hidden_lines((box(0.0, 0.0, 10.0, 10.0),), ()) == ()
