"""Bounds of the wall's values, and the band of reach."""

from collections.abc import Callable

import pytest

from cleatwright.base.errors import MeasureError
from cleatwright.wall.model import Box, Item, RailRule, WallSpace
from cleatwright.wall.rail import Profile
from cleatwright.wall.reach import reach_band


@pytest.mark.parametrize(
    "make",
    [
        lambda: WallSpace(0.0, 100.0),
        lambda: WallSpace(100.0, float("nan")),
        lambda: WallSpace(100.0, 100.0, floor_gap_mm=-1.0),
        lambda: RailRule(Profile(80.0, 18.0, 45.0), -1.0),
        lambda: RailRule(Profile(80.0, 18.0, 45.0), 50.0, step_mm=0.0),
        lambda: Box("socket", 0.0, 0.0, -5.0, 10.0),
        lambda: Box("socket", float("inf"), 0.0, 5.0, 10.0),
        lambda: Item("a", 0.0, 10.0, 10.0),
        lambda: Item("a", 10.0, 0.0, 0.0),
        lambda: Item("a", 10.0, 10.0, 10.0, mass_kg=-1.0),
        lambda: Item("a", 10.0, 10.0, 10.0, use="often"),  # type: ignore[arg-type]
        lambda: Item("a", 10.0, 10.0, 10.0, fixed=(float("nan"), 0.0)),
    ],
)
def test_a_value_out_of_bounds_is_refused_with_its_name(make: Callable[[], object]) -> None:
    with pytest.raises(MeasureError) as caught:
        make()
    assert caught.value.where


def test_the_band_of_reach_is_that_of_the_published_ratios() -> None:
    """Ratios 0.630 (elbow, from memory) and 0.818 (shoulder, seen) of Drillis and Contini."""
    band = reach_band(1750.0)
    assert band.low_mm == pytest.approx(1102.5, abs=0.05)
    assert band.high_mm == pytest.approx(1431.5, abs=0.05)
    # the upper arm, 0.186 of stature in the same table, reaches from shoulder to elbow
    assert band.high_mm - band.low_mm == pytest.approx(0.186 * 1750.0, abs=0.005 * 1750.0)


def test_distance_from_the_band_is_zero_inside_and_grows_by_millimetres_outside() -> None:
    band = reach_band(1800.0)
    assert band.distance_mm(1200.0) == 0.0
    assert band.distance_mm(band.high_mm + 70.0) == pytest.approx(70.0)
    assert band.distance_mm(band.low_mm - 30.0) == pytest.approx(30.0)


def test_a_stature_of_no_person_is_refused() -> None:
    with pytest.raises(MeasureError):
        reach_band(17.5)
