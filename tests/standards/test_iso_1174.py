"""Oracles: ISO 1174-1 from memory, the inch."""

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from cleatwright.base.errors import UnknownNameError
from cleatwright.base.source import Evidence
from cleatwright.standards.iso_1174 import DRIVING_SQUARES, INCH_SQUARES, driving_square_size

# male squares as in the fact sheet; female ones from memory of ISO 1174-1 = DIN 3120
PRINTED = """
6.3  | 6.35  6.26  6.63  6.41
10   | 9.53  9.44  9.80  9.58
12.5 | 12.70 12.59 13.03 12.76
20   | 19.05 18.92 19.44 19.11
"""
# 9.5 is how a secondary source prints 9.525
PRINTED_INCHES = """
1/4 in | 6.3  6.35
3/8 in | 10   9.5
1/2 in | 12.5 12.7
3/4 in | 20   19.05
"""
Check = Callable[[Any, str], None]


def test_each_row_is_the_remembered_one(as_printed: Check) -> None:
    as_printed(DRIVING_SQUARES, PRINTED)
    as_printed(INCH_SQUARES, PRINTED_INCHES)


@pytest.mark.parametrize("inches", INCH_SQUARES.keys)
def test_the_largest_male_square_is_its_fraction_of_an_inch(inches: str) -> None:
    """Closed form: 25.4 mm times 1/4, 3/8, 1/2 and 3/4, to half the last printed digit."""
    exact = 25.4 * float(Fraction(inches.removesuffix(" in")))
    size = driving_square_size(inches)
    assert DRIVING_SQUARES.value(size, "male_max_mm") == pytest.approx(exact, abs=0.005 + 1e-9)
    assert INCH_SQUARES.value(inches, "nominal_mm") == pytest.approx(exact, abs=0.05)


@pytest.mark.parametrize("size", DRIVING_SQUARES.keys)
def test_every_male_square_enters_every_female_one(size: str) -> None:
    male_max, male_min, female_max, female_min = dict(DRIVING_SQUARES.rows)[size]
    assert male_min < male_max < female_min < female_max


def test_an_unknown_square_lists_the_known_ones() -> None:
    with pytest.raises(UnknownNameError, match="3/4 in"):
        driving_square_size("5/8 in")


def test_what_is_from_memory_is_marked_so() -> None:
    assert {e.source.evidence for e in DRIVING_SQUARES.listed()} == {Evidence.MEMORY}
    seen = {e.label for e in INCH_SQUARES.listed() if e.source.evidence is Evidence.SECONDARY}
    assert seen == {f"{name} nominal_mm" for name in ("1/4 in", "3/8 in", "1/2 in")}
