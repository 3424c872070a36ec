"""The tables of tools and small hardware, as one tuple for the list of all tables."""

from __future__ import annotations

from cleatwright.standards import (
    iec_60086,
    iso_235,
    iso_1173,
    iso_1174,
    iso_2380,
    iso_2725,
    iso_2936,
    iso_7089,
    iso_8764,
    trade,
    wrenches,
)
from cleatwright.standards.table import Table

TOOL_TABLES: tuple[Table, ...] = (
    iso_2936.HEX_KEYS,
    iso_2936.LONG_HEX_KEYS,
    iso_2936.OLD_HEX_KEYS,
    iso_1173.HEX_BIT_SHANKS,
    iso_1173.SOLD_BITS,
    iso_1174.INCH_SQUARES,
    iso_235.JOBBER_DRILLS,
    iso_235.JOBBER_STEPS,
    wrenches.WRENCH_LENGTHS,
    wrenches.OPEN_ENDS,
    wrenches.RING_ENDS,
    iso_2725.SMALL_SOCKETS,
    iso_2725.SOCKETS,
    iso_2725.SOCKET_SERIES,
    iec_60086.ROUND_CELLS,
    iec_60086.DISPUTED_CELLS,
    iso_7089.WASHERS,
    iso_2380.SLOTTED_BLADES,
    iso_8764.CROSS_RECESS_BLADES,
    trade.PAINT_CANS,
    trade.CARTRIDGES,
    trade.SCREWDRIVER_HANDLES,
)
