"""ISO 2725-1 / DIN 3124: hand sockets, the largest they may be; all from memory.

Real sockets are smaller, so these rows are limits and no sizes of somebody's tools.
"""

from __future__ import annotations

import math

from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_MEMORY = Source("ISO 2725-1 / DIN 3124", "dimensions", Evidence.MEMORY)
_REAL = Source("Real sockets", "outside diameters", Evidence.SECONDARY)

SMALL_SOCKETS = Table(
    name="ISO 2725-1 sockets on the driving square 6.3",
    key_name="size",
    columns=(Column("outer_max_mm", _MEMORY),),
    rows=(
        ("4", (6.9,)),
        ("5", (8.2,)),
        ("5.5", (8.8,)),
        ("6", (9.4,)),
        ("7", (11.0,)),
        ("8", (12.2,)),
        ("10", (14.7,)),
        ("12", (17.2,)),
        ("13", (18.5,)),
    ),
)

SOCKETS = Table(
    name="ISO 2725-1 sockets on the driving square 12.5",
    key_name="size",
    columns=(Column("outer_max_mm", _MEMORY),),
    rows=(
        ("10", (15.5,)),
        ("13", (19.2,)),
        ("17", (24.2,)),
        ("19", (26.7,)),
        ("24", (33.0,)),
        ("27", (36.7,)),
        ("32", (43.0,)),
    ),
)

SOCKET_SERIES = Table(
    name="ISO 2725-1 short series",
    key_name="driving square",
    columns=(Column("length_max_mm", _MEMORY), Column("drive_end_max_mm", _MEMORY)),
    rows=(("6.3", (25.0, 12.5)), ("12.5", (44.0, 24.0))),
)

SOCKET_FORMULA = Table(
    name="ISO 2725-1 outside diameters on the driving square 12.5",
    key_name="formula",
    columns=(Column("share_of_flats", _MEMORY), Column("plus_mm", _MEMORY)),
    rows=(("outer max", (1.25, 3.0)),),
)

REAL_SOCKETS = Table(
    name="Real sockets on the driving square 6.3",
    key_name="size",
    columns=(Column("outer_mm", _REAL),),
    rows=(("5.5", (8.7,)), ("7", (10.8,)), ("8", (11.9,))),
)


def socket_outer_max_mm(flats_mm: float) -> float:
    """Return the largest outside diameter of a socket on the driving square 12.5.

    Args:
        flats_mm: The size of the socket (> 0); the formula was compared for 10 to 32 mm.

    Raises:
        MeasureError: The size is no positive number.

    Source: ISO 2725-1 / DIN 3124, 1.25 s + 3 (from memory).

    >>> socket_outer_max_mm(24.0)
    33.0
    """
    if not (flats_mm > 0.0 and math.isfinite(flats_mm)):
        raise MeasureError(f"a socket of {flats_mm:g} mm", allowed="more than 0 mm")
    share = SOCKET_FORMULA.value("outer max", "share_of_flats")
    return share * flats_mm + SOCKET_FORMULA.value("outer max", "plus_mm")
