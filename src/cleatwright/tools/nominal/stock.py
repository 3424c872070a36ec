"""Nominal sizes of twist drills, of cells, and of cans and cartridges."""

from __future__ import annotations

from cleatwright.standards.tools.iec_60086 import (
    COMMON_NAMES,
    DISPUTED_CELLS,
    ROUND_CELLS,
    bore_cell_mm,
)
from cleatwright.standards.tools.iso_235 import JOBBER_DRILLS, JOBBER_STEPS, jobber_drill_mm
from cleatwright.standards.tools.trade import CARTRIDGES, PAINT_CANS
from cleatwright.tools.nominal.nominal import Nominal, NominalSizes, cell_source

_STEPS = cell_source(JOBBER_STEPS, JOBBER_STEPS.keys[0], "length_mm")


def _drill(diameter_mm: float) -> Nominal:
    size = f"{diameter_mm:g}"
    length, flutes = jobber_drill_mm(diameter_mm)
    printed = size in JOBBER_DRILLS.keys
    return Nominal(
        size=size,
        measures=(("diameter", diameter_mm), ("length", length), ("flute_length", flutes)),
        source=cell_source(JOBBER_DRILLS, size, "length_mm") if printed else _STEPS,
    )


TWIST_DRILL_SIZES = NominalSizes(
    title="Jobber drills from 1 to 13 mm by tenths",
    sizes=tuple(_drill(tenths / 10.0) for tenths in range(10, 131)),
)


def _cell(name: str, cell: str) -> Nominal:
    """Return the largest a cell may be, and the largest that any source prints."""
    table = DISPUTED_CELLS if cell in DISPUTED_CELLS.keys else ROUND_CELLS
    return Nominal(
        size=name,
        measures=(
            ("diameter", bore_cell_mm(cell)),
            ("height", ROUND_CELLS.value(cell, "height_max_mm")),
        ),
        source=cell_source(table, cell, "diameter_max_mm"),
    )


BATTERY_CELL_SIZES = NominalSizes(
    title="Round cells by their names in IEC 60086 or in the trade",
    sizes=(
        *(_cell(cell, cell) for cell in ROUND_CELLS.keys),
        *(_cell(name, cell) for cell, name in COMMON_NAMES if cell in ROUND_CELLS.keys),
    ),
)


def _can(size: str, *, diameter_mm: float, height_mm: float, cartridge: bool) -> Nominal:
    table, column = (CARTRIDGES, "body_length_mm") if cartridge else (PAINT_CANS, "height_mm")
    return Nominal(
        size=size,
        measures=(("diameter", diameter_mm), ("height", height_mm)),
        source=cell_source(table, table.keys[0], column),
    )


_CARTRIDGE_MM = CARTRIDGES.value("310 ml", "diameter_most_mm")

CAN_SIZES = NominalSizes(
    title="Cans and cartridges by their content",
    sizes=(
        _can(
            "paint 400 ml",
            diameter_mm=PAINT_CANS.value("400 ml", "diameter_mm"),
            height_mm=PAINT_CANS.value("400 ml", "height_mm"),
            cartridge=False,
        ),
        _can(
            "cartridge 310 ml",
            diameter_mm=_CARTRIDGE_MM,
            height_mm=CARTRIDGES.value("310 ml", "body_length_mm"),
            cartridge=True,
        ),
        _can(
            "cartridge 310 ml with nozzle",
            diameter_mm=_CARTRIDGE_MM,
            height_mm=CARTRIDGES.value("310 ml", "with_nozzle_most_mm"),
            cartridge=True,
        ),
    ),
)
