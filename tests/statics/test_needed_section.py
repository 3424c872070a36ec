"""What an arm needs, by hand: 5 N/mm2 across its layers for years with a margin of 1.5, else 8."""

from __future__ import annotations

import math

import numpy as np
import pytest

from cleatwright.features.webs import WebDepth, web_depth
from cleatwright.statics.needed_section import (
    Borne,
    bar_depth_mm,
    needed_modulus_mm3,
    web_modulus_mm3,
)
from cleatwright.statics.seat_load import SeatLoad


def test_weights_or_a_hand_ask_for_more() -> None:
    assert needed_modulus_mm3(1000.0, hand_nmm=0.0) == pytest.approx(1000.0 * 1.5 / 5.0)
    assert needed_modulus_mm3(100.0, hand_nmm=900.0) == pytest.approx(1000.0 / 8.0)


def test_a_bar_as_deep_as_said_bears_the_moment() -> None:
    """A cantilever 4 mm wide under 20 N at 60 mm: 6 F l / (b h2) is just what is borne."""
    deep = bar_depth_mm(needed_modulus_mm3(1200.0, hand_nmm=0.0), width_mm=4.0)
    assert 6.0 * 1200.0 / (4.0 * deep**2) == pytest.approx(5.0 / 1.5)


def test_the_middle_one_of_three_webs_bears_a_third_of_what_stands_over_it() -> None:
    """30 N in the middle, 50 mm before the plate: a third of 1500 N mm, a tenth more for itself."""
    load = SeatLoad(30.0, 55.0, 55.0, 55.0, 55.0, 0.0, 80.0, 0.0)
    found = web_modulus_mm3([Borne(load, 40.0)], [0.0, 40.0, 80.0], cut_mm=5.0, reach_mm=90.0)
    assert found == pytest.approx(1.1 * 500.0 * 1.5 / 5.0)


def test_of_two_tools_a_web_bears_its_part_of_both() -> None:
    """10 N over each of two webs and 20 N between: 20 N each, 30 mm before the cut."""
    loads = [(10.0, 0.0), (10.0, 60.0), (20.0, 30.0)]
    tools = [Borne(SeatLoad(w, 35.0, 35.0, 35.0, 35.0, 0.0, 1.0, 0.0), x) for w, x in loads]
    found = web_modulus_mm3(tools, [0.0, 60.0], cut_mm=5.0, reach_mm=90.0)
    assert found == pytest.approx(1.1 * 600.0 * 1.5 / 5.0)


@pytest.mark.parametrize("end_mm", [0.0, 3.0, 11.0, 20.0])
def test_a_straight_edge_is_deep_enough_wherever_it_is_cut(end_mm: float) -> None:
    """The strength h2 falls evenly from 20 mm to the end; the edge is nowhere above it."""
    found = web_depth(20.0, end_mm, floor_mm=0.0, least=WebDepth(0.0, 0.0))
    u = np.linspace(0.0, 1.0, 101)
    asked = np.sqrt(20.0**2 * (1.0 - u) + end_mm**2 * u)
    spare = found.root_mm * (1.0 - u) + found.tip_mm * u - asked
    assert spare.min() >= -1e-9
    assert spare.min() == pytest.approx(0.0, abs=0.01)


def test_a_web_is_never_less_than_the_least() -> None:
    least = WebDepth(9.0, 4.0)
    assert web_depth(0.0, 0.0, floor_mm=4.0, least=least) == least
    assert math.isclose(web_depth(40.0, 0.0, floor_mm=4.0, least=least).root_mm, 46.0)
