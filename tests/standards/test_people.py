"""How tall children are, how high they touch, and what a public code takes them to reach."""

from __future__ import annotations

import pytest

from cleatwright.standards.people.ada_reach import child_range_mm, seated_range_mm
from cleatwright.standards.people.cdc_statures import (
    OLDEST,
    STATURES,
    YOUNGEST,
    least_stature_mm,
    most_stature_mm,
)
from cleatwright.standards.people.overhead import SHOES_MM, touched_mm
from cleatwright.standards.people.seated import lower_by_mm, usual_seat_mm


@pytest.mark.parametrize(("column", "z"), [("boys_p5_mm", -1.645), ("boys_p95_mm", 1.645)])
def test_a_row_follows_from_the_parameters_of_the_charts(column: str, z: float) -> None:
    """Oracle: CDC 2000, boys of 59.5 months: L 1.2551, M 1086.30 mm, S 0.042489."""
    by_charts = 1086.30 * (1.0 + 1.2551 * 0.042489 * z) ** (1.0 / 1.2551)
    assert STATURES.value("5", column) == pytest.approx(by_charts, abs=1.0)


def test_children_grow() -> None:
    """Every row and column rises, and P5 lies 12 to 18 % below P95 as among adults' 10 to 14 %."""
    for (_, before), (_, after) in zip(STATURES.rows, STATURES.rows[1:], strict=False):
        assert all(a < b for a, b in zip(before, after, strict=True))
    for _, (boys5, boys95, girls5, girls95) in STATURES.rows:
        assert 1.12 < boys95 / boys5 < 1.20
        assert 1.12 < girls95 / girls5 < 1.20
        assert boys5 == pytest.approx(girls5, rel=0.08)


@pytest.mark.parametrize("age", range(YOUNGEST, OLDEST + 1))
def test_a_child_of_an_age_lies_between_small_and_tall(age: int) -> None:
    """At a birthday, and half a month before the next one, for boys and for girls."""
    here = [row for key, row in STATURES.rows if int(key) in (age, age + 1)]
    assert all(least_stature_mm(age) <= min(row[0], row[2]) for row in here)
    assert all(most_stature_mm(age) >= max(row[1], row[3]) for row in here)


@pytest.mark.parametrize(
    ("age", "low", "high"), [(3, 510, 915), (4, 510, 915), (8, 455, 1015), (12, 405, 1120)]
)
def test_the_reach_of_children_by_the_code(age: int, low: float, high: float) -> None:
    """Oracle: 2010 ADA Standards, advisory 308.1: 36, 40, 44 in and 20, 18, 16 in, rounded."""
    assert child_range_mm(age) == (low, high)
    inches = {915: 36, 1015: 40, 1120: 44, 510: 20, 455: 18, 405: 16}
    assert all(abs(25.4 * inches[int(mm)] - mm) < 3.0 for mm in (low, high))
    # what is kept from a child of that age is kept from more than the code takes it to reach
    assert touched_mm(least_stature_mm(age)) > high


def test_the_code_knows_no_youths() -> None:
    assert child_range_mm(13) is None


def test_seated_people_by_the_code() -> None:
    """Oracle: 308.2: 48 and 15 in; over more than 20 in of depth 44 in."""
    assert seated_range_mm(0.0) == (380.0, 1220.0)
    assert seated_range_mm(510.0) == (380.0, 1220.0)
    assert seated_range_mm(511.0) == (380.0, 1120.0)


def test_the_touch_of_an_adult_is_that_of_measured_people() -> None:
    """Oracle: ANSUR II, the median man: stature 1755, overhead fingertip reach 2263 mm."""
    assert touched_mm(1755.0) == pytest.approx(2263.0, abs=2.0)
    # a woman reaches less for her stature: 1626 and 2078
    assert touched_mm(1626.0) > 2078.0
    assert 20.0 <= SHOES_MM <= 30.0


@pytest.mark.parametrize(
    ("share", "above_seat_mm"), [(0.9352, 804.0), (1.2893, 1426.0), (1.0, 918.0)]
)
def test_seated_people_are_lower_by_what_their_legs_bear(
    share: float, above_seat_mm: float
) -> None:
    """Oracle: ANSUR II, median man of 1755 mm: eyes, fingertips and head above the seat."""
    seat = usual_seat_mm(1755.0)
    assert share * 1755.0 - lower_by_mm(1755.0, seat) - seat == pytest.approx(
        above_seat_mm, abs=4.0
    )
    # the hollow of the knee is 430 mm high barefoot
    assert seat == pytest.approx(430.0 + SHOES_MM, abs=1.0)
