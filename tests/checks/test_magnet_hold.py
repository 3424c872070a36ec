"""Magnets: the field on an axis, the exact pull of charged discs, friction and tipping."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import j1

from cleatwright.checks.magnet_hold import check_magnets
from cleatwright.checks.way_out import SeatTrial, check_seats
from cleatwright.parts.hold import MagnetPull
from cleatwright.parts.holder import Seat
from cleatwright.parts.tool import GRAVITY_M_S2, ToolBody
from cleatwright.shapes.rigid import STILL
from cleatwright.shapes.solid import block
from cleatwright.statics.disc_magnet import (
    DERATED,
    MU0,
    PULL,
    axial_field_t,
    derated_pull_n,
    full_pull_n,
    steel_share,
)


def exact_pull_n(diameter: float, thickness: float, gap: float, remanence: float) -> float:
    """Return the force between a disc and its mirror image twice the gap away.

    Two cylinders magnetised along one axis, as charged discs: D. Vokoun and others,
    "Magnetostatic interactions and forces between cylindrical permanent magnets", 2009
    (from memory; its near and far limits are tested below).
    """
    radius = diameter / 2

    def term(q: float) -> float:
        decay = math.exp(-q * 2 * gap / radius)
        return j1(q) ** 2 / q * decay * (1 - math.exp(-q * thickness / radius)) ** 2

    integral, _ = quad(term, 1e-9, 400.0, limit=2000)
    return math.pi * (radius / 1000) ** 2 * remanence**2 / MU0 * integral


def test_the_oracle_meets_its_limits() -> None:
    """A long bar in contact pulls B² A / (2 mu0); far away two dipoles attract as 1/z⁴."""
    area = math.pi * 0.005**2
    contact = exact_pull_n(10.0, 400.0, 1e-6, 1.2)
    assert contact == pytest.approx(1.2**2 * area / (2 * MU0), rel=0.02)
    moment = 1.2 / MU0 * area * 0.003
    apart = 2 * 0.06 + 0.003
    far = 3 * MU0 * moment**2 / (2 * math.pi * apart**4)
    assert exact_pull_n(10.0, 3.0, 60.0, 1.2) == pytest.approx(far, rel=0.02)


def test_the_field_in_the_face_of_a_long_bar_is_half_its_remanence() -> None:
    assert axial_field_t(10.0, 1e6, gap_mm=0.0, remanence_t=1.2) == pytest.approx(0.6)


@settings(deadline=None, max_examples=40)
@given(size=st.floats(6.0, 16.0), slim=st.floats(0.2, 0.75), gap=st.floats(0.05, 6.0))
def test_the_pull_is_less_than_the_exact_one_and_not_absurdly_less(
    size: float, slim: float, gap: float
) -> None:
    exact = exact_pull_n(size, slim * size, gap, 1.17)
    assert 0.2 * exact < full_pull_n(size, slim * size, gap_mm=gap) < exact


@settings(deadline=None, max_examples=20)
@given(size=st.floats(10.0, 15.0), thick=st.floats(3.0, 6.0), gap=st.floats(1.2, 1.5))
def test_what_is_relied_on_is_between_a_third_and_seven_tenths_of_the_exact_pull(
    size: float, thick: float, gap: float
) -> None:
    """The range of discs and skins that a magnet bar offers."""
    relied = derated_pull_n(size, thick, gap_mm=gap, steel_mm=9.0, width_mm=40.0)
    assert 1 / 3 < relied / exact_pull_n(size, thick, gap, 1.17) < DERATED


def test_a_catalogue_magnet_pulls_at_least_what_is_computed() -> None:
    """Sellers print about 20 N for a 10 x 3 mm disc N42 on thick steel (from memory)."""
    assert full_pull_n(10.0, 3.0, gap_mm=0.0, remanence_t=1.3) < 20.0


def test_thin_steel_and_narrow_steel_pull_less() -> None:
    assert steel_share(10.0, 3.0, gap_mm=1.2, steel_mm=5.0) == 1.0
    assert steel_share(10.0, 3.0, gap_mm=1.2, steel_mm=0.3) < 0.5
    wide = derated_pull_n(10.0, 3.0, gap_mm=1.2, steel_mm=5.0, width_mm=20.0)
    narrow = derated_pull_n(10.0, 3.0, gap_mm=1.2, steel_mm=5.0, width_mm=5.0)
    assert narrow == pytest.approx(wide / 2)


def seat(pull: MagnetPull | None, *, mass_kg: float = 0.1, out_mm: float = 4.0) -> Seat:
    body = ToolBody("bar", "x", (block(0, 0, 0, 1, 8, 9),), mass_kg, (0.0, out_mm, 5.0), (), 1.0)
    return Seat(body, STILL, ((0.0, 9.0, 0.0),), (), kept=False, magnet=pull)


def test_friction_carries_half_of_what_it_could() -> None:
    """0.1 kg on a friction of 0.2 with a factor of 2: 9.80665 N of pull, on the edge."""
    just = MagnetPull(GRAVITY_M_S2, 0.2, PULL, lever_mm=10.0)
    friction, _ = check_magnets([seat(just)], on_ledge=[False])
    assert friction.name == "carried by friction"
    assert friction.utilisation == pytest.approx(1.0)
    assert {r.name for r in check_magnets([seat(just)], on_ledge=[True])} == {
        "held against tipping out"
    }


def test_the_pull_and_its_lever_stand_against_the_weight_before_the_face() -> None:
    """2 x 0.98 N x 4 mm against 1 N x 5 mm."""
    (tipping,) = check_magnets([seat(MagnetPull(1.0, 0.2, PULL, lever_mm=5.0))], on_ledge=[True])
    assert tipping.demand == pytest.approx(2 * 0.1 * GRAVITY_M_S2 * 4.0)
    assert tipping.capacity == pytest.approx(5.0)
    assert not tipping.holds


def test_seats_without_magnets_are_passed_over() -> None:
    assert check_magnets([seat(None)], on_ledge=[True]) == ()


def test_a_tool_that_magnets_carry_is_not_asked_to_rest_on_something() -> None:
    falling = SeatTrial("seat 1", 0.0, math.inf, math.inf, kept=False, pulled=True)
    assert [result.name for result in check_seats([falling])] == ["way out free"]
    loose = replace(falling, pulled=False)
    assert [r.name for r in check_seats([falling, loose]) if not r.holds] == ["carried"]


@pytest.mark.parametrize(
    ("size", "thick", "gap"), [(10.0, 3.0, 1.2), (15.0, 5.0, 0.9), (6.0, 2.0, 1.0)]
)
def test_steel_carries_all_of_a_disc_where_its_rim_carries_the_flux_of_its_area(
    size: float, thick: float, gap: float
) -> None:
    """Flux in is flux out: B pi d2 / 4 = Bs pi d t. Mild steel: 1.6 T (memory)."""
    field = 2 * axial_field_t(size, thick, gap_mm=gap)
    enough = field * size / (4 * 1.6)
    share = partial(steel_share, size, thick, gap_mm=gap)
    assert share(steel_mm=enough) == pytest.approx(1.0)
    assert share(steel_mm=enough / 2) == pytest.approx(0.5)
    assert share(steel_mm=2 * enough) == 1.0
