"""Screws of a rail: where the trade sets them."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.wall.screws import screw_points


@settings(deadline=None, max_examples=60)
@given(
    st.lists(st.floats(0.0, 5000.0), max_size=8, unique=True),
    st.floats(300.0, 2500.0),
    st.floats(30.0, 300.0),
)
def test_two_screws_in_each_stud_part_the_height_of_the_rail_in_three(
    studs: list[float], top: float, height: float
) -> None:
    """A third and two thirds of the height: common practice, no source."""
    points = screw_points(studs, z_top_mm=top, height_mm=height)
    assert [p.x_mm for p in points] == sorted([*studs, *studs])
    for low, high in zip(points[::2], points[1::2], strict=True):
        gaps = (low.z_mm - (top - height), high.z_mm - low.z_mm, top - high.z_mm)
        assert gaps == pytest.approx((height / 3,) * 3)


def test_a_rail_that_meets_no_stud_has_no_screws() -> None:
    assert screw_points((), z_top_mm=1000.0, height_mm=70.0) == ()
