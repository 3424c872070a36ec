"""Oracles: sizes of the trade from memory, and the volume of a cylinder."""

from collections.abc import Callable
from typing import Any

from cleatwright.base.source import Evidence
from cleatwright.standards.tools import trade

Check = Callable[[Any, str], None]


def test_each_row_of_the_trade_is_the_remembered_one(as_printed: Check) -> None:
    as_printed(trade.PAINT_CANS, "400 ml | 65 195")
    as_printed(trade.CARTRIDGES, "310 ml | 47 50 215 300 330")
    as_printed(trade.SCREWDRIVER_HANDLES, "typical | 28 35")


def test_a_paint_can_holds_its_content() -> None:
    """Closed form: the cylinder holds more than 400 ml, less than twice that (gas and dome)."""
    diameter, height = dict(trade.PAINT_CANS.rows)["400 ml"]
    assert 0.4 < 0.785398 * diameter**2 * height / 1e6 < 0.8


def test_a_cartridge_holds_its_content() -> None:
    """Closed form: a cylinder of 47 to 50 mm by 215 mm encloses 373 to 422 ml."""
    least, most, body, *_ = dict(trade.CARTRIDGES.rows)["310 ml"]
    assert 0.31 < 0.785398 * least**2 * body / 1e6 < 0.785398 * most**2 * body / 1e6 < 0.43


def test_all_of_it_is_from_memory() -> None:
    tables = (trade.PAINT_CANS, trade.CARTRIDGES, trade.SCREWDRIVER_HANDLES)
    assert {e.source.evidence for t in tables for e in t.listed()} == {Evidence.MEMORY}
