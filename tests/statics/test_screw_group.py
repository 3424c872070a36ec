"""What the screws of a plate bear, by hand and by least energy.

Source: a stiff plate on equal springs shares a load with the least energy (Castigliano), which the
pseudo-inverse of the equations of equilibrium finds; m g with g = 9.80665 m/s2 (ISO 80000-3).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cleatwright.parts.holder import ScrewRows, Seat
from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.hand import Hand
from cleatwright.statics.screw_group import screw_load

G = 9.80665
NOTHING = OwnWeight(0.0, 0.0)
NO_HAND = Hand(drag=0.0, pull_n=0.0, lift_n=0.0)


def rows(columns_mm: tuple[float, ...], apart_mm: float = 100.0) -> ScrewRows:
    return ScrewRows(columns_mm, apart_mm, -80.0, 30.0, ScrewStrength(200.0, 200.0))


def seat(mass_kg: float, x_mm: float, out_mm: float) -> Seat:
    """Return a tool from 20 mm below its seat to 40 mm above it."""
    tool = ToolBody(
        "x", "x", (block(-5.0, -5.0, -20.0, 5.0, 5.0, 40.0),), mass_kg, (0.0, 0.0, 0.0), (), 1.0
    )
    return Seat(tool, shift(x_mm, out_mm, 0.0), (), ())


def test_what_sits_before_the_last_column_is_borne_there() -> None:
    """10 kg 60 mm out before the right one of two columns 260 mm apart.

    Out: 98.07 * 60 / 100. Along: 98.07 / 4, and 98.07 * 130 * 130 / 77600 down and
    98.07 * 130 * 50 / 77600 to the side, with 77600 = 4 (130^2 + 50^2).
    """
    for x in (20.0, 280.0):
        found = screw_load([seat(10.0, x, 60.0)], NOTHING, rows((20.0, 280.0)), hand=NO_HAND)
        assert found.withdrawal_n == pytest.approx(58.840, abs=0.001)
        assert found.shear_n == pytest.approx(math.hypot(24.517 + 21.357, 8.214), abs=0.002)


def test_light_tools_beside_a_heavy_one_do_not_make_its_screws_safer() -> None:
    """A hand may take the light ones away; four columns had borne a quarter each before."""
    heavy = seat(10.0, 270.0, 60.0)
    light = [seat(0.1, x, 20.0) for x in (24.0, 96.0, 168.0)]
    four = rows((10.0, 104.0, 198.0, 292.0))
    alone = screw_load([heavy], NOTHING, four, hand=NO_HAND)
    among = screw_load([heavy, *light], NOTHING, four, hand=NO_HAND)
    assert among.withdrawal_n >= alone.withdrawal_n > 0.5 * 10.0 * G * 60.0 / 100.0
    assert among.shear_n >= alone.shear_n


def test_a_hand_at_one_end_pulls_at_the_screws_there() -> None:
    """20 N at the middle of a tool of 60 mm, 10 mm above its seat and 90 mm above the row."""
    pulled = Hand(drag=0.0, pull_n=20.0, lift_n=0.0)
    found = screw_load([seat(1e-9, 280.0, 0.0)], NOTHING, rows((20.0, 280.0)), hand=pulled)
    assert found.withdrawal_n == pytest.approx(20.0 * 90.0 / 100.0)


@given(
    st.lists(st.floats(5.0, 400.0), min_size=2, max_size=6, unique_by=lambda x: round(x / 9.0)),
    st.floats(0.0, 400.0),
    st.floats(30.0, 200.0),
)
def test_a_load_is_shared_with_the_least_energy(
    columns_mm: list[float], x_mm: float, apart_mm: float
) -> None:
    mass, out = 3.0, 45.0
    group = rows(tuple(columns_mm), apart_mm)
    found = screw_load([seat(mass, x_mm, out)], NOTHING, group, hand=NO_HAND)
    weight, x = mass * G, np.array(columns_mm)
    drawn = np.linalg.pinv(np.array([np.ones_like(x), x])) @ (
        weight * out / apart_mm * np.array([1.0, x_mm])
    )
    assert found.withdrawal_n == pytest.approx(float(drawn.max()), rel=1e-6)
    xs, zs = np.tile(x, 2), np.repeat([-apart_mm / 2, apart_mm / 2], len(x))
    balance = np.array(
        [
            [*np.ones_like(xs), *np.zeros_like(xs)],
            [*np.zeros_like(xs), *np.ones_like(xs)],
            [*-zs, *xs],
        ]
    )
    forces = np.linalg.pinv(balance) @ np.array([0.0, weight, weight * x_mm])
    level, down = forces[: len(xs)], forces[len(xs) :]
    assert found.shear_n == pytest.approx(float(np.hypot(level, down).max()), rel=1e-6)
