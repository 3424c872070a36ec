"""ISO 6787:2018: adjustable wrenches, the least opening of each length."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source("ISO 6787:2018", "dimensions", Evidence.SECONDARY)
_MEMORY = Source("ISO 6787:2018", "dimensions", Evidence.MEMORY)

ADJUSTABLE_WRENCHES = Table(
    name="ISO 6787:2018 adjustable wrenches",
    key_name="length",
    columns=(Column("opening_min_mm", _SEEN, ("150", "200", "250"), _MEMORY),),
    rows=(
        ("100", (13.0,)),
        ("150", (19.0,)),
        ("200", (24.0,)),
        ("250", (28.0,)),
        ("300", (34.0,)),
        ("600", (60.0,)),
    ),
)
