"""Oracles: ISO 2725-1 / DIN 3124 from memory, its formula, and three real sockets."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence
from cleatwright.standards.iso_2725 import (
    REAL_SOCKETS,
    SMALL_SOCKETS,
    SOCKET_FORMULA,
    SOCKET_SERIES,
    SOCKETS,
    socket_outer_max_mm,
)

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
Check = Callable[[Any, str], None]


def test_each_row_is_the_remembered_one(as_printed: Check) -> None:
    as_printed(SMALL_SOCKETS, PRINTED_SMALL)
    as_printed(SOCKETS, PRINTED)
    as_printed(SOCKET_SERIES, "6.3 | 25 12.5\n12.5 | 44 24")
    as_printed(SOCKET_FORMULA, "outer max | 1.25 3")
    as_printed(REAL_SOCKETS, "5.5 | 8.7\n7 | 10.8\n8 | 11.9")


@pytest.mark.parametrize("size", SOCKETS.keys)
def test_the_rows_are_the_formula_cut_to_one_decimal(size: str) -> None:
    exact = socket_outer_max_mm(float(size))
    assert SOCKETS.value(size, "outer_max_mm") == math.floor(10.0 * exact) / 10.0


@pytest.mark.parametrize("size", REAL_SOCKETS.keys)
def test_a_real_socket_is_a_little_thinner_than_the_limit(size: str) -> None:
    limit = SMALL_SOCKETS.value(size, "outer_max_mm")
    assert limit - 0.35 < REAL_SOCKETS.value(size, "outer_mm") < limit


@pytest.mark.parametrize("table", [SMALL_SOCKETS, SOCKETS], ids=["6.3", "12.5"])
def test_each_socket_encloses_the_corners_of_its_nut(table: Any) -> None:
    """Closed form: corners are 2 / sqrt 3 times the flats."""
    for size, (outer,) in table.rows:
        assert outer > 2.0 / math.sqrt(3.0) * float(size)


def test_all_limits_are_from_memory() -> None:
    tables = (SMALL_SOCKETS, SOCKETS, SOCKET_SERIES, SOCKET_FORMULA)
    assert {e.source.evidence for t in tables for e in t.listed()} == {Evidence.MEMORY}
    assert {e.source.evidence for e in REAL_SOCKETS.listed()} == {Evidence.SECONDARY}


@pytest.mark.parametrize("flats", [0.0, -13.0, math.nan, math.inf])
def test_a_size_that_cannot_be_is_refused(flats: float) -> None:
    with pytest.raises(MeasureError, match="more than 0 mm"):
        socket_outer_max_mm(flats)
