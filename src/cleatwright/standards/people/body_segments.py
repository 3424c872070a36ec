"""Measures of the body as shares of its stature.

The ratios of Drillis and Contini (1966) exist only as a figure, from a population that nobody
describes; those of ANSUR II are means over 6068 measured soldiers, in part younger and fitter
than other people. They differ by up to a tenth (breadth of the shoulders), and a person differs
from both: what somebody has measured on the own body goes first.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Listed, Table

_WINTER = Source(
    "Drillis and Contini 1966, after Winter, Fig. 4.1",
    "segment ratios",
    Evidence.SECONDARY,
    "two public notes that cite the figure",
)
_WINTER_MEMORY = Source(
    "Drillis and Contini 1966, after Winter, Fig. 4.1", "elbow and eye height", Evidence.MEMORY
)
_ANSUR = Source(
    "ANSUR II (DTIC ADA611869)",
    "means of ratios to stature",
    Evidence.SECONDARY,
    "a public note with the script that took them from the data",
)

SEGMENTS = Table(
    name="Drillis and Contini",
    key_name="segment",
    columns=(
        Column(
            "per_stature",
            _WINTER,
            except_rows=("elbow height", "eye height"),
            except_source=_WINTER_MEMORY,
        ),
    ),
    rows=(
        ("eye height", (0.936,)),
        ("shoulder height", (0.818,)),
        ("elbow height", (0.630,)),
        ("hip height", (0.530,)),
        ("knee height", (0.285,)),
        ("ankle height", (0.039,)),
        ("shoulder breadth", (0.259,)),
        ("hip breadth", (0.191,)),
        ("upper arm", (0.186,)),
        ("forearm", (0.146,)),
        ("hand", (0.108,)),
        ("foot length", (0.152,)),
        ("foot breadth", (0.055,)),
    ),
)

SOLDIERS = Table(
    name="ANSUR II",
    key_name="segment",
    columns=(Column("per_stature", _ANSUR),),
    rows=(
        ("hip height", (0.5149,)),
        ("ankle height", (0.0405,)),
        ("shoulder breadth", (0.2328,)),
        ("hip breadth", (0.2036,)),
        ("upper arm", (0.1909,)),
        ("forearm", (0.1511,)),
        ("hand", (0.1104,)),
        ("foot length", (0.1534,)),
        ("foot breadth", (0.0577,)),
    ),
)

# how far shoulders and ankles of an upright person are behind the edge that the belly touches
HALF_BODY_MM = 125.0
HALF_BODY_SOURCE = Source("half the depth of a body, 125 mm", "", Evidence.PRACTICE)
VALUES = (Listed("Reach", "shoulder off the bench mm", HALF_BODY_MM, HALF_BODY_SOURCE),)


def segment_mm(name: str, *, stature_mm: float) -> float:
    """Return a measure of the body from the stature (> 0 mm), after Drillis and Contini.

    Raises:
        UnknownNameError: There is no such segment.

    >>> round(segment_mm("shoulder height", stature_mm=1750.0), 1)
    1431.5
    """
    return SEGMENTS.value(name, "per_stature") * stature_mm
