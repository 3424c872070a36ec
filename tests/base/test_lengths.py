"""Lengths as people read them, against exact fractions of the inch."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import MeasureError
from cleatwright.base.lengths import Wording, fine_length, length_words, said_mm
from cleatwright.base.units import length_mm

INCH = 25.4  # exactly, international yard and pound agreement of 1959
WORDS = Wording("in", frozenset({"Wrench 13 mm"}))


@settings(deadline=None)
@given(st.integers(0, 32 * 400))
def test_every_thirty_second_is_written_as_the_fraction_in_lowest_terms(parts: int) -> None:
    """Against the standard library's fractions."""
    told = length_words(float(Fraction(parts, 32)) * INCH, "in")
    whole, _, rest = told.rpartition("-") if "-" in told else ("", "", told)
    assert Fraction(whole or 0) + Fraction(rest) == Fraction(parts, 32)
    bottom = re.fullmatch(r"(\d+)/(\d+)", rest)
    assert bottom is None or Fraction(rest).denominator == int(bottom[2])


@settings(deadline=None)
@given(st.floats(1.6, 6000.0))
def test_what_is_written_reads_back_within_a_sixty_fourth(mm: float) -> None:
    assert abs(length_mm(f"{length_words(mm, 'in')} in") - mm) <= INCH / 64 + 1e-6


def test_a_layer_is_not_lost_in_rounding() -> None:
    """0.2 / 25.4 = 0.00787, by hand."""
    assert length_words(0.2, "in") == "0.008"
    assert fine_length(6.35, "in") == "0.250"
    with pytest.raises(MeasureError):
        length_words(1.0, "ft")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a wall of 609.6 x 1219.2 mm", "a wall of 24 x 48 in"),
        ("from x 12.7 mm to 50.8 mm", "from x 1/2 to 2 in"),
        ('"Wrench 13 mm" needs 25.4 mm', '"Wrench 13 mm" needs 1 in'),
        ("645.16 mm2 of overhang", "1.00 in2 of overhang"),
        ("12 N/mm2 and a layer of 0.2 mm", "12 N/mm2 and a layer of 0.008 in"),
        ("stays hooked: 25.4 of 50.8 mm of depth", "stays hooked: 1.000 of 2.000 in of depth"),
        ("6451.6 cm2 of wall a tool", "1000 in2 of wall a tool"),
        ("studs at x 406.4 and 1625.6 mm", "studs at x 16 and 64 in"),
        ("rails R1 and R2, 76.2 mm", "rails R1 and R2, 3 in"),
        (
            "countersunk wood screw 5 x 70 mm",
            "countersunk wood screw metric 5 x 70 (3/16 x 2-3/4 in)",
        ),
        ("M5, 2 screws of 38.1 mm", "M5, 2 screws of 1-1/2 in"),
        ("at x -38.1 mm", "at x -1-1/2 in"),
        # a length on the grid is its own bound, whichever way it is rounded
        ("at least 25.4 mm", "at least 1 in"),
        ("at most 25.4 mm", "at most 1 in"),
        # 30 mm are 37.8 thirty-seconds
        ("up to 30 mm", "up to 1-5/32 in"),
        ("at least 30 mm", "at least 1-3/16 in"),
    ],
)
def test_a_sentence_is_turned_into_inches_and_names_stay(text: str, said: str) -> None:
    """By hand with 1 in = 25.4 mm."""
    assert WORDS(text) == said
    assert WORDS(said) == said
    assert Wording()(text) == text


@settings(deadline=None)
@given(st.floats(2.0, 5000.0))
def test_a_bound_is_never_rounded_to_what_it_forbids(mm: float) -> None:
    most = WORDS(f"at most {mm} mm").removeprefix("at most ")
    least = WORDS(f"at least {mm} mm").removeprefix("at least ")
    assert length_mm(most) <= mm + 1e-3
    assert length_mm(least) >= mm - 1e-3


@settings(deadline=None)
@given(st.floats(2.0, 5000.0))
def test_a_length_in_a_sentence_comes_out_as_on_paper(mm: float) -> None:
    """One that is written to 0.001 mm first is at the next 1/32 only where it is halfway."""
    parts = mm / INCH * 32
    if abs(parts % 1 - 0.5) > 0.002:
        assert WORDS(f"at x {said_mm(mm)} mm") == f"at x {length_words(mm, 'in')} in"
    assert abs(float(Wording()(f"{said_mm(mm)} mm").removesuffix(" mm")) - mm) <= 0.0506


def test_the_place_of_a_screw_is_not_rounded_to_whole_millimetres() -> None:
    """A screw 12.5 mm from the edge of a stud at 25 mm is at 37.5 mm."""
    assert Wording()(f"screw at x {said_mm(37.5)} mm") == "screw at x 37.5 mm"
    assert Wording()(f"at most {said_mm(99.97)} mm") == "at most 99.9 mm"
