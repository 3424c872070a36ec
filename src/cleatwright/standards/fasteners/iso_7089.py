"""ISO 7089: plain washers of the normal series; nominal and largest thickness stand apart.

Most tables print the nominal thickness, many data files the largest, both under the name h.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source(
    "ISO 7089",
    "dimensions",
    Evidence.SECONDARY,
    "data files of a public package of fasteners",
)
_MEMORY = Source("ISO 7089", "dimensions", Evidence.MEMORY)

WASHERS = Table(
    name="ISO 7089 plain washers",
    key_name="thread",
    columns=(
        Column("hole_min_mm", _SEEN),
        Column("outer_max_mm", _SEEN),
        Column("thickness_nominal_mm", _MEMORY),
        Column("thickness_max_mm", _SEEN),
    ),
    rows=(
        ("M3", (3.2, 7.0, 0.5, 0.55)),
        ("M4", (4.3, 9.0, 0.8, 0.9)),
        ("M5", (5.3, 10.0, 1.0, 1.1)),
        ("M6", (6.4, 12.0, 1.6, 1.8)),
        ("M8", (8.4, 16.0, 1.6, 1.8)),
    ),
)
