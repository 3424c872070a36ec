"""Oracles: ISO 2936:2014 in two secondary sources, DIN 911 from memory, the regular hexagon."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from cleatwright.base.errors import UnknownNameError
from cleatwright.base.source import Evidence
from cleatwright.standards.tools.iso_2936 import HEX_KEYS, LONG_HEX_KEYS, OLD_HEX_KEYS

PRINTED = """
1.5 | 1.68  46.5 15.5
2   | 2.25  52   18
2.5 | 2.82  58.5 20.5
3   | 3.39  66   23
4   | 4.53  74   29
5   | 5.67  85   33
6   | 6.81  96   38
8   | 9.09  108  44
10  | 11.37 122  50
12  | 13.65 137  57
14  | 15.93 154  70
17  | 19.35 177  80
19  | 21.63 199  89
"""
PRINTED_OLD = """
1.5 | 45  14
2   | 50  16
2.5 | 56  18
3   | 63  20
4   | 70  25
5   | 80  28
6   | 90  32
8   | 100 36
10  | 112 40
12  | 125 45
14  | 140 56
17  | 160 63
19  | 180 70
"""
# from memory, in two statements that agree
PRINTED_LONG = """
3  | 93  129
4  | 104 144
5  | 120 165
6  | 141 186
8  | 158 208
10 | 180 234
"""
Check = Callable[[Any, str], None]


def test_each_row_of_2014_is_the_printed_one(as_printed: Check) -> None:
    as_printed(HEX_KEYS, PRINTED)


def test_each_row_of_1983_is_the_printed_one(as_printed: Check) -> None:
    as_printed(OLD_HEX_KEYS, PRINTED_OLD)


def test_each_row_of_the_long_series_is_the_remembered_one(as_printed: Check) -> None:
    as_printed(LONG_HEX_KEYS, PRINTED_LONG)


@pytest.mark.parametrize("size", HEX_KEYS.keys)
def test_corners_are_at_most_those_of_a_sharp_hexagon(size: str) -> None:
    """Closed form: 2 / sqrt 3 = 1.1547 times the flats; the standard has 1.14 s - 0.03."""
    corners = HEX_KEYS.value(size, "across_corners_max_mm")
    assert float(size) < corners < 2.0 / math.sqrt(3.0) * float(size)
    assert corners == pytest.approx(1.14 * float(size) - 0.03, abs=0.005 + 1e-9)


@pytest.mark.parametrize("size", HEX_KEYS.keys)
def test_keys_of_1983_have_shorter_arms(size: str) -> None:
    """The editions are two tables: the same words "ISO 2936, size 5" mean 85 or 80 mm."""
    assert OLD_HEX_KEYS.value(size, "long_arm_mm") < HEX_KEYS.value(size, "long_arm_mm")
    assert OLD_HEX_KEYS.value(size, "short_arm_mm") < HEX_KEYS.value(size, "short_arm_mm")


@pytest.mark.parametrize("size", OLD_HEX_KEYS.keys)
def test_arms_of_1983_are_preferred_numbers(size: str) -> None:
    """Each arm is in the R20 series of ISO 3: 10^(n/20), rounded as ISO 3 does (from memory)."""
    r20 = (10, 11.2, 12.5, 14, 16, 18, 20, 22.4, 25, 28, 31.5, 35.5)
    r20 += (40, 45, 50, 56, 63, 71, 80, 90, 100, 112, 125, 140, 160, 180)
    for arm in dict(OLD_HEX_KEYS.rows)[size]:
        # 31.5, 35.5 and 71 are printed as 32, 36 and 70
        assert min(abs(arm - number) for number in r20) <= 1.0


def test_what_is_disputed_or_from_memory_is_marked_so() -> None:
    disputed = {e.label for e in HEX_KEYS.listed() if "disagree" in e.source.clause}
    assert disputed == {"17 long_arm_mm", "19 long_arm_mm", "19 short_arm_mm"}
    assert {e.source.evidence for e in HEX_KEYS.listed()} == {Evidence.SECONDARY}
    seen = {e.label for e in OLD_HEX_KEYS.listed() if e.source.evidence is Evidence.SECONDARY}
    assert seen == {"1.5 long_arm_mm", "1.5 short_arm_mm"}
    assert {e.source.evidence for e in LONG_HEX_KEYS.listed()} == {Evidence.MEMORY}


@pytest.mark.parametrize("size", LONG_HEX_KEYS.keys)
def test_each_series_is_longer_than_the_one_before(size: str) -> None:
    """The long arm grows by nearly a half, then by nearly as much again (from memory)."""
    normal = HEX_KEYS.value(size, "long_arm_mm")
    long, extra = dict(LONG_HEX_KEYS.rows)[size]
    assert 1.4 < long / normal < 1.5
    assert 1.9 < extra / normal < 1.97


def test_a_size_between_the_rows_is_refused() -> None:
    with pytest.raises(UnknownNameError, match="7"):
        HEX_KEYS.value("7", "long_arm_mm")
