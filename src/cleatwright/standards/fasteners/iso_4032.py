"""ISO 4032: hexagon regular nuts, and the withdrawn DIN 934 nuts that are still sold."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source(
    "ISO 4032",
    "dimensions",
    Evidence.SECONDARY,
    "data files of a public package of fasteners",
)
_SAME_HEXAGON = Source(
    "ISO 4017",
    "the same width across flats",
    Evidence.SECONDARY,
    "a public file that cites fasteners.eu",
)
_MEMORY = Source("ISO 4032", "dimensions", Evidence.MEMORY)
_DIN_934 = Source("DIN 934 (withdrawn)", "dimensions", Evidence.MEMORY)

HEX_NUTS = Table(
    name="ISO 4032 hexagon nuts",
    key_name="thread",
    columns=(
        Column("across_flats_max_mm", _SEEN),
        Column("across_flats_min_mm", _SAME_HEXAGON, ("M10",), _MEMORY),
        Column("height_max_mm", _SEEN),
        Column("height_min_mm", _MEMORY),
        Column("across_corners_min_mm", _SAME_HEXAGON, ("M10",), _MEMORY),
    ),
    rows=(
        ("M3", (5.5, 5.32, 2.4, 2.15, 6.01)),
        ("M4", (7.0, 6.78, 3.2, 2.9, 7.66)),
        ("M5", (8.0, 7.78, 4.7, 4.4, 8.79)),
        ("M6", (10.0, 9.78, 5.2, 4.9, 11.05)),
        ("M8", (13.0, 12.73, 6.8, 6.44, 14.38)),
        ("M10", (16.0, 15.73, 8.4, 8.04, 17.77)),
    ),
)

OLD_NUT_HEIGHTS = Table(
    name="DIN 934 nut heights",
    key_name="thread",
    columns=(Column("height_max_mm", _DIN_934),),
    rows=(("M5", (4.0,)), ("M6", (5.0,)), ("M8", (6.5,))),
)

OLD_NUT_FLATS = Table(
    name="DIN 934 nut widths",
    key_name="thread",
    columns=(Column("across_flats_max_mm", _DIN_934),),
    rows=(("M10", (17.0,)),),
)


def largest_nut_mm(thread: str) -> tuple[float, float]:
    """Return the width across flats and the height of the largest nut sold under a thread.

    A pocket of these measures, plus play, takes the present nut and the withdrawn one.

    Args:
        thread: The size as "M3" to "M10".

    Raises:
        UnknownNameError: The thread is not in the table.

    Source: ISO 4032 and DIN 934, the larger of both.

    >>> largest_nut_mm("M10")
    (17.0, 8.4)
    """
    flats = HEX_NUTS.value(thread, "across_flats_max_mm")
    height = HEX_NUTS.value(thread, "height_max_mm")
    if thread in OLD_NUT_FLATS.keys:
        flats = max(flats, OLD_NUT_FLATS.value(thread, "across_flats_max_mm"))
    if thread in OLD_NUT_HEIGHTS.keys:
        height = max(height, OLD_NUT_HEIGHTS.value(thread, "height_max_mm"))
    return flats, height
