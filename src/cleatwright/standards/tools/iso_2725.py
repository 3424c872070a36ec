"""ISO 2725-1 / DIN 3124: hand sockets, the largest they may be; all from memory.

Real sockets are smaller, so these rows are limits and no sizes of somebody's tools.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_MEMORY = Source("ISO 2725-1 / DIN 3124", "dimensions", Evidence.MEMORY)

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
