"""Oracle: ISO 273:1979, Table 1, as printed in a secondary source."""

import pytest

from cleatwright.base.errors import UnknownNameError
from cleatwright.base.source import Evidence
from cleatwright.standards.fasteners.iso_273 import CLEARANCE_HOLES, clearance_hole_mm

PRINTED = """
M3   3.2  3.4  3.6
M3.5 3.7  3.9  4.2
M4   4.3  4.5  4.8
M5   5.3  5.5  5.8
M6   6.4  6.6  7.0
M8   8.4  9.0  10.0
M10  10.5 11.0 12.0
M12  13.0 13.5 14.5
M16  17.0 17.5 18.5
"""
ROWS = [line.split() for line in PRINTED.split("\n") if line]


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_each_row_is_the_printed_one(row: list[str]) -> None:
    thread, fine, medium, coarse = row
    assert clearance_hole_mm(thread, "fine") == pytest.approx(float(fine), abs=0.05)
    assert clearance_hole_mm(thread, "medium") == pytest.approx(float(medium), abs=0.05)
    assert clearance_hole_mm(thread, "coarse") == pytest.approx(float(coarse), abs=0.05)


def test_the_table_has_the_printed_rows_and_no_others() -> None:
    assert list(CLEARANCE_HOLES.keys) == [row[0] for row in ROWS]


@pytest.mark.parametrize(("thread", "wrong"), [("M12", (13, 14, 15)), ("M16", (17, 18, 19))])
def test_the_rounded_rows_of_a_public_data_file_are_not_taken_over(
    thread: str, wrong: tuple[int, int, int]
) -> None:
    right = (
        clearance_hole_mm(thread, "fine"),
        clearance_hole_mm(thread, "medium"),
        clearance_hole_mm(thread, "coarse"),
    )
    assert [r - w for r, w in zip(right, wrong, strict=True)] == [0.0, -0.5, -0.5]


def test_every_hole_is_wider_than_its_thread_and_the_series_widen() -> None:
    for thread, (fine, medium, coarse) in CLEARANCE_HOLES.rows:
        assert float(thread[1:]) < fine < medium < coarse


def test_an_unknown_thread_lists_the_known_ones() -> None:
    with pytest.raises(UnknownNameError, match=r"M3, M3\.5"):
        clearance_hole_mm("M7")


def test_no_clearance_hole_is_from_memory() -> None:
    assert {e.source.evidence for e in CLEARANCE_HOLES.listed()} == {Evidence.SECONDARY}
