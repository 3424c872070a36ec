"""What tips a lying thing off its rest; hand cases from the moments about the rest's end."""

from __future__ import annotations

import math

import pytest

from cleatwright.statics.tipping import tipping_n


@pytest.mark.parametrize(
    ("weight_n", "off_mm", "half_mm", "ends_mm", "tips_n"),
    [
        # a level of 1 m on 150 mm: 9.07 x 75 / 425
        (9.07, 0.0, 75.0, (-500.0, 500.0), 1.6006),
        # 20 mm nearer to its right end, and 100 mm more of it there: 10 x 55 / 150
        (10.0, 20.0, 75.0, (-125.0, 225.0), 3.6667),
        # to the left the longer end, and the weight away from it: 10 x 95 / 150
        (10.0, 20.0, 75.0, (-225.0, 80.0), 6.3333),
        # all of it lies on its rest
        (10.0, 0.0, 75.0, (-75.0, 60.0), math.inf),
        # it weighs beside its rest, and tips by itself
        (10.0, 80.0, 75.0, (-100.0, 120.0), 0.0),
    ],
)
def test_moments_about_the_end_of_a_rest(
    weight_n: float, off_mm: float, half_mm: float, ends_mm: tuple[float, float], tips_n: float
) -> None:
    found = tipping_n(weight_n, off_mm=off_mm, half_mm=half_mm, ends_mm=ends_mm)
    assert found == pytest.approx(tips_n, rel=1e-4)
