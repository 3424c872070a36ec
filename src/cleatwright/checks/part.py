"""Does an evaluated part keep the contract that its family and mount declared?"""

from __future__ import annotations

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.facts import BodyFacts
from cleatwright.standards.table import Listed

CONTRACT = Source("what the family and the mount declare", "", Evidence.CHOICE)
BOUNDS_TOLERANCE_MM = 0.01
WALL_TOLERANCE_MM = 0.05
# three lines of 0.4 mm side by side, or six layers of 0.2 mm
LEAST_MARKED_WALL_MM = 1.2
MARKED = Source("a wall of three lines is closed and stiff", "", Evidence.PRACTICE)
VALUES = (Listed("Walls", "behind a mark mm", LEAST_MARKED_WALL_MM, MARKED),)


def check_part(
    part: HolderPart, facts: BodyFacts, *, thinnest_wall_mm: float
) -> tuple[CheckResult, ...]:
    """Return the checks of one body, through holes, bounds and the thinnest wall.

    Args:
        part: The declared part.
        facts: What a kernel measured on its solid.
        thinnest_wall_mm: The thinnest wall that a kernel found on it.
    """
    (low, high), (real_low, real_high) = part.bounds_mm, facts.bounds_mm
    outside = max(
        *(a - b for a, b in zip(low, real_low, strict=True)),
        *(b - a for a, b in zip(high, real_high, strict=True)),
        0.0,
    )
    return (
        CheckResult(
            "one body",
            facts.bodies,
            1,
            "body" if facts.bodies == 1 else "bodies",
            CONTRACT,
            by_design=True,
        ),
        CheckResult(
            "through holes as declared",
            abs(facts.genus - part.genus),
            0,
            "holes",
            CONTRACT,
            f"{facts.genus} found, {part.genus} declared",
            by_design=True,
        ),
        CheckResult(
            "inside its declared bounds",
            outside,
            BOUNDS_TOLERANCE_MM,
            "mm",
            CONTRACT,
            by_design=True,
        ),
        CheckResult(
            "thinnest wall",
            part.min_wall_mm - WALL_TOLERANCE_MM,
            thinnest_wall_mm,
            "mm",
            CONTRACT,
            by_design=True,
        ),
    )


def check_marked_wall(
    part: HolderPart, *, depth_mm: float, behind_mm: float
) -> tuple[CheckResult, ...]:
    """Return the check of the wall that the mark leaves behind its letters.

    Args:
        part: The declared part.
        depth_mm: How deep the mark is cut.
        behind_mm: The thinnest wall that a kernel found behind the letters of the marked part.
    """
    least = max(LEAST_MARKED_WALL_MM, part.min_wall_mm - depth_mm)
    return (
        CheckResult(
            "wall behind the mark",
            least - WALL_TOLERANCE_MM,
            behind_mm,
            "mm",
            MARKED,
            f"letters {said.mm(depth_mm)} deep",
            by_design=True,
        ),
    )
