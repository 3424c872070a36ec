"""Oracle: ISO 235 = DIN 338, whole sizes in a secondary source, the rest from memory."""

import math
from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence
from cleatwright.standards.tools.iso_235 import JOBBER_DRILLS, JOBBER_STEPS, jobber_drill_mm

PRINTED = """
1    | 34  12
1.5  | 40  18
2    | 49  24
2.5  | 57  30
3    | 61  33
3.5  | 70  39
4    | 75  43
4.5  | 80  47
5    | 86  52
5.5  | 93  57
6    | 93  57
6.5  | 101 63
7    | 109 69
7.5  | 109 69
8    | 117 75
8.5  | 117 75
9    | 125 81
9.5  | 125 81
10   | 133 87
10.5 | 133 87
11   | 142 94
12   | 151 101
13   | 151 101
"""
# from memory
PRINTED_STEPS = """
up to 1.06 | 0.95  1.06  34  12
up to 1.18 | 1.06  1.18  36  14
up to 1.32 | 1.18  1.32  38  16
up to 1.5  | 1.32  1.50  40  18
up to 1.7  | 1.50  1.70  43  20
up to 1.9  | 1.70  1.90  46  22
up to 2.12 | 1.90  2.12  49  24
up to 2.36 | 2.12  2.36  53  27
up to 2.65 | 2.36  2.65  57  30
up to 3    | 2.65  3.00  61  33
up to 3.35 | 3.00  3.35  65  36
up to 3.75 | 3.35  3.75  70  39
up to 4.25 | 3.75  4.25  75  43
up to 4.75 | 4.25  4.75  80  47
up to 5.3  | 4.75  5.30  86  52
up to 6    | 5.30  6.00  93  57
up to 6.7  | 6.00  6.70  101 63
up to 7.5  | 6.70  7.50  109 69
up to 8.5  | 7.50  8.50  117 75
up to 9.5  | 8.50  9.50  125 81
up to 10.6 | 9.50  10.60 133 87
up to 11.8 | 10.60 11.80 142 94
up to 13.2 | 11.80 13.20 151 101
"""
Check = Callable[[Any, str], None]


def test_each_row_is_the_printed_one(as_printed: Check) -> None:
    as_printed(JOBBER_DRILLS, PRINTED)
    as_printed(JOBBER_STEPS, PRINTED_STEPS)


@pytest.mark.parametrize("size", JOBBER_DRILLS.keys)
def test_the_steps_give_the_printed_drills(size: str) -> None:
    """The limits are from memory; the lengths of whole sizes were read elsewhere."""
    assert jobber_drill_mm(float(size)) == dict(JOBBER_DRILLS.rows)[size]


def test_the_steps_meet_without_gap_or_overlap_and_rise() -> None:
    numbers = [row for _, row in JOBBER_STEPS.rows]
    for (_, up_to, length, flute), (over, _, longer, more_flute) in pairwise(numbers):
        assert up_to == over
        assert length < longer
        assert flute < more_flute


def test_the_limits_are_every_second_preferred_number() -> None:
    """Closed form: 10^(1/40), 10^(3/40), ..., which ISO 3 rounds by up to 1.3 % (series R40)."""
    for index, (_, (_, up_to, _, _)) in enumerate(JOBBER_STEPS.rows):
        assert up_to == pytest.approx(10.0 ** ((2 * index + 1) / 40.0), rel=0.013)


@pytest.mark.parametrize("step", [row for _, row in JOBBER_STEPS.rows], ids=JOBBER_STEPS.keys)
def test_a_step_includes_its_upper_limit_and_not_its_lower_one(
    step: tuple[float, float, float, float],
) -> None:
    over, up_to, length, flute = step
    assert jobber_drill_mm(up_to) == (length, flute)
    assert jobber_drill_mm(math.nextafter(over, math.inf)) == (length, flute)


def test_half_sizes_are_stepped_and_not_interpolated() -> None:
    """The half sizes of the table; a middle of whole sizes is off by up to 4 mm."""
    middle = {}
    for size in (4.5, 5.5, 6.5, 7.5, 8.5):
        low, high = jobber_drill_mm(size - 0.5)[0], jobber_drill_mm(size + 0.5)[0]
        middle[size] = jobber_drill_mm(size)[0] - (low + high) / 2.0
    assert middle == {4.5: -0.5, 5.5: 3.5, 6.5: 0.0, 7.5: -4.0, 8.5: -4.0}


@settings(deadline=None, max_examples=100)
@given(st.floats(0.951, 13.2))
def test_a_thicker_drill_is_never_shorter(diameter: float) -> None:
    length, flute = jobber_drill_mm(diameter)
    thicker = jobber_drill_mm(min(1.01 * diameter, 13.2))
    assert thicker[0] >= length
    assert thicker[1] >= flute
    assert flute < length


@pytest.mark.parametrize("diameter", [0.95, 0.0, -1.0, 13.21, math.inf, math.nan])
def test_a_drill_outside_the_steps_is_refused(diameter: float) -> None:
    with pytest.raises(MeasureError, match=r"over 0\.95 up to 13\.2 mm"):
        jobber_drill_mm(diameter)


def test_half_sizes_and_steps_are_from_memory() -> None:
    memory = {e.label for e in JOBBER_DRILLS.listed() if e.source.evidence is Evidence.MEMORY}
    halves = [key for key in JOBBER_DRILLS.keys if key.endswith(".5")]
    names = ("length_mm", "flute_length_mm")
    assert memory == {f"{key} {name}" for key in halves for name in names}
    assert {e.source.evidence for e in JOBBER_STEPS.listed()} == {Evidence.MEMORY}
