"""ISO 2380-2 / DIN 5265: blades of slotted screwdrivers."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_BLADE = Source("ISO 2380-2 / DIN 5265", "blades", Evidence.MEMORY)

SLOTTED_BLADES = Table(
    name="ISO 2380-2 / DIN 5265 slotted blades",
    key_name="tip width",
    columns=(
        Column("shaft_least_mm", _BLADE),
        Column("shaft_most_mm", _BLADE),
        Column("blade_shortest_mm", _BLADE),
        Column("blade_longest_mm", _BLADE),
    ),
    rows=(
        ("3.5", (3.5, 3.5, 75.0, 100.0)),
        ("4", (4.0, 4.0, 100.0, 100.0)),
        ("5.5", (5.5, 5.5, 125.0, 125.0)),
        ("6.5", (6.0, 6.0, 150.0, 150.0)),
        ("8", (7.0, 7.0, 175.0, 175.0)),
        ("10", (8.0, 9.0, 200.0, 200.0)),
    ),
)
