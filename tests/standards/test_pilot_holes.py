"""Pilot holes against the limits that two rules set."""

import pytest

from cleatwright.base.errors import MeasureError
from cleatwright.standards.fasteners.pilot_holes import pilot_hole_mm


@pytest.mark.parametrize("screw_mm", [3.0, 3.5, 4.0, 4.5, 5.0, 6.0])
def test_a_pilot_hole_lies_between_half_a_screw_and_seven_tenths_of_it(screw_mm: float) -> None:
    """Upper limit: EN 1995-1-1, 10.4.5, about 0.7 of the screw; from memory.

    Lower limit: NDS 2018, 12.1.5.3, seven eighths of a root of at least 0.6 of the screw.
    """
    assert 7 / 8 * 0.6 * screw_mm - 0.25 <= pilot_hole_mm(screw_mm) <= 0.7 * screw_mm


def test_the_usual_screw_of_a_rail_gets_the_hole_of_the_boring_charts() -> None:
    """A 10 gauge screw, 4.83 mm, gets 1/8 in: charts of the trade, from memory."""
    assert pilot_hole_mm(4.83) == pytest.approx(25.4 / 8, abs=0.25)
    with pytest.raises(MeasureError):
        pilot_hole_mm(2.0)
