"""Sheets of paper against the rules of the standards that define them."""

import math

import pytest

from cleatwright.base.errors import UnknownNameError
from cleatwright.papers.kit.paper import A_SERIES, INCH_SHEETS, SCALES, landscape, sheet_names


def test_each_a_size_is_half_of_the_next_and_has_the_shape_of_root_two() -> None:
    """ISO 216: A0 has a square metre and sides as 1 to root two; halving rounds mm down."""
    a0 = landscape("A0")
    assert a0.width_mm == pytest.approx(1000.0 * 2**0.25, abs=0.5)
    assert a0.height_mm == pytest.approx(1000.0 / 2**0.25, abs=0.5)
    larger = a0
    for key in ("A1", "A2", "A3", "A4"):
        sheet = landscape(key)
        assert sheet.width_mm == larger.height_mm
        assert sheet.height_mm == math.floor(larger.width_mm / 2)
        larger = sheet
    assert set(A_SERIES.keys) == {"A0", "A1", "A2", "A3", "A4"}


def test_each_inch_size_is_half_of_the_next() -> None:
    """ASME Y14.1: A is 8.5 by 11 in, and two sheets of a size make one of the next."""
    sides = (8.5, 11.0)
    for key in INCH_SHEETS.keys:
        sheet = landscape(key)
        assert (sheet.height_mm / 25.4, sheet.width_mm / 25.4) == pytest.approx(sides)
        sides = (sides[1], 2 * sides[0])


def test_the_reductions_are_those_of_the_standard() -> None:
    """ISO 5455: 1, 2 and 5 times powers of ten; from memory."""
    assert SCALES == (1, 2, 5, 10, 20, 50, 100)


def test_a_sheet_is_found_by_its_name_in_any_letters_and_others_are_refused() -> None:
    assert landscape("letter") == landscape("Letter")
    assert landscape("A4").turned.height_mm == 297.0
    assert len(sheet_names()) == 10
    with pytest.raises(UnknownNameError, match="A4"):
        landscape("A9")
