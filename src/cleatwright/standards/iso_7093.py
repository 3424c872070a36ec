"""ISO 7093-1: plain washers of the large series."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source("ISO 7093-1", "dimensions", Evidence.SECONDARY)

LARGE_WASHERS = Table(
    name="ISO 7093-1 large washers",
    key_name="thread",
    columns=(Column("outer_max_mm", _SEEN), Column("thickness_max_mm", _SEEN)),
    rows=(
        ("M3", (9.0, 0.9)),
        ("M4", (12.0, 1.1)),
        ("M5", (15.0, 1.4)),
        ("M6", (18.0, 1.8)),
        ("M8", (24.0, 2.2)),
    ),
)
