"""Oracles: ISO 272 and DIN 931 in secondary sources, ISO 4032 in this room."""

from collections.abc import Callable
from typing import Any

import pytest

from cleatwright.base.errors import UnknownNameError
from cleatwright.base.source import Evidence
from cleatwright.standards.iso_272 import (
    OLD_WIDTHS_ACROSS_FLATS,
    WIDTHS_ACROSS_FLATS,
    wrenches_mm,
)
from cleatwright.standards.iso_4032 import HEX_NUTS, OLD_NUT_FLATS

PRINTED = """
M3  | 5.5
M4  | 7
M5  | 8
M6  | 10
M8  | 13
M10 | 16
M12 | 18
M14 | 21
M16 | 24
M20 | 30
"""
Check = Callable[[Any, str], None]


def test_each_row_is_the_printed_one(as_printed: Check) -> None:
    as_printed(WIDTHS_ACROSS_FLATS, PRINTED)
    as_printed(OLD_WIDTHS_ACROSS_FLATS, "M10 | 17\nM12 | 19\nM14 | 22")


@pytest.mark.parametrize("thread", HEX_NUTS.keys)
def test_a_nut_has_the_flats_of_iso_272(thread: str) -> None:
    """ISO 4032 takes its widths from ISO 272; the two modules were read from different files."""
    flats = WIDTHS_ACROSS_FLATS.value(thread, "across_flats_mm")
    assert HEX_NUTS.value(thread, "across_flats_max_mm") == flats


@pytest.mark.parametrize("thread", ["M10", "M12", "M14"])
def test_the_old_flats_are_one_millimetre_wider(thread: str) -> None:
    new, old = wrenches_mm(thread)
    assert old - new == 1.0


def test_the_old_m10_agrees_with_the_old_nut() -> None:
    assert OLD_NUT_FLATS.value("M10", "across_flats_max_mm") == wrenches_mm("M10")[1]


def test_other_threads_have_one_width_and_unknown_ones_are_refused() -> None:
    others = set(WIDTHS_ACROSS_FLATS.keys) - {"M10", "M12", "M14"}
    assert {len(wrenches_mm(thread)) for thread in others} == {1}
    with pytest.raises(UnknownNameError, match="M20"):
        wrenches_mm("M22")


def test_nothing_is_from_memory() -> None:
    tables = (WIDTHS_ACROSS_FLATS, OLD_WIDTHS_ACROSS_FLATS)
    evidence = {e.source.evidence for table in tables for e in table.listed()}
    assert evidence == {Evidence.SECONDARY}
