"""What a drilling template at full size shows, as plain values in mm.

The datum is the lower left corner of the wall: x to the right, z up.
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.lengths import LengthUnit, length_words
from cleatwright.standards.cautions import DEFER, FIXING, PIPES
from cleatwright.wall.ground import Courses
from cleatwright.wall.rail import Rail
from cleatwright.wall.studs import END_MM, LEAST_END_MM


@dataclass(frozen=True)
class DrilledStud:
    """A stud behind the lining: the x of its centre line, and its width."""

    x_mm: float
    width_mm: float


@dataclass(frozen=True)
class DrillSizes:
    """Diameters for one screw of a rail: pilot in the stud, clear hole and head in the rail."""

    screw_mm: float
    pilot_mm: float
    clear_mm: float
    head_mm: float
    into: str = "stud"


@dataclass(frozen=True)
class TemplateView:
    """Everything on the sheets of a template.

    Args:
        title: Name of the workshop.
        rails: The rails to be put up; none of them hangs already.
        studs: The studs of the wall.
        sizes: The holes for wood screws; None where anchors go in, or no screw is known.
        fails: The names of rails that do not hold; the load map says why.
        floor_gap_mm: Height of the wall's lower edge above the floor, >= 0.
        unit: LengthUnit in which distances are written.
        cautions: What the person must read before drilling.
        holes: Which holes anchors want, in sentences; "" for wood screws.
        courses: How bricks lie, where that is known.
        least_end_mm: With less wood beyond a screw a rail splits.
        end_mm: How much wood there should be beyond a screw.
    """

    title: str
    rails: tuple[Rail, ...]
    studs: tuple[DrilledStud, ...]
    sizes: DrillSizes | None
    fails: tuple[str, ...] = ()
    floor_gap_mm: float = 0.0
    unit: LengthUnit = "mm"
    cautions: tuple[str, ...] = (PIPES, FIXING, DEFER)
    holes: str = ""
    courses: Courses | None = None
    least_end_mm: float = LEAST_END_MM
    end_mm: float = END_MM

    def length(self, value_mm: float) -> str:
        """Return a length in the unit of the sheets, without the name of the unit."""
        return length_words(value_mm, self.unit)
