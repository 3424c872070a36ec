"""Oracle: DIN 7997 in a secondary source; chipboard heads of 2 d are from memory."""

import pytest

from cleatwright.base.errors import MeasureError, UnknownNameError
from cleatwright.standards.fasteners.wood_screws import (
    WOOD_SCREWS,
    countersink_mm,
    wood_screw_head_mm,
)

PRINTED = """
3   5.6 1.65
3.5 6.5 1.93
4   7.5 2.2
4.5 8.3 2.35
5   9.2 2.5
6   11  3.0
"""
ROWS = [line.split() for line in PRINTED.split("\n") if line]


def half_digit(text: str) -> float:
    decimals = len(text.partition(".")[2])
    return 0.5 * 10.0**-decimals


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_each_row_is_the_printed_one(row: list[str]) -> None:
    ours = wood_screw_head_mm(float(row[0]))
    for value, text in zip(ours, row[1:], strict=True):
        assert value == pytest.approx(float(text), abs=half_digit(text))


def test_the_table_has_the_printed_rows_and_no_others() -> None:
    assert list(WOOD_SCREWS.keys) == [row[0] for row in ROWS]


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_a_countersink_takes_the_standard_head_and_the_wider_chipboard_head(row: list[str]) -> None:
    diameter, head = float(row[0]), float(row[1])
    assert head < 2.0 * diameter < countersink_mm(diameter)
    assert 1.83 <= head / diameter <= 1.88


def test_a_countersink_is_0_4_mm_wider_than_the_chipboard_head() -> None:
    """Twice the screw (a head of 10 mm on one of 5 mm), and a clearance of this program."""
    assert countersink_mm(5.0) == pytest.approx(10.4)


@pytest.mark.parametrize("diameter", [2.9, 6.1, float("nan")])
def test_a_diameter_outside_the_table_is_refused(diameter: float) -> None:
    with pytest.raises(MeasureError, match="3 to 6 mm"):
        countersink_mm(diameter)


def test_a_size_between_the_rows_is_not_interpolated() -> None:
    with pytest.raises(UnknownNameError, match=r"3\.5, 4"):
        wood_screw_head_mm(3.2)
