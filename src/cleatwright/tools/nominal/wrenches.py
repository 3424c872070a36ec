"""Nominal sizes of combination wrenches and of sockets.

Makers differ and standards fix limits only, so these are guesses: measure the tool before
anything is printed for it.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed, Table
from cleatwright.standards.tools.iso_1174 import INCH_SQUARES, driving_square_size
from cleatwright.standards.tools.iso_2725 import SMALL_SOCKETS, SOCKET_SERIES, SOCKETS
from cleatwright.standards.tools.wrenches import WRENCH_LENGTHS, wrench_head_mm
from cleatwright.tools.nominal.nominal import Nominal, NominalSizes, cell_source

# nobody publishes shafts: narrower than the ring and thinner than the open end
SHAFT_WIDTH_SHARE = 0.6
SHAFT_THICKNESS_SHARE = 0.8

_WRENCH = Source(
    "A guess: the longest wrench that four makers publish",
    "heads by lines through published ones of 8 to 24 mm, shaft 0.6 of the ring wide and 0.8 of "
    "the open end thick",
    Evidence.CHOICE,
)
_SOCKET = cell_source(SOCKETS, "10", "outer_max_mm")
VALUES = (
    Listed("Nominal wrenches", "shaft / ring width", SHAFT_WIDTH_SHARE, _WRENCH),
    Listed("Nominal wrenches", "shaft / open end thickness", SHAFT_THICKNESS_SHARE, _WRENCH),
)


def _wrench(size: str) -> Nominal:
    flats = float(size)
    ring, open_thick = wrench_head_mm("ring width", flats), wrench_head_mm("open thickness", flats)
    return Nominal(
        size=size,
        measures=(
            ("length", WRENCH_LENGTHS.value(size, "length_mm")),
            ("shaft_width", round(SHAFT_WIDTH_SHARE * ring, 1)),
            ("shaft_thickness", round(SHAFT_THICKNESS_SHARE * open_thick, 1)),
            ("head_width", round(wrench_head_mm("open width", flats), 1)),
            ("other_head_width", round(ring, 1)),
            ("head_thickness", round(max(open_thick, wrench_head_mm("ring thickness", flats)), 1)),
            ("opening", flats),
        ),
        source=_WRENCH,
    )


FLAT_WRENCH_SIZES = NominalSizes(
    title="Combination wrenches, open end up",
    sizes=tuple(_wrench(size) for size in WRENCH_LENGTHS.keys),
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
    title="Sockets by driving square and size, as large as the standard allows",
    sizes=(*_sockets("1/4 in", SMALL_SOCKETS), *_sockets("1/2 in", SOCKETS)),
)
