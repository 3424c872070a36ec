"""Nominal sizes of combination wrenches and of sockets.

The standards fix least lengths of wrenches and largest diameters of sockets, so these are
guesses: measure the tool before anything is printed for it.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.iso_1174 import INCH_SQUARES, driving_square_size
from cleatwright.standards.iso_2725 import SMALL_SOCKETS, SOCKET_SERIES, SOCKETS
from cleatwright.standards.iso_7738 import COMBINATION_WRENCHES, real_head_mm
from cleatwright.standards.table import Table
from cleatwright.tools.nominal import Nominal, NominalSizes

# real wrenches are 1.26 to 1.61 times as long as ISO 7738:2015 asks for, six of ten less
# than 1.4 times (seven sizes, seen in a secondary source)
LENGTH_SHARE = 1.4
# no source at all: a shaft is a little thinner than its heads
SHAFT_SHARE = 0.8

_WRENCH = Source(
    "A guess: 1.4 times the least length of ISO 7738:2015",
    "heads by lines through real wrenches of 8 to 24 mm, shaft 0.8 times as thick",
    Evidence.CHOICE,
)
_SOCKET = Source(
    "ISO 2725-1 / DIN 3124", "largest diameter and length; real ones are smaller", Evidence.MEMORY
)


def _wrench(size: str) -> Nominal:
    flats = float(size)
    thick = max(real_head_mm("open thickness", flats), real_head_mm("ring thickness", flats))
    return Nominal(
        size=size,
        measures=(
            ("length", float(round(LENGTH_SHARE * _least_length_mm(size)))),
            ("shaft_width", round(real_head_mm("shaft width", flats), 1)),
            ("shaft_thickness", round(SHAFT_SHARE * thick, 1)),
            ("head_width", round(real_head_mm("open width", flats), 1)),
            ("other_head_width", round(real_head_mm("ring width", flats), 1)),
            ("head_thickness", round(thick, 1)),
            ("opening", flats),
        ),
        source=_WRENCH,
    )


def _least_length_mm(size: str) -> float:
    return COMBINATION_WRENCHES.value(size, "length_min_mm")


FLAT_WRENCH_SIZES = NominalSizes(
    title="Combination wrenches, open end up",
    sizes=tuple(_wrench(size) for size in COMBINATION_WRENCHES.keys),
)


def _sockets(inches: str, table: Table) -> tuple[Nominal, ...]:
    """Return the sockets of one driving square, each as wide as its wider end."""
    series = driving_square_size(inches)
    drive_end = SOCKET_SERIES.value(series, "drive_end_max_mm")
    return tuple(
        Nominal(
            size=f"{inches} {key}",
            measures=(
                ("outer", max(drive_end, table.value(key, "outer_max_mm"))),
                ("length", SOCKET_SERIES.value(series, "length_max_mm")),
                ("square", INCH_SQUARES.value(inches, "nominal_mm")),
            ),
            source=_SOCKET,
        )
        for key in table.keys
    )


SOCKET_SIZES = NominalSizes(
    title="Sockets by driving square and size",
    sizes=(*_sockets("1/4 in", SMALL_SOCKETS), *_sockets("1/2 in", SOCKETS)),
)
