"""Pilot holes for wood screws, from the root between the threads."""

from __future__ import annotations

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.fasteners.nds_screws import metric_dowel
from cleatwright.standards.table import Listed

PILOT = Source(
    "Boring charts of the trade",
    "the root of the screw, in softwood a little less",
    Evidence.SECONDARY,
    "the boring chart at blacksmithbolt.com",
)
# drills for wood are sold in halves of a millimetre
DRILL_STEP_MM = 0.5
VALUES = (Listed("Pilot holes", "drill / root, to the half mm", 1.0, PILOT),)


def pilot_hole_mm(screw_mm: float) -> float:
    """Return the drill for the pilot hole of a wood screw: its root, to the nearest half mm.

    Args:
        screw_mm: Nominal diameter, 3 to 6 mm.

    Raises:
        MeasureError: The diameter is out of range.

    Source: boring charts of the trade. NDS 2018, 12.1.5.3, asks for seven eighths of the root in
    wood of a specific gravity up to 0.6.

    >>> pilot_hole_mm(5.0), pilot_hole_mm(4.0)
    (3.0, 2.5)
    """
    if screw_mm < 3.0:
        raise MeasureError(
            f"a wood screw of {said.mm(screw_mm)}", allowed=f"from {said.number(3)} to {said.mm(6)}"
        )
    return round(metric_dowel(screw_mm).root_mm / DRILL_STEP_MM) * DRILL_STEP_MM
