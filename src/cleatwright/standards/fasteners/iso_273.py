"""ISO 273:1979: clearance holes for metric bolts and screws.

One public data file has 13/14/15 for M12 and 17/18/19 for M16; the rows here
are those of the printed table.
"""

from __future__ import annotations

from typing import Literal

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

Series = Literal["fine", "medium", "coarse"]

_TABLE_1 = Source(
    "ISO 273:1979",
    "Table 1",
    Evidence.SECONDARY,
    "the page on ISO 273 at engineeringhardware.com",
)

CLEARANCE_HOLES = Table(
    name="ISO 273:1979 clearance holes",
    key_name="thread",
    columns=(
        Column("fine_mm", _TABLE_1),
        Column("medium_mm", _TABLE_1),
        Column("coarse_mm", _TABLE_1),
    ),
    rows=(
        ("M3", (3.2, 3.4, 3.6)),
        ("M3.5", (3.7, 3.9, 4.2)),
        ("M4", (4.3, 4.5, 4.8)),
        ("M5", (5.3, 5.5, 5.8)),
        ("M6", (6.4, 6.6, 7.0)),
        ("M8", (8.4, 9.0, 10.0)),
        ("M10", (10.5, 11.0, 12.0)),
        ("M12", (13.0, 13.5, 14.5)),
        ("M16", (17.0, 17.5, 18.5)),
    ),
)


def clearance_hole_mm(thread: str, series: Series = "medium") -> float:
    """Return the diameter of the hole that lets a metric screw through.

    Args:
        thread: The size as "M3" to "M16".
        series: "fine" (H12), "medium" (H13) or "coarse" (H14).

    Raises:
        UnknownNameError: The thread or the series is not in the table.

    Source: ISO 273:1979, Table 1.

    >>> clearance_hole_mm("M6", "medium")
    6.6
    """
    return CLEARANCE_HOLES.value(thread, f"{series}_mm")
