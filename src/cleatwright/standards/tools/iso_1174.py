"""ISO 1174-1: driving squares of hand socket tools, by their names in inches."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_MEMORY = Source("ISO 1174-1", "dimensions", Evidence.MEMORY)
_NOMINAL = Source(
    "ISO 1174-1",
    "names in inches",
    Evidence.SECONDARY,
    "newstarhardware.com",
)
_NOMINAL_MEMORY = Source("ISO 1174-1", "names in inches", Evidence.MEMORY)

INCH_SQUARES = Table(
    name="Driving squares by their names in inches",
    key_name="driving square",
    columns=(
        Column("size_mm", _MEMORY),
        Column("nominal_mm", _NOMINAL, ("3/4 in",), _NOMINAL_MEMORY),
    ),
    rows=(
        ("1/4 in", (6.3, 6.35)),
        ("3/8 in", (10.0, 9.5)),
        ("1/2 in", (12.5, 12.7)),
        ("3/4 in", (20.0, 19.05)),
    ),
)


def driving_square_size(inches: str) -> str:
    """Return the size in ISO 1174-1 of a driving square that is named in inches.

    Args:
        inches: The name as "1/4 in", "3/8 in", "1/2 in" or "3/4 in".

    Raises:
        UnknownNameError: There is no such square.

    >>> driving_square_size("1/2 in")
    '12.5'
    """
    return f"{INCH_SQUARES.value(inches, 'size_mm'):g}"
