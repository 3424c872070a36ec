"""ISO 235, jobber series = DIN 338: lengths of twist drills with a parallel shank.

The lengths go in steps: all drills over one limit, up to and including the next, have the same
lengths. To interpolate between whole sizes gives drills that do not exist.
"""

from __future__ import annotations

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source(
    "ISO 235 = DIN 338",
    "jobber series",
    Evidence.SECONDARY,
    "a public table of tools and consumables",
)
_MEMORY = Source("ISO 235 = DIN 338", "jobber series", Evidence.MEMORY)
_STEPS = Source("ISO 235 = DIN 338", "limits of the steps", Evidence.MEMORY)
_HALVES = ("1.5", "2.5", "3.5", "4.5", "5.5", "6.5", "7.5", "8.5", "9.5", "10.5")

JOBBER_DRILLS = Table(
    name="ISO 235 jobber drills",
    key_name="diameter",
    columns=(
        Column("length_mm", _SEEN, _HALVES, _MEMORY),
        Column("flute_length_mm", _SEEN, _HALVES, _MEMORY),
    ),
    rows=(
        ("1", (34.0, 12.0)),
        ("1.5", (40.0, 18.0)),
        ("2", (49.0, 24.0)),
        ("2.5", (57.0, 30.0)),
        ("3", (61.0, 33.0)),
        ("3.5", (70.0, 39.0)),
        ("4", (75.0, 43.0)),
        ("4.5", (80.0, 47.0)),
        ("5", (86.0, 52.0)),
        ("5.5", (93.0, 57.0)),
        ("6", (93.0, 57.0)),
        ("6.5", (101.0, 63.0)),
        ("7", (109.0, 69.0)),
        ("7.5", (109.0, 69.0)),
        ("8", (117.0, 75.0)),
        ("8.5", (117.0, 75.0)),
        ("9", (125.0, 81.0)),
        ("9.5", (125.0, 81.0)),
        ("10", (133.0, 87.0)),
        ("10.5", (133.0, 87.0)),
        ("11", (142.0, 94.0)),
        ("12", (151.0, 101.0)),
        ("13", (151.0, 101.0)),
    ),
)

JOBBER_STEPS = Table(
    name="ISO 235 jobber steps",
    key_name="step",
    columns=(
        Column("over_mm", _STEPS),
        Column("up_to_mm", _STEPS),
        Column("length_mm", _STEPS),
        Column("flute_length_mm", _STEPS),
    ),
    rows=(
        ("up to 1.06", (0.95, 1.06, 34.0, 12.0)),
        ("up to 1.18", (1.06, 1.18, 36.0, 14.0)),
        ("up to 1.32", (1.18, 1.32, 38.0, 16.0)),
        ("up to 1.5", (1.32, 1.50, 40.0, 18.0)),
        ("up to 1.7", (1.50, 1.70, 43.0, 20.0)),
        ("up to 1.9", (1.70, 1.90, 46.0, 22.0)),
        ("up to 2.12", (1.90, 2.12, 49.0, 24.0)),
        ("up to 2.36", (2.12, 2.36, 53.0, 27.0)),
        ("up to 2.65", (2.36, 2.65, 57.0, 30.0)),
        ("up to 3", (2.65, 3.00, 61.0, 33.0)),
        ("up to 3.35", (3.00, 3.35, 65.0, 36.0)),
        ("up to 3.75", (3.35, 3.75, 70.0, 39.0)),
        ("up to 4.25", (3.75, 4.25, 75.0, 43.0)),
        ("up to 4.75", (4.25, 4.75, 80.0, 47.0)),
        ("up to 5.3", (4.75, 5.30, 86.0, 52.0)),
        ("up to 6", (5.30, 6.00, 93.0, 57.0)),
        ("up to 6.7", (6.00, 6.70, 101.0, 63.0)),
        ("up to 7.5", (6.70, 7.50, 109.0, 69.0)),
        ("up to 8.5", (7.50, 8.50, 117.0, 75.0)),
        ("up to 9.5", (8.50, 9.50, 125.0, 81.0)),
        ("up to 10.6", (9.50, 10.60, 133.0, 87.0)),
        ("up to 11.8", (10.60, 11.80, 142.0, 94.0)),
        ("up to 13.2", (11.80, 13.20, 151.0, 101.0)),
    ),
)


def jobber_drill_mm(diameter_mm: float) -> tuple[float, float]:
    """Return the overall length and the flute length of a jobber drill.

    Args:
        diameter_mm: The drill's diameter, over 0.95 up to 13.2 mm.

    Raises:
        MeasureError: The diameter lies outside the steps.

    Source: ISO 235, the step "over, up to and including" in which the diameter lies.

    >>> jobber_drill_mm(6.0), jobber_drill_mm(6.1)
    ((93.0, 57.0), (101.0, 63.0))
    """
    for _, (over, up_to, length, flute) in JOBBER_STEPS.rows:
        if over < diameter_mm <= up_to:
            return length, flute
    lowest, highest = JOBBER_STEPS.rows[0][1][0], JOBBER_STEPS.rows[-1][1][1]
    raise MeasureError(
        f"a jobber drill of {said.mm(diameter_mm)}",
        where=JOBBER_STEPS.name,
        allowed=f"over {lowest:g} up to {said.most(highest)}",
    )
