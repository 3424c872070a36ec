"""What a drilling template at full size shows, as plain values in mm.

The datum is the lower left corner of the wall: x to the right, z up.
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.lengths import LengthUnit, length_words
from cleatwright.standards.cautions import DEFER, FIXING, PIPES
from cleatwright.wall.ground import Courses
from cleatwright.wall.rail import Rail
from cleatwright.wall.screws import ScrewPoint
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
class DrilledPlate:
    """What is screwed to the wall itself: a holder or a carrier, with its screws.

    Args:
        number: Its number in all drawings.
        name: What it is.
        x0_mm: Its left edge.
        x1_mm: Its right edge.
        z_top_mm: The height by which it is hung.
        height_mm: From there down to its lowest point, > 0.
        screws: Where its screws go, column by column from the left.
        holes: Which screws they are and which holes they want, in sentences.
        fails: Why it must not be drilled for; "" where it may.
    """

    number: int
    name: str
    x0_mm: float
    x1_mm: float
    z_top_mm: float
    height_mm: float
    screws: tuple[ScrewPoint, ...]
    holes: str = ""
    fails: str = ""

    @property
    def length_mm(self) -> float:
        """Return how wide it is."""
        return self.x1_mm - self.x0_mm

    @property
    def to_drill_mm(self) -> tuple[float, ...]:
        """Return the x of its columns of screws."""
        return tuple(dict.fromkeys(one.x_mm for one in self.screws))


Drilled = Rail | DrilledPlate
"""What a template shows at full size."""


def called(one: Drilled) -> str:
    """Return what people call it: a rail by its name, a plate by its number."""
    return f"rail {one.name}" if isinstance(one, Rail) else f"holder {one.number}"


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
        plates: What is screwed to the wall itself, and does not hang yet.
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
    plates: tuple[DrilledPlate, ...] = ()

    @property
    def drilled(self) -> tuple[Drilled, ...]:
        """Return all that is shown: the rails, then what is screwed to the wall itself."""
        return (*self.rails, *self.plates)

    def length(self, value_mm: float) -> str:
        """Return a length in the unit of the sheets, without the name of the unit."""
        return length_words(value_mm, self.unit)
