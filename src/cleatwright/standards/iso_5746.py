"""ISO 5746: combination pliers, nominal lengths."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_MEMORY = Source("ISO 5746", "lengths", Evidence.MEMORY)

COMBINATION_PLIERS = Table(
    name="ISO 5746 combination pliers",
    key_name="size",
    columns=(Column("length_mm", _MEMORY),),
    rows=(
        ("140", (140.0,)),
        ("160", (160.0,)),
        ("180", (180.0,)),
        ("200", (200.0,)),
        ("220", (220.0,)),
    ),
)
