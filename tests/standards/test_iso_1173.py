"""Oracles: ISO 1173:2001 in secondary sources, the inch, the regular hexagon."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from cleatwright.base.source import Evidence
from cleatwright.standards.tools.iso_1173 import HEX_BIT_SHANKS, SOLD_BITS

Check = Callable[[Any, str], None]


def test_each_row_is_the_printed_one(as_printed: Check) -> None:
    as_printed(HEX_BIT_SHANKS, "6.3 | 6.35 7.33")
    as_printed(SOLD_BITS, "25 | 25\n50 | 50\n75 | 75\n100 | 100\n150 | 150")


def test_the_shank_is_a_quarter_of_an_inch_and_its_corners_are_those_of_a_hexagon() -> None:
    """Closed forms: 25.4 / 4 and 2 / sqrt 3 times that."""
    flats = HEX_BIT_SHANKS.value("6.3", "across_flats_mm")
    assert flats == pytest.approx(25.4 / 4.0, abs=1e-12)
    corners = HEX_BIT_SHANKS.value("6.3", "across_corners_mm")
    assert corners == pytest.approx(2.0 / math.sqrt(3.0) * flats, abs=0.005)


def test_what_nobody_looked_up_is_marked_so() -> None:
    tables = (HEX_BIT_SHANKS, SOLD_BITS)
    evidence = [{e.source.evidence for e in table.listed()} for table in tables]
    assert evidence == [
        {Evidence.SECONDARY, Evidence.DERIVED},
        {Evidence.SECONDARY},
    ]
