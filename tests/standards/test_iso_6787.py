"""Oracle: ISO 6787:2018 in a secondary source; three rows from memory."""

from collections.abc import Callable
from itertools import pairwise
from typing import Any

from cleatwright.base.source import Evidence
from cleatwright.standards.iso_6787 import ADJUSTABLE_WRENCHES

PRINTED = "100 | 13\n150 | 19\n200 | 24\n250 | 28\n300 | 34\n600 | 60"


def test_each_row_is_the_printed_one(as_printed: Callable[[Any, str], None]) -> None:
    as_printed(ADJUSTABLE_WRENCHES, PRINTED)


def test_a_longer_wrench_opens_wider() -> None:
    for (_, (opening,)), (_, (wider,)) in pairwise(ADJUSTABLE_WRENCHES.rows):
        assert opening < wider


def test_what_is_from_memory_is_marked_so() -> None:
    rows = ADJUSTABLE_WRENCHES.listed()
    memory = {e.label for e in rows if e.source.evidence is Evidence.MEMORY}
    assert memory == {f"{length} opening_min_mm" for length in (150, 200, 250)}
