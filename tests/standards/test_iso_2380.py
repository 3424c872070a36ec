"""Oracles: ISO 2380-2 / DIN 5265 and ISO 8764-2, mostly from memory."""

from collections.abc import Callable
from typing import Any

from cleatwright.base.source import Evidence
from cleatwright.standards.tools.iso_2380 import SLOTTED_BLADES
from cleatwright.standards.tools.iso_8764 import CROSS_RECESS_BLADES

PRINTED_BLADES = """
3.5 | 3.5 3.5 75  100
4   | 4   4   100 100
5.5 | 5.5 5.5 125 125
6.5 | 6   6   150 150
8   | 7   7   175 175
10  | 8   9   200 200
"""
PRINTED_CROSS = """
PH0 | 3 4 60
PH1 | 5 5 80
PH2 | 6 6 100
PH3 | 8 8 150
"""
Check = Callable[[Any, str], None]


def test_each_row_is_the_printed_one(as_printed: Check) -> None:
    as_printed(SLOTTED_BLADES, PRINTED_BLADES)
    as_printed(CROSS_RECESS_BLADES, PRINTED_CROSS)


def test_no_shaft_is_thicker_than_its_tip_is_wide() -> None:
    for name, (least, most, short, long) in SLOTTED_BLADES.rows:
        assert least <= most <= float(name)
        assert short <= long


def test_only_the_shafts_of_cross_recess_screwdrivers_were_seen() -> None:
    assert {e.source.evidence for e in SLOTTED_BLADES.listed()} == {Evidence.MEMORY}
    memory = {e.label for e in CROSS_RECESS_BLADES.listed() if e.source.evidence is Evidence.MEMORY}
    assert memory == {f"{point} blade_mm" for point in CROSS_RECESS_BLADES.keys}
