"""Sizes of the trade that no standard of this room fixes: cans, cartridges, shanks, abrasives."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_CANS = Source("Aerosol cans (FEA, EN 14847 to EN 14850)", "body diameters", Evidence.MEMORY)
_PAINT = Source("Aerosol cans of paint", "overall size", Evidence.MEMORY)
_CARTRIDGE = Source("Cartridges of sealant", "overall size", Evidence.MEMORY)
_SHANKS = Source("Router bits", "shanks", Evidence.MEMORY)
_HANDLES = Source("Screwdrivers", "handles", Evidence.MEMORY)
_ABRASIVES = Source("Sheets, discs and belts of abrasive", "sizes as sold", Evidence.SECONDARY)

TINPLATE_CANS = Table(
    name="Tinplate aerosol cans",
    key_name="can",
    columns=(Column("diameter_mm", _CANS),),
    rows=(("45", (45.0,)), ("49", (49.0,)), ("52", (52.0,)), ("57", (57.0,)), ("65", (65.0,))),
)

ALUMINIUM_CANS = Table(
    name="Aluminium aerosol cans",
    key_name="can",
    columns=(Column("diameter_mm", _CANS),),
    rows=(
        ("35", (35.0,)),
        ("38", (38.0,)),
        ("40", (40.0,)),
        ("45", (45.0,)),
        ("50", (50.0,)),
        ("53", (53.0,)),
        ("59", (59.0,)),
        ("66", (66.0,)),
    ),
)

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

ROUTER_SHANKS = Table(
    name="Router shanks",
    key_name="shank",
    columns=(Column("diameter_mm", _SHANKS),),
    rows=(
        ("6", (6.0,)),
        ("1/4 in", (6.35,)),
        ("8", (8.0,)),
        ("12", (12.0,)),
        ("1/2 in", (12.7,)),
    ),
)

SCREWDRIVER_HANDLES = Table(
    name="Screwdriver handles",
    key_name="handle",
    columns=(Column("diameter_least_mm", _HANDLES), Column("diameter_most_mm", _HANDLES)),
    rows=(("typical", (28.0, 35.0)),),
)

ROUND_ABRASIVES = Table(
    name="Abrasive discs",
    key_name="disc",
    columns=(Column("diameter_mm", _ABRASIVES),),
    rows=(("125", (125.0,)), ("150", (150.0,))),
)

FLAT_ABRASIVES = Table(
    name="Abrasive sheets and belts",
    key_name="piece",
    columns=(Column("width_mm", _ABRASIVES), Column("length_mm", _ABRASIVES)),
    rows=(("sheet", (230.0, 280.0)), ("belt", (75.0, 533.0))),
)
