"""Lengths as people read them, against exact fractions of the inch."""

from __future__ import annotations

import math
import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.base.lengths import Wording, fine_length, length_words
from cleatwright.base.units import length_mm

INCH = 25.4  # exactly, international yard and pound agreement of 1959
WORDS = Wording("in")


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
    ("text", "millimetres", "inches"),
    [
        (f"a wall of {said.sides((609.6, 1219.2), '')}", "609.6 x 1219.2 mm", "24 x 48 in"),
        (f"x {said.number(12.7)} to {said.mm(50.8)}", "x 12.7 to 50.8 mm", "x 1/2 to 2 in"),
        (f'"Wrench 13 mm" needs {said.mm(25.4)}', '13 mm" needs 25.4 mm', '13 mm" needs 1 in'),
        (f"{said.area(645.16)} of overhang", "645 mm2 of", "1.00 in2 of"),
        (f"12 N/mm2 and {said.mm(0.2)}", "12 N/mm2 and 0.2 mm", "12 N/mm2 and 0.008 in"),
        (
            f"{said.fine(25.4, '.1f')} of {said.fine_mm(50.8, '.1f')} of depth",
            "25.4 of 50.8 mm of depth",
            "1.000 of 2.000 in of depth",
        ),
        (f"{said.wide_area(645160.0)} of wall", "6452 cm2 of wall", "1000 in2 of wall"),
        (f"at x {said.row((406.4, 1625.6))}", "x 406.4 and 1625.6 mm", "x 16 and 64 in"),
        (
            f"wood screw {said.metric(5, 70)}",
            "wood screw 5 x 70 mm",
            "wood screw metric 5 x 70 (3/16 x 2-3/4 in)",
        ),
        # 1 lb is 0.45359237 kg by the agreement of 1959, and 16 oz
        (f"its {said.mass(0.3)}", "its 0.30 kg", "its 10.6 oz"),
        (f"its {said.mass(2.0, '.1f')}", "its 2.0 kg", "its 4.41 lb"),
        (f"M5, 2 screws of {said.mm(38.1)}", "2 screws of 38.1 mm", "2 screws of 1-1/2 in"),
        (f"at x {said.mm(-38.1)}", "at x -38.1 mm", "at x -1-1/2 in"),
        # a length on the grid is its own bound, whichever way it is rounded
        (f"at least {said.least(25.4)}", "at least 25.4 mm", "at least 1 in"),
        (f"at most {said.most(25.4)}", "at most 25.4 mm", "at most 1 in"),
        # 30 mm are 37.8 thirty-seconds
        (f"up to {said.most(30.0)}", "up to 30 mm", "up to 1-5/32 in"),
        (f"at least {said.least(30.0)}", "at least 30 mm", "at least 1-3/16 in"),
        (f"{said.mm(math.inf)} long", "inf mm long", "inf in long"),
    ],
)
def test_the_lengths_of_a_sentence_are_put_into_words_and_nothing_else(
    text: str, millimetres: str, inches: str
) -> None:
    """By hand with 1 in = 25.4 mm."""
    assert millimetres in Wording("mm")(text)
    assert inches in WORDS(text)
    for words in (Wording("mm"), WORDS):
        assert words(words(text)) == words(text)


@settings(deadline=None)
@given(st.text())
def test_a_text_without_a_mark_is_left_as_it_is(text: str) -> None:
    assert WORDS(text) == Wording("mm")(text) == text


@settings(deadline=None)
@given(st.floats(2.0, 5000.0), st.sampled_from(["", ".0f", ".1f"]))
def test_a_bound_is_never_rounded_to_what_it_forbids(mm: float, form: str) -> None:
    for words in (Wording("mm"), WORDS):
        assert length_mm(words(said.most(mm, form))) <= mm + 1e-3
        assert length_mm(words(said.least(mm, form))) >= mm - 1e-3


@settings(deadline=None)
@given(st.floats(2.0, 5000.0))
def test_a_length_in_a_sentence_comes_out_as_on_paper(mm: float) -> None:
    assert WORDS(f"at x {said.mm(mm)}") == f"at x {length_words(mm, 'in')} in"
    assert abs(length_mm(Wording()(said.mm(mm))) - mm) <= 0.0051
    assert abs(length_mm(Wording()(said.at(mm))) - mm) <= 0.0501


def test_the_place_of_a_screw_is_not_rounded_to_whole_millimetres() -> None:
    """A screw 12.5 mm from the edge of a stud at 25 mm is at 37.5 mm."""
    assert Wording()(f"screw at x {said.mm(37.5)}") == "screw at x 37.5 mm"
    assert Wording()(f"at most {said.most(99.97621)}") == "at most 99.97 mm"
