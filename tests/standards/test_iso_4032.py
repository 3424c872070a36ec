"""Oracles: ISO 4032 as printed in secondary sources, and the tolerance rules behind its columns."""

import math

import pytest

from cleatwright.base.source import Evidence
from cleatwright.standards.fasteners.iso_4032 import (
    HEX_NUTS,
    OLD_NUT_FLATS,
    OLD_NUT_HEIGHTS,
    largest_nut_mm,
)

PRINTED = """
M3  5.5 5.32  2.4 2.15 6.01
M4  7   6.78  3.2 2.9  7.66
M5  8   7.78  4.7 4.4  8.79
M6  10  9.78  5.2 4.9  11.05
M8  13  12.73 6.8 6.44 14.38
M10 16  15.73 8.4 8.04 17.77
"""
ROWS = [line.split() for line in PRINTED.split("\n") if line]

# ISO 286-1, Table 1 (seen in a secondary source), in mm, by "over, up to and including"
IT13 = ((3, 6, 0.18), (6, 10, 0.22), (10, 18, 0.27))
IT14 = ((0, 3, 0.25), (3, 6, 0.30), (6, 10, 0.36))


def grade(table: tuple[tuple[int, int, float], ...], size_mm: float) -> float:
    return next(width for low, high, width in table if low < size_mm <= high)


def half_digit(text: str) -> float:
    decimals = len(text.partition(".")[2])
    return 0.5 * 10.0**-decimals


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_each_row_is_the_printed_one(row: list[str]) -> None:
    ours = dict(HEX_NUTS.rows)[row[0]]
    for value, text in zip(ours, row[1:], strict=True):
        assert value == pytest.approx(float(text), abs=half_digit(text))


def test_the_table_has_the_printed_rows_and_no_others() -> None:
    assert list(HEX_NUTS.keys) == [row[0] for row in ROWS]


@pytest.mark.parametrize("thread", HEX_NUTS.keys)
def test_widths_follow_h13_and_heights_h14(thread: str) -> None:
    """Flats have tolerance h13, heights h14 (ISO 4759-1, from memory; grades: ISO 286-1)."""
    s_max, s_min, m_max, m_min, _ = dict(HEX_NUTS.rows)[thread]
    assert s_max - s_min == pytest.approx(grade(IT13, s_max), abs=0.005)
    assert m_max - m_min == pytest.approx(grade(IT14, m_max), abs=0.005)


@pytest.mark.parametrize("thread", HEX_NUTS.keys)
def test_corners_lie_between_the_chamfered_and_the_sharp_hexagon(thread: str) -> None:
    """Corners are 1.13 s min at least (ISO 4759-1, from memory) and 2/sqrt 3 when sharp."""
    _, s_min, _, _, e_min = dict(HEX_NUTS.rows)[thread]
    assert e_min == pytest.approx(1.13 * s_min, abs=0.006)
    assert e_min < s_min * 2.0 / math.sqrt(3.0)


def test_withdrawn_nuts_are_lower_and_the_m10_one_is_wider() -> None:
    """DIN 934 against ISO 4032 (DIN values from memory)."""
    printed = {"M5": 4.0, "M6": 5.0, "M8": 6.5}
    assert {key: row[0] for key, row in OLD_NUT_HEIGHTS.rows} == printed
    for thread, height in printed.items():
        assert height < HEX_NUTS.value(thread, "height_max_mm")
    assert OLD_NUT_FLATS.rows == (("M10", (17.0,)),)


@pytest.mark.parametrize("thread", HEX_NUTS.keys)
def test_the_largest_nut_covers_both_standards(thread: str) -> None:
    flats, height = largest_nut_mm(thread)
    assert flats >= HEX_NUTS.value(thread, "across_flats_max_mm")
    assert height >= HEX_NUTS.value(thread, "height_max_mm")
    assert (flats == 17.0) == (thread == "M10")


def test_what_is_from_memory_is_marked_so() -> None:
    memory = {e.label for e in HEX_NUTS.listed() if e.source.evidence is Evidence.MEMORY}
    heights = {f"{thread} height_min_mm" for thread in HEX_NUTS.keys}
    assert memory == heights | {"M10 across_flats_min_mm", "M10 across_corners_min_mm"}
