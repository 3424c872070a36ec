"""Oracles: ISO 7089 in a secondary source, and the fine holes of ISO 273."""

from collections.abc import Callable
from typing import Any

import pytest

from cleatwright.base.source import Evidence
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.iso_7089 import WASHERS

PRINTED = """
M3 | 3.2 7  0.5 0.55
M4 | 4.3 9  0.8 0.9
M5 | 5.3 10 1.0 1.1
M6 | 6.4 12 1.6 1.8
M8 | 8.4 16 1.6 1.8
"""
Check = Callable[[Any, str], None]


def test_each_row_is_the_printed_one(as_printed: Check) -> None:
    as_printed(WASHERS, PRINTED)


@pytest.mark.parametrize("thread", WASHERS.keys)
def test_nominal_and_largest_thickness_are_not_taken_for_each_other(thread: str) -> None:
    """The tolerance is 0.05, 0.1 or 0.2 mm (ISO 4759-3, from memory)."""
    nominal = WASHERS.value(thread, "thickness_nominal_mm")
    tolerance = 0.05 if nominal <= 0.5 else 0.1 if nominal <= 1.0 else 0.2
    largest = WASHERS.value(thread, "thickness_max_mm")
    assert largest - nominal == pytest.approx(tolerance, abs=1e-9)


@pytest.mark.parametrize("thread", WASHERS.keys)
def test_the_hole_is_that_of_the_fine_series(thread: str) -> None:
    """The least holes of ISO 7089 are the fine clearance holes of ISO 273 (read elsewhere)."""
    assert WASHERS.value(thread, "hole_min_mm") == clearance_hole_mm(thread, "fine")


def test_only_the_nominal_thickness_is_from_memory() -> None:
    memory = {e.label for e in WASHERS.listed() if e.source.evidence is Evidence.MEMORY}
    assert memory == {f"{thread} thickness_nominal_mm" for thread in WASHERS.keys}
