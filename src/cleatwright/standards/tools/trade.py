"""Sizes of the trade that no standard of this room fixes: cans, cartridges, handles."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_PAINT = Source("Aerosol cans of paint", "overall size", Evidence.MEMORY)
_CARTRIDGE = Source("Cartridges of sealant", "overall size", Evidence.MEMORY)
_HANDLES = Source("Screwdrivers", "handles", Evidence.MEMORY)

PAINT_CANS = Table(
    name="Paint aerosol cans",
    key_name="content",
    columns=(Column("diameter_mm", _PAINT), Column("height_mm", _PAINT)),
    rows=(("400 ml", (65.0, 195.0)),),
)

CARTRIDGES = Table(
    name="Sealant cartridges",
    key_name="content",
    columns=(
        Column("diameter_least_mm", _CARTRIDGE),
        Column("diameter_most_mm", _CARTRIDGE),
        Column("body_length_mm", _CARTRIDGE),
        Column("with_nozzle_least_mm", _CARTRIDGE),
        Column("with_nozzle_most_mm", _CARTRIDGE),
    ),
    rows=(("310 ml", (47.0, 50.0, 215.0, 300.0, 330.0)),),
)

SCREWDRIVER_HANDLES = Table(
    name="Screwdriver handles",
    key_name="handle",
    columns=(Column("diameter_least_mm", _HANDLES), Column("diameter_most_mm", _HANDLES)),
    rows=(("typical", (28.0, 35.0)),),
)
