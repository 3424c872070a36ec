"""Oracles: ISO 2725-1 / DIN 3124 from memory, its formula, and three real sockets."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from cleatwright.base.source import Evidence
from cleatwright.standards.tools.iso_2725 import SMALL_SOCKETS, SOCKET_SERIES, SOCKETS

PRINTED_SMALL = """
4   | 6.9
5   | 8.2
5.5 | 8.8
6   | 9.4
7   | 11
8   | 12.2
10  | 14.7
12  | 17.2
13  | 18.5
"""
PRINTED = """
10 | 15.5
13 | 19.2
17 | 24.2
19 | 26.7
24 | 33
27 | 36.7
32 | 43
"""
# outside diameters of three sockets on the driving square 6.3 (secondary source)
REAL_MM = {"5.5": 8.7, "7": 10.8, "8": 11.9}
Check = Callable[[Any, str], None]


def test_each_row_is_the_remembered_one(as_printed: Check) -> None:
    as_printed(SMALL_SOCKETS, PRINTED_SMALL)
    as_printed(SOCKETS, PRINTED)
    as_printed(SOCKET_SERIES, "6.3 | 25 12.5\n12.5 | 44 24")


@pytest.mark.parametrize("size", SOCKETS.keys)
def test_the_rows_are_the_formula_cut_to_one_decimal(size: str) -> None:
    """1.25 s + 3 (from memory)."""
    exact = 1.25 * float(size) + 3.0
    assert SOCKETS.value(size, "outer_max_mm") == math.floor(10.0 * exact) / 10.0


@pytest.mark.parametrize("size", REAL_MM)
def test_a_real_socket_is_a_little_thinner_than_the_limit(size: str) -> None:
    limit = SMALL_SOCKETS.value(size, "outer_max_mm")
    assert limit - 0.35 < REAL_MM[size] < limit


@pytest.mark.parametrize("table", [SMALL_SOCKETS, SOCKETS], ids=["6.3", "12.5"])
def test_each_socket_encloses_the_corners_of_its_nut(table: Any) -> None:
    """Closed form: corners are 2 / sqrt 3 times the flats."""
    for size, (outer,) in table.rows:
        assert outer > 2.0 / math.sqrt(3.0) * float(size)


def test_all_limits_are_from_memory() -> None:
    tables = (SMALL_SOCKETS, SOCKETS, SOCKET_SERIES)
    assert {e.source.evidence for t in tables for e in t.listed()} == {Evidence.MEMORY}
