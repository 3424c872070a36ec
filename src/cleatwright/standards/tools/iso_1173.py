"""ISO 1173:2001: drive ends of screwdriver bits with a hexagonal shank of size 6.3."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source(
    "ISO 1173:2001",
    "dimensions",
    Evidence.SECONDARY,
    "a public table of tools and consumables",
)
_CORNERS = Source("Regular hexagon", "corners = flats 2 / sqrt 3", Evidence.DERIVED)
_SOLD = Source(
    "Bits as they are sold",
    "lengths",
    Evidence.SECONDARY,
    "a public table of tools and consumables",
)

HEX_BIT_SHANKS = Table(
    name="ISO 1173:2001 bit shanks",
    key_name="size",
    columns=(Column("across_flats_mm", _SEEN), Column("across_corners_mm", _CORNERS)),
    rows=(("6.3", (6.35, 7.33)),),
)

SOLD_BITS = Table(
    name="Bits of size 6.3 as sold",
    key_name="length",
    columns=(Column("length_mm", _SOLD),),
    rows=(
        ("25", (25.0,)),
        ("50", (50.0,)),
        ("75", (75.0,)),
        ("100", (100.0,)),
        ("150", (150.0,)),
    ),
)
