"""Oracles: IEC 60086 in a handbook's table, and the names of button cells."""

from collections.abc import Callable
from typing import Any

import pytest

from cleatwright.base.errors import UnknownNameError
from cleatwright.base.source import Evidence
from cleatwright.standards.iec_60086 import (
    BLOCK_BATTERIES,
    BUTTON_CELLS,
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
    as_printed(BLOCK_BATTERIES, "6LR61 | 26.5 17.5 48.5 24.5 15.5 46.5")
    as_printed(BUTTON_CELLS, "CR2032 | 20.0 3.2")


def test_two_sources_disagree_on_the_largest_cell(as_printed: Check) -> None:
    """A handbook prints 34.2 mm, a shop 34.5 mm: a bore is made for the larger."""
    as_printed(DISPUTED_CELLS, "R20 | 34.5")
    assert ROUND_CELLS.value("R20", "diameter_max_mm") == 34.2
    assert bore_cell_mm("R20") == 34.5
    for cell in ("R03", "R6", "R14"):
        assert bore_cell_mm(cell) == ROUND_CELLS.value(cell, "diameter_max_mm")


def test_the_name_of_a_button_cell_is_its_size() -> None:
    """IEC 60086-3: two digits of diameter in mm, two of height in tenths of it (from memory)."""
    for name, (diameter, height) in BUTTON_CELLS.rows:
        assert name[2:] == f"{diameter:.0f}{10.0 * height:.0f}"


@pytest.mark.parametrize("table", [ROUND_CELLS, BLOCK_BATTERIES], ids=["round", "block"])
def test_every_least_size_is_below_its_largest(table: Any) -> None:
    for name in (c.name for c in table.columns if c.name.endswith("_max_mm")):
        for key in table.keys:
            assert table.value(key, name.replace("max", "min")) < table.value(key, name)


def test_only_the_least_sizes_of_the_block_are_from_memory() -> None:
    tables = (ROUND_CELLS, DISPUTED_CELLS, BLOCK_BATTERIES, BUTTON_CELLS)
    memory = {e.label for t in tables for e in t.listed() if e.source.evidence is Evidence.MEMORY}
    assert memory == {f"6LR61 {side}_min_mm" for side in ("width", "depth", "height")}


def test_common_names_are_those_of_the_trade() -> None:
    """AAA, AA, C, D and the 9 V block (common practice, no source)."""
    assert dict(COMMON_NAMES) == {
        "R03": "AAA",
        "R6": "AA",
        "R14": "C",
        "R20": "D",
        "6LR61": "9 V block",
    }


def test_an_unknown_cell_lists_the_known_ones() -> None:
    with pytest.raises(UnknownNameError, match="R20"):
        bore_cell_mm("R22")
