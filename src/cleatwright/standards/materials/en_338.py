"""EN 338:2016: characteristic densities of the strength classes of sawn timber."""

from __future__ import annotations

from typing import Literal

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

TimberClass = Literal["C14", "C16", "C18", "C20", "C22", "C24", "C27", "C30", "D18", "D24", "D30"]

_EN_338 = Source(
    "EN 338:2016",
    "Tables 1 and 3",
    Evidence.SECONDARY,
    "a public transcription of both tables with a test",
)

STRENGTH_CLASSES = Table(
    name="EN 338:2016 density of strength classes",
    key_name="class",
    columns=(Column("characteristic_kg_m3", _EN_338), Column("mean_kg_m3", _EN_338)),
    rows=(
        ("C14", (290.0, 350.0)),
        ("C16", (310.0, 370.0)),
        ("C18", (320.0, 380.0)),
        ("C20", (330.0, 400.0)),
        ("C22", (340.0, 410.0)),
        ("C24", (350.0, 420.0)),
        ("C27", (360.0, 430.0)),
        ("C30", (380.0, 460.0)),
        ("D18", (475.0, 570.0)),
        ("D24", (485.0, 580.0)),
        ("D30", (530.0, 640.0)),
    ),
)
# what nobody knows is as light as timber of a class can be
WEAKEST: TimberClass = "C14"


def density_kg_m3(timber: TimberClass) -> float:
    """Return the characteristic density of a class.

    >>> density_kg_m3("C24")
    350.0
    """
    return STRENGTH_CLASSES.value(timber, "characteristic_kg_m3")
