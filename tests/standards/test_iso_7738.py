"""Oracles: ISO 7738:2015 and ISO 3318:2016 in secondary sources, and lengths of real wrenches."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from cleatwright.base.errors import MeasureError, UnknownNameError
from cleatwright.base.source import Evidence
from cleatwright.standards.iso_7738 import (
    COMBINATION_WRENCHES,
    HEAD_THICKNESS,
    OPEN_HEADS,
    REAL_HEADS,
    REAL_WRENCHES,
    SHORT_COMBINATION_WRENCHES,
    open_head_width_max_mm,
    real_head_mm,
)

PRINTED = """
5.5 | 70
6   | 75
7   | 80
8   | 90
9   | 100
10  | 110
11  | 115
12  | 125
13  | 135
14  | 145
15  | 150
16  | 160
17  | 170
18  | 180
19  | 185
20  | 200
21  | 205
22  | 215
24  | 230
27  | 255
30  | 285
32  | 300
36  | 335
41  | 380
46  | 425
50  | 460
"""
PRINTED_THICKNESS = """
10 | 6   9
13 | 7   11
17 | 8.5 13
19 | 9   14.5
24 | 11  17.5
"""
PRINTED_REAL = """
13 | 206.1 206.1
19 | 258   278.6
30 | 390   390
36 | 460   510.5
41 | 520   612
46 | 550   550
50 | 580   580
"""
# the ring is printed as a radius, 0.8 s + 2
PRINTED_LINES = """
open width     | 2.09 1.9
open thickness | 0.27 2.2
ring width     | 1.6  4
ring thickness | 0.3  1.5
shaft width    | 0.9  2
"""
WIDTHS = {
    8: 23.8,
    10: 28.0,
    13: 34.3,
    17: 42.7,
    19: 46.9,
    24: 57.4,
    30: 70.0,
    36: 82.6,
    41: 93.1,
    46: 103.6,
    50: 112.0,
}
SEEN = {"10", "13", "19", "24", "30", "36", "41", "46", "50"}
Check = Callable[[Any, str], None]


def test_each_row_is_the_printed_one(as_printed: Check) -> None:
    as_printed(COMBINATION_WRENCHES, PRINTED)
    as_printed(SHORT_COMBINATION_WRENCHES, "10 | 109\n13 | 134\n19 | 184")
    as_printed(HEAD_THICKNESS, PRINTED_THICKNESS)
    as_printed(REAL_WRENCHES, PRINTED_REAL)
    as_printed(REAL_HEADS, PRINTED_LINES)
    as_printed(OPEN_HEADS, "width max | 2.1 7")


@pytest.mark.parametrize(("flats", "printed"), WIDTHS.items())
def test_the_open_end_is_as_wide_as_printed(flats: int, printed: float) -> None:
    assert open_head_width_max_mm(flats) == pytest.approx(printed, abs=0.05)


@pytest.mark.parametrize("size", SHORT_COMBINATION_WRENCHES.keys)
def test_the_short_series_ends_one_millimetre_below_the_medium_one(size: str) -> None:
    shortest = COMBINATION_WRENCHES.value(size, "length_min_mm")
    assert shortest - SHORT_COMBINATION_WRENCHES.value(size, "length_max_mm") == 1.0


@pytest.mark.parametrize("size", REAL_WRENCHES.keys)
def test_a_minimum_is_no_size_of_a_real_wrench(size: str) -> None:
    """Real wrenches are 26 to 61 % longer than the standard asks for."""
    least = COMBINATION_WRENCHES.value(size, "length_min_mm")
    for length in dict(REAL_WRENCHES.rows)[size]:
        assert 1.26 < length / least < 1.62


@pytest.mark.parametrize("flats", range(8, 25))
def test_real_heads_are_narrower_than_the_standard_allows(flats: int) -> None:
    assert real_head_mm("open width", flats) + 1.1 < open_head_width_max_mm(flats)


@pytest.mark.parametrize("flats", [0.0, -5.0, math.nan, math.inf])
def test_a_size_that_cannot_be_is_refused(flats: float) -> None:
    with pytest.raises(MeasureError, match="more than 0 mm"):
        open_head_width_max_mm(flats)


def test_a_line_that_nobody_drew_is_refused() -> None:
    with pytest.raises(UnknownNameError, match="ring width"):
        real_head_mm("ring length", 13.0)


def test_what_is_from_memory_is_marked_so() -> None:
    by_memory = {
        e.label.split()[0]
        for e in COMBINATION_WRENCHES.listed()
        if e.source.evidence is Evidence.MEMORY
    }
    assert by_memory == set(COMBINATION_WRENCHES.keys) - SEEN
    assert {e.source.evidence for e in HEAD_THICKNESS.listed()} == {Evidence.MEMORY}
    assert {e.source.evidence for e in OPEN_HEADS.listed()} == {Evidence.SECONDARY}
