"""Screws into the rail: each check by hand, and each can fail.

Source: NDS 2018, 12.2-2 and Table 12.3.1A, for what a screw may carry (tested by themselves);
moments about the foot and the edge of the bevel.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.checks.test_rail_hold import HAND, HANGING, LIGHT, part

from cleatwright.checks.rail_screws import check_rail_screws
from cleatwright.checks.result import CheckResult
from cleatwright.parts.rail_screws import RailScrews
from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.shapes.rigid import shift
from cleatwright.statics.hand import Hand

G = 9.80665
SCREWS = RailScrews(
    (50.0,), 32.0, (5.0, 95.0), ScrewStrength(140.0, 70.0), 3.0, 25.0, 7.0, 67.0, 8.0, 49.0, 83.0
)


def found(
    mass_kg: float = 1.0,
    *,
    margin: float = 1.5,
    hand: Hand = HAND,
    knock: float = 5.0,
    screws: RailScrews = SCREWS,
    rest_z_mm: float = 0.0,
) -> list[CheckResult]:
    hanging = replace(HANGING, hold=None, rail_screws=screws)
    one = replace(part(mass_kg, 30.0, rest_z_mm=rest_z_mm), hanging=hanging)
    return list(check_rail_screws(one, LIGHT, margin=margin, hand=hand, knock=knock))


@pytest.mark.parametrize("margin", [1.0, 1.5, 3.0])
def test_weights_count_with_the_margin(margin: float) -> None:
    """1 kg 30 mm out: W along the rail and X = 30 W / 35 out of it."""
    check = found(margin=margin)[0]
    assert check.demand == pytest.approx(margin * G * (1 + (30 / 35) ** 2) ** 0.5, rel=1e-4)
    # Hankinson between 140 and 70 N
    along, out = 1.0, (30 / 35) ** 2
    assert check.capacity == pytest.approx(
        min(140 * 70 * (along + out) / (140 * along + 70 * out), 70 * (along + out) ** 0.5),
        rel=1e-4,
    )


def test_a_hand_pulls_level_with_the_seat() -> None:
    """10 N at the bevel: X = (30 W + 10 * 67) / 35."""
    check = found(hand=Hand(0.0, 10.0, 0.0))[1]
    out = (30 * G + 670.0) / 35
    assert check.demand == pytest.approx((out**2 + G**2) ** 0.5, rel=1e-4)


def test_a_knock_turns_it_about_the_end_of_its_hooks() -> None:
    """5 N 110 mm below, 45 mm from the screw, against 1 N of weight there; and the knock itself."""
    check = found(0.1, rest_z_mm=-100.0)[2]
    assert check.demand == pytest.approx((550.0 - 0.1 * G * 45.0) / 45.0 + 5.0, rel=1e-3)
    assert check.capacity == 70.0
    assert len(found(knock=0.0)) == 3


def test_a_tool_beyond_the_hooks_turns_on_what_is_knocked() -> None:
    """0.1 kg as above, 20 mm inside a hook at 30; 1 kg 20 mm beyond it; a screw 20 mm from it."""
    screws = replace(SCREWS, hooks_mm=(30.0, 95.0))
    low = part(0.1, 30.0, rest_z_mm=-100.0)
    (heavy,) = part(1.0, 30.0).seats
    beside = replace(heavy, pose=heavy.pose.then(shift(-40.0, 0.0, 0.0)))
    hanging = replace(HANGING, hold=None, rail_screws=screws)
    both = replace(low, hanging=hanging, seats=(*low.seats, beside))
    check = check_rail_screws(both, LIGHT, margin=1.5, hand=HAND, knock=5.0)[2]
    turned = 550.0 - 0.1 * G * 20.0 + 1.0 * G * 20.0
    assert check.demand == pytest.approx(turned / 20.0 + 5.0, rel=1e-3)


@pytest.mark.parametrize("k", [0, 1, 2])
def test_each_fails_where_screws_bear_little(k: int) -> None:
    assert all(one.holds for one in found(rest_z_mm=-40.0))
    weak = replace(SCREWS, strength=ScrewStrength(2.0, 1.0))
    assert not found(rest_z_mm=-40.0, screws=weak)[k].holds


def test_what_has_no_screws_is_not_asked() -> None:
    assert check_rail_screws(part(), LIGHT, margin=1.5, hand=HAND, knock=5.0) == ()


@pytest.mark.parametrize(("across", "most"), [(False, (10.0, 16.0)), (True, (5.0, 8.0))])
def test_pads_bear_what_bends_them(across: bool, most: tuple[float, float]) -> None:
    """1 kg 30 mm out on a foot 67 mm and a screw 32 mm below: 1.5 N (67 - 32) / 49, for years."""
    screws = replace(SCREWS, across=across, plate_mm=67.0)
    still = Hand(0.0, 0.0, 0.0)
    bent = 30.0 * G / 49.0
    (check,) = [one for one in found(hand=still, screws=screws) if "pads" in one.name]
    assert (check.demand, check.capacity) == (pytest.approx(1.5 * bent, rel=1e-4), most[0])
    (check,) = [
        one for one in found(hand=Hand(0.0, 60.0, 0.0), screws=screws) if "pads" in one.name
    ]
    foot = (30.0 * G + 60.0 * 67.0) / 35.0 - 60.0
    assert (check.demand, check.capacity) == (pytest.approx(foot * 35.0 / 49.0, rel=1e-4), most[1])
