"""Oracles: ISO 1174-1 from memory, the inch."""

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from cleatwright.base.errors import UnknownNameError
from cleatwright.base.source import Evidence
from cleatwright.standards.tools.iso_1174 import INCH_SQUARES, driving_square_size

# 9.5 is how a secondary source prints 9.525
PRINTED_INCHES = """
1/4 in | 6.3  6.35
3/8 in | 10   9.5
1/2 in | 12.5 12.7
3/4 in | 20   19.05
"""
Check = Callable[[Any, str], None]


def test_each_row_is_the_remembered_one(as_printed: Check) -> None:
    as_printed(INCH_SQUARES, PRINTED_INCHES)


@pytest.mark.parametrize("inches", INCH_SQUARES.keys)
def test_a_square_is_its_fraction_of_an_inch(inches: str) -> None:
    """Closed form: 25.4 mm times 1/4, 3/8, 1/2 and 3/4, to half the last printed digit."""
    exact = 25.4 * float(Fraction(inches.removesuffix(" in")))
    assert INCH_SQUARES.value(inches, "nominal_mm") == pytest.approx(exact, abs=0.05)


def test_an_unknown_square_lists_the_known_ones() -> None:
    with pytest.raises(UnknownNameError, match="3/4 in"):
        driving_square_size("5/8 in")


def test_what_is_from_memory_is_marked_so() -> None:
    seen = {e.label for e in INCH_SQUARES.listed() if e.source.evidence is Evidence.SECONDARY}
    assert seen == {f"{name} nominal_mm" for name in ("1/4 in", "3/8 in", "1/2 in")}
