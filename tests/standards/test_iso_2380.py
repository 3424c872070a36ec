"""Oracles: ISO 2380-1, ISO 2380-2 / DIN 5265 and ISO 8764-2, mostly from memory."""

from collections.abc import Callable
from typing import Any

from cleatwright.base.source import Evidence
from cleatwright.standards.iso_2380 import SLOTTED_BLADES, SLOTTED_TIPS
from cleatwright.standards.iso_8764 import CROSS_RECESS_BLADES

PRINTED_TIPS = """
0.4x2.5 | 0.4 2.5
0.5x3   | 0.5 3
0.6x3.5 | 0.6 3.5
0.8x4   | 0.8 4
1.0x5.5 | 1.0 5.5
1.2x6.5 | 1.2 6.5
1.2x8   | 1.2 8
1.6x8   | 1.6 8
1.6x10  | 1.6 10
2.0x12  | 2 12
"""
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
    as_printed(SLOTTED_TIPS, PRINTED_TIPS)
    as_printed(SLOTTED_BLADES, PRINTED_BLADES)
    as_printed(CROSS_RECESS_BLADES, PRINTED_CROSS)


def test_the_name_of_a_tip_is_its_size() -> None:
    for name, numbers in SLOTTED_TIPS.rows:
        assert tuple(float(part) for part in name.split("x")) == numbers


def test_every_blade_has_a_tip_of_its_width_and_no_thicker_shaft() -> None:
    widths = {width for _, (_, width) in SLOTTED_TIPS.rows}
    for name, (least, most, short, long) in SLOTTED_BLADES.rows:
        assert float(name) in widths
        assert least <= most <= float(name)
        assert short <= long


def test_one_tip_and_the_shafts_were_seen() -> None:
    seen = {e.label for e in SLOTTED_TIPS.listed() if e.source.evidence is Evidence.SECONDARY}
    assert seen == {"1.2x6.5 thickness_mm", "1.2x6.5 width_mm"}
    assert {e.source.evidence for e in SLOTTED_BLADES.listed()} == {Evidence.MEMORY}
    memory = {e.label for e in CROSS_RECESS_BLADES.listed() if e.source.evidence is Evidence.MEMORY}
    assert memory == {f"{point} blade_mm" for point in CROSS_RECESS_BLADES.keys}
