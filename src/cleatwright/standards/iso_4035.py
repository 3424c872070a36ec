"""ISO 4035: hexagon thin nuts."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source("ISO 4035", "dimensions", Evidence.SECONDARY)

THIN_NUTS = Table(
    name="ISO 4035 thin nuts",
    key_name="thread",
    columns=(Column("height_max_mm", _SEEN),),
    rows=(("M3", (1.8,)), ("M4", (2.2,)), ("M5", (2.7,)), ("M6", (3.2,)), ("M8", (4.0,))),
)
