"""Oracles: ISO 10642:2019 and DIN 7991 in secondary sources, and a 90 degree cone."""

import pytest

from cleatwright.base.source import Evidence
from cleatwright.standards.iso_10642 import (
    COUNTERSUNK_HEADS,
    OLD_COUNTERSUNK_HEADS,
    countersink_mm,
)

PRINTED = """
M3 6.72  1.86 2   5.54
M4 8.96  2.48 2.5 7.53
M5 11.20 3.10 3   9.43
M6 13.44 3.72 4   11.34
M8 17.92 4.96 5   15.24
"""
PRINTED_OLD = """
M3 6  5.7   1.7
M4 8  7.64  2.3
M5 10 9.64  2.8
M6 12 11.57 3.3
M8 16 15.57 4.4
"""
ROWS = [line.split() for line in PRINTED.split("\n") if line]
OLD_ROWS = [line.split() for line in PRINTED_OLD.split("\n") if line]


def half_digit(text: str) -> float:
    decimals = len(text.partition(".")[2])
    return 0.5 * 10.0**-decimals


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_each_row_is_the_printed_one(row: list[str]) -> None:
    for value, text in zip(dict(COUNTERSUNK_HEADS.rows)[row[0]], row[1:], strict=True):
        assert value == pytest.approx(float(text), abs=half_digit(text))


@pytest.mark.parametrize("row", OLD_ROWS, ids=[row[0] for row in OLD_ROWS])
def test_each_old_row_is_the_printed_one(row: list[str]) -> None:
    for value, text in zip(dict(OLD_COUNTERSUNK_HEADS.rows)[row[0]], row[1:], strict=True):
        assert value == pytest.approx(float(text), abs=half_digit(text))


@pytest.mark.parametrize("thread", COUNTERSUNK_HEADS.keys)
def test_the_theoretical_head_is_a_90_degree_cone_of_224_percent(thread: str) -> None:
    """Closed form: at 90 degrees the cone is (dk - d) / 2 high; dk = 2.24 d (ISO 10642:2019)."""
    size = float(thread[1:])
    head, height, _, _ = dict(COUNTERSUNK_HEADS.rows)[thread]
    assert head == pytest.approx(2.24 * size, abs=0.005)
    assert height == pytest.approx((head - size) / 2.0, abs=0.005)


@pytest.mark.parametrize("thread", COUNTERSUNK_HEADS.keys)
def test_the_old_head_is_12_percent_smaller_and_not_taken_for_the_new_one(thread: str) -> None:
    old = OLD_COUNTERSUNK_HEADS.value(thread, "head_actual_max_mm")
    assert countersink_mm(thread) / old == pytest.approx(1.12, abs=0.001)
    assert countersink_mm(thread) > COUNTERSUNK_HEADS.value(thread, "head_actual_min_mm")


def test_what_is_from_memory_is_marked_so() -> None:
    memory = {e.label for e in COUNTERSUNK_HEADS.listed() if e.source.evidence is Evidence.MEMORY}
    least = {f"{thread} head_actual_min_mm" for thread in COUNTERSUNK_HEADS.keys}
    assert memory == least | {"M8 head_theoretical_max_mm", "M8 head_height_max_mm"}
