"""Lengths that a document takes, against arithmetic with exact fractions."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from cleatwright.base.units import length_mm
from cleatwright.base.written import Side, written_length, written_within

# 1 in = 25.4 mm exactly (international yard and pound agreement of 1959)
STEP_MM = {("in", side): Fraction(254, 10) / 32 for side in ("up", "down", "nearest")} | {
    ("mm", "up"): Fraction(1, 10),
    ("mm", "down"): Fraction(1, 10),
    ("mm", "nearest"): Fraction(1, 100),
}
ROUNDING_MM = 1e-5


@given(
    mm=st.floats(0.0, 30_000.0),
    unit=st.sampled_from(["mm", "in"]),
    side=st.sampled_from(["up", "down", "nearest"]),
)
def test_a_written_length_lies_on_the_side_that_was_asked_for(
    mm: float, unit: str, side: Side
) -> None:
    text = written_length(mm, unit, side=side)
    off_mm, step_mm = length_mm(text) - mm, float(STEP_MM[unit, side])
    assert text.endswith(f" {unit}")
    if side == "nearest":
        assert abs(off_mm) <= step_mm / 2 + ROUNDING_MM
    else:
        off_mm = off_mm if side == "up" else -off_mm
        assert -ROUNDING_MM <= off_mm < step_mm + ROUNDING_MM


@given(
    mm=st.floats(0.0, 3000.0),
    low_mm=st.floats(0.0, 3000.0),
    more_mm=st.floats(1.0, 900.0),
    unit=st.sampled_from(["mm", "in"]),
)
def test_a_length_within_bounds_is_within_them_as_it_is_read(
    mm: float, low_mm: float, more_mm: float, unit: str
) -> None:
    high_mm = low_mm + more_mm
    read_mm = length_mm(written_within(mm, low_mm, high_mm, unit=unit))
    assert low_mm - ROUNDING_MM <= read_mm <= high_mm + ROUNDING_MM
    near_mm = min(max(mm, low_mm), high_mm)
    assert abs(read_mm - near_mm) <= float(STEP_MM[unit, "up"]) + ROUNDING_MM
