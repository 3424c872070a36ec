"""Oracles: IEC 60086 in a handbook's table, and a shop's list."""

from collections.abc import Callable
from typing import Any

import pytest

from cleatwright.base.errors import UnknownNameError
from cleatwright.base.source import Evidence
from cleatwright.standards.tools.iec_60086 import (
    COMMON_NAMES,
    DISPUTED_CELLS,
    ROUND_CELLS,
    bore_cell_mm,
)

PRINTED = """
R03 | 10.5 9.5  44.5 43.3
R6  | 14.5 13.5 50.5 49.2
R14 | 26.2 24.9 50.0 48.6
R20 | 34.2 32.3 61.5 59.5
"""
Check = Callable[[Any, str], None]


def test_each_row_is_the_printed_one(as_printed: Check) -> None:
    as_printed(ROUND_CELLS, PRINTED)


def test_two_sources_disagree_on_the_largest_cell(as_printed: Check) -> None:
    """A handbook prints 34.2 mm, a shop 34.5 mm: a bore is made for the larger."""
    as_printed(DISPUTED_CELLS, "R20 | 34.5")
    assert ROUND_CELLS.value("R20", "diameter_max_mm") == 34.2
    assert bore_cell_mm("R20") == 34.5
    for cell in ("R03", "R6", "R14"):
        assert bore_cell_mm(cell) == ROUND_CELLS.value(cell, "diameter_max_mm")


@pytest.mark.parametrize("key", ROUND_CELLS.keys)
def test_every_least_size_is_below_its_largest(key: str) -> None:
    for side in ("diameter", "height"):
        least = ROUND_CELLS.value(key, f"{side}_min_mm")
        assert least < ROUND_CELLS.value(key, f"{side}_max_mm")


def test_every_cell_was_seen_in_a_copy() -> None:
    tables = (ROUND_CELLS, DISPUTED_CELLS)
    assert {e.source.evidence for t in tables for e in t.listed()} == {Evidence.SECONDARY}


def test_common_names_are_those_of_the_trade() -> None:
    """AAA, AA, C and D (common practice, no source)."""
    assert dict(COMMON_NAMES) == {"R03": "AAA", "R6": "AA", "R14": "C", "R20": "D"}


def test_an_unknown_cell_lists_the_known_ones() -> None:
    with pytest.raises(UnknownNameError, match="R20"):
        bore_cell_mm("R22")
