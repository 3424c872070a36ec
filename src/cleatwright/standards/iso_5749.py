"""ISO 5749: diagonal cutters, nominal lengths; real ones are within about 6 % of them."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_MEMORY = Source("ISO 5749", "lengths", Evidence.MEMORY)

DIAGONAL_CUTTERS = Table(
    name="ISO 5749 diagonal cutters",
    key_name="size",
    columns=(Column("length_mm", _MEMORY),),
    rows=(
        ("125", (125.0,)),
        ("140", (140.0,)),
        ("160", (160.0,)),
        ("180", (180.0,)),
        ("200", (200.0,)),
    ),
)
