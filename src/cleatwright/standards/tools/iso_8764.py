"""ISO 8764-2: screwdrivers for cross-recessed screws."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SHAFT = Source(
    "Makers' cross-recess screwdrivers",
    "shafts",
    Evidence.SECONDARY,
    "a public table of the largest of three makers",
)
_BLADE = Source("ISO 8764-2", "blades", Evidence.MEMORY)

CROSS_RECESS_BLADES = Table(
    name="ISO 8764-2 cross-recess blades",
    key_name="point",
    columns=(
        Column("shaft_least_mm", _SHAFT),
        Column("shaft_most_mm", _SHAFT),
        Column("blade_mm", _BLADE),
    ),
    rows=(
        ("PH0", (3.0, 4.0, 60.0)),
        ("PH1", (5.0, 5.0, 80.0)),
        ("PH2", (6.0, 6.0, 100.0)),
        ("PH3", (8.0, 8.0, 150.0)),
    ),
)
