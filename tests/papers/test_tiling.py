"""Windows of a long drawing: what must hold for every length, and a count in closed form."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import MeasureError
from cleatwright.papers.kit.tiling import windows


@settings(deadline=None, max_examples=100)
@given(st.floats(-50.0, 50.0), st.floats(1.0, 5000.0), st.floats(50.0, 400.0), st.floats(0.0, 40.0))
def test_windows_cover_everything_share_the_overlap_and_are_as_few_as_can_be(
    start: float, length: float, room: float, overlap: float
) -> None:
    found = windows(start, start + length, room=room, overlap=overlap)
    assert found[0].start == start
    assert found[-1].end >= start + length - 1e-6
    for one, other in itertools.pairwise(found):
        assert one.end - other.start == pytest.approx(overlap, abs=1e-6)
    if len(found) > 1:
        assert room + (len(found) - 2) * (room - overlap) < length + 1e-6
    assert [w.number for w in found] == list(range(1, len(found) + 1))


def test_a_long_rail_takes_as_many_sheets_as_divided() -> None:
    """2435 mm, 285 on the first sheet and 275 more on each other."""
    count = 1 + math.ceil((2435.0 - 285.0) / 275.0)
    assert len(windows(-10.0, 2425.0, room=285.0, overlap=10.0)) == count == 9


def test_a_window_that_is_all_overlap_is_refused() -> None:
    with pytest.raises(MeasureError):
        windows(0.0, 100.0, room=10.0, overlap=10.0)
