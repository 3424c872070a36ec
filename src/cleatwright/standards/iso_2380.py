"""ISO 2380-1 slotted screwdriver tips, and the blades of ISO 2380-2 / DIN 5265."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_TIP = Source("ISO 2380-1", "tips", Evidence.MEMORY)
_TIP_SEEN = Source("ISO 2380-1", "tips, the example of a name", Evidence.SECONDARY)
_BLADE = Source("ISO 2380-2 / DIN 5265", "blades", Evidence.MEMORY)
_SEEN_TIPS = ("1.2x6.5",)

SLOTTED_TIPS = Table(
    name="ISO 2380-1 slotted tips",
    key_name="tip",
    columns=(
        Column("thickness_mm", _TIP, _SEEN_TIPS, _TIP_SEEN),
        Column("width_mm", _TIP, _SEEN_TIPS, _TIP_SEEN),
    ),
    rows=(
        ("0.4x2.5", (0.4, 2.5)),
        ("0.5x3", (0.5, 3.0)),
        ("0.6x3.5", (0.6, 3.5)),
        ("0.8x4", (0.8, 4.0)),
        ("1.0x5.5", (1.0, 5.5)),
        ("1.2x6.5", (1.2, 6.5)),
        ("1.2x8", (1.2, 8.0)),
        ("1.6x8", (1.6, 8.0)),
        ("1.6x10", (1.6, 10.0)),
        ("2.0x12", (2.0, 12.0)),
    ),
)

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
