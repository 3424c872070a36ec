"""ISO 272: widths across flats of hexagon products, beside the older ones of DIN."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source("ISO 272", "widths across flats", Evidence.SECONDARY)
_OLD = Source("DIN 931 (withdrawn)", "widths across flats", Evidence.SECONDARY)

WIDTHS_ACROSS_FLATS = Table(
    name="ISO 272 widths across flats",
    key_name="thread",
    columns=(Column("across_flats_mm", _SEEN),),
    rows=(
        ("M3", (5.5,)),
        ("M4", (7.0,)),
        ("M5", (8.0,)),
        ("M6", (10.0,)),
        ("M8", (13.0,)),
        ("M10", (16.0,)),
        ("M12", (18.0,)),
        ("M14", (21.0,)),
        ("M16", (24.0,)),
        ("M20", (30.0,)),
    ),
)

OLD_WIDTHS_ACROSS_FLATS = Table(
    name="DIN 931 widths across flats",
    key_name="thread",
    columns=(Column("across_flats_mm", _OLD),),
    rows=(("M10", (17.0,)), ("M12", (19.0,)), ("M14", (22.0,))),
)


def wrenches_mm(thread: str) -> tuple[float, ...]:
    """Return the wrench sizes met on one thread: the present one, then the old one if it differs.

    Args:
        thread: The size as "M3" to "M20".

    Raises:
        UnknownNameError: The thread is not in the table.

    Source: ISO 272 and DIN 931.

    >>> wrenches_mm("M10"), wrenches_mm("M8")
    ((16.0, 17.0), (13.0,))
    """
    present = WIDTHS_ACROSS_FLATS.value(thread, "across_flats_mm")
    if thread not in OLD_WIDTHS_ACROSS_FLATS.keys:
        return (present,)
    return present, OLD_WIDTHS_ACROSS_FLATS.value(thread, "across_flats_mm")
