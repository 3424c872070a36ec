"""DIN 1041: engineers' hammers, length of the handle by the weight of the head."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_MEMORY = Source("DIN 1041", "handles", Evidence.MEMORY)

HAMMER_HANDLES = Table(
    name="DIN 1041 hammer handles",
    key_name="head",
    columns=(Column("head_kg", _MEMORY), Column("handle_length_mm", _MEMORY)),
    rows=(
        ("200 g", (0.2, 280.0)),
        ("300 g", (0.3, 300.0)),
        ("500 g", (0.5, 320.0)),
        ("800 g", (0.8, 350.0)),
        ("1000 g", (1.0, 360.0)),
    ),
)
