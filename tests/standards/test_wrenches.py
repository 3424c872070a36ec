"""Oracles: ISO 7738:2015 and ISO 3318:2016 in secondary sources, and a general library's fit."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from cleatwright.base.errors import MeasureError, UnknownNameError
from cleatwright.base.source import Evidence
from cleatwright.standards.tools.wrenches import (
    HEADS,
    OPEN_ENDS,
    RING_ENDS,
    WRENCH_LENGTHS,
    wrench_head_mm,
)

PRINTED_LENGTHS = """
5.5 | 105.0
6   | 129.5
7   | 138.3
8   | 147.3
9   | 158.0
10  | 166.2
11  | 185.2
12  | 196.5
13  | 206.1
14  | 222.0
15  | 232.0
16  | 241.9
17  | 259.9
18  | 269.3
19  | 278.6
20  | 289.6
21  | 300.5
22  | 318.0
24  | 336.6
27  | 380.0
30  | 431.8
32  | 441.0
36  | 510.5
41  | 612.0
46  | 649.0
50  | 650.2
"""
# 3/8 is 0.375, 11/32 0.34375, 7/16 0.4375, 33/64 0.515625 and 35/64 0.546875
PRINTED_RINGS = """
7/16  | 0.4375 0.695 0.375
1/2   | 0.5    0.775 0.375
9/16  | 0.5625 0.868 0.34375
5/8   | 0.625  0.946 0.4375
11/16 | 0.6875 1.025 0.515625
3/4   | 0.75   1.125 0.546875
"""
# least lengths of the medium series of ISO 7738:2015, those that were seen in a secondary source
LEAST_MM = {10: 110, 13: 135, 19: 185, 24: 230, 30: 285, 36: 335, 41: 380, 46: 425, 50: 460}
Check = Callable[[Any, str], None]


def test_each_row_is_the_published_one(as_printed: Check) -> None:
    as_printed(WRENCH_LENGTHS, PRINTED_LENGTHS)
    as_printed(OPEN_ENDS, "8 | 18.0 18.5 4.2 4.5\n13 | 29.0 30.0 5.3 6.3\n24 | 51.0 53.0 7.8 9.5")
    as_printed(RING_ENDS, PRINTED_RINGS)


@pytest.mark.parametrize(("flats", "least"), LEAST_MM.items())
def test_every_published_wrench_is_longer_than_the_standard_asks_for(
    flats: int, least: float
) -> None:
    """ISO 7738:2015, medium series."""
    assert least < WRENCH_LENGTHS.value(f"{flats}", "length_mm") < 1.65 * least


@pytest.mark.parametrize("size", WRENCH_LENGTHS.keys)
def test_an_open_end_is_narrower_than_the_standard_allows(size: str) -> None:
    """ISO 3318:2016: 2.1 s + 7 at most."""
    flats = float(size)
    assert flats < wrench_head_mm("open width", flats) < 2.1 * flats + 7.0


@pytest.mark.parametrize("measure", HEADS)
def test_the_lines_are_those_of_least_squares(measure: str) -> None:
    """Numpy's polynomial fit through the same published heads."""
    if measure.startswith("open"):
        at = (8.0, 13.0, 24.0)
        heads = (18.5, 30.0, 53.0) if "width" in measure else (4.5, 6.3, 9.5)
    else:
        at = tuple(25.4 * n / 16 for n in range(7, 13))
        inches = (0.695, 0.775, 0.868, 0.946, 1.025, 1.125)
        if "thickness" in measure:
            inches = (3 / 8, 3 / 8, 11 / 32, 7 / 16, 33 / 64, 35 / 64)
        heads = tuple(25.4 * inch for inch in inches)
    slope, rest = np.polyfit(at, heads, 1)
    for flats in (6.0, 13.0, 24.0, 50.0):
        assert wrench_head_mm(measure, flats) == pytest.approx(slope * flats + rest)


@pytest.mark.parametrize("size", RING_ENDS.keys)
def test_a_ring_encloses_the_corners_of_its_nut(size: str) -> None:
    """Closed form: corners are 2 / sqrt 3 times the flats."""
    flats = RING_ENDS.value(size, "size_in")
    assert RING_ENDS.value(size, "width_max_in") > 2.0 / math.sqrt(3.0) * flats
    assert flats == pytest.approx(inches_of(size))


def inches_of(text: str) -> float:
    over, under = text.split("/")
    return int(over) / int(under)


@pytest.mark.parametrize("flats", [0.0, -5.0, math.nan, math.inf])
def test_a_size_that_cannot_be_is_refused(flats: float) -> None:
    with pytest.raises(MeasureError, match="more than 0 mm"):
        wrench_head_mm("open width", flats)


def test_a_line_that_nobody_drew_is_refused() -> None:
    with pytest.raises(UnknownNameError, match="ring width"):
        wrench_head_mm("ring length", 13.0)


def test_all_of_it_was_read_in_copies() -> None:
    tables = (WRENCH_LENGTHS, OPEN_ENDS, RING_ENDS)
    assert {e.source.evidence for t in tables for e in t.listed()} == {Evidence.SECONDARY}
