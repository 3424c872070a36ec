"""Oracles: sizes of the trade, pliers and hammers, mostly from memory; the inch."""

from collections.abc import Callable
from typing import Any

import pytest

from cleatwright.base.source import Evidence
from cleatwright.standards import din_1041, iso_4032, iso_4035, iso_5746, iso_5749, trade

TINPLATE = "45 | 45\n49 | 49\n52 | 52\n57 | 57\n65 | 65"
ALUMINIUM = "35 | 35\n38 | 38\n40 | 40\n45 | 45\n50 | 50\n53 | 53\n59 | 59\n66 | 66"
SHANKS = "6 | 6\n1/4 in | 6.35\n8 | 8\n12 | 12\n1/2 in | 12.7"
PLIERS = "140 | 140\n160 | 160\n180 | 180\n200 | 200\n220 | 220"
CUTTERS = "125 | 125\n140 | 140\n160 | 160\n180 | 180\n200 | 200"
HAMMERS = """
200 g  | 0.2 280
300 g  | 0.3 300
500 g  | 0.5 320
800 g  | 0.8 350
1000 g | 1.0 360
"""
THIN_NUTS = "M3 | 1.8\nM4 | 2.2\nM5 | 2.7\nM6 | 3.2\nM8 | 4.0"
Check = Callable[[Any, str], None]


def test_each_row_of_the_trade_is_the_remembered_one(as_printed: Check) -> None:
    as_printed(trade.TINPLATE_CANS, TINPLATE)
    as_printed(trade.ALUMINIUM_CANS, ALUMINIUM)
    as_printed(trade.PAINT_CANS, "400 ml | 65 195")
    as_printed(trade.CARTRIDGES, "310 ml | 47 50 215 300 330")
    as_printed(trade.ROUTER_SHANKS, SHANKS)
    as_printed(trade.SCREWDRIVER_HANDLES, "typical | 28 35")
    as_printed(trade.ROUND_ABRASIVES, "125 | 125\n150 | 150")
    as_printed(trade.FLAT_ABRASIVES, "sheet | 230 280\nbelt | 75 533")


def test_each_row_of_pliers_hammers_and_thin_nuts_is_the_printed_one(as_printed: Check) -> None:
    as_printed(iso_5746.COMBINATION_PLIERS, PLIERS)
    as_printed(iso_5749.DIAGONAL_CUTTERS, CUTTERS)
    as_printed(din_1041.HAMMER_HANDLES, HAMMERS)
    as_printed(iso_4035.THIN_NUTS, THIN_NUTS)


def test_a_hammer_is_named_by_its_head() -> None:
    for name, (head_kg, _) in din_1041.HAMMER_HANDLES.rows:
        assert name == f"{1000.0 * head_kg:.0f} g"


def test_shanks_in_inches_are_fractions_of_254_tenths() -> None:
    """Closed form: 25.4 / 4 and 25.4 / 2."""
    assert trade.ROUTER_SHANKS.value("1/4 in", "diameter_mm") == pytest.approx(25.4 / 4.0)
    assert trade.ROUTER_SHANKS.value("1/2 in", "diameter_mm") == pytest.approx(25.4 / 2.0)


def test_a_paint_can_is_a_tinplate_can_that_holds_its_content() -> None:
    """Closed form: the cylinder holds more than 400 ml, less than twice that (gas and dome)."""
    diameter, height = dict(trade.PAINT_CANS.rows)["400 ml"]
    assert f"{diameter:g}" in trade.TINPLATE_CANS.keys
    assert 0.4 < 0.785398 * diameter**2 * height / 1e6 < 0.8


def test_a_cartridge_holds_its_content() -> None:
    """Closed form: a cylinder of 47 to 50 mm by 215 mm encloses 373 to 422 ml."""
    least, most, body, *_ = dict(trade.CARTRIDGES.rows)["310 ml"]
    assert 0.31 < 0.785398 * least**2 * body / 1e6 < 0.785398 * most**2 * body / 1e6 < 0.43


@pytest.mark.parametrize("thread", iso_4035.THIN_NUTS.keys)
def test_a_thin_nut_is_thinner_than_a_regular_one(thread: str) -> None:
    thin = iso_4035.THIN_NUTS.value(thread, "height_max_mm")
    assert thin < iso_4032.HEX_NUTS.value(thread, "height_max_mm")


def test_what_was_seen_is_marked_so() -> None:
    seen = (trade.ROUND_ABRASIVES, trade.FLAT_ABRASIVES, iso_4035.THIN_NUTS)
    remembered = (
        trade.TINPLATE_CANS,
        trade.ALUMINIUM_CANS,
        trade.PAINT_CANS,
        trade.CARTRIDGES,
        trade.ROUTER_SHANKS,
        trade.SCREWDRIVER_HANDLES,
        iso_5746.COMBINATION_PLIERS,
        iso_5749.DIAGONAL_CUTTERS,
        din_1041.HAMMER_HANDLES,
    )
    assert {e.source.evidence for t in seen for e in t.listed()} == {Evidence.SECONDARY}
    assert {e.source.evidence for t in remembered for e in t.listed()} == {Evidence.MEMORY}
