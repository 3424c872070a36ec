"""Hangers and their groove under weights and hands, by hand, and each check can fail.

Sources: a fifth of 51 MPa along the layers and less than a quarter of 22.8 MPa across for years, a
third of both while a hand pulls: a filament maker's sheet of printed ISO 527 bars, and
doi 10.1089/3dp.2020.0109.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.checks.test_rail_hold import HANGING, HOLD, LIGHT, part

from cleatwright.checks.hanger_strength import check_hanger_strength
from cleatwright.checks.result import CheckResult
from cleatwright.parts.hanger_groove import HangerGroove
from cleatwright.statics.hand import Hand

G = 9.80665
STILL = Hand(drag=0.0, pull_n=0.0, lift_n=0.0)
TUG = Hand(drag=0.0, pull_n=10.0, lift_n=0.0)


def found(
    mass_kg: float, hand: Hand, *, margin: float = 1.5, groove: HangerGroove = HOLD.groove
) -> list[CheckResult]:
    hold = replace(HOLD, groove=groove)
    one = replace(part(mass_kg, 30.0), hanging=replace(HANGING, hold=hold))
    checks = check_hanger_strength(one, LIGHT, margin=margin, hand=hand)
    assert len(checks) == 3
    return list(checks)


@pytest.mark.parametrize("margin", [1.0, 1.5, 3.0])
def test_weights_count_for_years_with_the_margin(margin: float) -> None:
    """4 kg 30 mm out need no bolt: M = W (3 * 2 + 5), on 24 mm of necks 8 mm high."""
    neck, wall, lip = found(4.0, STILL, margin=margin)
    weight = 4.0 * G
    moment = 11.0 * weight
    assert neck.demand == pytest.approx(margin * (6 * moment / 64 + weight / 8) / 24, rel=1e-4)
    s = (moment + 6 * weight) / 4.5
    u = weight + s / 2
    thick = 7.0 - 3.05
    bent = s * 9.1 - u * (9.35 - (3.05 + thick / 2 - 1.25))
    strip = 24 + 2 * 9.6
    assert wall.demand == pytest.approx(margin * (6 * bent / thick + u) / (strip * thick), rel=1e-4)
    assert lip.demand == pytest.approx(margin * (s / 2) / (24 * 2), rel=1e-4)
    assert [neck.capacity, wall.capacity, lip.capacity] == [51 / 5 - 0.2, 51 / 5 - 0.2, 5.0]


def test_a_hand_may_ask_more_for_a_moment_and_without_the_margin() -> None:
    """10 N at the bevel 30 mm out: S = (30 W + 67 F) / 61 - W, and q = W + S."""
    neck, wall, lip = found(0.2, TUG)
    up = (30 * 0.2 * G + 67 * 10.0) / 61
    assert neck.demand == pytest.approx((6 * 11 * up / 64 + up / 8) / 24, rel=0.5)
    assert [neck.capacity, wall.capacity, lip.capacity] == [16.0, 16.0, 8.0]
    assert neck.capacity <= 51 / 3
    assert lip.capacity <= 17 / 2
    again = found(0.2, TUG, margin=3.0)
    assert [one.demand for one in again] == pytest.approx([neck.demand, wall.demand, lip.demand])


def test_a_plate_whose_layers_lie_across_may_bear_less() -> None:
    bedded, across = (
        found(4.0, STILL)[1],
        found(4.0, STILL, groove=replace(HOLD.groove, bedded=False))[1],
    )
    assert bedded.demand == pytest.approx(across.demand)
    assert (bedded.capacity, across.capacity) == (10.0, 5.0)


@pytest.mark.parametrize(
    ("k", "weak"),
    [(0, {"long_mm": 3.0}), (1, {"wall_mm": 1.0}), (2, {"flank_mm": 0.2, "land_mm": 0.1})],
)
def test_each_fails_where_there_is_too_little(k: int, weak: dict[str, float]) -> None:
    assert all(one.holds for one in found(2.5, TUG))
    assert not found(2.5, TUG, groove=replace(HOLD.groove, **weak))[k].holds


def test_what_has_no_hangers_is_not_asked() -> None:
    bare = replace(part(), hanging=replace(HANGING, hold=None))
    assert check_hanger_strength(bare, LIGHT, margin=1.5, hand=TUG) == ()
