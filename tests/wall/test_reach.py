"""How far a standing person reaches, against published shares of stature and plain geometry."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import MeasureError, WallError
from cleatwright.base.said import in_mm
from cleatwright.wall.reach import PersonReach, band_of, person, reach_band, reach_limits

STATURES = st.floats(1000.0, 2500.0)
# common practice, no source: half a body of 250 mm; ISO 11226 (from memory): 20 degrees of lean
HALF_BODY_MM, LEAN_DEG = 125.0, 20.0


def swept(one: PersonReach, depth_mm: float) -> tuple[float, float]:
    """Return the lowest and highest point of the wall in the hand, over 20,000 lean angles.

    The trunk is a stick that turns about the hip, and the arm one that turns about its end.
    """
    hip = 0.530 * one.stature_mm
    trunk = one.shoulder_mm - hip
    angles = np.radians(np.linspace(0.0, LEAN_DEG, 20_001))
    forward = trunk * np.sin(angles)
    angles, forward = angles[forward <= depth_mm], forward[forward <= depth_mm]
    off = depth_mm + HALF_BODY_MM - forward
    inside = off < one.arm_mm
    rise = np.sqrt(one.arm_mm**2 - off[inside] ** 2)
    shoulder = hip + trunk * np.cos(angles[inside])
    return float((shoulder - rise).min()), float((shoulder + rise).max())


@pytest.mark.parametrize("stature_mm", [1500.0, 1750.0, 2000.0])
def test_a_body_has_the_published_shares(stature_mm: float) -> None:
    """Winter, Fig. 4.1, after Drillis and Contini: 0.818, 0.186, 0.146, 0.108.

    The 0.630 of the elbow is from memory.
    """
    one = person(stature_mm)
    assert one.shoulder_mm == pytest.approx(0.818 * stature_mm)
    assert one.elbow_mm == pytest.approx(0.630 * stature_mm)
    assert one.arm_mm == pytest.approx((0.186 + 0.146 + 0.108 / 2) * stature_mm)
    assert one.trunk_mm == pytest.approx(0.288 * stature_mm)


def test_the_arm_is_within_three_hundredths_of_that_of_soldiers() -> None:
    """ANSUR II (6068 people), means of ratios: upper arm 0.1909, forearm 0.1511, hand 0.1104."""
    assert person(1000.0).arm_mm == pytest.approx(190.9 + 151.1 + 110.4 / 2, rel=0.03)


# Pheasant, Bodyspace: stature and shoulder-to-grip length, 50th percentile; from memory
@pytest.mark.parametrize(("stature_mm", "grip_mm"), [(1740.0, 665.0), (1610.0, 600.0)])
def test_the_arm_is_near_a_measured_one(stature_mm: float, grip_mm: float) -> None:
    assert person(stature_mm).arm_mm == pytest.approx(grip_mm, rel=0.04)


def test_the_highest_grip_is_near_the_measured_one() -> None:
    """DIN 33402-2, grip overhead, 50th percentile of men, stature 1750 mm: 2060 ± 30; memory."""
    assert reach_limits(person(1750.0)).highest_mm == pytest.approx(2060.0, abs=40.0)


@given(STATURES)
@settings(deadline=None, max_examples=60)
def test_before_a_bare_wall_pythagoras_gives_the_limits(stature_mm: float) -> None:
    limits = reach_limits(person(stature_mm))
    rise = (0.386 * stature_mm) ** 2 - HALF_BODY_MM**2
    assert limits.highest_mm == pytest.approx(0.818 * stature_mm + math.sqrt(rise))
    assert limits.lowest_mm == pytest.approx(0.818 * stature_mm - math.sqrt(rise))


def test_a_triangle_of_whole_numbers_is_reached_as_euclid_says() -> None:
    """325² = 125² + 300²: an arm of 325 mm before a bare wall goes 300 mm up and down."""
    limits = reach_limits(person(1750.0, shoulder_mm=1400.0, arm_mm=325.0))
    assert (limits.lowest_mm, limits.highest_mm) == pytest.approx((1100.0, 1700.0))


@given(STATURES, st.floats(0.0, 0.3))
@settings(deadline=None, max_examples=60)
def test_over_a_bench_the_limits_are_those_of_all_lean_angles(stature_mm: float, b: float) -> None:
    one = person(stature_mm)
    limits = reach_limits(one, b * stature_mm)
    low, high = swept(one, b * stature_mm)
    assert limits.lowest_mm == pytest.approx(max(0.0, low), abs=0.2)
    assert limits.highest_mm == pytest.approx(high, abs=0.2)


@given(STATURES, st.floats(0.0, 0.25), st.floats(0.01, 0.1))
@settings(deadline=None, max_examples=60)
def test_a_deeper_bench_never_lets_a_hand_higher(stature_mm: float, b: float, more: float) -> None:
    near = reach_limits(person(stature_mm), b * stature_mm)
    far = reach_limits(person(stature_mm), (b + more) * stature_mm)
    assert far.highest_mm <= near.highest_mm + 1e-9


@given(st.floats(800.0, 1500.0))
@settings(deadline=None, max_examples=30)
def test_a_bench_deeper_than_the_hand_comes_is_refused_with_the_depth_that_is_not(
    depth_mm: float,
) -> None:
    with pytest.raises(WallError) as caught:
        reach_limits(person(1750.0), depth_mm)
    # 675.5 - 125 + 504 sin 20 degrees
    assert in_mm(caught.value.allowed) == "a bench less than 723 mm deep"
    assert "bench_depth" in caught.value.todo
    assert reach_limits(person(1750.0), 722.0).highest_mm > 1300.0


def test_no_hand_goes_through_the_bench() -> None:
    assert reach_limits(person(), 500.0, bench_height_mm=1000.0).lowest_mm == 1000.0
    assert reach_limits(person(), 0.0, bench_height_mm=1000.0).lowest_mm < 800.0
    with pytest.raises(WallError, match="1950 mm high"):
        reach_limits(person(), 600.0, bench_height_mm=1950.0)


@given(STATURES, st.floats(0.0, 0.3), st.none() | st.floats(0.4, 0.7))
@settings(deadline=None, max_examples=60)
def test_what_is_easy_is_reached(stature_mm: float, b: float, bench: float | None) -> None:
    high = None if bench is None else bench * stature_mm
    band = band_of(person(stature_mm), bench_depth_mm=b * stature_mm, bench_height_mm=high)
    assert band.lowest_mm <= band.low_mm <= band.high_mm <= band.highest_mm
    assert band.low_mm >= reach_band(stature_mm).low_mm
    assert band.easy_x_mm is None


def test_the_better_hand_is_half_the_shoulders_beside_the_person() -> None:
    """ANSUR II: breadth over the shoulder joints, 0.2328 of stature; x runs to the right."""
    right = band_of(person(2000.0, hand="right"), stand_x_mm=1000.0)
    left = band_of(person(2000.0, hand="left"), stand_x_mm=1000.0)
    assert (left.easy_x_mm, right.easy_x_mm) == (pytest.approx(767.2), pytest.approx(1232.8))
    assert band_of(person(hand="either"), stand_x_mm=1000.0).easy_x_mm is None
    assert band_of(person(hand="left")).easy_x_mm is None


@pytest.mark.parametrize(
    "make",
    [
        lambda: person(699.0),
        lambda: person(float("nan")),
        lambda: person(1750.0, elbow_mm=1500.0),
        lambda: person(1750.0, elbow_mm=800.0, shoulder_mm=900.0),
        lambda: person(1750.0, shoulder_mm=1750.0),
        lambda: person(1750.0, arm_mm=0.0),
        lambda: person(hand="both"),  # pyright: ignore[reportArgumentType] - wrong on purpose
        lambda: reach_limits(person(), -1.0),
        lambda: reach_limits(person(), float("nan")),
    ],
)
def test_measures_of_no_person_are_refused(make: object) -> None:
    assert callable(make)
    with pytest.raises(MeasureError):
        make()


def test_over_a_bench_a_standing_person_reaches_between_published_heights() -> None:
    """A small woman (ANSUR II, 5th percentile: 1525 mm) and a middling man (1755 mm).

    2010 ADA Standards 308.2.2: 1220 mm from a wheelchair over up to 510 mm. Kitchen planning
    guidelines of a trade body: 72 in at most for those who stand before a counter 25 in deep.
    """
    small = reach_limits(person(1525.0), 510.0, bench_height_mm=850.0).highest_mm
    man = reach_limits(person(1755.0), 635.0, bench_height_mm=900.0).highest_mm
    assert 1220.0 < small < man < 72 * 25.4
