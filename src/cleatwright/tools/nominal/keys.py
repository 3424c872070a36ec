"""Nominal sizes of hex keys, hexagonal bits and screwdrivers."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed, Table
from cleatwright.standards.tools.iso_1173 import HEX_BIT_SHANKS, SOLD_BITS
from cleatwright.standards.tools.iso_2380 import SLOTTED_BLADES
from cleatwright.standards.tools.iso_2936 import HEX_KEYS, LONG_HEX_KEYS, OLD_HEX_KEYS
from cleatwright.standards.tools.iso_8764 import CROSS_RECESS_BLADES
from cleatwright.standards.tools.trade import SCREWDRIVER_HANDLES
from cleatwright.tools.nominal.nominal import Nominal, NominalSizes, cell_source

_SLOTTED = cell_source(SLOTTED_BLADES, "3.5", "blade_longest_mm")
_CROSS = cell_source(CROSS_RECESS_BLADES, "PH0", "blade_mm")

# for blades below 6 mm, below 8 mm and from 8 mm on
_HANDLE_LENGTHS_MM = (95.0, 105.0, 115.0)
_HANDLE = Source("Handles of screwdrivers by their blades", "length", Evidence.PRACTICE)

VALUES = tuple(
    Listed("Nominal screwdrivers", f"handle {group} of 3, length mm", length, _HANDLE)
    for group, length in enumerate(_HANDLE_LENGTHS_MM, start=1)
)


def _hex_keys(table: Table, edition: str) -> tuple[Nominal, ...]:
    return tuple(
        Nominal(
            size=f"{key}{edition}",
            measures=(
                ("flats", float(key)),
                ("long_arm", table.value(key, "long_arm_mm")),
                ("short_arm", table.value(key, "short_arm_mm")),
            ),
            source=cell_source(table, key, "long_arm_mm"),
        )
        for key in table.keys
    )


def _long_hex_keys(series: str, column: str) -> tuple[Nominal, ...]:
    """Return the keys of a longer series; their short arms are those of the normal one."""
    return tuple(
        Nominal(
            size=f"{key} {series}",
            measures=(
                ("flats", float(key)),
                ("long_arm", LONG_HEX_KEYS.value(key, column)),
                ("short_arm", HEX_KEYS.value(key, "short_arm_mm")),
            ),
            source=cell_source(LONG_HEX_KEYS, key, column),
        )
        for key in LONG_HEX_KEYS.keys
    )


HEX_KEY_SIZES = NominalSizes(
    title="Hex keys to ISO 2936:2014, or to that of 1983 (DIN 911)",
    sizes=(
        *_hex_keys(HEX_KEYS, ""),
        *_long_hex_keys("long", "long_arm_mm"),
        *_long_hex_keys("extra long", "extra_long_arm_mm"),
        *_hex_keys(OLD_HEX_KEYS, " (1983)"),
    ),
)

HEX_BIT_SIZES = NominalSizes(
    title="Bits with a shank of 1/4 in, by length",
    sizes=tuple(
        Nominal(
            size=key,
            measures=(
                ("flats", HEX_BIT_SHANKS.value("6.3", "across_flats_mm")),
                ("length", SOLD_BITS.value(key, "length_mm")),
            ),
            source=cell_source(SOLD_BITS, key, "length_mm"),
        )
        for key in SOLD_BITS.keys
    ),
)


def _screwdriver(size: str, *, shank_mm: float, blade_mm: float, source: Source) -> Nominal:
    least = SCREWDRIVER_HANDLES.value("typical", "diameter_least_mm")
    most = SCREWDRIVER_HANDLES.value("typical", "diameter_most_mm")
    group = 0 if shank_mm < 6.0 else 1 if shank_mm < 8.0 else 2
    return Nominal(
        size=size,
        measures=(
            ("shank", shank_mm),
            ("shank_length", blade_mm),
            ("handle", (least, (least + most) / 2, most)[group]),
            ("handle_length", _HANDLE_LENGTHS_MM[group]),
        ),
        source=source,
    )


def _slotted(width: str) -> tuple[Nominal, ...]:
    """Return the sizes of one tip; the tip counts when it is wider than the shaft."""
    shank = max(float(width), SLOTTED_BLADES.value(width, "shaft_most_mm"))
    shortest = SLOTTED_BLADES.value(width, "blade_shortest_mm")
    longest = SLOTTED_BLADES.value(width, "blade_longest_mm")
    return tuple(
        _screwdriver(f"{width}x{blade:g}", shank_mm=shank, blade_mm=blade, source=_SLOTTED)
        for blade in sorted({shortest, longest})
    )


SCREWDRIVER_SIZES = NominalSizes(
    title="Screwdrivers, slotted by tip and blade, cross recess by point",
    sizes=(
        *(one for width in SLOTTED_BLADES.keys for one in _slotted(width)),
        *(
            _screwdriver(
                point,
                shank_mm=CROSS_RECESS_BLADES.value(point, "shaft_most_mm"),
                blade_mm=CROSS_RECESS_BLADES.value(point, "blade_mm"),
                source=_CROSS,
            )
            for point in CROSS_RECESS_BLADES.keys
        ),
    ),
)
